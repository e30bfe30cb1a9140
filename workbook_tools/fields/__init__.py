"""What a bin row, an entry and a setting may hold, and the headings and words we recognise for it."""

from workbook_tools.fields.acts import ACTS, Act
from workbook_tools.fields.bins import BIN_FIELDS
from workbook_tools.fields.findings import FINDINGS, THINGS, WELL, Finding, Thing
from workbook_tools.fields.kinds import Field, Kind
from workbook_tools.fields.log import LOG_FIELDS
from workbook_tools.fields.settings import SETTINGS, Setting
from workbook_tools.fields.states import KNOWN_WORDS_HEADINGS, STATES

__all__ = [
    "ACTS",
    "BIN_FIELDS",
    "FINDINGS",
    "KNOWN_WORDS_HEADINGS",
    "LOG_FIELDS",
    "SETTINGS",
    "STATES",
    "THINGS",
    "WELL",
    "Act",
    "Field",
    "Finding",
    "Kind",
    "Setting",
    "Thing",
]
