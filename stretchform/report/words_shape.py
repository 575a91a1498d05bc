"""Words for cautions about the shape of the tank: ends, openings, seams, walls and plates."""

from stretchform.report.words_text import Text

TEXTS = {
    "short_cylinder": Text(
        short="Short shell: the ends hold it back, and that is NOT computed here.",
        means="The shell is shorter than two diameters.",
        why="The heads grow less than the shell and hold it; the real tank becomes a barrel and "
        "needs more pressure in the middle than a long one.",
        do="Take the pressures as those of a long shell. Measure at many heights. Believe the "
        "tape, not the plan.",
        source="own-judgement",
    ),
    "station_near_head": Text(
        short="Stations near a head will grow less than shown: NOT computed here.",
        means="They lie within 1.2 radii of a head, where the head holds the wall back.",
        why="A reading there says nothing about the pressure; to chase it means to overstretch "
        "the middle.",
        do="Do not steer by these stations. Add one at least 1.2 radii away from both heads.",
        source="own-judgement",
        detail="{names}",
    ),
    "plate_near_head": Text(
        short="Plates near a head travel less than shown: NOT computed here.",
        means="They lie within 1.2 radii of a head.",
        why="The slots shown are on the safe side for travel, but the gaps end up smaller.",
        do="Keep the slots; check the gap there by hand after forming.",
        source="own-judgement",
        detail="{names}",
    ),
    "ends_not_computed": Text(
        short="Heads, and how they hold the shell, are not computed.",
        means="Each course is treated as if it were long.",
        why="Heads may yield, change their depth or wrinkle at the forming pressure.",
        do="Have the heads checked for the high forming pressure by a licensed engineer. Watch "
        "their corners.",
        source="own-judgement",
    ),
    "wrinkling": Text(
        short="The knuckle of a head may wrinkle while the tank is formed.",
        means="The forming pressure is compared with the pressures of handbooks for knuckles that "
        "buckle inwards; wrinkles themselves are not computed.",
        why="A thin head is squeezed round its knuckle; a wrinkle stays, and may crack later.",
        do="Have the head checked by a licensed engineer; take a thicker or a deeper head; watch "
        "the knuckle by camera at every step and stop at the first dent.",
        source="en-13445-3",
        detail="{names}: forming pressure over 1.5 times the allowable one {ratio:number}",
        tells_pressure=True,
    ),
    "course_ahead": Text(
        short="One course runs ahead of the others.",
        means="At the target this course has grown at least one point more than the slowest one.",
        why="The weaker course takes the stretch alone, thins more and reaches its maximum first.",
        do="Put a station on this course and steer by it; better, match walls and strengths of "
        "the courses.",
        source="own-judgement",
        detail="{names}: likely growth {growth:percent}",
    ),
    "lying": Text(
        short="The tank lies: its supports and its roundness are not computed.",
        means="A lying full tank bends on its supports and is not round.",
        why="A yielding wall gives way at a support first.",
        do="Carry it at the heads or their straight flanges, on soft wide supports, free to grow.",
        source="own-judgement",
    ),
    "openings": Text(
        short="Ports and pads hold the wall back and tear first: not computed.",
        means="The tank has openings or welded-on parts while it is formed.",
        why="The wall beside them stretches more than the tape shows.",
        do="Weld on what can wait after forming; look at the seams of the others after the "
        "release, at zero pressure.",
        source="own-judgement",
        detail="{names}",
    ),
    "thick_wall": Text(
        short="Thick wall for its radius.",
        means="The radius is below ten times the wall.",
        why="Stress and growth differ through the wall; the thin-wall equations lose accuracy.",
        do="Treat the forecast as rougher than its band.",
        source="own-judgement",
        detail="radius over wall {ratio:number}",
    ),
    "weld_not_stated": Text(
        short="The filler and stretch of the seams are not stated.",
        means="A course has no weld line in the job.",
        why="A long seam must stretch as far as the sheet does.",
        do="Write weld = { filler, elongation }, from a pulled welded strip of the same sheet.",
        source="own-judgement",
    ),
    "plate_fails": Text(
        short="A plate does not pass its checks: do not build it so.",
        means="Arms, slots or gaps of a row of plates fail, see the table of plates.",
        why="A plate that cannot give way dents the wall or tears its weld.",
        do="Change arm kind, depth, tab clearance or number of tabs: stretchform plates shows "
        "what governs.",
        source="own-derivation",
        detail="{names}",
    ),
}
