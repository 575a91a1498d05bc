"""Words for cautions about pump, drum, relief capacity, second gauge, air and draining."""

from stretchform.report.words_text import Text

TEXTS = {
    "brittle_fittings": Text(
        short="Brittle fittings under pressure: they break without warning.",
        means="The job says that cast iron or other brittle parts stand under pressure.",
        why="Fittings that let go are what has killed people at pressure tests; a brittle one "
        "gives no sign before.",
        do="Use wrought steel fittings and hoses rated above the relief pressure, one thread "
        "family, hoses tied down.",
        source="hse-gs4",
    ),
    "no_remote_bleed": Text(
        short="Nothing says that pump, bleed and vent can be worked from outside.",
        means="[supply] does not state remote_bleed = true.",
        why="A tank that runs away or leaks must be let down without anybody going near it.",
        do="Lay stop, isolation, bleed and vent out behind the barrier, try them, then write "
        "remote_bleed = true under [supply].",
        source="hse-gs4",
    ),
    "relief_capacity": Text(
        short="The relief valve passes no more than the pump delivers: it stops nothing.",
        means="The stated relief_flow is not above the pump's flow.",
        why="A valve that cannot pass the whole delivery lets the pressure rise on.",
        do="Take a larger valve or a smaller pump.",
        source="own-judgement",
        detail="passes {share:number} of the delivery",
    ),
    "relief_flow_not_stated": Text(
        short="The job does not say what the relief valve can pass.",
        means="[supply] lacks relief_flow, or the pump's flow.",
        why="A pump that runs by itself must not deliver more than the valve lets out.",
        do="Write relief_flow and flow; the maker's rating counts.",
        source="own-judgement",
    ),
    "air_driven_pump": Text(
        short="An air-driven pump holds its pressure: past the maximum it goes on by itself.",
        means="It works like a source of constant pressure up to its stall.",
        why="Where the tank's pressure falls with growth, such a pump flows on and on.",
        do="Limit its water with a metered drum, its pressure with the drive air, and let one "
        "person hold the stop.",
        source="own-judgement",
    ),
    "motor_pump": Text(
        short="A motor pump needs a stop that works when the hand lets go.",
        means="It delivers by itself until something stops it.",
        why="In the time in which a person is distracted the tank passes its target.",
        do="Fit a stop held down by hand, a stroke or volume counter and the relief valve.",
        source="own-judgement",
    ),
    "no_low_level_stop": Text(
        short="The pump does not stop before its drum runs empty.",
        means="[supply] does not state low_level_stop = true.",
        why="A pump that sucks air presses gas into the tank.",
        do="Fit a float or level switch that stops the pump, then write low_level_stop = true.",
        source="own-judgement",
    ),
    "pump_fast": Text(
        short="The pump is fast: ten seconds of it are too much growth.",
        means="While a person reacts, the flowing wall grows by more than is accepted.",
        why="Water pumped in is growth; a late hand is a larger tank.",
        do="Use a smaller pump or a throttle, or pump in short portions.",
        source="own-judgement",
        detail="growth in 10 s {growth:percent}, accepted {limit:percent}",
    ),
    "no_metered_water": Text(
        short="No drum of known content: nothing limits the growth but attention.",
        means="[supply] has no metered_volume.",
        why="Above yield a pressure limit hardly limits growth; the water that can flow in does.",
        do="Let the pump draw from a drum that holds only the planned water, and write "
        "metered_volume.",
        source="own-judgement",
    ),
    "drum_too_large": Text(
        short="The drum holds more than takes the tank to its growth limit.",
        means="A tank of the low side would pass the limit before the drum is empty.",
        why="The drum then is no limiter of growth any more.",
        do="Fill it with the planned water only; more only after readings that ask for it.",
        source="own-judgement",
        detail="drum {drum:litres}, limit {limit:litres}",
    ),
    "one_gauge": Text(
        short="Only one gauge: nothing tells when it is wrong.",
        means="The job names no second gauge.",
        why="A gauge that sticks or is shut off reads steady while the tank grows.",
        do="Fit a second one at another place, and write it under [gauge.second].",
        source="hse-gs4",
    ),
    "trapped_air": Text(
        short="More air is planned for than is accepted at the first strokes.",
        means="[water] air is above the limit for this tank.",
        why="Squeezed air throws its energy at once; a little of it holds as much as much water.",
        do="Fill from below, vent every high point, wait, tap, vent again; check at the first "
        "strokes.",
        source="own-judgement",
        detail="planned {air:percent} of the volume, accepted {limit:percent}",
        tells_pressure=True,
    ),
    "trapped_air_high": Text(
        short="So much trapped air holds as much energy as all the water, or more.",
        means="[water] air is far above what is accepted.",
        why="A tank with a gas cushion is a gas test, whatever stands below the cushion.",
        do="Empty it, find where the air stays, vent there, and fill again.",
        source="crowl-explosions",
        detail="planned {air:percent} of the volume, accepted {limit:percent}",
        tells_pressure=True,
    ),
    "plates_trap_air": Text(
        short="Plates inside may hold more air than is accepted.",
        means="Under each level plate a film of some millimetres of air stays.",
        why="It is squeezed like any other air, and nobody sees it.",
        do="Tilt the tank while it fills, give plates notches at their high side, tap and wait.",
        source="own-judgement",
        detail="likely {air:percent} of the volume, accepted {limit:percent}",
        tells_pressure=True,
    ),
    "shut_vent": Text(
        short="Drained with the vent shut, the formed tank may be crushed by the air outside.",
        means="The formed shell is wider and thinner and buckles below one atmosphere.",
        why="A siphon or a covered vent pulls the whole atmosphere on the wall.",
        do="Open the vent before the drain; cover it with nothing until the tank is dry.",
        source="windenburg-trilling-1934",
        detail="about {collapse:pressure} outside crushes it",
        tells_pressure=True,
    ),
}
