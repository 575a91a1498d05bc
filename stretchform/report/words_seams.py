"""Words for cautions about the certificate, the water's effect on the steel, and the seams."""

from stretchform.report.words_text import Text

TEXTS = {
    "certificate_below_minimum": Text(
        short="The certificate lies below the least that any standard allows for its grade.",
        means="A strength or the elongation is smaller than in every row of the table of minima.",
        why="Either a value or its unit is wrong, or the sheet is not what it is called. Most "
        "minima in the table are from memory: look into the standard itself.",
        do="Read the certificate again, unit by unit; ask the dealer; have a strip pulled.",
        source="en-10088-2",
        detail="{names}: {share:share} of the least minimum",
    ),
    "certificate_above_maximum": Text(
        short="The tensile strength is above what any standard allows for its grade.",
        means="The certificate gives more than the highest value in the table of minima.",
        why="Cold-worked sheet or another grade has other curves. Most limits in the table are "
        "from memory: look into the standard itself.",
        do="Read the certificate again; ask whether the sheet is annealed; have a strip pulled.",
        source="en-10088-2",
        detail="{names}: {share:share} of the highest maximum",
    ),
    "perhaps_tempered": Text(
        short="The proof strength is so high that the sheet may be temper-rolled.",
        means="Rp0.2 is more than 1.7 times the standard's minimum.",
        why="Temper-rolled sheet softens beside every seam and would stretch there alone, until "
        "it tears.",
        do="Ask for annealed sheet (2B, 2D, 1D). If the dealer confirms in writing that this "
        "coil is annealed, accept the caution with that as the reason.",
        source="own-judgement",
        detail="{names}: {share:number} times the minimum",
    ),
    "water_shift": Text(
        short="The water's temperature shifts the flow stress, and widens its band a little.",
        means="The curve was pulled at about 20 °C; the wall flows at the water's temperature.",
        why="Colder steel is stronger even without martensite. The shift is in the forecast.",
        do="Form with water of 15 to 30 °C, or have the coupon pulled at the water's "
        "temperature.",
        source="blackburn-304",
        detail="flow stress {shift:percent}, within {half:percent}; water "
        "{temperature:temperature}",
    ),
    "md30_near_water": Text(
        short="By its analysis this steel may turn to martensite in this water.",
        means="Md30 after Nohara is less than 20 K below the water. Md30 is the temperature at "
        "which half of the austenite turns after 30 % of strain.",
        why="A curve from a warm room then does not hold: the wall hardens by an unknown amount. "
        "The band is widened as for typical values.",
        do="Use warmer water, or have the coupon pulled in water of that temperature, or form a "
        "trial cylinder in it; test with a magnet afterwards.",
        source="nohara-1977",
        detail="{names}: Md30 {nohara:temperature}, water {temperature:temperature}",
    ),
    "angel_near_water": Text(
        short="An older formula puts the change to martensite near this water's temperature.",
        means="Md30 after Angel is less than 20 K below the water; after Nohara, who weighs "
        "nickel and copper as stable grades need it, it is not.",
        why="The two formulas rest on different steels; the second one decides here.",
        do="Test the formed wall with a magnet; take warmer water where it costs nothing.",
        source="angel-1954",
        detail="{names}: Angel {angel:temperature}, Nohara {nohara:temperature}, water "
        "{temperature:temperature}",
    ),
    "nitrogen_not_given": Text(
        short="The analysis gives no nitrogen, so Md30 comes out too high.",
        means="Nitrogen counts as zero; each hundredth of a per cent lowers Md30 by 4.6 K.",
        why="The steel may be more stable against martensite than it looks.",
        do="Ask for the nitrogen content and write it into the analysis.",
        source="nohara-1977",
        detail="steel: {names}",
    ),
    "cold_water_304": Text(
        short="A 304 of unknown analysis in cold water: martensite is not excluded.",
        means="The water is below 15 °C and the certificate in the job has no analysis.",
        why="Lean coils of 304 and 304L turn in cold water; the curve then does not hold. The "
        "band is widened as for typical values.",
        do="Write the analysis into the certificate, or warm the water to 20 °C.",
        source="own-judgement",
        detail="steel: {names}; water {temperature:temperature}",
    ),
    "weld_without_filler": Text(
        short="A seam without filler is refused: thin and soft, it would stretch alone.",
        means="The weld line of a course says that no filler was used.",
        why="Such a seam is often thinner than the sheet and never cold-worked; at a few per cent "
        "it takes all the growth and tears.",
        do="Weld with filler, 308L for 304L and 316LSi for 316L, flush on both sides; have a "
        "welded strip pulled across the seam.",
        source="own-judgement",
        detail="course: {names}",
    ),
    "weld_filler_unknown": Text(
        short="The filler is not one of those known for austenitic sheet.",
        means="Its name begins with none of 308, 309, 316, 318, 347 and their EN names.",
        why="Another filler may be weaker than the sheet, or crack.",
        do="Check the name; have a welded strip pulled across the seam.",
        source="own-judgement",
        detail="course: {names}",
    ),
    "weld_elongation_not_given": Text(
        short="The elongation of the welded strip is not stated.",
        means="The weld line has a filler but no elongation.",
        why="Three times the target is asked of a seam (common practice, no source).",
        do="Have a strip with a seam across it pulled; write elongation into the weld line.",
        source="common-practice",
        detail="course: {names}",
    ),
    "weld_elongation_short": Text(
        short="The seam was shown to stretch less than three times the target.",
        means="The elongation in the weld line is below three times the growth.",
        why="In the tank the seam cannot shrink sideways as a strip does, and it has its stops "
        "and starts; three times is common practice, no source.",
        do="Better the welding procedure, or a smaller target.",
        source="common-practice",
        detail="{names}: shown {shown:percent}, wanted {needed:percent}",
    ),
    "weld_elongation_below_target": Text(
        short="The welded strip broke before the growth that is asked of the tank.",
        means="The elongation in the weld line is not above the target.",
        why="The seam will tear.",
        do="Another welding procedure, shown by a pulled strip, or a far smaller target.",
        source="own-derivation",
        detail="{names}: shown {shown:percent}, wanted {needed:percent}",
    ),
    "long_seam_yields": Text(
        short="At this growth a long seam yields too.",
        means="From 5 to 8 % of growth the seam takes part in the stretching.",
        why="It must then harden as the sheet does; a round seam carries more and makes a waist.",
        do="Have a strip with a seam across it pulled; look at the seams after each step.",
        source="own-judgement",
        detail="target {growth:percent}",
    ),
    "seam_may_be_weaker": Text(
        short="At this growth the seam may be the weaker part.",
        means="From 10 % the sheet may have hardened beyond its seams.",
        why="All further growth then goes into the seam.",
        do="A smaller target, or pulled strips with a seam across that reach the sheet's "
        "strength.",
        source="own-judgement",
        detail="target {growth:percent}",
    ),
    "seam_groove": Text(
        short="Undercut or a thin seam stretches further than the sheet beside it.",
        means="In a groove along the tank the same force meets less metal.",
        why="The groove runs ahead of the sheet, and the maximum pressure falls with the wall that "
        "is left.",
        do="Dress and fill the undercut, or weld the seam thicker, before forming.",
        source="own-derivation",
        detail="{names}: {left:share} of the wall left; sheet {sheet:percent}, groove "
        "{groove:percent}",
    ),
    "seam_necks": Text(
        short="The undercut or thin seam would neck before the sheet reaches the target.",
        means="The force that stretches the sheet is more than the groove can carry.",
        why="The tank splits along the seam.",
        do="Weld the seam up to the full wall, or a far smaller target.",
        source="own-derivation",
        detail="{names}: {left:share} of the wall left; sheet {sheet:percent}",
    ),
}
