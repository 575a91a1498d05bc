"""A picture is written whole or not at all, and only over a picture."""

import pytest

from stretchform.errors import InputError
from stretchform.files.pictures import write_picture


@pytest.mark.parametrize("name", ["curve.svg", "curve.PNG"])
def test_a_picture_replaces_an_older_one_and_leaves_nothing_beside_it(tmp_path, name):
    place = tmp_path / name
    place.write_bytes(b"old")
    write_picture(place, b"new")
    assert place.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [place]


@pytest.mark.parametrize("name", ["tank.toml", "curve", "curve.jpg", "missing/curve.svg"])
def test_a_place_that_takes_no_picture_is_refused(tmp_path, name):
    with pytest.raises(InputError) as caught:
        write_picture(tmp_path / name, b"new")
    assert caught.value.where == str(tmp_path / name)
    assert not (tmp_path / name).exists()


def test_a_folder_is_refused(tmp_path):
    (tmp_path / "curve.svg").mkdir()
    with pytest.raises(InputError, match="folder"):
        write_picture(tmp_path / "curve.svg", b"new")
