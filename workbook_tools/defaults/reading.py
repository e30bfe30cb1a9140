"""How a workbook is read and what is shown of it."""

from __future__ import annotations

from workbook_tools.defaults.default import Default

READING: dict[str, Default] = {
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
