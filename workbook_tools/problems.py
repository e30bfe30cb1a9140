"""Every sentence a keeper may be told about their data, and the records that carry them.

A problem is collected, never raised: each stage returns its result and a list of problems. Wording, severity and
remedy stand together in :data:`KINDS`; code elsewhere gives a code, a cell and facts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from string import Formatter


def column_letters(col: int) -> str:
    """Return the letters of a column counted from 1: 1 is A, 27 is AA.

    Raises
    ------
    ValueError
        ``col`` is below 1.
    """
    if col < 1:
        raise ValueError(f"columns count from 1, not {col}")
    letters = ""
    while col:
        col, rest = divmod(col - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


@dataclass(frozen=True, order=True, slots=True)
class CellRef:
    """Where a value stood. Rows and columns count from 1; 0 means the whole row, column or sheet."""

    sheet: str
    row: int = 0
    col: int = 0

    def __str__(self) -> str:
        place = (column_letters(self.col) if self.col else "") + (str(self.row) if self.row else "")
        return "!".join(part for part in (self.sheet, place) if part)


class Severity(Enum):
    """What a problem did to the reading."""

    STOPS = "nothing could be read"
    DROPS_ROW = "row left out"
    DROPS_CELL = "cell not used"
    KEPT = "used as stated"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of problem: what is wrong, in a sentence with named gaps, and what to do about it."""

    severity: Severity
    says: str
    fix: str

    @property
    def gaps(self) -> frozenset[str]:
        """Names of the facts that ``says`` and ``fix`` need."""
        parts = [*Formatter().parse(self.says), *Formatter().parse(self.fix)]
        return frozenset(name for _, name, _, _ in parts if name)


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in the keeper's data that was left out, guessed or worth a look.

    Raises
    ------
    KeyError
        ``code`` is not in :data:`KINDS`.
    ValueError
        ``facts`` are not exactly those that the kind's sentences name.
    """

    code: str
    where: CellRef
    facts: Mapping[str, object] = field(default_factory=dict)
    value: str = ""
    """What was read there, as the keeper wrote it."""
    also: tuple[CellRef, ...] = ()
    """Further cells with the same problem."""

    def __post_init__(self) -> None:
        gaps = KINDS[self.code].gaps
        if gaps != frozenset(self.facts):
            raise ValueError(f"{self.code} takes the facts {sorted(gaps)}, not {sorted(self.facts)}")

    @property
    def severity(self) -> Severity:
        """What this problem did to the reading."""
        return KINDS[self.code].severity

    @property
    def says(self) -> str:
        """What is wrong, as a sentence."""
        return KINDS[self.code].says.format(**self.facts)

    @property
    def fix(self) -> str:
        """What to write instead, as a sentence."""
        return KINDS[self.code].fix.format(**self.facts)

    @property
    def cells(self) -> tuple[CellRef, ...]:
        """Every cell this problem names, the first first."""
        return (self.where, *self.also)

    def __str__(self) -> str:
        place = f"{self.where}: " if str(self.where) else ""
        return f"{place}{self.says} {self.fix}".rstrip()


def in_cell_order(problems: Iterable[Problem]) -> list[Problem]:
    """Sort problems by the cell they name, then by code."""
    return sorted(problems, key=lambda p: (p.where, p.code, p.value))


def merged(problems: Iterable[Problem]) -> list[Problem]:
    """Make one problem of those that say the same, the first cell first and the others in ``also``; order kept."""
    first: dict[tuple[str, str, str], Problem] = {}
    cells: dict[tuple[str, str, str], dict[CellRef, None]] = {}
    for problem in problems:
        key = (problem.code, problem.says, problem.value)
        first.setdefault(key, problem)
        cells.setdefault(key, {}).update(dict.fromkeys(problem.cells))
    return [replace(first[key], where=places[0], also=tuple(places[1:])) for key in first if (places := [*cells[key]])]


class CannotRead(Exception):
    """Nothing of the file could be read; carries the one problem that says why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


