"""What a keeper may be told about dates, numbers, amounts and words."""

from workbook_tools.problems.kinds import Kind, Severity

VALUES: dict[str, Kind] = {
    # --- dates ---
    "dates.carried": Kind(
        Severity.KEPT,
        "There is no date here; that of the row above was taken.",
        "Nothing, if that is right; otherwise write the date.",
    ),
    "dates.alone": Kind(
        Severity.KEPT,
        "This date stands alone in its row, so it was taken for the rows below that have none: {day}.",
        "Nothing, if that is right; otherwise write a date into each row.",
    ),
    "dates.score_or_day": Kind(
        Severity.DROPS_CELL,
        "This may be a day or so many out of ten, since other cells of the column say what was seen.",
        "Write the day in full, such as 6 October 2024, or how it was found in words.",
    ),
    "dates.not_a_time": Kind(Severity.DROPS_CELL, "This is no time of day, so it was not used.", "Write it as 18:30."),
    "dates.not_understood": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as a date.",
        "Write a day such as 2025-03-14 or 14 March 2025; a month or a year will do.",
        "{count} cells of this column could not be read as dates, such as {examples}.",
    ),
    "dates.impossible": Kind(
        Severity.DROPS_CELL,
        "'{value}' is no day of the calendar.",
        "Write the day that was meant.",
        "{count} dates of this column are no days of the calendar, such as {examples}.",
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
        "'{value}' was taken as a month and a year, {month}.",
        "Write the month as a word.",
        "{count} cells of this column were taken as a month and a year, such as {examples}.",
    ),
    "dates.serial": Kind(
        Severity.KEPT,
        "The plain number {value} was taken as a date's day count, that is {day}.",
        "Give the cell a date format, or write the date.",
        "{count} plain numbers of this column were taken as dates' day counts, such as {examples}.",
        "{value} for {day}",
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
        "{count} cells of this column count from a day that is not written, such as {examples}; the day of the "
        "report was taken.",
    ),
    "dates.weekday": Kind(
        Severity.KEPT,
        "'{value}' says {said}, but {day} is a {real}; the date was used.",
        "Correct the weekday or the date.",
    ),
    "dates.only_weekday": Kind(
        Severity.KEPT,
        "'{value}' names only a weekday; {day} was taken.",
        "Write the date.",
        "{count} cells of this column name only a weekday and were taken for the nearest such day, as {examples}.",
        "{value} for {day}",
    ),
    "dates.more_words": Kind(
        Severity.KEPT,
        "'{value}' holds more than a date; {day} was taken.",
        "Put the other words in a column of their own.",
        "{count} cells of this column hold more than a date, such as {examples}; the dates were taken.",
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
    # --- numbers and amounts ---
    "numbers.not_a_number": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as a number.",
        "Write a number; ~50, 30+ and 40-60 will do.",
        "{count} cells of this column could not be read as numbers, such as {examples}.",
    ),
    "numbers.date_there": Kind(
        Severity.DROPS_CELL,
        "A date stands where a number belongs; the program may have made it of something like 10-14 or 1/3.",
        "Set the cell's format to text and write it again.",
    ),
    "numbers.measured": Kind(
        Severity.KEPT,
        "'{value}' under '{field}' is measured, so it is no number of animals; it was taken for the amount.",
        "Nothing, if that is right; otherwise write the number of animals alone.",
    ),
    "numbers.of_things": Kind(
        Severity.DROPS_CELL,
        "'{value}' under '{field}' counts something else than animals, so it was not used.",
        "Write the number of animals alone, and anything else under 'Note'.",
    ),
    "numbers.no_size": Kind(
        Severity.DROPS_CELL,
        "'{value}' says of no number how large it is, so it was not used as a count.",
        "Write a number; a guess such as 100-300 will do.",
        "{count} cells of this column say of no number how large it is, such as {examples}; they were not used.",
    ),
    "numbers.from_word": Kind(
        Severity.KEPT,
        "'{value}' was taken for a number between {low} and {high}.",
        "Nothing, if that is right; otherwise write a number, or from what to what.",
        "{count} cells of this column hold words for numbers: {examples}.",
        "'{value}' for {low} to {high}",
        every=True,
    ),
    "numbers.impossible_count": Kind(
        Severity.DROPS_CELL,
        "'{value}' is no number of animals, so it was not used.",
        "Write a whole number; ~50, 30+ and 40-60 will do. If a program made a date of what you wrote, set the cell's "
        "format to text and write it again.",
    ),
    "numbers.too_many": Kind(
        Severity.DROPS_CELL,
        "'{value}' is above {most}, the highest number of animals that is believed, so it was not used.",
        "Check the number: there may be a nought too many, or a code or date in the wrong column.",
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
    "numbers.before_after": Kind(
        Severity.KEPT,
        "'{value}' gives a number before and one after; the one after, {number}, was used.",
        "Nothing, if that is right; otherwise write the one that was counted.",
    ),
    "numbers.sexes": Kind(
        Severity.KEPT,
        "Animals moved were taken as males and females ({parts}), {number} in all.",
        "Nothing, if that is right; set the cell's format to text if a last 0 is lost (4.10).",
    ),
    "numbers.sizes_added": Kind(
        Severity.KEPT,
        "No sum that can be read stands in this row, so the animals of each size were added up: {number}.",
        "Nothing, if that is right; otherwise write the sum.",
    ),
    "numbers.sizes_differ": Kind(
        Severity.KEPT,
        "The sum says {value}, but the animals of each size come to {number}; the sum was used.",
        "Correct the sum or the number of a size.",
    ),
    "numbers.size_uncounted": Kind(
        Severity.KEPT,
        "A size was not counted, so the number of animals was taken as at least {number}.",
        "Nothing, if that is right; write 0 if there were none.",
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
    "amounts.weight_no_water": Kind(
        Severity.KEPT,
        "'{value}' under '{field}' is a weight, and water is measured in ml, so it was taken for the amount of what "
        "was done.",
        "Write water in ml, and what was fed in a column of its own.",
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
        "{count} cells of this column could not be read as amounts, such as {examples}.",
    ),
    "amounts.more_there": Kind(
        Severity.KEPT,
        "'{value}' holds more than one amount; only {taken} was used.",
        "Write one amount a cell.",
        "{count} cells of this column hold more than an amount, such as {examples}; the amounts were taken.",
    ),
    "amounts.not_a_share": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as a share.",
        "Write 1/3, half, 75 % or all.",
    ),
    # --- words ---
    "words.unknown": Kind(
        Severity.DROPS_CELL,
        "The word '{word}' under '{field}' is not known. The row was kept, without it.",
        "Write a word of the list in docs/columns.md, or say what yours means in the reading workbook that check "
        "writes.",
        "{count} different words of this column are not known, such as {examples}. The rows were kept, without them.",
    ),
    "words.not_done": Kind(
        Severity.KEPT,
        "'{word}' says that something was not done, is wanted or is asked, so nothing was taken from it.",
        "Nothing, if that is right; otherwise write what was done.",
        "{count} wordings of this column say that something was not done, is wanted or is asked, such as {examples}; "
        "nothing was taken from them.",
    ),
    "words.day_said": Kind(
        Severity.KEPT,
        "'{words}' was taken to say that it was done on {day}.",
        "Nothing, if that is right; otherwise write the day in the column of dates.",
    ),
    "words.day_of_part": Kind(
        Severity.KEPT,
        "'{day}' in '{text}' says that a part of it was done on another day; all of it was dated by its row.",
        "Write what was done on another day in a row of its own.",
    ),
    "words.number_unplaced": Kind(
        Severity.DROPS_CELL,
        "'{number}' in '{text}' belongs to nothing done that has such a number, so it was not used.",
        "Write it in a column of its own, such as 'Amount' or 'Number'.",
    ),
    "words.number_twice": Kind(
        Severity.DROPS_CELL,
        "'{value}' says {text}, but the column '{heading}' says '{other}', which was used.",
        "Make the two the same, or clear the wrong one.",
    ),
    "words.before_after": Kind(
        Severity.KEPT,
        "'{value}' says how it was before and after; it was taken as found {before}.",
        "Nothing, if that is right; otherwise write how it was found alone.",
    ),
    "words.guessed": Kind(
        Severity.KEPT,
        "'{word}' was taken for '{means}'.",
        "Nothing, if that is right; otherwise say what it means in the reading workbook that check writes.",
        "{count} wordings of this column were taken for words that are known: {examples}.",
        "'{value}' for '{means}'",
        every=True,
    ),
    "words.loose": Kind(
        Severity.DROPS_CELL,
        "'{word}' may mean '{means}', but that is not sure enough to be taken from it; it was kept as a note.",
        "Nothing, if that is right; otherwise write '{means}' alone, or say what your words mean on a Settings sheet "
        "under 'Word' and 'Means'.",
    ),
    "words.number_for_state": Kind(
        Severity.DROPS_CELL,
        "A number stands under '{field}', where a word is needed; its scale is not known.",
        "Write a word, or a percentage with its % sign.",
    ),
    "values.not_given": Kind(
        Severity.KEPT,
        "'{value}' stands under '{heading}', so '{act}' was not taken as done.",
        "Nothing, if that is right; otherwise write the amount, or leave the cell empty.",
    ),
    "values.no_status": Kind(
        Severity.KEPT,
        "Nothing stands under '{heading}' here, so what this row names was not taken as done.",
        "Nothing, if that is right; otherwise fill in this cell.",
    ),
    "values.ditto_alone": Kind(
        Severity.DROPS_CELL, "A ditto mark stands here, but there is nothing above it.", "Write the value out."
    ),
    "values.nothing_told": Kind(
        Severity.KEPT,
        "This was taken to mean that nothing is known for '{field}'.",
        "Nothing, if that is right; otherwise write what is known, or leave the cell empty.",
    ),
}
