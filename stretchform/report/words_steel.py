"""Words for cautions about the steel and the water."""

from stretchform.report.words_text import Text

TEXTS = {
    "invented_steel": Text(
        short="This steel is invented: never pump by it.",
        means="Numbers of this steel were made up for a demonstration.",
        why="They describe no real sheet.",
        do="Name the real steel and write its certificate into the job.",
        source="own-judgement",
        detail="steel: {names}",
    ),
    "textbook_steel": Text(
        short="A textbook curve is a cross-check, not a curve to pump by.",
        means="The curve is a handbook pair that fits no coil and is wrong at small growth.",
        why="Handbook pairs of one grade lie far apart, and far below measured sheet at 2 %.",
        do="Use the grade itself with the certificate of the coil.",
        source="callister",
        detail="steel: {names}",
    ),
    "minimum_only": Text(
        short="Only the standard's minimum strengths are known: not enough to forecast.",
        means="The certificate repeats the minima of the standard and not this coil's test.",
        why="Real sheet is up to a third stronger; a plan from minima stops far too early, and "
        "the next step is then guessed.",
        do="Ask the mill or the dealer for the test values of this coil, or have a strip pulled.",
        source="own-judgement",
        detail="steel: {names}",
    ),
    "typical_values": Text(
        short="Typical strengths of the grade are used, not those of this coil.",
        means="The job gives no certificate, so values that are usual for the grade stand in.",
        why="Coils of one grade differ by some 15 per cent, and so does the pressure.",
        do="Write the certificate of the coil into the job; better, have a strip pulled.",
        source="mill-typical",
        detail="steel: {names}",
    ),
    "certificate_not_used": Text(
        short="The certificate in the job is not used: the steel file has a measured curve.",
        means="The curve comes from your own test; the certificate is kept only as a record.",
        why="If both are of different coils, one of them is the wrong one.",
        do="Check that the test piece and the certificate belong to the same coil.",
        source="own-judgement",
        detail="steel: {names}",
    ),
    "transforms": Text(
        short="This grade can change its structure while it is stretched in cool water.",
        means="Part of the austenite may turn into martensite, which is harder and magnetic.",
        why="The colder the water, the more; the curve from a test at 20 °C then no longer holds "
        "and the band is wider.",
        do="Form with water at 20 °C or warmer, test with a magnet, or use a stable grade.",
        source="own-judgement",
        detail="steel: {names}; water {temperature:temperature}",
    ),
    "cold_water": Text(
        short="The water is too cold to form with.",
        means="The water is below 5 °C.",
        why="It may freeze in narrow places, carbon-steel flanges and bolts may be brittle, and "
        "the steel is stronger and changes more than its curve says.",
        do="Warm the water to 15 to 30 °C and let the wall come to the same temperature.",
        source="own-judgement",
        detail="water {temperature:temperature}",
    ),
    "warm_water": Text(
        short="The water is warm.",
        means="The water is above 40 °C.",
        why="It scalds, the steel is weaker than its curve says, and the tank shrinks as it "
        "cools.",
        do="Let it cool to 15 to 30 °C.",
        source="own-judgement",
        detail="water {temperature:temperature}",
    ),
    "chloride_not_stated": Text(
        short="The chloride of the water is not known.",
        means="[water] chloride is missing.",
        why="Tap water can hold enough chloride to pit stainless steel in crevices.",
        do="Ask the water works or measure it; write [water] chloride. Drain, rinse and dry the "
        "tank the same day.",
        source="own-judgement",
    ),
    "chloride": Text(
        short="The water holds more chloride than is wanted.",
        means="The chloride lies between 50 and 200 mg/l.",
        why="Left standing, such water can pit seams and the gaps behind tabs.",
        do="Drain the same day, rinse with demineralised water, dry.",
        source="own-judgement",
        detail="chloride {chloride:milligrams}",
    ),
    "chloride_high": Text(
        short="The water holds too much chloride.",
        means="The chloride is above 200 mg/l.",
        why="Gaps and seams of 304 grades may start to pit within days.",
        do="Fill with other water.",
        source="own-judgement",
        detail="chloride {chloride:milligrams}",
    ),
}
