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


# Long checks that repeat on a second example, mesh or batch what a shorter one already shows:
# they run with the campaigns, so that the default tests stay below two minutes.
_REPEATS = (
    "test_page_outputs.py::test_every_pressure_and_size_is_that_of_the_json_everywhere[cistern]",
    "test_page_outputs.py::test_a_block_withholds_every_pressure_in_every_file[cistern]",
    "test_plan_outputs.py::test_the_danger_stands_first_piped_drawn_and_in_json[rain-cistern]",
    "test_plan_outputs.py::test_a_withheld_plan_gives_no_pressure_anywhere[rain-cistern]",
    "test_fit_campaign.py::test_two_hundred_noisy_coupons_give_their_curve_back",
    "test_fit_campaign.py::test_constant_errors_of_the_machine_are_covered_when_they_are_told",
    "test_fit_campaign.py::test_constant_errors_that_are_not_told_are_not_covered",
    "test_fit_trial_campaign.py::test_sixty_cylinders_foretell_their_pressure_at_5_per_cent",
    "test_plates_plane_stress.py::test_beam_agrees_with_the_plane_model[95 x 10]",
    "test_plates_proposals.py::test_a_few_random_plates_get_an_arm_that_passes_or_a_reason",
    "test_fit_command.py::test_a_trial_cylinder_narrows_the_plan_of_its_tank_far_more",
    "test_draw_command.py::test_nothing_is_written_over_unless_asked",
    "test_draw_command.py::test_a_plate_that_must_not_be_built_is_not_drawn[no arms]",
    "test_draw_command.py::test_a_plate_that_must_not_be_built_is_not_drawn[too short an arm]",
    "test_draw_command.py::test_plates_of_one_name_show_other_arms_and_slosh",
    "test_commands.py::test_a_command_does_its_work_in_eighty_plain_columns[plan cistern]",
    "test_commands.py::test_a_screen_without_unicode_gets_plain_letters[plan cistern]",
    "test_commands.py::test_the_c_locale_is_enough",
    "test_fit_command.py::test_an_older_file_is_left_alone_unless_told",
    "test_fit_command.py::test_from_a_tensile_test_by_commands_to_a_narrower_plan",
    "test_commands.py::test_without_colour_the_screen_says_the_same",
    "test_page.py::test_a_page_is_valid_and_keeps_to_itself[False-withheld]",
    "test_page.py::test_a_page_is_valid_and_keeps_to_itself[False-accepted]",
    "test_page.py::test_a_page_is_valid_and_keeps_to_itself[False-overstretched]",
)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config, items):
    """Mark long repeats as campaigns; leave benchmarks out unless asked for by their marker."""
    for item in items:
        if item.nodeid.endswith(_REPEATS):
            item.add_marker(pytest.mark.campaign)
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
