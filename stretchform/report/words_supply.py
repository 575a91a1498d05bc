"""Words for cautions about the means: pump, relief valve, vent, gauge and stated pressures."""

from stretchform.report.words_text import Text

TEXTS = {
    "gas": Text(
        short="Gas, or a gas cushion, pushes the water: never done.",
        means="The supply is a gas, or a gas stands behind or above the water.",
        why="Squeezed gas holds hundreds of times the energy of water and throws it all at once. "
        "Forming goes past yield, where any test with gas is out of the question.",
        do="Use a water pump on a tank that is full of water, without bottle, bladder or cushion.",
        source="asme-pcc-2",
    ),
    "no_vent": Text(
        short="No vent: air stays in the tank and its energy is not known.",
        means="The job says that the tank cannot be vented at its high points.",
        why="Trapped air soon holds more energy than all the water, and an unvented tank can be "
        "crushed by suction when it is drained.",
        do="Give every high point a vent, also under plates and in head corners; fill from below; "
        "keep the vent open while draining. Then write vent = true under [supply].",
        source="own-judgement",
    ),
    "no_relief": Text(
        short="No relief valve: nothing but a hand stops the pressure.",
        means="A pump is stated, but no relief pressure.",
        why="A pump that does not stop passes the forming pressure within seconds.",
        do="Fit a tested relief valve, with no valve between it and the tank, its outlet led away. "
        "Then write relief_pressure under [supply].",
        source="hse-gs4",
    ),
    "relief_above_maximum": Text(
        short="The relief valve opens only above the lowest maximum pressure: no protection.",
        means="The weakest tank that the forecast allows bursts before the valve opens.",
        why="Beyond the maximum pressure the wall runs away at falling pressure.",
        do="Set the valve lower, and state the new set pressure under [supply].",
        source="own-judgement",
        detail="valve {relief:pressure}, lowest maximum pressure {maximum:pressure}",
        tells_pressure=True,
    ),
    "relief_growth": Text(
        short="Before the relief valve holds, the tank may outgrow its limit.",
        means="At 1.1 times the set pressure the likely growth is above the growth limit.",
        why="Above yield a relief valve limits pressure, not growth: a few per cent of pressure "
        "are a point of growth or more.",
        do="Set the valve nearer to the forming pressure, and let the pump draw from a drum that "
        "holds only the planned water.",
        source="own-judgement",
        detail="growth {growth:percent} there, limit {limit:percent}",
    ),
    "relief_below_forming": Text(
        short="The relief valve may open before the target is reached.",
        means="The set pressure is below the high forming pressure.",
        why="A tank from the strong side of the forecast stops growing short of its target.",
        do="Keep it so for the first tank; raise the set pressure only after its readings, and "
        "only if it stays below the lowest maximum pressure.",
        source="own-judgement",
        detail="valve {relief:pressure}, high forming pressure {forming:pressure}",
        tells_pressure=True,
    ),
    "supply_not_stated": Text(
        short="The job does not say what pumps the water and what relieves it.",
        means="[supply] has no kind of pump, so relief and delivery were not checked.",
        why="Most accidents start at the supply: wrong pump, no relief, a hose that lets go.",
        do='Write [supply] kind = "hand pump" (or motor pump, air-driven pump) and its '
        "relief_pressure.",
        source="own-judgement",
    ),
    "gauge_not_stated": Text(
        short="The job does not name a pressure gauge.",
        means="Without [gauge] its range, error and height were not checked.",
        why="The error of an ordinary gauge alone can be worth several tenths of a point of "
        "growth.",
        do="Write [gauge] with range, class and height; use two gauges in calibration.",
        source="own-judgement",
    ),
    "gauge_range": Text(
        short="The range of the gauge does not suit the forming pressure.",
        means="A range of 1.5 to 4 times the forming pressure is usual; this one lies outside.",
        why="Too small a range is overrun, too large a one cannot be read finely enough.",
        do="Take a gauge whose range is about twice the forming pressure.",
        source="common-practice",
        detail="range over likely forming pressure {ratio:number}",
        tells_pressure=True,
    ),
    "gauge_class": Text(
        short="The gauge is coarse for forming.",
        means="Its class, the permitted error in per cent of the range, is above 0.6.",
        why="While the wall flows, one per cent of pressure is worth a good part of a point of "
        "growth.",
        do="Take a gauge of class 0.6 or finer, or compare this one with a better one that day.",
        source="en-837-1",
        detail="class {class:number}, so up to {error:pressure} wrong, worth {growth:percent} of "
        "growth at the target",
        tells_pressure=True,
    ),
    "stated_pressure": Text(
        short="A pressure in the job does not fit the strength of this wall.",
        means="The hoop stress under it is far from the flow stress of the steel.",
        why="So far apart they are most often when bar and psi, or radius and diameter, were "
        "swapped.",
        do="Check the unit of this pressure, the diameter and the wall.",
        source="own-judgement",
        detail="{names}: hoop stress over flow stress {ratio:number}",
        tells_pressure=True,
    ),
}
