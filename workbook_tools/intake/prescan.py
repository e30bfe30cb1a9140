"""Look through the XML of a workbook (ECMA-376) before a reader opens it.

The fast reader makes error cells empty, reads a formula never worked out as blank, and sets aside memory for every
cell between the first and the last, which ends the process when one cell stands in the far corner. All three can be
seen in the sheet's own XML, one element at a time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from workbook_tools.intake.cells import Area
from workbook_tools.intake.files import cannot
from workbook_tools.intake.parts import Damaged, Parts

LAST_ROW, LAST_COL = 1_048_576, 16_384
_DIGITS = "0123456789"


@dataclass(frozen=True, slots=True)
class SheetPart:
    """One sheet as the workbook lists it."""

    name: str
    part: str
    hidden: bool


@dataclass(frozen=True, slots=True)
class Listing:
    """What the workbook part says: its sheets of cells, its date system, whether it asks to be worked out again."""

    sheets: tuple[SheetPart, ...]
    date_1904: bool
    asks_to_calculate: bool
    strings: str
    """The part that holds the shared texts, empty when there is none."""


@dataclass(slots=True)
class Scan:
    """What was seen in the XML of one sheet. Places are (row, column) from 1."""

    count: int = 0
    """Cells that hold a value a reader can give: without error cells and formulas that have none."""
    shared: int = 0
    """Cells among them whose text is shared."""
    top: int = LAST_ROW + 1
    left: int = LAST_COL + 1
    bottom: int = 0
    right: int = 0
    errors: dict[tuple[int, int], str] = field(default_factory=dict)
    negative: set[tuple[int, int]] = field(default_factory=set)
    """Negative numbers; known only after a close look."""
    not_calculated: list[tuple[int, int]] = field(default_factory=list)
    calculated: list[tuple[int, int]] = field(default_factory=list)
    merged: list[Area] = field(default_factory=list)

    @property
    def spread(self) -> int:
        """Cells in the block from the first to the last filled one."""
        return max(0, self.bottom - self.top + 1) * max(0, self.right - self.left + 1)


def listing(parts: Parts) -> Listing:
    """Read the workbook part. Sheets without cells (charts, dialogs, macros) aren't listed.

    Raises
    ------
    CannotRead, Damaged
        There is no workbook part, or it is damaged.
    """
    main = next((where for kind, where in parts.related("").values() if kind == "officeDocument"), "xl/workbook.xml")
    if main not in parts:
        raise cannot("file.other_kind", what="an office file that is no workbook")
    related = parts.related(main)
    sheets: list[SheetPart] = []
    date_1904 = asks = False
    for element in parts.tree(main).iter():
        tag = str(element.tag).rpartition("}")[2]
        if tag == "sheet":
            link = next((value for key, value in element.attrib.items() if key.endswith("}id")), "")
            kind, part = related.get(link, ("worksheet", ""))
            if kind == "worksheet":
                hidden = element.get("state", "visible") != "visible"
                sheets.append(SheetPart(element.get("name", ""), part, hidden))
        elif tag == "workbookPr":
            date_1904 = _true(element.attrib, "date1904")
        elif tag == "calcPr":
            asks = _true(element.attrib, "fullCalcOnLoad")
    strings = next((where for kind, where in related.values() if kind == "sharedStrings"), "")
    return Listing(tuple(sheets), date_1904, asks, strings)


def _true(attributes: Mapping[str, str], name: str) -> bool:
    return attributes.get(name, "0").lower() in ("1", "true", "on")


def scan_sheet(parts: Parts, name: str, *, closely: bool = False) -> Scan:
    """Look through one sheet; ``closely`` tells also empty and negative values from others, and takes longer.

    Raises
    ------
    Damaged, CannotRead
        The part is missing, not well-formed, or names a cell outside any sheet.
    """
    if name not in parts:
        raise Damaged("its part is missing from the file")
    scan = Scan()

    def prepare(parser: expat.XMLParserType) -> None:
        _watch(parser, scan, closely)

    parts.parse(name, prepare)
    return scan


def _watch(parser: expat.XMLParserType, scan: Scan, every: bool) -> None:
    """Set the handlers that fill ``scan``: cheap for a plain cell, closer for a formula or an error."""
    cell_tag, value_tag, inline_tag, formula_tag, row_tag, merge_tag = "c", "v", "is", "f", "row", "mergeCell"
    row, col, row_text = 0, 0, "0"
    kind: str | None = None
    has_formula = has_value = False
    said: list[str] = []
    known: dict[str, int] = {}

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal row, col, row_text, kind, has_formula, has_value
        if name == cell_tag:
            where = attributes.get("r")
            if where is None:
                col += 1
            else:
                letters = where.rstrip(_DIGITS)
                if where[len(letters) :] != row_text:
                    row_text = where[len(letters) :]
                    row = _row_number(row_text)
                found = known.get(letters)
                col = known.setdefault(letters, _column_number(letters)) if found is None else found
            kind = attributes.get("t")
            if every or kind == "e":
                has_formula = has_value = False
                closely()
        elif name in (value_tag, inline_tag):
            has_value = True
            said.clear()
            if parser.EndElementHandler is None:
                filled()
        elif name == row_tag:
            where = attributes.get("r")
            row = row + 1 if where is None else _row_number(where)
            row_text = str(row)
            col = 0
        elif name == formula_tag:
            if parser.EndElementHandler is None:
                has_value = False
            has_formula = True
            closely()
        elif name == merge_tag:
            scan.merged.append(_area(attributes.get("ref", "")))

    def closely() -> None:
        parser.EndElementHandler = end
        parser.CharacterDataHandler = said.append

    def end(name: str) -> None:
        nonlocal has_formula
        if name != cell_tag:
            return
        parser.EndElementHandler = None
        parser.CharacterDataHandler = None
        text = "".join(said).strip() if has_value else ""
        if kind == "e":
            if has_value:
                scan.errors[row, col] = text or "an error"
            elif has_formula:
                scan.not_calculated.append((row, col))
        elif text:
            filled()
            if text[0] == "-" and kind in (None, "n"):
                scan.negative.add((row, col))
            if has_formula:
                scan.calculated.append((row, col))
        elif has_formula and kind != "str":
            scan.not_calculated.append((row, col))
        said.clear()
        has_formula = False

    def filled() -> None:
        scan.count += 1
        scan.shared += kind == "s"
        if row < scan.top:
            scan.top = row
        if row > scan.bottom:
            scan.bottom = row
        if col < scan.left:
            scan.left = col
        if col > scan.right:
            scan.right = col
        if row > LAST_ROW or col > LAST_COL:
            raise Damaged(f"it names a cell in row {row}, column {col}, outside any sheet")

    def root(name: str, _: dict[str, str]) -> None:
        nonlocal cell_tag, value_tag, inline_tag, formula_tag, row_tag, merge_tag
        prefix = name[: name.find(":") + 1]
        cell_tag, value_tag, inline_tag = prefix + "c", prefix + "v", prefix + "is"
        formula_tag, row_tag, merge_tag = prefix + "f", prefix + "row", prefix + "mergeCell"
        parser.StartElementHandler = start

    parser.StartElementHandler = root


def _row_number(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 0 < len(text) <= 7):
        raise Damaged("it names a row that no sheet has")
    return int(text)


def _column_number(letters: str) -> int:
    if not (letters.isascii() and letters.isalpha() and len(letters) <= 3):
        raise Damaged("it names a column that no sheet has")
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number


def _area(ref: str) -> Area:
    corners = []
    for corner in ref.replace("$", "").split(":"):
        letters = corner.rstrip(_DIGITS)
        corners.append((_row_number(corner[len(letters) :]), _column_number(letters)))
    (top, left), (bottom, right) = corners[0], corners[-1]
    return Area(min(top, bottom), min(left, right), max(top, bottom), max(left, right))


def longest_text(parts: Parts, name: str) -> int:
    """Characters in the longest shared text, as XML counts them; 0 without shared texts."""
    longest = length = 0

    def text(piece: str) -> None:
        nonlocal length
        length += len(piece)

    def end(tag: str) -> None:
        nonlocal longest, length
        if tag == "si" or tag.endswith(":si"):
            longest, length = max(longest, length), 0

    def prepare(parser: expat.XMLParserType) -> None:
        parser.CharacterDataHandler = text
        parser.EndElementHandler = end

    parts.parse(name, prepare)
    return longest
