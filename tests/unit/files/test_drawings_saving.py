"""Drawings to disk: all or nothing, nothing written over unasked."""

import os

import pytest

from stretchform.errors import InputError
from stretchform.files import drawings

CONTENTS = {"ring.dxf": b"one", "ring.svg": b"two"}


def test_names_of_files_are_letters_and_digits():
    assert drawings.file_names("upper ring/2") == (
        "upper-ring-2.dxf",
        "upper-ring-2-r12.dxf",
        "upper-ring-2.svg",
        "upper-ring-2.png",
    )
    assert drawings.file_names("../..")[0] == "plate.dxf"


def test_all_files_are_written_into_a_new_folder(tmp_path):
    paths = drawings.save(tmp_path / "new", CONTENTS, replace=False)
    assert [path.read_bytes() for path in paths] == [b"one", b"two"]
    assert sorted(os.listdir(tmp_path / "new")) == ["ring.dxf", "ring.svg"]


def test_nothing_is_written_over_unasked(tmp_path):
    (tmp_path / "ring.svg").write_text("mine")
    with pytest.raises(InputError, match=r"ring\.svg is there already"):
        drawings.save(tmp_path, CONTENTS, replace=False)
    assert (tmp_path / "ring.svg").read_text() == "mine"
    assert os.listdir(tmp_path) == ["ring.svg"]
    drawings.save(tmp_path, CONTENTS, replace=True)
    assert (tmp_path / "ring.svg").read_bytes() == b"two"


def test_a_disk_that_fails_leaves_nothing_half_written(tmp_path, monkeypatch):
    (tmp_path / "ring.dxf").write_text("mine")

    def fails(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fails)
    with pytest.raises(InputError, match="No space left"):
        drawings.save(tmp_path, CONTENTS, replace=True)
    assert (tmp_path / "ring.dxf").read_text() == "mine"
    assert os.listdir(tmp_path) == ["ring.dxf"]


@pytest.mark.parametrize("kind", ["file", "no parent", "folder of that name"])
def test_a_place_that_takes_no_files_is_refused(tmp_path, kind):
    folder = tmp_path / "a"
    if kind == "file":
        folder.write_text("")
    elif kind == "no parent":
        folder = tmp_path / "b" / "c"
    else:
        (folder / "ring.dxf").mkdir(parents=True)
    with pytest.raises(InputError):
        drawings.save(folder, CONTENTS, replace=True)
