"""Turn the bytes of one .csv file into rows of texts: encoding, delimiter, quotation marks."""

from __future__ import annotations

import codecs
import csv
import io
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

_DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab", "|": "bar"}
_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_LOOKED_AT = 200
"""Rows looked at to find the delimiter."""


@dataclass(frozen=True, slots=True)
class Record:
    """One row as a spreadsheet would number it, though it may run over several lines of the file.

    ``open_quote`` says that its line was split without regard to quotation marks.
    """

    row: int
    values: tuple[str, ...]
    open_quote: bool = False


def decoded(data: bytes) -> tuple[str, str]:
    """The text of a file and the encoding it was taken for: by its mark, or UTF-8, or else cp1252."""
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            return data.decode(encoding, "replace"), encoding.removesuffix("-sig")
    try:
        return data.decode("utf-8"), "utf-8"
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace"), "cp1252"


def split_declaration(text: str) -> tuple[str, str]:
    """Take off a first line such as ``sep=;``, which spreadsheet programs understand and don't show."""
    first, _, rest = text.partition("\n")
    first = first.strip("\r")
    if first.lower().startswith("sep=") and len(first) == 5:
        return first[4], rest
    return "", text


def delimiter_of(text: str) -> str:
    """The delimiter that gives most rows the same number of fields, above one; a comma when there is none."""
    best, best_score = ",", (0, 0)
    for delimiter in _DELIMITERS:
        widths = Counter(len(record.values) for record in _few(records(text, delimiter)) if any(record.values))
        width, rows = max(
            ((width, rows) for width, rows in widths.items() if width > 1),
            key=lambda pair: (pair[1], pair[0]),
            default=(0, 0),
        )
        if (rows, width) > best_score:
            best, best_score = delimiter, (rows, width)
    return best


def _few(found: Iterator[Record]) -> Iterator[Record]:
    for record in found:
        if record.row > _LOOKED_AT:
            return
        yield record


def delimiter_name(delimiter: str) -> str:
    """What a delimiter is called."""
    return _DELIMITERS.get(delimiter, delimiter)


class _Lines:
    """Lines of a text, one by one; knows whether more were asked for than there are."""

    def __init__(self, text: str) -> None:
        self._stream = io.StringIO(text, newline="")
        self.line_begins = 0
        self.ran_out = False

    def __iter__(self) -> _Lines:
        return self

    def __next__(self) -> str:
        line = self._stream.readline()
        if not line:
            self.ran_out = True
            raise StopIteration
        return line

    @property
    def at(self) -> int:
        """Where the next line begins."""
        return self._stream.tell()

    def between(self, at: int) -> str:
        """The text from a place up to where the next line begins."""
        return self._stream.getvalue()[at : self._stream.tell()]

    def back_to(self, at: int) -> None:
        """Go back to the beginning of a line."""
        self._stream.seek(at)
        self.ran_out = False


def records(text: str, delimiter: str) -> Iterator[Record]:
    """Split a text into rows.

    A line is split without regard to quotation marks when one in it is never closed, or when one stands alone as a
    ditto mark and would swallow the lines up to the next.
    """
    lines = _Lines(text)
    row = 0
    while True:
        begins = lines.at
        values: list[str] | None
        try:
            values = next(csv.reader(lines, delimiter=delimiter, strict=False), None)
        except csv.Error:
            values = None
            lines.ran_out = True
        row += 1
        swallows = values is not None and any("\n" in value for value in values) and not lines.ran_out
        if swallows and values is not None:
            swallows = _swallows(values, delimiter) or not _well_formed(lines.between(begins), delimiter)
        if values is not None and not lines.ran_out and not swallows:
            yield Record(row, tuple(values))
            continue
        lines.back_to(begins)
        line = next(lines, None)
        if line is None:
            return
        yield Record(row, tuple(line.rstrip("\r\n").split(delimiter)), open_quote=True)


def _well_formed(text: str, delimiter: str) -> bool:
    """Whether every quotation mark that closes a field of these lines is followed by the end of the field."""
    try:
        next(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True), None)
    except csv.Error:
        return False
    return True


def _swallows(values: list[str], delimiter: str) -> bool:
    """Whether a field over several lines begins where a cell ends: its quotation mark was a cell of its own."""
    return any(
        "\n" in value
        and (value.startswith(delimiter) or (value.startswith(("\n", "\r")) and value.endswith(delimiter)))
        for value in values
    )
