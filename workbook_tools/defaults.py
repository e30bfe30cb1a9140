"""Every number that isn't taken from the workbook: value, unit, range and source.

A keeper's own setting overrides a default, and the report shows which was used. ``source`` is a key of
``docs/sources.md``; ``practice`` means common practice, no source, and ``judgement`` a choice of this project.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Default:
    """One number with where it comes from.

    ``low`` and ``high`` bound what a keeper may set instead, or, for a quantity of the trade, its plausible range. They
    are equal where the value is fixed by its source.
    """

    value: float
    unit: str
    low: float
    high: float
    source: str
    says: str


DEFAULTS: dict[str, Default] = {
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
    # --- leaf litter, in litres of loose leaf ----------------------------------------------------------------
    "litter.use.slow": Default(
        0.010, "l a week", 0.004, 0.03, "derived", "Leaf litter that 100 slow eaters use in a week."
    ),
    "litter.use.medium": Default(0.026, "l a week", 0.012, 0.07, "derived", "The same for medium eaters."),
    "litter.use.hearty": Default(0.095, "l a week", 0.04, 0.25, "derived", "The same for hearty eaters."),
    "litter.power": Default(
        0.85, "power", 0.5, 1, "judgement", "Litter use grows with the number of animals to this power."
    ),
    "litter.settles": Default(
        0.7, "share", 0.25, 1, "derived", "What is left of the volume of loose leaf litter once it has settled, damp."
    ),
    "litter.settling": Default(
        14, "days", 1, 60, "judgement", "How long leaf litter takes to settle by two thirds of the way."
    ),
    "litter.rot": Default(
        0.8, "per year", 0, 1.2, "derived", "How fast leaf litter is lost to microbes even when nobody eats it."
    ),
    "litter.full": Default(1.5, "l", 0.1, 20, "judgement", "A full layer of leaf litter when nothing tells its size."),
    "litter.out": Default(
        0.05, "share", 0.01, 0.3, "judgement", "The share of a full layer at which leaf litter has run out."
    ),
    "litter.scarce": Default(
        0.06, "share", 0.01, 0.3, "judgement", "The share of a full layer at which half as much is eaten."
    ),
    "litter.eye": Default(
        0.1, "share", 0.03, 0.3, "judgement", "How far off a look at the litter may be, in shares of a full layer."
    ),
    "litter.walk": Default(
        0.2, "per root month", 0, 0.6, "judgement", "How far the rate of use of litter wanders, in its logarithm."
    ),
    "litter.shared": Default(
        0.3,
        "log",
        0,
        1,
        "judgement",
        "How far the pace of litter may be off in all bins of a keeper alike: depth of a layer, habit of topping up.",
    ),
    # --- both: what is seen of a stock --------------------------------------------------------------------------
    "stock.slip": Default(0.05, "share", 0, 0.3, "judgement", "The share of looks that are slips of eye or pen."),
    "stock.unwritten": Default(
        0.4, "share", 0, 1, "judgement", "Of looks that found far more than thought, those after an unwritten refill."
    ),
    "change.part": Default(
        0.3333333333333333, "share", 0.1, 0.9, "practice", "What a partial change renews when its share isn't written."
    ),
    # --- what an entry usually holds: outside low to high it is named as far out ---------------------------------
    "usual.water": Default(30, "ml", 1, 1000, "judgement", "Water given to one bin at a time."),
    "usual.feed": Default(0.5, "g", 0.01, 100, "judgement", "Food given to one bin at a time."),
    "usual.leaf": Default(0.5, "l", 0.02, 20, "judgement", "Leaf litter given to one bin at a time."),
    "usual.calcium": Default(2, "g", 0.01, 200, "judgement", "Calcium given to one bin at a time."),
    "usual.count": Default(100, "animals", 0, 20000, "judgement", "Animals counted in one bin."),
    "usual.dead": Default(1, "animals", 0, 500, "judgement", "Dead animals found in one bin at a time."),
    "usual.temperature": Default(
        21, "degC", 5, 40, "judgement", "The temperature of a room in which isopods are kept."
    ),
    "usual.humidity": Default(55, "percent", 5, 100, "judgement", "The humidity of a room in which isopods are kept."),
    "usual.volume": Default(6, "l", 0.1, 500, "judgement", "The volume of one bin."),
    "usual.depth": Default(5, "cm", 0.5, 40, "judgement", "The depth of substrate in one bin."),
    # --- how many animals can be there at most --------------------------------------------------------------------
    "most.growth": Default(
        0.6, "per month", 0.2, 1.5, "judgement", "The fastest growth a colony is believed to keep up."
    ),
    "most.per_litre": Default(1000, "animals", 100, 5000, "judgement", "The most animals believed in a litre of bin."),
    "least.seen": Default(
        0.05,
        "share",
        0.01,
        0.5,
        "judgement",
        "The smallest share of the animals that a count is believed to have seen.",
    ),
    # --- how long moss corners stay damp ------------------------------------------------------------------------
    "moss.dry": Default(7, "days", 2, 21, "derived", "From watering to dry in a box with some holes."),
    "moss.airing": Default(
        2, "times", 1.2, 4, "derived", "How much longer that lasts with few holes, and how much shorter under mesh."
    ),
    "moss.practice": Default(5, "days", 3, 7, "practice", "How long a moss corner is said to stay damp."),
    "moss.wick.low": Default(
        0.47, "share", 0.2, 0.7, "derived", "The share of the drying that the substrate does, not the air: few holes."
    ),
    "moss.wick.medium": Default(0.26, "share", 0.1, 0.5, "derived", "The same with some holes."),
    "moss.wick.high": Default(0.12, "share", 0.03, 0.3, "derived", "The same under mesh."),
    "moss.drying": Default(
        1.5, "times", 1.1, 2.5, "judgement", "The time to dry is at most so many times that to being found drying."
    ),
    "moss.damp": Default(
        2.7, "times", 1.5, 10, "judgement", "The time to dry is at most so many times that to being found damp."
    ),
    "moss.unwritten": Default(0.1, "share", 0, 0.9, "judgement", "Waterings that nobody writes down, to begin with."),
    "moss.season": Default(0.25, "log", 0.05, 0.6, "judgement", "How far the season moves the time to dry."),
    # --- how food is eaten --------------------------------------------------------------------------------------
    "food.appetite": Default(
        2.95, "times", 1.5, 6, "derived", "How much more hearty eaters eat than medium ones, and those than slow ones."
    ),
    "food.power": Default(
        0.85, "power", 0.5, 1, "judgement", "What is eaten grows with the number of animals to this power."
    ),
    "food.gone": Default(0.95, "share", 0.8, 1, "judgement", "The share eaten from which a dish is called gone."),
    "food.most": Default(0.4, "share", 0.2, 0.6, "judgement", "The share eaten below which most is called left."),
    "food.mouldy": Default(0.92, "share", 0.5, 1, "judgement", "The most that was eaten of a dish found mouldy."),
    "food.crumbs": Default(
        0.65, "power", 0.1, 1, "judgement", "How a dish empties: 1 steadily, near 0 like a decay, the last ever slower."
    ),
    "food.eye": Default(0.2, "log", 0.02, 0.5, "judgement", "How far off a look at what is left of a dish may be."),
    "food.last_look": Default(
        4, "days", 1, 14, "judgement", "The longest from a feeding to a look that still says something of it."
    ),
    "food.step": Default(2, "times", 1, 4, "judgement", "The most a portion is raised or cut at once."),
    # --- what is learned from the log ---------------------------------------------------------------------------
    "learn.least_notes": Default(
        3, "notes", 1, 30, "judgement", "Notes of a bin from which its due days rest on what was learned of it."
    ),
    "risk.moss": Default(
        10, "percent", 1, 50, "judgement", "How often a moss corner may be dry before it is looked at."
    ),
    "ceiling.leaf": Default(
        60, "days", 7, 365, "judgement", "The longest time between top-ups of leaf litter where its use was learned."
    ),
    "lasts.substrate": Default(180, "days", 30, 1095, "judgement", "How long substrate is to last after a change."),
    "every.change": Default(1095, "days", 90, 3650, "judgement", "The longest time between changes of substrate."),
    "food.use.dry": Default(0.12, "g a day", 0.03, 1, "derived", "Dry food eaten by a hundred animals, medium eaters."),
    "food.use.fresh": Default(1.2, "g a day", 0.3, 9, "derived", "Fresh food eaten by a hundred animals, the same."),
    "room.readings": Default(
        3, "readings", 1, 60, "judgement", "Room readings in the last 60 days from which the air is reckoned with."
    ),
    "leaf.grams": Default(20, "g", 10, 60, "derived", "What a litre of loose dry leaves weighs."),
    "leaf.depth": Default(3, "cm", 1, 10, "derived", "How deep a full layer of leaf litter is."),
    "bin.floor": Default(5.5, "dm2", 1, 100, "derived", "The floor of a shoebox-sized tub, where none is written."),
    "backtest.warm_up": Default(
        90, "days", 30, 365, "judgement", "Days of log before the first day that a look back makes estimates for."
    ),
    # --- old substrate and lines ---------------------------------------------------------------------------------
    "sifting.lapse": Default(
        90,
        "days",
        14,
        365,
        "judgement",
        "Days without an entry from which old substrate is not believed to wait still.",
    ),
    "sifting.worth": Default(
        1, "animals", 0.2, 10, "judgement", "Finds expected of another pass that make it worth it."
    ),
    "sifting.passes": Default(
        8, "passes", 3, 20, "judgement", "Passes by hand after which a trap is put to what hands don't find."
    ),
    "sifting.sure": Default(
        0.9,
        "chance",
        0.8,
        0.99,
        "judgement",
        "The chance of none left from which old substrate is called probably empty.",
    ),
    "sifting.empty_checks": Default(
        10, "checks", 5, 60, "judgement", "The fewest empty checks in a row, of a trap that has caught, before that."
    ),
    "sifting.empty_days": Default(
        10,
        "days",
        5,
        90,
        "judgement",
        "The fewest days that they are spread over; moulting animals stay hidden for days.",
    ),
    "line.breeders": Default(
        0.3, "share", 0.1, 0.6, "judgement", "Animals that breed in effect (Ne), as a share of the animals there are."
    ),
    "line.generation.slow": Default(12, "months", 4, 18, "derived", "From one generation to the next, slow eaters."),
    "line.generation.medium": Default(9, "months", 6, 15, "derived", "The same for medium eaters."),
    "line.generation.hearty": Default(6, "months", 4, 10, "derived", "The same for hearty eaters."),
    # --- disposal -----------------------------------------------------------------------------------------------
    "freeze.hours": Default(
        72, "hours", 72, 720, "judgement", "Least time frozen before old substrate is thrown away."
    ),
    # --- how far apart approximate numbers may lie -----------------------------------------------------------------
    "number.about": Default(0.3, "share", 0.05, 1, "judgement", "How far ~50 or 50ish may be off, up or down."),
    "number.about_degrees": Default(2, "degC", 0.5, 5, "judgement", "How far ~21 degrees may be off."),
    "number.at_least": Default(1.3, "times", 1, 3, "judgement", "The best guess for 30+, as a multiple of 30."),
    "number.at_most": Default(0.5, "times", 0, 1, "judgement", "The best guess for <5, as a multiple of 5."),
    "number.couple": Default(2, "count", 2, 3, "judgement", "A couple."),
    "number.few": Default(4, "count", 2, 8, "judgement", "A few."),
    "number.several": Default(6, "count", 3, 12, "judgement", "Several, some."),
    "number.dozens": Default(50, "count", 24, 100, "judgement", "Dozens."),
    "number.lots": Default(200, "count", 100, 500, "judgement", "Lots, many, loads."),
    "number.hundreds": Default(400, "count", 200, 1000, "judgement", "Hundreds."),
    "number.thousands": Default(3000, "count", 1000, 10000, "judgement", "Thousands, a million, swarming."),
    "form.twice": Default(120, "s", 10, 600, "judgement", "Rows that say the same so soon after were sent twice."),
    "share.side": Default(0.5, "share", 0.35, 0.65, "judgement", "One side or one end of a bin."),
    "share.most": Default(0.75, "share", 0.6, 0.95, "judgement", "Most of it."),
    "share.some": Default(0.25, "share", 0.1, 0.45, "judgement", "Some of it, a part."),
    # --- what share of the animals a count sees: median, and low to high holds about four bins of five -------------
    "seen.lift": Default(0.25, "share", 0.10, 0.50, "practice", "Animals seen when one hide is lifted."),
    "seen.hides": Default(0.50, "share", 0.30, 0.75, "practice", "Animals seen when all hides and leaf are turned."),
    "seen.trap": Default(0.12, "share", 0.04, 0.30, "practice", "Animals in a baited trap after one night."),
    "seen.sort": Default(0.85, "share", 0.70, 0.95, "practice", "Animals found in one full sort by hand."),
    "seen.sieve": Default(0.93, "share", 0.85, 0.98, "practice", "Animals found when the substrate is sieved too."),
    "seen.weight": Default(1.0, "share", 0.75, 1.3, "derived", "A number worked out from the weight of the colony."),
    "seen.guess": Default(0.9, "share", 0.5, 1.6, "judgement", "A guess at the whole number, against the truth."),
    "seen.words": Default(0.9, "share", 0.45, 1.8, "judgement", "A number in words such as dozens, against the truth."),
    "seen.unsaid": Default(0.6, "share", 0.25, 0.95, "judgement", "Animals seen by a count that doesn't say how."),
    "seen.marks": Default(
        0.8,
        "share",
        0.5,
        1.1,
        "judgement",
        "A number by marks against the truth: those easily caught are caught again.",
    ),
    "seen.passes": Default(
        1.0, "share", 0.85, 1.05, "judgement", "A number by passes through all of a bin, against the truth."
    ),
    "marks.within": Default(
        14, "days", 7, 30, "practice", "From marking to catching again, at most; after it the number is doubtful."
    ),
    "marks.moult": Default(
        35, "days", 25, 70, "judgement", "Days in which an adult moults and may lose a mark painted on its shell."
    ),
    # --- how numbers grow ----------------------------------------------------------------------------------------
    "numbers.start": Default(50, "animals", 14, 180, "judgement", "Animals in a bin that was never counted."),
    "numbers.growth.slow": Default(0.10, "per month", 0.0, 0.22, "derived", "Growth of slow eaters, not crowded."),
    "numbers.growth.medium": Default(0.22, "per month", 0.05, 0.40, "derived", "Growth of medium eaters."),
    "numbers.growth.hearty": Default(0.45, "per month", 0.15, 0.75, "derived", "Growth of hearty eaters."),
    "numbers.thriving": Default(0.5, "share", 0.3, 1, "judgement", "What of that growth the bins of a room keep up."),
    "numbers.growth_spread": Default(0.25, "per month", 0.1, 0.4, "judgement", "How far bins differ in their growth."),
    "numbers.start_part": Default(
        0.4, "share", 0.12, 1.3, "judgement", "What a bin that was never counted holds of the number that crowds it."
    ),
    "numbers.settled": Default(0.03, "per month", -0.05, 0.2, "judgement", "Growth that a bin settles to in time."),
    "numbers.fade": Default(0.85, "share", 0.5, 0.99, "judgement", "What of growth above or below that lasts a month."),
    "numbers.wander": Default(0.15, "log", 0.02, 0.3, "judgement", "How far numbers stray from growth in a month."),
    "numbers.growth_wander": Default(0.085, "per month", 0.01, 0.3, "judgement", "How far growth strays in a month."),
    "numbers.room": Default(
        1.67, "times", 1, 3.3, "derived", "Where growth ends, in times the number at which a bin is called crowded."
    ),
    "numbers.start_error": Default(0.15, "log", 0.02, 0.5, "judgement", "How far a starting number may be off."),
    "numbers.split_error": Default(0.2, "log", 0.05, 0.5, "judgement", "How far the share of a split may be off."),
    "numbers.bad_count": Default(0.05, "share", 0.01, 0.2, "judgement", "Counts that are three times as far off."),
    "numbers.odd": Default(
        0.02, "share", 0.001, 0.1, "judgement", "Counts far out: wrong, or after an unlogged jump of the number."
    ),
    "numbers.plus": Default(4, "times", 2, 10, "judgement", "The most that 100+ may mean, in times 100."),
    "numbers.empty": Default(0.02, "share", 0.001, 0.2, "judgement", "Bins found empty that truly died out."),
    "numbers.horizon": Default(1095, "days", 90, 3650, "judgement", "How far ahead numbers are followed at most."),
    # --- losses ----------------------------------------------------------------------------------------------------
    "deaths.rate": Default(
        1.0, "dead found per 100 a month", 0.1, 5, "derived", "Deaths found where nothing is wrong, until learned."
    ),
    "deaths.rate_weight": Default(
        300, "animal-days / 100", 30, 3000, "judgement", "What that starting guess counts for, as so many days watched."
    ),
    "deaths.lie": Default(10, "days", 3, 20, "judgement", "Days that a dead animal lies before it is eaten, at most."),
    "deaths.window": Default(14, "days", 7, 28, "judgement", "Days over which deaths found are counted together."),
    "deaths.half_life": Default(180, "days", 60, 730, "judgement", "After so long what was found counts half."),
    "deaths.bunched": Default(
        1.5, "size", 0.2, 10, "judgement", "How deaths bunch within a window, until learned; the higher, the less."
    ),
    "deaths.bunched_error": Default(0.7, "log", 0.3, 1.5, "judgement", "How far that may be off."),
    "deaths.wander": Default(
        0.3, "log", 0.1, 0.6, "judgement", "How far a bin's rate strays with the season, and its number is off."
    ),
    "deaths.alarm": Default(
        0.0003, "chance", 1e-5, 0.01, "judgement", "Finds rarer than this where nothing is wrong are an alarm."
    ),
    "deaths.look": Default(
        0.004, "chance", 1e-4, 0.05, "judgement", "Finds rarer than this are worth a look."
    ),
    "deaths.false": Default(
        1, "a year in 50 bins", 0.3, 3, "judgement", "False alarms to be expected, as measured on simulated bins."
    ),
    "deaths.false_look": Default(
        6, "a year in 50 bins", 2, 12, "judgement", "What is worth a look for nothing, besides; measured likewise."
    ),
    "deaths.few_animals": Default(
        20, "animals", 5, 50, "judgement", "A bin of fewer may raise an alarm by two dead; others need three."
    ),
    "deaths.quiet": Default(30, "days", 14, 60, "judgement", "After an alarm none is raised again for so long."),
    "losses.recent": Default(28, "days", 14, 60, "judgement", "How far back bins that lose together are looked for."),
    "losses.after": Default(14, "days", 3, 30, "judgement", "An event so long before the first dead is named with it."),
    "losses.before": Default(21, "days", 7, 60, "judgement", "How far before the first dead the log is searched."),
    "losses.batch": Default(60, "days", 14, 180, "judgement", "A batch of leaves or food given so long ago counts."),
    "losses.place": Default(0.3, "log", 0, 1, "judgement", "How far places differ in deaths where nothing is wrong."),
    "losses.luck": Default(0.05, "chance", 0.001, 0.2, "judgement", "Bins losing together are shown below this."),
    "losses.warm": Default(27, "degC", 22, 35, "practice", "A room as warm as this is named where animals die."),
    "losses.cold": Default(8, "degC", 0, 15, "practice", "A room as cold as this is named where animals die."),
    "sights.silent": Default(
        3, "looks", 1, 20, "judgement", "What was seen is let go after so many later looks that say nothing of it."
    ),
    # --- reading names and the order of the log ---------------------------------------------------------------------
    "names.stroked": Default(
        0.25, "share", 0, 1, "judgement", "Plain numbers such as 12/13 are two bins while no more of the names are so."
    ),
    "names.alike": Default(
        60, "percent", 40, 95, "judgement", "How much alike a name must be to be offered for one that isn't known."
    ),
    "log.in_order": Default(
        0.7, "share", 0.5, 1, "judgement", "Of the dates of a log, those that must run one way for it to be in order."
    ),
    "log.least_dates": Default(4, "dates", 3, 30, "judgement", "Dates from which a log can be said to be in order."),
    # --- what is shown ---------------------------------------------------------------------------------------------
    "due.ahead": Default(7, "days", 1, 60, "judgement", "How far ahead tasks are listed."),
    # --- reading dates ---------------------------------------------------------------------------------------------
    "date.first_year": Default(1971, "year", 1900, 2020, "judgement", "Dates before this year are not believed."),
    "date.years_ahead": Default(10, "years", 0, 50, "judgement", "Dates further ahead than this are not believed."),
    "date.serial_from": Default(2000, "year", 1971, 2020, "judgement", "First year for a day count typed as a number."),
    "date.longer_than": Default(3, "times", 1, 10, "judgement", "How far back >1 wk may reach, in times one week."),
    "date.out_of_order": Default(
        90, "days", 30, 330, "judgement", "A date further than this from its neighbours, in a log in order, is named."
    ),
    # --- amounts without a unit ------------------------------------------------------------------------------------
    "amount.fahrenheit_above": Default(
        45, "degC", 40, 60, "judgement", "A room temperature above this, without a unit, is taken as Fahrenheit."
    ),
    # --- what a hobby measure holds -----------------------------------------------------------------------------
    "measure.handful": Default(0.4, "l", 0.25, 0.6, "derived", "One grabbed handful of loose leaf litter."),
    "measure.double_handful": Default(1, "l", 0.5, 1.5, "derived", "Both hands full of loose leaf litter."),
    "measure.pinch": Default(0.1, "g", 0.05, 0.3, "practice", "A pinch of dry food."),
    "measure.splash": Default(20, "ml", 5, 50, "practice", "A splash of water."),
    "measure.soak": Default(80, "ml", 40, 200, "practice", "A good soak of a moss corner."),
    "measure.slice": Default(4, "g", 3, 5, "practice", "A slice of vegetable."),
    "measure.cup": Default(236.5882365, "ml", 200, 284.130625, "sp811", "A US cup, unless set otherwise."),
    "measure.spray": Default(1, "ml", 0.5, 1.5, "judgement", "One stroke of a hand sprayer."),
    "measure.drop": Default(0.05, "ml", 0.03, 0.07, "judgement", "One drop of water."),
    "measure.big": Default(1.5, "times", 1, 3, "judgement", "A big or generous measure, in times a usual one."),
    "measure.small": Default(0.5, "times", 0.2, 1, "judgement", "A small or tiny measure, in times a usual one."),
    "measure.shoebox": Default(5.5, "l", 5, 6, "practice", "A shoebox-sized tub."),
    # --- what a file may hold before it is refused or cut short ---------------------------------------------------
    "file.size": Default(200, "MB", 1, 2000, "judgement", "The largest file that is read."),
    "file.unpacked": Default(
        400, "MB", 1, 4000, "judgement", "The most that a workbook may unpack to, pictures apart."
    ),
    "file.parts": Default(
        10_000, "parts", 100, 100_000, "judgement", "The most parts in a workbook or files in a folder."
    ),
    "sheet.cells": Default(
        1_000_000, "cells", 1000, 10_000_000, "judgement", "The most filled cells read of one sheet."
    ),
    "book.cells": Default(2_000_000, "cells", 1000, 20_000_000, "judgement", "The same for all sheets together."),
    "sheet.spread": Default(
        2_000_000, "cells", 1000, 20_000_000, "judgement", "The largest area of a sheet read as a full block of cells."
    ),
    "date.first_serial": Default(
        61, "days", 61, 61, "ecma376", "Serial numbers below this aren't taken for dates: 61 is 1 March 1900."
    ),
}
