"""What a keeper may be told about bins, settings, and what the log says taken together."""

from workbook_tools.problems.kinds import Kind, Severity

BINS: dict[str, Kind] = {
    # --- bins ---
    "bins.no_name": Kind(
        Severity.DROPS_ROW, "This row of the list of bins has no name, so it was left out.", "Write a name for the bin."
    ),
    "entries.sent_twice": Kind(
        Severity.KEPT,
        "This row says the same as {row}, {seconds} seconds before; it was taken as sent twice and used once.",
        "Nothing, if that is right; otherwise make the two times further apart.",
    ),
    "moves.no_animals": Kind(
        Severity.DROPS_CELL,
        "This row moves '{thing}', which is taken for no isopods, so the row was kept as a note.",
        "Nothing, if that is right; otherwise write what animals they were.",
    ),
    "moves.thing_or_animals": Kind(
        Severity.KEPT,
        "'{thing}' was taken for the name of animals, since a bin and a number stand beside it.",
        "Nothing, if that is right; otherwise clear the number, so that no animals are counted.",
    ),
    "moves.frozen": Kind(
        Severity.KEPT,
        "This waste has a day on which it went into the freezer, so it was taken as frozen on that day and not yet as "
        "thrown away.",
        "Give a row of its own to the day on which it was thrown away.",
    ),
    "bins.number_of_several": Kind(
        Severity.DROPS_CELL,
        "The number under '{heading}' may be of {bins} together, so it was used for none of them.",
        "Give each bin a row of its own, with its own number.",
    ),
    "bins.every": Kind(
        Severity.DROPS_CELL,
        "'{value}' could not be read as how often this bin is to be cared for, so the rhythm for all was kept.",
        "Write 5 days, 10-14 days, 3 weeks or weekly.",
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
        "There is no list of bins, so those that the log names were taken: {count}.",
        "Add a sheet with a row for each bin, if you want species, place and start in the report.",
    ),
    "bins.unlisted": Kind(
        Severity.KEPT,
        "The log names the bin {bin}, which no list of bins has.{hint}",
        "Add it to the list of bins, or write the name as it stands there.",
    ),
    "bins.begun": Kind(
        Severity.KEPT,
        "The log begins the bin {bin} off {parent}, and no list of bins has it; its species, line, appetite and "
        "ventilation are those of {parent}, where the log doesn't say.",
        "Add it to the list of bins.",
    ),
    "bins.takes_after": Kind(
        Severity.KEPT,
        "The bin {bin} began with animals of {parents}, and your list leaves its {what} empty: taken as there.",
        "Fill it in, if it is another.",
        "{count} bins (such as {examples}) began with animals of another bin, and your list leaves cells of theirs "
        "empty: taken as in that bin.",
    ),
    "bins.rename_what": Kind(
        Severity.DROPS_CELL,
        "It can't be told which bin was renamed, or to what, so the name was kept.",
        "Write one bin, and its new name under To.",
    ),
    "bins.rename_when": Kind(
        Severity.DROPS_CELL,
        "There is another bin called {old} now, and it isn't known since when, so what the log says of {old} was left "
        "with that one.",
        "Log the day on which this bin was renamed, or write when the other was started.",
    ),
    "bins.alike": Kind(
        Severity.KEPT,
        "This was taken for the bin {bins}.",
        "Write the name as it stands in the list of bins, to be sure.",
        "{count} spellings of bins differ from the list (such as {examples}); each was taken for the bin that it is "
        "alike.",
        "'{value}' for {bins}",
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
    # --- settings ---
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
    # --- rows of the log ---
    "entries.no_date": Kind(
        Severity.DROPS_ROW, "This row has no date that can be read, so it was left out.", "Write the day it was done."
    ),
    "entries.no_bin": Kind(
        Severity.DROPS_ROW, "This row names no bin, so it was left out.", "Write the bin or bins it was done to."
    ),
    "entries.count_no_number": Kind(
        Severity.KEPT,
        "A count is logged without a number, so it was taken for a look at the bin.",
        "Write the number counted; ~50, 30+ and 40-60 will do.",
    ),
    "entries.way_unknown": Kind(
        Severity.KEPT,
        "How this count was made is not known: '{way}'. The number was kept.",
        "Write the way in known words, such as under bark, full sort, sieve, trap or guess.",
    ),
    "entries.number_of_nothing": Kind(
        Severity.KEPT,
        "A number stands here, but what was done is not known, so it was kept as a note and not taken for a count.",
        "Write what was done in a known word, such as count, animals out or dead; or say on a Settings sheet what "
        "yours means.",
    ),
    "entries.number_of_which": Kind(
        Severity.KEPT,
        "The number could belong to more than one thing done; it was taken for '{act}' and not for {others}.",
        "Write a row for each, if that is wrong.",
    ),
    "entries.amount_of_which": Kind(
        Severity.KEPT,
        "The amount could belong to more than one thing done; it was taken for '{act}' and not for {others}.",
        "Write a row for each, if that is wrong.",
    ),
    "entries.amount_unit": Kind(
        Severity.KEPT,
        "An amount in this unit is unusual for '{act}', the only thing done that can have one.",
        "Check the unit.",
    ),
    "entries.amount_of_nothing": Kind(
        Severity.DROPS_CELL,
        "An amount stands here, but nothing in the row says what it is the amount of; it was kept and not used.",
        "Write what was done: water, feed, leaves.",
    ),
    # --- the plan ---
    "plan.never_logged": Kind(
        Severity.KEPT,
        "Nothing in the workbook records {tasks} for any bin, so no tasks for that are listed.",
        "Log it once for any bin, or set how often in the settings, and it will be listed.",
    ),
    # --- the ledger's checks ---
    "entries.future": Kind(
        Severity.DROPS_CELL,
        "This is after {on}, the day of the report, so it is not used for what is due.",
        "Check the date, the year most of all.",
    ),
    "entries.begins_later": Kind(
        Severity.KEPT,
        "'{bin}' begins {day}, after {on}, the day of the report, so it is not in it.",
        "Check the date, the year most of all, if the bin is there already.",
    ),
    "entries.out_of_order": Kind(
        Severity.KEPT,
        "This lies {days} days away from the dates of the rows around it; it was used as it stands.",
        "Check the date, the year most of all.",
    ),
    "entries.before_start": Kind(
        Severity.KEPT,
        "This is before the bin {bin} began ('{started}' in {cell}).",
        "Check both dates; a bin's name should not be used again for another colony.",
    ),
    "entries.after_end": Kind(
        Severity.KEPT,
        "This is after the bin {bin} was closed on {day}.",
        "Check both dates and the bin; log that it was set up again, if it was.",
    ),
    "entries.status_differs": Kind(
        Severity.KEPT,
        "The list says that the bin {bin} is '{listed}', but the log in {cell} makes it '{logged}', which was used.",
        "Change the status in the list.",
    ),
    "entries.start_differs": Kind(
        Severity.KEPT,
        "The log says that the bin {bin} was set up on this day, but '{listed}' in {cell} was used.",
        "Make the two the same.",
    ),
    "entries.same_row_twice": Kind(
        Severity.KEPT,
        "This row says the same as {first}; both were used.",
        "Clear one of them, if it was done only once.",
    ),
    "entries.far_out": Kind(
        Severity.KEPT,
        "{read} {unit} is far from what is usual for '{kind}' ({low} to {high} {unit}); it was used as it stands.",
        "Check the number and its unit.",
    ),
    "entries.too_many_out": Kind(
        Severity.KEPT,
        "{number} is more than can have been in the bin {bin} by all that is logged of it ({most} at most).",
        "Check the number and the bin, or log the count or the animals that are missing before it.",
    ),
    "entries.finds_not_written": Kind(
        Severity.KEPT,
        "How many were found in old substrate of the bin {bin} isn't written here, so it tells nothing of what is "
        "left, and empty checks count anew from here.",
        "Write the number found, 0 for none.",
        "How many were found in old substrate isn't written in {count} rows (such as {examples}), so they tell nothing "
        "of what is left.",
        "{bin}",
    ),
    "entries.whose_stragglers": Kind(
        Severity.KEPT,
        "The {number} found here in {place} could be of more than one bin's old substrate, so they were given to none, "
        "and empty checks count anew from here.",
        "Name their bin under 'From bin' or 'To', or write a row for each bin.",
        "Finds of {count} rows could be of more than one bin's old substrate (such as {examples}); they were given to "
        "none.",
        "{number} in {place}",
    ),
    "entries.lines_mixed": Kind(
        Severity.KEPT,
        "Animals of {from_bin} ({from_line}) went in with those of {to_bin} ({to_line}) here.",
        "Check the bins. If the two may be mixed, write so under 'May mix with' in the list of bins, or give both the "
        "same line.",
    ),
    "entries.lines_in_tub": Kind(
        Severity.KEPT,
        "Animals out of {tub} went to {to_bin} ({to_line}) here, while old substrate of {from_bin} ({from_line}) "
        "waited there too.",
        "Make sure whose they are; give each line's old substrate a tub of its own.",
    ),
    "entries.not_apart": Kind(
        Severity.KEPT,
        "Animals from elsewhere came into the bin {bin} {days} days ago, in with those that lived there already.",
        "Keep new arrivals in a bin of their own for {lasts} days first; if they came from a bin of yours, name it "
        "under 'From bin'.",
    ),
    "entries.deaths_in_notes": Kind(
        Severity.KEPT,
        "Notes of {rows} speak of dead animals, but only numbers under 'Dead' are counted as losses.",
        "Write how many were found dead under 'Dead', or log 'dead' and the number as what was done.",
    ),
    "entries.weekday_differs": Kind(
        Severity.KEPT,
        "The date of this row, {date}, is a {weekday}.",
        "Check the date; it was used as it stands.",
    ),
    # --- notes against what was learned ---
    # --- catching again ---
    "census.sift_of_what": Kind(
        Severity.DROPS_CELL,
        "This sift of {bin} belongs to no change of substrate, and doesn't say that it went through the whole bin, so "
        "its {number} tells nothing.",
        "Log the change it belongs to, or write under 'Way' what was sifted: old substrate, or the whole bin.",
        "Sifts in {count} rows (such as {examples}) belong to no change of substrate, and don't say that they went "
        "through the whole bin, so their numbers tell nothing.",
        "{bin}",
    ),
    "census.several_bins": Kind(
        Severity.DROPS_CELL,
        "This marking or catch is of several bins at once ({bins}), so no number was worked out from it.",
        "Write a row for each bin: marks tell the number of one bin only.",
    ),
    "census.mark_unnumbered": Kind(
        Severity.DROPS_CELL,
        "How many animals of {bin} were marked isn't written here, so these marks were not counted.",
        "Write the number marked under 'Number'.",
    ),
    "census.not_told": Kind(
        Severity.DROPS_CELL,
        "Of this catch of {bin} not both are known: how many were caught, and how many of them carried a mark.",
        "Write the first under 'Number' and the second under 'With a mark', 0 for none.",
    ),
    "census.none_caught": Kind(
        Severity.DROPS_CELL,
        "No animals of {bin} were caught here, so this catch tells nothing of how many there are.",
        "Nothing, if that is right: catch again on another day.",
    ),
    "census.more_than_caught": Kind(
        Severity.DROPS_CELL,
        "In {bin} {marked} with a mark are written, but only {caught} were caught.",
        "Under 'With a mark' write how many of those caught carried one.",
    ),
    "census.no_marking": Kind(
        Severity.DROPS_CELL,
        "Animals of {bin} were caught again here, but no marking before it is in the log.",
        "Log the marking: its day, the bin and the number marked. Marks from another bin can't be told from others.",
    ),
    "census.more_marked": Kind(
        Severity.DROPS_CELL,
        "Of the animals of {bin} caught here {marked} carried a mark, but at most {known} marked ones can be there.",
        "Check both numbers, or log the marking that is missing before it.",
    ),
    "census.late": Kind(
        Severity.KEPT,
        "Animals of {bin} were caught again {days} days after marking. A mark is lost when its bearer moults, so the "
        "number is doubtful: it was lowered for the marks probably lost, and its interval is wide.",
        "Catch again within {within} days of marking next time; that is common practice, for isopods moult often.",
    ),
    "census.marks_gone": Kind(
        Severity.DROPS_CELL,
        "Animals of {bin} were caught again {days} days after the last marking. Most will have moulted and lost their "
        "mark, so no number was worked out.",
        "Mark anew, and catch again within {within} days.",
    ),
    "census.uneven": Kind(
        Severity.KEPT,
        "The catches of {bin} up to here don't hang together: worked out in two ways they give {one} and {other} "
        "animals. Some are caught more easily than others, or animals came, left or lost their mark.",
        "Catch all over the bin and let marked animals spread for some days before the next catch.",
    ),
    "census.no_fall": Kind(
        Severity.KEPT,
        "The finds of {bin} ({finds}) don't fall from pass to pass: that there are at least {found} is all they tell.",
        "Make a further pass, each through everything and with the same care.",
    ),
    "learned.oversold": Kind(
        Severity.KEPT,
        "More animals went out of {bin} here ({number}) than were likely in it by its counts.",
        "See whether the number is right; if it is, log a count, for the bin was fuller than its counts say.",
        "{count} times more animals went out than were likely in the bin by its counts, such as {examples}.",
        "{number} of {bin}",
    ),
    "learned.odd_count": Kind(
        Severity.KEPT,
        "The count of {bin} here ({number}) is farther from what earlier counts led to than its way of counting errs.",
        "If animals came or went before it, log that too; if not, write how it was counted.",
        "{count} counts are far from what earlier ones led to, such as {examples}.",
        "{number} in {bin}",
    ),
}
