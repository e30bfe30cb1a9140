"""Every sentence a keeper may be told about their data, and the records that carry them.

A problem is collected, never raised: each stage returns its result and a list of problems. Wording, severity and remedy
stand together in :data:`KINDS`; code elsewhere gives a code, a cell and facts.
"""

from workbook_tools.problems.cells import CellRef, column_letters
from workbook_tools.problems.kinds import Kind, Severity
from workbook_tools.problems.records import KINDS, CannotRead, Problem, in_cell_order, merged

__all__ = [
    "KINDS",
    "CannotRead",
    "CellRef",
    "Kind",
    "Problem",
    "Severity",
    "column_letters",
    "in_cell_order",
    "merged",
]
