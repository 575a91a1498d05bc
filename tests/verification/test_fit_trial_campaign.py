"""Sixty invented trial cylinders: pressure at 5 % growth from readings up to 2.5 %.

Even numbers: law and criterion are of the family that the fit assumes. Odd numbers: another law
(Ludwigson, Swift, two Voce terms) and another criterion (Hosford 5 to 10, Hill 0.75 to 1.1).
The certificate is off by 2 % (proof) and 1.5 % (tensile), the wall stretches 1 to 10 % softer
than the test, gauge noise 0.3 % of range, tape 0.3 mm read to 0.5 mm. The constants of the
shape term were chosen on seeds below 120; the campaign here starts at 1000.
"""

import numpy as np
import pytest
from fit_trial_synthetic import trial
from laws import campaign_size

from stretchform.files.judged import load_judged
from stretchform.planning.trial import fit_trial, trial_pressure


def errors(seeds):
    rows = []
    for seed in seeds:
        made = trial(seed)
        fit = fit_trial(made.cylinder, made.readings, made.steel, load_judged())
        pressure, std = trial_pressure(fit, 0.05)
        rows.append(
            (made.ours, pressure[0] / made.pressure_at_5 - 1.0, std[0] / made.pressure_at_5)
        )
    return np.array(rows)


def test_sixty_cylinders_foretell_their_pressure_at_5_per_cent():
    rows = errors(range(1000, 1060))
    assert np.mean(rows[:, 0]) == 0.5
    assert np.mean(np.abs(rows[:, 1]) < 0.02) >= 0.90  # limit set: 2 % in 90 of 100
    inside = np.abs(rows[:, 1]) < 1.645 * rows[:, 2]
    assert np.mean(inside) >= 0.85  # the stated 90 % band is not too narrow


@pytest.mark.campaign
def test_many_cylinders_foretell_their_pressure_at_5_per_cent():
    rows = errors(range(2000, 2000 + campaign_size(1000, least=100)))
    assert np.mean(np.abs(rows[:, 1]) < 0.02) >= 0.88  # limit set, less two for the sample
    assert np.mean(np.abs(rows[:, 1]) < 1.645 * rows[:, 2]) >= 0.85
