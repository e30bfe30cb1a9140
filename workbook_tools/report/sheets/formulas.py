"""How each estimate comes about, for the sheet Methods & sources: in words, as a formula, when it misleads, whence."""

from __future__ import annotations

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.eating import CRUMBS, GONE_FROM, MOST_UP_TO, SHARING, worth
from workbook_tools.estimate.vapour import USUAL

WORDS, FORMULA, MISLEADS, SOURCE = "in words", "formula", "misleads when", "source"
_JUDGED = "The form is a choice of this program; its numbers are listed below, each with its source."


def learning() -> tuple[tuple[str, str], ...]:
    """Pairs of what it is and what is said of it, four to an estimate."""
    return tuple((f"{name}: {part}", said) for name, parts in _ESTIMATES.items() for part, said in parts.items())


def _value(key: str) -> str:
    return f"{DEFAULTS[key].value:g}"


_ESTIMATES: dict[str, dict[str, str]] = {
    "All estimates": {
        WORDS: (
            "Each begins with what is common practice, as a starting guess. Like bins lean on one another: those of "
            "one species and appetite, for moss those aired alike; numbers only by what is eaten. The more notes a bin "
            "has, the less it leans. A bin split off another begins with what was learned of that one (food, litter, "
            f"substrate): {_value('learn.inherits')} of what sets it apart, with more doubt. What you saw is taken as "
            "what it is: damp on day 4 means that it was not dry by "
            "then, gone means that at least that much was eaten. Old "
            f"notes count less. From {_value('learn.least_notes')} notes of a bin on, its due days rest on them."
        ),
        FORMULA: (
            "chance of a rate, given the notes = chance of the rate among like bins x product over the notes of the "
            "chance of what was noted, each to the power 0.5^(age / half-life); From, To and the middle are the values "
            "that 10, 90 and 50 % of it lie below."
        ),
        MISLEADS: (
            "a bin changes in a way that no note tells, or many notes are wrong the same way. An interval holds the "
            "truth four times in five over many bins, not for each. frassbook backtest shows how it did on your log."
        ),
        SOURCE: (
            "Notes that only bound a value, and rates that differ from bin to bin about a common mean, are textbook "
            "statistics. The program is checked against printed examples of such data."
        ),
    },
    "Moss corner": {
        WORDS: (
            "Every look since a watering bounds the time to dry. Drying and damp bound it from both sides: damp moss "
            "has some way to go, but not for ever. With readings of the room a day counts by how thirsty its air is. "
            "The next look is the last day on which it is dry already no more often than your risk allows."
        ),
        FORMULA: (
            "ln(days to dry) is normal about the bin's own mean. A day counts vapour pressure deficit / "
            f"{USUAL:g} kPa; deficit = 0.6108 exp(17.27 T / (T + 237.3)) x (1 - humidity / 100)."
        ),
        MISLEADS: "waterings go unlogged, readings come from another room, or, without readings, the heating comes on.",
        SOURCE: "Deficit: FAO Irrigation and Drainage Paper 56, equation 11. " + _JUDGED,
    },
    "Food": {
        WORDS: (
            "Each look at leftovers bounds what was eaten. It is set against the number of animals then, and scaled to "
            "today's. What moves all your bins at once, such as a cold week, is learned from all of them together, "
            "within days. The next portion is gone by the next day four times in five, and never more than twice nor "
            "less than half the last one."
        ),
        FORMULA: (
            f"grams a day = rate x swing of all bins x (animals / 100)^{SHARING:g}; portion = what is eaten at least, "
            f"four days in five / {worth(GONE_FROM):.3g}. Gone: above {GONE_FROM:.0%} was eaten; some left: "
            f"{MOST_UP_TO:.0%} to {GONE_FROM:.0%}; most left: below {MOST_UP_TO:.0%}. The last of a dish is found "
            f"slowly: what is left falls as (1 - {CRUMBS:g} x) ^ (1 / {CRUMBS:g})."
        ),
        MISLEADS: (
            "food dries up, is carried under the bark, or is eaten by mites or springtails; or all bins were given "
            "another food by the same name."
        ),
        SOURCE: _JUDGED,
    },
    "Leaf litter": {
        WORDS: (
            "What you gave, less what was eaten and what rotted, is what is left; looks correct it. Fresh litter "
            "settles. Use follows the number of animals, falls off as litter gets scarce, and may wander slowly. A "
            "top-up without a word on what was left says that it was less than a good half; a last visit without a "
            "top-up, that the bin wasn't bare. What a full layer holds is weighed from the floor and your top-ups."
        ),
        FORMULA: (
            f"use a day = rate x (animals / 100)^{_value('litter.power')} x left / (left + "
            f"{_value('litter.scarce')} full layer), and {_value('litter.rot')} of it a year rots. Run out: below "
            f"{_value('litter.out')} of a full layer. Grams = litres x {_value('leaf.grams')}."
        ),
        MISLEADS: (
            "top-ups go unwritten, or you top up only when the floor is bare, or long before: written levels (none, "
            "little, half, plenty) mend that."
        ),
        SOURCE: _JUDGED,
    },
    "Substrate": {
        WORDS: (
            "The share that can still be recognised falls as animals eat; a change of a part renews that part. A bin "
            "split off another is taken to hold some of its old substrate, unless you wrote that it is fresh. Looks, "
            "and a depth that sinks, correct it. With room readings, a warm season counts more than a cold one. Renew "
            "is the smallest part which, renewed now, lasts as long as you want nine times in ten."
        ),
        FORMULA: (
            f"share after a change = share x (1 - part) + {_value('substrate.fresh')} x part; eaten a day = rate x "
            f"(animals / 100)^{_value('substrate.power')}, less as it gets scarce; times 2^((room - "
            f"{_value('substrate.warmth')}) / 10) by the room's temperature. Spent: {_value('substrate.spent')}."
        ),
        MISLEADS: "much of it is filler that never turns to frass, or changes go unwritten.",
        SOURCE: _JUDGED,
    },
    "Numbers": {
        WORDS: (
            "Animals that came, left or were found dead are added up. What leaves a bin for another arrives there, "
            "once, whichever of the two it is written in. Each count is set against the share that its way "
            "of counting sees, which is known only roughly. What a bin eats tells a little too: one that eats more "
            "than its like do for their number is thought to hold more. Growth changes slowly, and fades as the number "
            "nears what the bin can hold, where you gave a crowding number. Marked animals caught again, and finds "
            "that fall from pass to pass, are worked out to a number first, with its error. No chance of growing is "
            "stated: that has "
            "not been shown to be foreseen better than by chance."
        ),
        FORMULA: (
            "number = count / share seen (hide lift "
            f"{_value('seen.lift')}, all hides {_value('seen.hides')}, trap {_value('seen.trap')}, hand sort "
            f"{_value('seen.sort')}, sieve {_value('seen.sieve')}, by marks {_value('seen.marks')}, "
            f"by passes {_value('seen.passes')}). By marks, one catch: (marked + 1)(caught + 1) / (with mark + 1) - 1; "
            "several: sum of caught x marked / (sum of those with mark + 1); marked is what is still there, less "
            f"days / {_value('marks.moult')} of it for moults. By passes: found + left, as on sheet Sifting. "
            "ln(number) grows by growth / 30.4 a day, less usual growth x number / room. Sums over bins: the mean and "
            "the variance of the bins added."
        ),
        MISLEADS: (
            "animals come and go unlogged, or a way of counting sees far more or less than usual in all your bins: "
            "then all are off together. A bin of few animals shows nothing for months and then grows by broods."
        ),
        SOURCE: _JUDGED,
    },
    "Sifting": {
        WORDS: (
            "Animals differ in how easily they are found, so those left are harder to find than those found. How much "
            "they differ can't be told from a few passes: several degrees of it are weighed. Checks of a trap go on "
            "from there. What is left is a likely lower bound, and never a clearance."
        ),
        FORMULA: (
            "chance to be found in a pass, over animals = beta(mean, spread); left = weighed over means and spreads; "
            "number beforehand as 1 / (number + 1). A trap has a mean and a spread of its own."
        ),
        MISLEADS: (
            "passes were unlike in care, animals can't be found at all (young, in moult), or finds don't fall: then "
            "there is no upper limit. The silence of a trap that never caught anything proves little."
        ),
        SOURCE: _JUDGED,
    },
    "Losses": {
        WORDS: (
            "Deaths found in a bin over some days are set against what is usual there: its own rate before that time, "
            "for its animals and the days since each look. A bin with few finds has the rate of the others. How deaths "
            "bunch is learned from all bins. An alarm is a number that is rare where nothing is wrong. Bins "
            "that share a place, a source, a batch you wrote down or a house event are also judged together, without "
            "the one that lost the most."
        ),
        FORMULA: (
            "usual = rate x animals / 100 x days since the look before, at most "
            f"{_value('deaths.lie')}, over {_value('deaths.window')} days; chance of so many or more by a negative "
            "binomial, 1 / size = 1 / finds known + 1 / bunching + "
            f"{_value('deaths.wander')}^2, times the looks with a find that are expected; alarm below "
            f"{_value('deaths.alarm')}, worth a look below {_value('deaths.look')}. Rates: exact limits of a Poisson "
            "mean."
        ),
        MISLEADS: (
            "deaths rise slowly, the dead are eaten or not written down, numbers are far off (of bins that grow "
            "uncounted, most alarms are false), or the log has only begun. Places differ anyway: bins losing together "
            "are a hint, never a cause."
        ),
        SOURCE: "Limits: Garwood (1936). The rates of false alarms were measured on simulated bins. " + _JUDGED,
    },
    "Variation of a line": {
        WORDS: (
            "A line of few animals loses variation by chance in every generation, most while it is small. Numbers over "
            "time of all its bins together say how much; founders are the first parents. Which variant is lost, and "
            "whether it matters, isn't known."
        ),
        FORMULA: (
            "kept = product over generations of (1 - 1 / (2 Ne)), Ne = "
            f"{_value('line.breeders')} x animals at the start of each, but a pair whole; a generation lasts "
            f"{_value('line.generation.slow')}, {_value('line.generation.medium')} or "
            f"{_value('line.generation.hearty')} months (slow, medium, hearty eaters)."
        ),
        MISLEADS: (
            "the line was small before its first bin here, bins of it never exchange animals, few fathers sire most "
            "young, or animals came in from outside, which brings variation back."
        ),
        SOURCE: "The loss by 1 / (2 Ne) is textbook population genetics (Wright 1931). " + _JUDGED,
    },
}
