"""What a keeper may be told about the file, its sheets and its cells."""

from workbook_tools.problems.kinds import Kind, Severity

FILES: dict[str, Kind] = {
    # --- the file ---
    "file.own_report": Kind(
        Severity.STOPS, "{path} is a report, not a workbook of bins.", "Name the workbook that you keep your bins in."
    ),
    "file.own_reading": Kind(
        Severity.STOPS,
        "{path} is a reading workbook, which corrects how another workbook is read.",
        "Name the workbook that you keep your bins in; corrections beside it are found by themselves.",
    ),
    "file.own_export": Kind(
        Severity.STOPS,
        "{name} was written by frassbook export, so it is no workbook of bins.",
        "Name the workbook that you keep your bins in, and keep exports in a folder of their own.",
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
    # --- sheets and tables ---
    "sheets.no_table": Kind(
        Severity.DROPS_CELL,
        "No table was found on this sheet, so its {cells} filled cells were not used.",
        "If it is a list of bins or a log, put headings such as 'Bin' and 'Date' over its columns.",
    ),
    "tables.not_used": Kind(
        Severity.DROPS_ROW,
        "The table in {area} has no column that could be taken for {missing}, so none of it was used.",
        "Give it a heading such as 'Bin' or 'Date'.",
    ),
    "tables.outside": Kind(
        Severity.DROPS_CELL,
        "{cells} on this sheet stand in no table with headings, so they were not used.",
        "If they matter, put them under headings such as 'Bin' and 'Date'.",
    ),
    "tables.none": Kind(
        Severity.STOPS,
        "No list of bins and no log was found. Looked for a row of English headings, one of them for the bins, such as "
        "'Bin', 'Box' or 'Name', or for the date, and one more that is known; found {found}.",
        "Put headings such as Date, Bin and Done over the columns (docs/columns.md lists those known), or start from "
        "the blank workbook: frassbook new FILE.xlsx.",
    ),
    "tables.title": Kind(
        Severity.DROPS_CELL,
        "A row with a single text was taken for a title, so it is no bin and no entry.",
        "Nothing, if that is right; if it is a bin, write something beside its name.",
    ),
    "tables.totals": Kind(
        Severity.KEPT,
        "This row was taken for totals.",
        "Nothing, if that is right; a bin needs another name than 'total' or 'sum'.",
    ),
    # --- shapes ---
    "shapes.near_tie": Kind(
        Severity.KEPT,
        "The sheet was read as {shape}, but it may as well be {other}.",
        "Compare what was read with the sheet; if it is wrong, put headings such as 'Date', 'Bin' and 'Done' over "
        "plain columns.",
    ),
    "shapes.named_by_sheet": Kind(
        Severity.KEPT,
        "No bin is named on this sheet, so all of it was taken for the bin {bin}, after the sheet's name.",
        "Nothing, if that is right; otherwise write 'Bin:' and its name above the log, or add a column of bins.",
    ),
    "shapes.other_name": Kind(
        Severity.KEPT,
        "The card names the bin {bin}, but the sheet is called '{sheet}'; the card was followed.",
        "Correct the one that is wrong.",
    ),
    "shapes.same_on_most": Kind(
        Severity.KEPT,
        "'{label}' says the same on most sheets, so it names no bin; it was kept as a note of {bin}.",
        "Nothing, if that is right; otherwise give every bin a name of its own there.",
    ),
    "grid.days_turn": Kind(
        Severity.KEPT,
        "The days over this grid run back at '{value}'.",
        "Check the date; write the month wherever days don't run on.",
    ),
    "grid.months_taken": Kind(
        Severity.KEPT,
        "The headings of this grid, such as '{value}', may be a day or a year beside the month; they were taken for "
        "{month} and so on.",
        "Nothing, if that is right; otherwise write days before the month, such as '24 Nov'.",
    ),
    "grid.month_open": Kind(
        Severity.KEPT,
        "The months of these bare days hang on whether day or month comes first, which nothing in the file decides: "
        "with {order} this one is {day}.",
        "Write one date so that it can be nothing else, or write 'Dates are' and 'day-month' on your settings sheet.",
    ),
    "grid.key_twice": Kind(
        Severity.DROPS_CELL,
        "The code '{code}' is explained twice, as '{one}' and as '{other}', so it was not used.",
        "Leave one of the two in the key.",
    ),
    "grid.key_guessed": Kind(
        Severity.KEPT,
        "The key says that '{code}' is '{words}', which was taken for '{means}'.",
        "Nothing, if that is right; otherwise name what is done in the key, such as '{code} = look at substrate'.",
    ),
    "grid.code_open": Kind(
        Severity.DROPS_CELL,
        "Nothing on the sheet says what the code '{code}' means: {may}.",
        "Explain it in a line on the sheet, such as '{code} = water', or under the headings Word and Means on your "
        "settings sheet.",
    ),
    "grid.code_guessed": Kind(
        Severity.KEPT,
        "Nothing on the sheet says what the code '{code}' means; it was taken for '{act}'.",
        "Nothing, if that is right; otherwise explain it in a line on the sheet, such as '{code} = look'.",
    ),
    "grid.number_alone": Kind(
        Severity.DROPS_CELL,
        "A number stands alone in a grid, and nothing says what was counted or given.",
        "Write a code with it, such as 'C41' for a count, or name the work in the title, such as 'Counts'.",
    ),
    "grid.tick_alone": Kind(
        Severity.DROPS_CELL,
        "A tick stands alone in a grid, and nothing says what was done.",
        "Write a code for what was done, or name the work in the title, such as 'Watering'.",
    ),
    "grid.mark": Kind(
        Severity.KEPT,
        "Nothing says what the mark '{mark}' beside a code means; the code was taken as it stands.",
        "If it matters, explain it in the notes of its row, such as '{mark} too much'.",
    ),
    "grid.twice": Kind(
        Severity.KEPT,
        "The code '{code}' stands twice in one cell; it was read once.",
        "Nothing, if that is right; otherwise write an amount beside the code.",
    ),
    "grid.away_but_done": Kind(
        Severity.KEPT,
        "The note '{value}' holds for all bins that day, but {cell} says that something was done. Both were kept.",
        "Check which of the two stands under the right day.",
    ),
    "grid.no_bin": Kind(
        Severity.DROPS_CELL,
        "Codes stand in a row without a bin, so they were not used.",
        "Write the bin before them.",
    ),
    "grid.fact_differs": Kind(
        Severity.DROPS_CELL,
        "Under '{heading}' this block says something else of the bin than {cell}, '{other}'; the first was used.",
        "Write the same in both, or leave one empty.",
    ),
    # --- corrections ---
    "corrections.no_choice": Kind(
        Severity.KEPT,
        "'{value}' is no choice for {about}, so it was read without that correction.",
        "Take one of those that the drop-down of the cell offers.",
    ),
    "corrections.stale": Kind(
        Severity.KEPT,
        "Your correction of {about} to '{value}' fits nothing in the workbook now.",
        "Nothing, if it is gone for good: empty the cell. If it has another name now, correct that one instead.",
    ),
    "corrections.not_possible": Kind(
        Severity.KEPT,
        "Your correction of {about} to '{value}' can't be followed: {why}.",
        "Choose something else there, or correct what the whole table is first.",
    ),
    "corrections.unreadable": Kind(
        Severity.KEPT,
        "{path} could not be read, so nothing in it was taken into account: {reason}",
        "Save it again in a spreadsheet program, or move it away.",
    ),
    "corrections.other_file": Kind(
        Severity.KEPT,
        "{path} is no reading workbook of ours, so nothing in it was taken into account.",
        "Name the reading workbook with --reading, or give the file another name.",
    ),
    # --- headings ---
    "headings.unknown": Kind(
        Severity.DROPS_CELL,
        "The heading '{heading}' is not known, so the {cells} filled cells below it were not used.",
        "Say what it is in the reading workbook that check writes, or leave it if it doesn't matter.",
    ),
    "headings.taken": Kind(
        Severity.DROPS_CELL,
        "The heading '{heading}' means '{field}', which the column '{other}' gives already, so the {cells} filled "
        "cells below it were not used.",
        "Give one of the two another heading, or clear the one that isn't needed.",
    ),
    "headings.one_question": Kind(
        Severity.KEPT,
        "The heading '{heading}' means '{field}', as '{other}' does; no row fills both, so the two were read as one.",
        "Nothing, if that is right; otherwise give one of the two another heading.",
    ),
    "headings.ticks": Kind(
        Severity.KEPT,
        "'{heading}' holds only 1 and 0, which were taken for done and not done, not for amounts.",
        "Nothing, if that is right; otherwise write the unit into the heading, such as 'Water (ml)'.",
    ),
    "headings.guessed": Kind(
        Severity.KEPT,
        "The heading '{heading}' was taken for '{field}'.",
        "Nothing, if that is right; otherwise say what it is in the reading workbook that check writes.",
    ),
    "headings.missing": Kind(
        Severity.DROPS_CELL,
        "This column has no heading, so the {cells} filled cells in it were not used.",
        "Write a heading above it.",
    ),
}
