"""Draw sheets and open the result again, as plain cells and as the program that reads them sees them."""

import datetime as dt
import io
import warnings

import openpyxl

from workbook_tools.report.writer import draw

DAY = dt.date(2026, 3, 14)


def drawn(*sheets, region="en-GB", paper="A4", title="a title"):
    return draw(sheets, region=region, paper=paper, created=DAY, title=title)[0]


def reopened(content):
    """Open with a reader that isn't ours; it can't read small charts, nor days that LibreOffice saved, and says so."""
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "Sparkline Group extension is not supported", UserWarning)
        warnings.filterwarnings("ignore", "Unable to read chart", UserWarning)
        return openpyxl.load_workbook(io.BytesIO(content))


def set_box(page, about, column, value):
    """Set the cell under the heading ``column`` in the first row below it that holds ``about``, as a keeper would."""
    rows = [*page.iter_rows()]
    top = next(i for i, row in enumerate(rows) if column in [cell.value for cell in row])
    heads = [cell.value for cell in rows[top]]
    row = next(row for row in rows[top + 1 :] if about in [cell.value for cell in row])
    row[heads.index(column)].value = value


def values(spec, name):
    """Rows of a table of a sheet by heading, as they would be drawn."""
    table = next(table for table in spec.tables if table.name == name)
    return [{column.heading: column.get(row) for column in table.columns} for row in table.rows]


def texts(page):
    return [cell.value for row in page.iter_rows() for cell in row if cell.value is not None]


def table_rows(page, name):
    """The rows of a native table, headings first."""
    return [[cell.value for cell in row] for row in page[page.tables[name].ref]]
