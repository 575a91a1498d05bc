"""Heads, openings and the growth along the shell, for the JSON of a plan."""

from typing import Any

from stretchform.planning.plan import HeadPlan, OpeningPlan, Profile


def head(head: HeadPlan, shown: bool) -> dict[str, Any]:
    """One head; without the pressures, and the stress that would tell one, if not shown."""
    return {
        "name": head.name,
        "shape": head.shape,
        "first_yield_pressure": head.first_yield_pressure if shown else None,
        "depth_change": head.depth_change,
        "depth_change_released": head.depth_change_released,
        "lowest_hoop_stress": head.lowest_hoop_stress if shown else None,
        "lowest_hoop_stress_at": head.lowest_hoop_at if shown else None,
        "largest_strain": head.largest_strain,
        "wrinkling": _wrinkling(head, shown),
    }


def _wrinkling(head: HeadPlan, shown: bool) -> dict[str, Any] | None:
    found = head.wrinkling
    if found is None or not shown:
        return None
    return {
        "forming_over_limit": found.forming_over_limit,
        "allowable_en": found.allowable_en,
        "in_range_en": found.in_range_en,
        "allowable_galletly": found.allowable_galletly,
        "collapse_galletly": found.collapse_galletly,
        "allowable_asme": found.allowable_asme,
    }


def opening(opening: OpeningPlan, shown: bool) -> dict[str, Any]:
    """One opening; the thrust on its cover would tell the pressure."""
    return {
        "name": opening.name,
        "place": opening.place,
        "thrust": opening.thrust if shown else None,
        "keep_out": opening.keep_out,
        "stations": list(opening.stations),
        "plates": list(opening.plates),
    }


def profile(profile: Profile | None) -> dict[str, Any] | None:
    """Growth along the shell at the target, and the outline before and after."""
    if profile is None:
        return None
    return {
        "height": profile.heights,
        "released_growth": {
            "low": profile.released_low,
            "likely": profile.released_likely,
            "high": profile.released_high,
        },
        "growth_under_pressure": profile.under_pressure,
        "outline_before": {
            "radius": profile.radius_before,
            "height": profile.height_before,
        },
        "outline_released": {
            "radius": profile.radius_released,
            "height": profile.height_released,
        },
    }
