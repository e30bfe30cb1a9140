"""Whether what a row of the log names was done: a status, a tick, or a plan beside what came of it."""

from workbook_tools.fields.kinds import Field, Kind, listed

OUTCOME_FIELDS: tuple[Field, ...] = (
    Field(
        "outcome",
        Kind.STATE,
        "Status",
        "Whether it was done. What is planned or skipped is not taken as done.",
        listed(
            "done; outcome; completed; complete; finished; was it done; task status; actual; actually; ticked; tick; "
            "checked off; erledigt; gedaan; fait; hecho; fatto; zrobione; stand; statut; estado; stato"
        ),
        states="outcome",
        in_blank=False,
    ),
    Field(
        "planned",
        Kind.TEXT,
        "Planned",
        "What was planned, or for when. It is not taken as done.",
        listed(
            "plan; planned date; planned for; planned on; due; due date; due on; scheduled; scheduled for; "
            "target date; intended; geplant; gepland; prévu; previsto; planificado; zaplanowane"
        ),
        in_blank=False,
    ),
)
