"""Look through the records of an old workbook (MS-XLS, the BIFF format) before the fast reader opens it.

The fast reader makes its error cells empty, gives midnight for a negative number shown as a date, and sets aside
memory for every cell from the first to the last of all sheets at once.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass, field

_BOF, _EOF, _FILEPASS, _DATEMODE, _BOUNDSHEET = (0x0809, 0x0409, 0x0209, 0x0009), 0x0A, 0x2F, 0x22, 0x85
_FORMULA, _BOOLERR, _NUMBER, _RK, _MULRK = 0x06, 0x205, 0x203, 0x27E, 0xBD
_FILLED = frozenset((_FORMULA, _BOOLERR, _NUMBER, _RK, _MULRK, 0xFD, 0x204, 0xD6))
_ERRORS = {0: "#NULL!", 7: "#DIV/0!", 15: "#VALUE!", 23: "#REF!", 29: "#NAME?", 36: "#NUM!", 42: "#N/A"}
_WORKSHEET = 0


@dataclass(slots=True)
class OldScan:
    """What was seen in the records of one sheet. Places are (row, column) from 1."""

    name: str
    bottom: int = 0
    right: int = 0
    farthest: tuple[int, int] = (1, 1)
    errors: dict[tuple[int, int], str] = field(default_factory=dict)
    negative: set[tuple[int, int]] = field(default_factory=set)

    @property
    def spread(self) -> int:
        """Cells in the block from the first of the sheet to the last filled one."""
        return self.bottom * self.right


@dataclass(slots=True)
class OldBook:
    """What was seen in the records of the workbook."""

    sheets: list[OldScan] = field(default_factory=list)
    date_1904: bool = False
    locked: bool = False


def scan_xls(stream: bytes) -> OldBook:
    """Look through a workbook stream.

    Raises
    ------
    ValueError
        A record is cut short or the stream is no workbook.
    """
    book = OldBook()
    begins: dict[int, OldScan] = {}
    sheet: OldScan | None = None
    depth = at = 0
    try:
        while at + 4 <= len(stream):
            kind, length = struct.unpack_from("<HH", stream, at)
            if kind in _BOF:
                depth += 1
                sheet = begins.get(at, sheet)
            elif kind == _EOF:
                depth -= 1
                if depth <= 0:
                    depth, sheet = 0, None
            elif at == 0:
                raise ValueError("it doesn't begin like a workbook")
            elif kind == _FILEPASS:
                book.locked = True
                return book
            elif kind == _DATEMODE:
                book.date_1904 = bool(struct.unpack_from("<H", stream, at + 4)[0])
            elif kind == _BOUNDSHEET:
                _list_sheet(stream[at + 4 : at + 4 + length], book, begins)
            elif sheet is not None and depth == 1 and kind in _FILLED:
                _note_cell(kind, stream[at + 4 : at + 4 + length], sheet)
            at += 4 + length
    except struct.error:
        raise ValueError("a record in it is cut short") from None
    return book


def _list_sheet(body: bytes, book: OldBook, begins: dict[int, OldScan]) -> None:
    begin, _, kind, length = struct.unpack_from("<IBBB", body)
    if kind != _WORKSHEET:
        return
    wide = len(body) > 7 and body[7] == 1
    text = body[8 : 8 + length * 2].decode("utf-16-le", "replace") if wide else body[8 : 8 + length].decode("latin-1")
    begins[begin] = OldScan(text)
    book.sheets.append(begins[begin])


def _note_cell(kind: int, body: bytes, sheet: OldScan) -> None:
    row, col = struct.unpack_from("<HH", body)
    place = (row + 1, col + 1)
    last = place
    if kind == _MULRK:
        last = (row + 1, struct.unpack_from("<H", body, len(body) - 2)[0] + 1)
        for step in range(last[1] - col):
            if _rk(struct.unpack_from("<I", body, 6 + 6 * step)[0]) < 0:
                sheet.negative.add((row + 1, col + 1 + step))
    elif kind == _BOOLERR:
        if body[7]:
            sheet.errors[place] = _ERRORS.get(body[6], "an error")
    elif kind == _FORMULA:
        if body[12:14] != b"\xff\xff":
            _note_number(struct.unpack_from("<d", body, 6)[0], place, sheet)
        elif body[6] == 2:
            sheet.errors[place] = _ERRORS.get(body[8], "an error")
    elif kind == _NUMBER:
        _note_number(struct.unpack_from("<d", body, 6)[0], place, sheet)
    elif kind == _RK:
        _note_number(_rk(struct.unpack_from("<I", body, 6)[0]), place, sheet)
    sheet.bottom, sheet.right = max(sheet.bottom, last[0]), max(sheet.right, last[1])
    if last >= sheet.farthest:
        sheet.farthest = last


def _note_number(number: float, place: tuple[int, int], sheet: OldScan) -> None:
    if number < 0:
        sheet.negative.add(place)


def _rk(packed: int) -> float:
    """Unpack a number stored in 30 bits: an integer or the high part of a float, perhaps times a hundred."""
    if packed & 2:
        number = float(packed >> 2) - (1 << 30 if packed & 0x80000000 else 0)
    else:
        number = float(struct.unpack("<d", b"\0\0\0\0" + struct.pack("<I", packed & 0xFFFFFFFC))[0])
    return number / 100 if packed & 1 else number
