"""The rhythm of care, and how long what a bin is given lasts before anything is learned."""

from __future__ import annotations

from workbook_tools.defaults.default import Default

CARE: dict[str, Default] = {
    # --- the care rhythm: ceilings, in days -----------------------------------------------------------------
    "every.moss": Default(7, "days", 1, 60, "practice", "The longest time between looks at a moss corner."),
    "every.food": Default(3, "days", 1, 60, "practice", "Days between feedings; two or three feedings a week."),
    "after.leftovers": Default(1, "days", 1, 14, "practice", "From a feeding to the look at what is left of it."),
    "every.leaf": Default(14, "days", 1, 365, "practice", "The longest time between looks at the leaf litter."),
    "every.calcium": Default(30, "days", 1, 365, "practice", "The longest time between looks at the calcium."),
    "every.look": Default(7, "days", 1, 60, "practice", "The longest time between full looks at a bin."),
    "every.substrate": Default(60, "days", 7, 730, "practice", "The longest time between looks at the substrate."),
    "every.count": Default(90, "days", 7, 730, "practice", "The longest time between counts."),
    "every.hides": Default(180, "days", 14, 1460, "practice", "The longest time between renewals of bark and hides."),
    "every.trap": Default(
        14, "days", 1, 60, "practice", "The longest time between looks at the trap of a straggler tub."
    ),
    "every.straggler": Default(
        3, "days", 1, 30, "judgement", "The longest time between looks at the trap of old substrate that still waits."
    ),
    "every.quarantine": Default(
        3, "days", 1, 30, "practice", "The longest time between full looks at a bin in quarantine."
    ),
    "quarantine.days": Default(
        42, "days", 7, 365, "practice", "How long a bin stays in quarantine; four to eight weeks."
    ),
    "unlisted.days": Default(
        3, "days", 1, 30, "judgement", "Days logged from which a bin that no list has is believed to be one."
    ),
    # --- a new bin, in days -----------------------------------------------------------------------------------
    "first.look": Default(1, "days", 0, 14, "practice", "From setting up a bin to the first full look at it."),
    "first.food": Default(2, "days", 0, 14, "practice", "From setting up a bin to the first feeding."),
    # --- from what was seen to what follows, in days --------------------------------------------------------
    "found.blue_or_violet": Default(
        0, "days", 0, 14, "practice", "From blue or violet animals to setting the bin apart."
    ),
    "found.way_out": Default(0, "days", 0, 7, "practice", "From a way out to closing it."),
    "found.huddling": Default(0, "days", 0, 7, "practice", "From huddling to seeing to it."),
    "found.one_side_empty": Default(1, "days", 0, 14, "practice", "From one side found empty to seeing to it."),
    "found.sour_smell": Default(0, "days", 0, 7, "practice", "From a sour smell to seeing to it."),
    "found.too_dry": Default(0, "days", 0, 7, "practice", "From finding a bin too dry to watering it."),
    "found.pests": Default(0, "days", 0, 7, "practice", "From pests to seeing to them."),
    "found.too_wet": Default(1, "days", 0, 14, "practice", "From finding a bin too wet to seeing to it."),
    "found.slime": Default(1, "days", 0, 14, "practice", "From slime to seeing to it."),
    "found.condensation": Default(2, "days", 0, 14, "practice", "From condensation to seeing to it."),
    "found.mould": Default(2, "days", 0, 14, "practice", "From mould to seeing to it."),
    "found.film": Default(2, "days", 0, 14, "practice", "From film on a wall to seeing to it."),
    "found.mites": Default(3, "days", 0, 21, "practice", "From mites to seeing to them."),
    "found.gnats": Default(
        7, "days", 0, 28, "practice", "From gnats to seeing to them; they need three to four weeks from egg to fly."
    ),
    "found.calcium_gone": Default(2, "days", 0, 30, "practice", "From finding no calcium left to giving some."),
    "found.springtails_low": Default(7, "days", 0, 60, "practice", "From few springtails to adding some."),
    "found.crowded": Default(7, "days", 0, 90, "practice", "From finding a bin crowded to giving room or splitting."),
    "found.hides_worn": Default(14, "days", 0, 90, "practice", "From worn hides to renewing them."),
    "found.again": Default(
        1, "days", 1, 7, "practice", "From one look at a bin that is kept apart to the next, until all is well."
    ),
    # --- substrate life by appetite, in months ---------------------------------------------------------------
    "substrate.life.slow": Default(18, "months", 11, 30, "derived", "Until substrate is nearly frass, slow eaters."),
    "substrate.life.medium": Default(14, "months", 8, 22, "derived", "The same for medium eaters."),
    "substrate.life.hearty": Default(9, "months", 4, 15, "derived", "The same for hearty eaters."),
    "substrate.animals.slow": Default(
        50, "animals", 20, 120, "derived", "How many slow eaters the months of life above are for."
    ),
    "substrate.animals.medium": Default(150, "animals", 60, 350, "derived", "The same for medium eaters."),
    "substrate.animals.hearty": Default(250, "animals", 100, 600, "derived", "The same for hearty eaters."),
    "substrate.power": Default(
        0.8, "power", 0.5, 1, "judgement", "Substrate use grows with the number of animals to this power."
    ),
    "substrate.microbes": Default(
        1,
        "times 100 animals",
        0,
        3,
        "derived",
        "What microbes do to the substrate, in times what 100 animals do to it.",
    ),
    "substrate.apart": Default(
        0.5,
        "log",
        0.2,
        1,
        "judgement",
        "How far the use of substrate of a keeper's slow, medium or hearty eaters is off.",
    ),
    "substrate.species": Default(0.3, "log", 0.1, 1, "judgement", "How far species of one appetite differ in it."),
    "substrate.between": Default(
        0.55,
        "log",
        0.2,
        1,
        "judgement",
        "How far bins of a species differ in it, a head as their numbers are believed.",
    ),
    "substrate.room": Default(3, "degC", 1, 6, "judgement", "How far the mean warmth of a room is from the usual one."),
    "substrate.swing": Default(2.5, "degC", 0, 6, "judgement", "How far a room's summer or winter is from its mean."),
    "substrate.reading": Default(
        2.5, "degC", 0.5, 5, "judgement", "How far one reading is off the room's year: weather, and likeness in a week."
    ),
    "substrate.hot": Default(28, "degC", 25, 32, "judgement", "The warmth above which nothing goes faster."),
    "substrate.warmth": Default(
        21, "degC", 15, 26, "judgement", "The warmth of the room for which the months of life above are meant."
    ),
    "substrate.scarce": Default(
        0.4, "share", 0.1, 5, "judgement", "The recognisable share at which half as much substrate is eaten."
    ),
    "substrate.fresh": Default(0.9, "share", 0.8, 1, "judgement", "The recognisable share of fresh substrate."),
    "substrate.spent": Default(0.2, "share", 0.05, 0.5, "judgement", "The recognisable share at which it is spent."),
    "substrate.eye": Default(
        0.085, "share", 0.03, 0.25, "judgement", "How far off a look at the recognisable share may be."
    ),
    "substrate.walk": Default(
        0.15, "per root month", 0, 0.5, "judgement", "How far the rate of use of substrate wanders, in its logarithm."
    ),
    "substrate.shared": Default(
        0.3,
        "log",
        0,
        1,
        "judgement",
        "How far the pace of substrate may be off in all bins of a keeper alike: numbers, and an eye for frass.",
    ),
}
