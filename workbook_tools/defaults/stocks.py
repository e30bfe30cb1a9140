"""Leaf litter, substrate, moss and food, and how the program learns of them."""

from __future__ import annotations

from workbook_tools.defaults.default import Default

STOCKS: dict[str, Default] = {
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
        0.45,
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
    "substrate.split": Default(
        0.4, "share", 0.1, 0.8, "judgement", "How much of a bin that was split off is old substrate of its parent."
    ),
    "substrate.move_up": Default(
        0.6, "share", 0.3, 0.95, "judgement", "The same of the larger bin that a colony was moved up into."
    ),
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
    "food.eye": Default(0.3, "log", 0.02, 0.5, "judgement", "How far off a look at what is left of a dish may be."),
    "food.last_look": Default(
        4, "days", 1, 14, "judgement", "The longest from a feeding to a look that still says something of it."
    ),
    "food.walk": Default(
        0.15, "per root month", 0.02, 0.5, "judgement", "How far what a bin eats wanders, in its logarithm."
    ),
    "food.swing": Default(
        0.3, "log", 0.05, 1, "judgement", "How far all bins of a room eat more or less together, as a rule."
    ),
    "food.step": Default(2, "times", 1, 4, "judgement", "The most a portion is raised or cut at once."),
    # --- what is learned from the log ---------------------------------------------------------------------------
    "learn.least_notes": Default(
        3, "notes", 1, 30, "judgement", "Notes of a bin from which its due days rest on what was learned of it."
    ),
    "learn.inherits": Default(
        0.8, "share", 0, 1, "judgement", "How much of what sets a bin apart from its like goes to one split off it."
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
}
