"""The animals: old substrate, lines, counts, growth, losses."""

from __future__ import annotations

from workbook_tools.defaults.default import Default

ANIMALS: dict[str, Default] = {
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
    "sifting.bear_checks": Default(
        20,
        "checks",
        10,
        100,
        "judgement",
        "The most further checks that a keeper is asked for; where more are wanted, the choices are named instead.",
    ),
    "sifting.bear_days": Default(60, "days", 14, 365, "judgement", "The most days that they may take, the same."),
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
    "number.most": Default(
        1_000_000, "count", 10_000, 1_000_000, "judgement", "The highest number of animals that is believed."
    ),
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
    "numbers.hunger": Default(
        0.7, "log", 0.3, 1.5, "judgement", "How far hunger and young may mislead of a number by what is eaten."
    ),
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
    "deaths.window": Default(10, "days", 7, 28, "judgement", "Days over which deaths found are counted together."),
    "deaths.half_life": Default(365, "days", 60, 1095, "judgement", "After so long what was found counts half."),
    "deaths.bunched": Default(
        1.5, "size", 0.2, 10, "judgement", "How deaths bunch within a window, until learned; the higher, the less."
    ),
    "deaths.bunched_error": Default(0.7, "log", 0.3, 1.5, "judgement", "How far that may be off."),
    "deaths.wander": Default(
        0.3, "log", 0.1, 0.6, "judgement", "How far a bin's rate strays with the season, and its number is off."
    ),
    "deaths.alarm": Default(
        0.0002, "chance", 1e-5, 0.01, "judgement", "Finds rarer than this where nothing is wrong are an alarm."
    ),
    "deaths.look": Default(0.003, "chance", 1e-4, 0.05, "judgement", "Finds rarer than this are worth a look."),
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
    "losses.after": Default(14, "days", 3, 30, "judgement", "Deaths so long after an event are seen with it."),
    "losses.before": Default(21, "days", 7, 60, "judgement", "How far before the first dead the log is searched."),
    "losses.batch": Default(60, "days", 14, 180, "judgement", "A batch of leaves or food given so long ago counts."),
    "losses.place": Default(0.3, "log", 0, 1, "judgement", "How far places differ in deaths where nothing is wrong."),
    "losses.luck": Default(0.05, "chance", 0.001, 0.2, "judgement", "Bins losing together are shown below this."),
    "losses.warm": Default(27, "degC", 22, 35, "practice", "A room as warm as this is named where animals die."),
    "losses.cold": Default(8, "degC", 0, 15, "practice", "A room as cold as this is named where animals die."),
    "sights.silent": Default(
        3, "looks", 1, 20, "judgement", "What was seen is let go after so many later looks that say nothing of it."
    ),
    "sights.once": Default(
        1, "looks", 1, 20, "judgement", "The same for film under the lid, which comes and goes with the weather."
    ),
}
