"""What all tests share. The laws themselves stand in laws.py, which tests import by name."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # small matrices: threads only cost time

import pytest
from laws import LAWS, campaign_size


def pytest_configure(config):
    config.addinivalue_line(
        "markers",
        "benchmark: reports of time ratios; run by -m benchmark only",
    )


def pytest_collection_modifyitems(config, items):
    """Leave benchmarks out unless the command line asks for them by their marker."""
    if "benchmark" in (config.option.markexpr or ""):
        return
    unasked = [item for item in items if item.get_closest_marker("benchmark")]
    if unasked:
        config.hook.pytest_deselected(items=unasked)
        items[:] = [item for item in items if item not in unasked]


@pytest.fixture(scope="session")
def laws():
    """The shared flow-stress laws by their short names: H, S, V, VL, T, M1 to M4."""
    return LAWS


@pytest.fixture(scope="session")
def scaled_campaign():
    """Function that scales the full size of a campaign to the size wanted today."""
    return campaign_size
