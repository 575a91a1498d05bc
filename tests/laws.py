"""Flow-stress laws that the tests share: invented test inputs, save for the handbook pair H.

H is the power law with K = 1275 MPa and n = 0.45 that handbooks give for annealed 304 (from
memory). All the others are invented to cover every kind of curve. Strain is equivalent plastic.
"""

import os

import numpy as np

from stretchform.steel.curve import Hollomon, Ludwik, Swift, Table, Voce

MPA = 1.0e6
MM = 1.0e-3

LAWS = {
    "H": Hollomon(1275.0 * MPA, 0.45),
    "S": Swift(1400.0 * MPA, 0.04, 0.55),
    "V": Voce(260.0 * MPA, 700.0 * MPA, 3.2),
    "VL": Voce(230.0 * MPA, 180.0 * MPA, 18.0, 1500.0 * MPA),
    "T": Table(
        np.array([0.0, 0.002, 0.01, 0.03, 0.06, 0.10, 0.20, 0.40]),
        np.array([240.0, 275.0, 310.0, 372.0, 446.0, 530.0, 705.0, 960.0]) * MPA,
    ),
    # The three below and H serve the rows C1 to C39; they span plausible annealed 304 sheet.
    "M2": Ludwik(240.0 * MPA, 900.0 * MPA, 0.62),
    "M3": Swift(1320.0 * MPA, 0.02, 0.40),
    "M4": Voce(250.0 * MPA, 750.0 * MPA, 4.0),
}
LAWS["M1"] = LAWS["H"]


def campaign_size(full: int, least: int = 1) -> int:
    """How many cases a campaign runs: STRETCHFORM_CAMPAIGN (default 0.1) of its full size."""
    share = float(os.environ.get("STRETCHFORM_CAMPAIGN", "0.1"))
    return max(least, round(full * share))
