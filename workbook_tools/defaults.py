"""Every number that isn't taken from the workbook: value, unit, range and source.

A keeper's own setting overrides a default, and the report shows which was used. ``source`` is a key of
``docs/sources.md``; ``practice`` means common practice, no source, and ``judgement`` a choice of this project.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Default:
    """One number with where it comes from.

    ``low`` and ``high`` bound what a keeper may set instead, or, for a quantity of the trade, its plausible range.
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
    "share.side": Default(0.5, "share", 0.35, 0.65, "judgement", "One side or one end of a bin."),
    "share.most": Default(0.75, "share", 0.6, 0.95, "judgement", "Most of it."),
    "share.some": Default(0.25, "share", 0.1, 0.45, "judgement", "Some of it, a part."),
    # --- reading dates ---------------------------------------------------------------------------------------------
    "date.first_year": Default(1971, "year", 1900, 2020, "judgement", "Dates before this year are not believed."),
    "date.years_ahead": Default(10, "years", 0, 50, "judgement", "Dates further ahead than this are not believed."),
    "date.serial_from": Default(2000, "year", 1971, 2020, "judgement", "First year for a day count typed as a number."),
    "date.longer_than": Default(3, "times", 1, 10, "judgement", "How far back >1 wk may reach, in times one week."),
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
