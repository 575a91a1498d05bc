"""The block that stands before every pressure, energy and distance: what the full tank can do.

No distance to stand at is ever computed: a piece or a jet in line knows none.
"""

from stretchform.planning.plan import Plan
from stretchform.report import words_numbers as numbers

TITLE = "DANGER - read this before any number below"
NOBODY = (
    "PEOPLE: Nobody near, and nobody in line with ends, plugs, nozzles, hoses or gauges, while "
    "there is pressure; the one short look for leaks, far below the first yield, stands among "
    "the hold points. Pump, stop and vent are worked from behind a barrier; tapes and gauges "
    "are read by camera. Go near only when both gauges read zero and the vent is open. No "
    "distance is safe in line, so none is given."
)
WATER_ONLY = (
    "WATER: Water only, all air vented. No gas, no gas cushion, no air behind the water, no air "
    "test."
)
WHO_DECIDES = (
    "WHO DECIDES: The local pressure-equipment law, your insurer or inspection body and a "
    "licensed engineer decide whether and how this is done. This plan is a help for planning, "
    "not their leave."
)
WITHHELD = (
    "ENERGY: A tank at forming pressure holds energy that can kill, most of it in the stretched "
    "wall; filled with gas it would hold hundreds of times more. The energies of this tank are "
    "not shown, because its pressure is withheld."
)


def statements(plan: Plan, inches: bool = False) -> tuple[str, ...]:
    """The sentences of the block in their order; none of them may be left out."""
    energy = (WITHHELD,) if plan.withheld_by else (_energy(plan), _gas(plan), _throws(plan))
    return (*energy, NOBODY, WATER_ONLY, WHO_DECIDES)


def _energy(plan: Plan) -> str:
    stored = plan.hazard.stored
    parts = ", ".join(
        f"{name} {numbers.energy(value)}"
        for name, value in (
            ("water", stored.water),
            ("wall", stored.wall),
            ("trapped air", stored.air),
        )
    )
    share = numbers.percent(plan.hazard.air_share, 2)
    whole = numbers.energy(stored.recoverable)
    text = (
        f"ENERGY: At the high forming pressure this tank can let loose {whole} at once: {parts} "
        f"(air: {share} of the volume, {stored.method} formula)."
    )
    if plan.hazard.energy_at_relief is not None:
        text += f" At the relief pressure: {numbers.energy(plan.hazard.energy_at_relief)}."
    return text


def _gas(plan: Plan) -> str:
    stored = plan.hazard.stored
    gas = numbers.energy(stored.gas_instead)
    return (
        f"GAS: Filled with gas instead of water it would hold {gas}, "
        f"{float(stored.ratio_gas):.0f} times what water and wall hold."
    )


def _throws(plan: Plan) -> str:
    return (
        f"FORCE: Each end is pushed with {numbers.force(plan.hazard.end_thrust)}. A leak shoots "
        f"water at up to {float(plan.hazard.jet_speed):.0f} m/s: it goes through skin, which "
        "needs a surgeon at once. Never feel for a leak."
    )