KINDS: dict[str, Kind] = {
    # --- the file -------------------------------------------------------------------------------------------
    "file.own_report": Kind(
        Severity.STOPS, "{path} is a report, not a workbook of bins.", "Name the workbook that you keep your bins in."
    ),
    "file.missing": Kind(Severity.STOPS, "There is no file or folder {path}.", "Check the name and the folder."),
    "file.no_permission": Kind(
        Severity.STOPS, "The file may not be read from this account.", "Copy it to a folder of your own and try again."
    ),
    "file.unreadable": Kind(
        Severity.STOPS, "The file can't be read: {reason}.", "Copy it to a folder on this computer and try again."
    ),
    "file.changing": Kind(
        Severity.STOPS,
        "The file keeps changing while it is read.",
        "Wait until it is saved or synchronised, then try again.",
    ),
    "file.empty": Kind(Severity.STOPS, "The file is empty.", "Check that you saved it, or take a copy from a backup."),
    "file.other_kind": Kind(
        Severity.STOPS,
        "The file holds {what}, not a workbook that can be read.",
        "Give a workbook (.xlsx, .xlsm, .ods or .xls), a .csv file or a folder of .csv files; "
        "a spreadsheet program can save as any of these.",
    ),
    "file.locked": Kind(
        Severity.STOPS,
        "The workbook is locked by a password.",
        "Open it in a spreadsheet program, save a copy without a password, and give that copy.",
    ),
    "file.damaged": Kind(
        Severity.STOPS,
        "The file is damaged or cut short: {reason}.",
        "Open it in a spreadsheet program and save it again, or take a copy from a backup.",
    ),
    "file.unsafe": Kind(
        Severity.STOPS,
        "The file declares a document type of its own, which no spreadsheet program writes and which can do harm.",
        "Open it in a spreadsheet program and save it again under a new name.",
    ),
    "file.too_big": Kind(
        Severity.STOPS,
        "The file is too big: {what} is {size}, and at most {limit} is read.",
        "Move old logs and pictures to another file and save again.",
    ),
    "file.no_tables": Kind(
        Severity.STOPS,
        "The folder holds no .csv file.{found}",
        "Give the workbook itself, or a folder with one .csv file for each sheet.",
    ),
    "file.no_sheets": Kind(
        Severity.STOPS, "The workbook has no sheet with cells.", "Check that this is the workbook you mean."
    ),
    "file.spread": Kind(
        Severity.STOPS,
        "A cell far away from all others, {cell}, makes this old kind of workbook too large to read.",
        "Clear that cell, or save the workbook as .xlsx.",
    ),
    "file.left_out": Kind(
        Severity.DROPS_ROW,
        "The file {name} in the folder was left out. {reason}",
        "Mend it or take it out of the folder.",
    ),
    "sheet.damaged": Kind(
        Severity.DROPS_ROW,
        "The sheet couldn't be read: {reason}.",
        "Open the workbook in a spreadsheet program and save it again.",
    ),
    "sheet.too_large": Kind(
        Severity.DROPS_ROW,
        "The sheet has too many cells: it was read down to row {row}, and what follows was left out.",
        "Delete formulas filled down below your table, or move old entries to another file.",
    ),
    "sheet.not_all_read": Kind(
        Severity.DROPS_CELL,
        "The sheet holds {there} filled cells, but only {read} could be read.",
        "Open the workbook in a spreadsheet program and save it again.",
    ),
    "cell.error": Kind(
        Severity.DROPS_CELL,
        "The cell shows {error} instead of a value.",
        "Mend the formula, or type the value over it.",
    ),
    "cell.not_calculated": Kind(
        Severity.DROPS_CELL,
        "The formula in this cell has never been worked out, so the file holds no value for it.",
        "Open the workbook in a spreadsheet program and save it again.",
    ),
    "cell.old_result": Kind(
        Severity.KEPT,
        "The file asks for its formulas to be worked out again, so the value of this formula may be out of date.",
        "Open the workbook in a spreadsheet program and save it again.",
    ),
    "cell.early_date": Kind(
        Severity.DROPS_CELL,
        "The cell is shown as a date, but the number in it is too small for a date that can be meant.",
        "Show the cell as a number if you typed a number; otherwise type the date again.",
    ),
    "cell.no_date": Kind(
        Severity.DROPS_CELL,
        "The cell is shown as a date, but the number in it is outside all dates.",
        "Show the cell as a number if you typed a number; otherwise type the date again.",
    ),
    "cell.covered": Kind(
        Severity.DROPS_CELL,
        "The cell lies under a merged cell, so its value can't be seen in the sheet.",
        "Unmerge the cells and clear the value, or move it to where it belongs.",
    ),
    "cell.unprintable": Kind(
        Severity.KEPT,
        "The text holds characters that can't be seen or printed; they were left out.",
        "Type the text again.",
    ),
    "csv.encoding": Kind(
        Severity.KEPT,
        "The file isn't in UTF-8; it was read as Windows text (cp1252), so accents may be wrong.",
        "Save it as CSV UTF-8.",
    ),
    "csv.open_quote": Kind(
        Severity.KEPT,
        "A quotation mark opens here and doesn't close at the end of a cell; this line was read without regard to it.",
        'Close the quotation mark, or write two of them ("") for a mark that is part of the text.',
    ),
    # --- sheets and tables ----------------------------------------------------------------------------------
    "sheets.no_table": Kind(
        Severity.DROPS_CELL,
        "No table was found on this sheet, so its {cells} filled cells were not used.",
        "If it is a list of bins or a log, put headings such as 'Bin' and 'Date' over its columns.",
    ),
    "tables.not_used": Kind(
        Severity.DROPS_ROW,
        "The table in {area} has no column that could be taken for bins or dates, so none of it was used.",
        "Give it a heading such as 'Bin' or 'Date'.",
    ),
    "tables.outside": Kind(
        Severity.DROPS_CELL,
        "{cells} on this sheet stand in no table with headings, so they were not used.",
        "If they matter, put them under headings such as 'Bin' and 'Date'.",
    ),
    "tables.none": Kind(
        Severity.STOPS,
        "No list of bins and no log was found. Looked for a row of headings with 'Bin' or 'Date' beside others; "
        "found {found}.",
        "Put headings such as Date, Bin and Done over the columns, or start from the blank workbook: "
        "frassbook new FILE.xlsx.",
    ),
    "tables.title": Kind(
        Severity.KEPT, "A row with a single text was taken for a title.", "Nothing, if that is right."
    ),
    # --- headings -------------------------------------------------------------------------------------------
    "headings.unknown": Kind(
        Severity.DROPS_CELL,
        "The heading '{heading}' is not known, so the {cells} filled cells below it were not used.",
        "Give the column a heading of the list in docs/columns.md, or leave it if it doesn't matter.",
    ),
    "headings.guessed": Kind(
        Severity.KEPT,
        "The heading '{heading}' was taken for '{field}'.",
        "Nothing, if that is right; otherwise change the heading.",
    ),
    "headings.missing": Kind(
        Severity.DROPS_CELL,
        "This column has no heading, so the {cells} filled cells in it were not used.",
        "Write a heading above it.",
    ),
    # --- dates ----------------------------------------------------------------------------------------------
    "dates.carried": Kind(
        Severity.KEPT,
        "There is no date here; that of the row above was taken.",
        "Nothing, if that is right; otherwise write the date.",
    ),
    "dates.not_a_time": Kind(Severity.DROPS_CELL, "This is no time of day, so it was not used.", "Write it as 18:30."),
    "dates.not_understood": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as a date.",
        "Write a day such as 2025-03-14 or 14 March 2025; a month or a year will do.",
    ),
    "dates.impossible": Kind(
        Severity.DROPS_CELL, "'{value}' is no day of the calendar.", "Write the day that was meant."
    ),
    "dates.relative": Kind(
        Severity.DROPS_CELL,
        "'{value}' counts from the day it was typed, which the file doesn't tell.",
        "Write the date itself.",
    ),
    "dates.wrong_kind": Kind(
        Severity.DROPS_CELL, "'{value}' is a time of day or a yes or no, not a date.", "Write the date."
    ),
    "dates.too_old": Kind(
        Severity.DROPS_CELL,
        "'{value}' lies too far back to be believed.",
        "Write the year with four digits; if the cell shows another date, the file's date system is at fault.",
    ),
    "dates.too_far": Kind(
        Severity.DROPS_CELL,
        "'{value}' lies too far ahead to be believed.",
        "Write the year with four digits; if the cell shows another date, the file's date system is at fault.",
    ),
    "dates.other_order": Kind(
        Severity.KEPT,
        "'{value}' was read as {order}, that is {day}, although dates in this file are otherwise {usual}.",
        "Write the month as a word, or the date as year-month-day.",
    ),
    "dates.month_year": Kind(
        Severity.KEPT,
        "'{value}' was taken as a month and a year, {month}, because it is no day and month.",
        "Write the month as a word.",
    ),
    "dates.serial": Kind(
        Severity.KEPT,
        "The plain number {value} was taken as a date's day count, that is {day}.",
        "Give the cell a date format, or write the date.",
    ),
    "dates.number_as_day": Kind(
        Severity.KEPT,
        "The plain number {value} was taken as a day and a month, {day}; a last 0 of the month may be lost.",
        "Give the column a date format and write the date again.",
    ),
    "dates.age": Kind(
        Severity.KEPT,
        "'{value}' counts from a day that is not written; it was counted from {start}.",
        "Write the date, or the month, instead of how long ago it was.",
    ),
    "dates.weekday": Kind(
        Severity.KEPT,
        "'{value}' says {said}, but {day} is a {real}; the date was used.",
        "Correct the weekday or the date.",
    ),
    "dates.more_words": Kind(
        Severity.KEPT,
        "'{value}' holds more than a date; {day} was taken.",
        "Put the other words in a column of their own.",
    ),
    "dates.order_open": Kind(
        Severity.KEPT,
        "Nothing shows whether this file's dates are day-month or month-day; they were read as {order}, so that "
        "{value} is {day}.",
        "Say the day-month order on a Settings sheet, or write the month as a word.",
    ),
    "dates.order_mixed": Kind(
        Severity.KEPT,
        "Dates in this file are written in both orders; what fits both was read as {order}, as most of them are.",
        "Write dates in one order; the cells named are the odd ones.",
    ),
    "dates.swapped": Kind(
        Severity.KEPT,
        "Beside {count} dates kept as text whose day is above 12, every real date here has a day of 12 or less: the "
        "program may have swapped day and month of these when they were typed.",
        "Compare a few of them with what you know; if they are swapped, write them again as year-month-day.",
    ),
    # --- numbers and amounts --------------------------------------------------------------------------------
    "numbers.not_a_number": Kind(
        Severity.DROPS_CELL, "'{value}' could not be read as a number.", "Write a number; ~50, 30+ and 40-60 will do."
    ),
    "numbers.date_there": Kind(
        Severity.DROPS_CELL,
        "A date stands where a number belongs; the program may have made it of something like 10-14 or 1/3.",
        "Set the cell's format to text and write it again.",
    ),
    "numbers.separator_open": Kind(
        Severity.KEPT,
        "'{value}' was read as {number}; nothing in the file shows whether its mark splits off thousands or decimals.",
        "Write it without a mark for thousands.",
    ),
    "numbers.decimal_mixed": Kind(
        Severity.KEPT,
        "Both a comma and a point are used as the decimal mark in this file.",
        "Nothing, as long as no number has a mark for thousands; otherwise use one decimal mark.",
    ),
    "numbers.range_backwards": Kind(
        Severity.KEPT, "The range '{value}' runs backwards and was turned round.", "Write the lower number first."
    ),
    "numbers.ratio": Kind(
        Severity.DROPS_CELL,
        "'{value}' is a ratio or a date, not a number.",
        "Write the number; put the other one in a column of its own.",
    ),
    "numbers.parts_differ": Kind(
        Severity.KEPT,
        "'{value}' gives parts that don't add up to the number; {number} was used.",
        "Correct the number or its parts.",
    ),
    "numbers.several": Kind(
        Severity.KEPT,
        "'{value}' holds several numbers; {number} was used.",
        "Write one number, and the others in columns of their own.",
    ),
    "amounts.unit_unknown": Kind(
        Severity.DROPS_CELL,
        "The unit '{unit}' in '{value}' is not known.",
        "Write a usual unit, such as ml, g, L, qt or cm.",
    ),
    "amounts.wrong_unit": Kind(
        Severity.DROPS_CELL,
        "'{value}' is measured in {unit}, which can't be turned into {usual}.",
        "Write it in {usual}.",
    ),
    "amounts.unit_assumed": Kind(
        Severity.KEPT,
        "'{value}' was taken as {taken}.",
        "Write the unit in full, if that is wrong.",
    ),
    "amounts.no_height": Kind(
        Severity.DROPS_CELL, "'{value}' has no height, so it gives no volume.", "Write length x width x height."
    ),
    "amounts.not_understood": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as an amount.",
        "Write a number and its unit, such as 40 ml or 2 g; ~50 ml and a handful will do.",
    ),
    "amounts.more_there": Kind(
        Severity.KEPT,
        "'{value}' holds more than one amount; only {taken} was used.",
        "Write one amount a cell.",
    ),
    "amounts.not_a_share": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as a share.",
        "Write 1/3, half, 75 % or all.",
    ),
    # --- words ----------------------------------------------------------------------------------------------
    "words.unknown": Kind(
        Severity.KEPT,
        "The word '{word}' under '{field}' is not known. The row was kept, without it.",
        "Write a word of the list in docs/columns.md, or say what yours means on a Settings sheet under "
        "'Word' and 'Means'.",
    ),
    "words.guessed": Kind(
        Severity.KEPT,
        "'{word}' was taken for '{means}'.",
        "Nothing, if that is right; otherwise say what it means on a Settings sheet under 'Word' and 'Means'.",
    ),
    "words.number_for_state": Kind(
        Severity.DROPS_CELL,
        "A number stands under '{field}', where a word is needed; its scale is not known.",
        "Write a word, or a percentage with its % sign.",
    ),
    "values.ditto_alone": Kind(
        Severity.DROPS_CELL, "A ditto mark stands here, but there is nothing above it.", "Write the value out."
    ),
    "values.nothing_told": Kind(
        Severity.KEPT,
        "This was taken to mean that nothing is known for '{field}'.",
        "Nothing, if that is right; otherwise write what is known, or leave the cell empty.",
    ),
    # --- bins -----------------------------------------------------------------------------------------------
    "bins.no_name": Kind(
        Severity.DROPS_ROW, "This row of the list of bins has no name, so it was left out.", "Write a name for the bin."
    ),
    "bins.two_in_row": Kind(
        Severity.KEPT,
        "This row was read as the bins {bins}, each with the same facts.",
        "Give each bin a row of its own, if they differ.",
    ),
    "bins.twice": Kind(
        Severity.KEPT,
        "The bin {bin} stands on two rows of this list, first in {first}; they were read as one bin.",
        "Keep one row for each bin, or give the second another name.",
    ),
    "bins.differ": Kind(
        Severity.KEPT,
        "For the bin {bin}, '{heading}' stands twice and differs: '{other}' in {cell} was used.",
        "Make the two the same, or clear the wrong one.",
    ),
    "bins.no_list": Kind(
        Severity.KEPT,
        "There is no list of bins, so the {count} bins are those that the log names.",
        "Add a sheet with a row for each bin, if you want species, place and start in the report.",
    ),
    "bins.unlisted": Kind(
        Severity.KEPT,
        "The log names the bin {bin}, which no list of bins has.{hint}",
        "Add it to the list of bins, or write the name as it stands there.",
    ),
    "bins.alike": Kind(
        Severity.KEPT,
        "This was taken for the bin {bins}.",
        "Write the name as it stands in the list of bins, to be sure.",
    ),
    "bins.alike_many": Kind(
        Severity.KEPT,
        "{count} spellings of bins differ from the list only in capitals, blanks, dashes or leading zeros (such as "
        "{examples}); each was taken for the bin that it is alike.",
        "Nothing, if that is right; names written as in the list are sure.",
    ),
    "bins.rivals": Kind(
        Severity.DROPS_ROW,
        "This could mean {bins}, so the row was left out.",
        "Write the name as it stands in the list of bins.",
    ),
    "bins.group_unknown": Kind(
        Severity.DROPS_ROW,
        "It can't be told which bins this means, so the row was left out.",
        "Write the bins by name, or the place as it stands in the list of bins.",
    ),
    # --- settings -------------------------------------------------------------------------------------------
    "settings.unknown": Kind(
        Severity.DROPS_CELL,
        "'{setting}' is no setting that is known, so it was not used.",
        "The settings are listed in docs/columns.md.",
    ),
    "settings.value": Kind(
        Severity.DROPS_CELL, "This is not a value for '{setting}', so it was not used.", "Write {kind}."
    ),
    "settings.range": Kind(
        Severity.DROPS_CELL,
        "The value for '{setting}' is out of range, so it was not used.",
        "Write a value from {low} to {high} {unit}.",
    ),
    "settings.word_alone": Kind(
        Severity.DROPS_CELL, "The word '{word}' has no meaning beside it.", "Write what it means under 'Means'."
    ),
    "settings.word_unplaced": Kind(
        Severity.DROPS_CELL,
        "The meaning given for the word '{word}' is not known, so the word was not used.",
        "Write one of our own words as its meaning; they are listed in docs/columns.md.",
    ),
    "settings.region": Kind(
        Severity.KEPT,
        "This is not a language and country we know; dates and numbers are shown as in {used}.",
        "Write a language and country such as en-GB, en-US or de-DE.",
    ),
    "settings.for_nothing": Kind(
        Severity.KEPT,
        "'{setting}' is set for '{scope}', which is no bin, species or line in the list of bins.",
        "Write the bin, species or line as it stands in the list of bins.",
    ),
    # --- rows of the log ------------------------------------------------------------------------------------
    "log.no_date": Kind(
        Severity.DROPS_ROW, "This row has no date that can be read, so it was left out.", "Write the day it was done."
    ),
    "log.no_bin": Kind(
        Severity.DROPS_ROW, "This row names no bin, so it was left out.", "Write the bin or bins it was done to."
    ),
    "log.count_no_number": Kind(
        Severity.KEPT,
        "A count is logged without a number, so it was taken for a look at the bin.",
        "Write the number counted; ~50, 30+ and 40-60 will do.",
    ),
    "log.number_of_which": Kind(
        Severity.KEPT,
        "The number could belong to more than one thing done; it was taken for '{act}' and not for {others}.",
        "Write a row for each, if that is wrong.",
    ),
    "log.amount_of_which": Kind(
        Severity.KEPT,
        "The amount could belong to more than one thing done; it was taken for '{act}' and not for {others}.",
        "Write a row for each, if that is wrong.",
    ),
    "log.amount_unit": Kind(
        Severity.KEPT,
        "An amount in this unit is unusual for '{act}', the only thing done that can have one.",
        "Check the unit.",
    ),
    "log.amount_of_nothing": Kind(
        Severity.KEPT,
        "An amount stands here, but nothing in the row says what it is the amount of; it was kept and not used.",
        "Write what was done: water, feed, leaves.",
    ),
    # --- the plan -------------------------------------------------------------------------------------------
    "plan.never_logged": Kind(
        Severity.KEPT,
        "Nothing in the workbook records {tasks} for any bin, so no tasks for that are listed.",
        "Log it once for any bin, or set how often in the settings, and it will be listed.",
    ),
    # --- the ledger's checks --------------------------------------------------------------------------------
    "ledger.future": Kind(
        Severity.KEPT,
        "This is after {on}, the day of the report, so it is not used for what is due.",
        "Check the date, the year most of all.",
    ),
    "ledger.before_start": Kind(
        Severity.KEPT,
        "This is before the bin {bin} began ('{started}' in {cell}).",
        "Check both dates; a bin's name should not be used again for another colony.",
    ),
    "ledger.after_end": Kind(
        Severity.KEPT,
        "This is after the bin {bin} was closed on {day}.",
        "Check both dates and the bin; log that it was set up again, if it was.",
    ),
    "ledger.status_differs": Kind(
        Severity.KEPT,
        "The list says that the bin {bin} is '{listed}', but the log in {cell} makes it '{logged}', which was used.",
        "Change the status in the list.",
    ),
    "ledger.start_differs": Kind(
        Severity.KEPT,
        "The log says that the bin {bin} was set up on this day, but '{listed}' in {cell} was used.",
        "Make the two the same.",
    ),
    "ledger.same_row_twice": Kind(
        Severity.KEPT,
        "This row says the same as {first}; both were used.",
        "Clear one of them, if it was done only once.",
    ),
    "ledger.far_out": Kind(
        Severity.KEPT,
        "{read} {unit} is far from what is usual for '{kind}' ({low} to {high} {unit}); it was used as it stands.",
        "Check the number and its unit.",
    ),
    "ledger.too_many_out": Kind(
        Severity.KEPT,
        "{number} is more than can have been in the bin {bin} by all that is logged of it ({most} at most).",
        "Check the number and the bin, or log the count or the animals that are missing before it.",
    ),
    "ledger.weekday_differs": Kind(
        Severity.KEPT,
        "The date of this row, {date}, is a {weekday}.",
        "Check the date; it was used as it stands.",
    ),
}
