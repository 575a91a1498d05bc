"""Words for cautions about how far the tank is taken, and about the forecast itself."""

from stretchform.report.words_text import Text

TEXTS = {
    "target_beyond_maximum": Text(
        short="The target lies beyond the maximum pressure: this tank may burst first.",
        means="In too many of the possible tanks the pressure stops rising before the target.",
        why="Past the maximum pressure the wall grows on by itself at its weakest place.",
        do="Choose a smaller growth, or make the tank larger to begin with.",
        source="own-judgement",
        detail="{share:share} of the possible tanks never reach it",
    ),
    "share_of_growth_high": Text(
        short="The growth is too near to the growth at the maximum pressure.",
        means="The target uses more of the growth up to the maximum pressure than is accepted.",
        why="Small weak patches run away before the whole tank does, even with a slow pump.",
        do="Choose a smaller growth, or form in two stages with an anneal between if the rules "
        "for your tank allow it.",
        source="own-judgement",
        detail="{share:share} of it, block above {limit:share}",
    ),
    "share_of_growth": Text(
        short="The growth takes a large share of the growth at the maximum pressure.",
        means="The target is in the range where local thin or weak places begin to count.",
        why="Seams, dents and thin spots grow ahead of the rest of the wall.",
        do="Measure the wall all over first, look at seams, use small steps and more stations.",
        source="own-judgement",
        detail="{share:share} of it, care above {limit:share}",
    ),
    "share_of_pressure": Text(
        short="The forming pressure is close to the maximum pressure.",
        means="The pressure curve is already flat at the target.",
        why="On a flat curve a little too much pressure is a lot of growth.",
        do="Steer by the water pumped in and by the tape, not by the gauge; use a metered "
        "supply.",
        source="own-judgement",
        detail="{share:share} of it, care above {limit:share}",
    ),
    "tresca": Text(
        short="If the steel yields earlier than expected, this plan bursts the tank.",
        means="Under the earliest yield rule that is possible (Tresca) the maximum pressure is "
        "below the likely forming pressure.",
        why="The likely value rests on judged factors; this tank may sit at their edge.",
        do="Start from the low side and believe the tape. Stop if the pressure no longer rises.",
        source="own-judgement",
    ),
    "curve_ends": Text(
        short="The steel's curve ends before the maximum pressure: the true one is not known.",
        means="The maximum pressure shown is only what the curve reaches, a lower bound.",
        why="Shares of the maximum are then too high, and what lies beyond is not known.",
        do="Use a tensile test that was pulled to the end of even stretching.",
        source="own-judgement",
    ),
    "criterion_fixed": Text(
        short="The job fixes the yield rule, so the spread of this rule is left out.",
        means="[model] criterion replaces the judged range of the hoop strength.",
        why="The band is narrower than what is known, and one-sided.",
        do="Leave [model] criterion out for a plan that you pump by.",
        source="stout-follansbee-1986",
        detail="rule: {names}",
    ),
    "no_spread": Text(
        short="The job switches the spread off: low, likely and high are the same.",
        means='[model] spread = "none" leaves a single tank with middle values.',
        why="A plan without spread hides how early the tank may reach its target.",
        do="Leave spread out for a plan that you pump by.",
        source="own-judgement",
    ),
    "no_measured_tank": Text(
        short="No measured tank stands behind this forecast yet.",
        means="The equations are checked against theory and published curves only.",
        why="Nobody has yet compared this program with the growth of a real tank.",
        do="Form from the low side, measure at every step, and keep the readings: "
        "stretchform compare.",
        source="own-judgement",
    ),
}
