"""Take one unchanging copy of a file's bytes, and tell by its content what kind of file it is."""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from pathlib import Path

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.compound import stream_names
from workbook_tools.problems import CannotRead, CellRef, Problem

TEXT_SUFFIXES = (".csv", ".tsv", ".tab")

_CONTROLS = bytes(code for code in range(32) if code not in b"\t\n\r")

_MAGIC = (
    (b"%PDF", "a PDF document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"{\\rtf", "a text document (.rtf)"),
    (b"\x1f\x8b", "a packed archive"),
    (b"7z\xbc\xaf", "a packed archive"),
    (b"Rar!", "a packed archive"),
    (b"SQLite format 3", "a database"),
)

_ZIPPED = (
    ("xl/workbook.bin", "a binary workbook (.xlsb)"),
    ("word/document.xml", "a text document (.docx)"),
    ("ppt/presentation.xml", "a slide show (.pptx)"),
    ("index/document.iwa", "a Numbers workbook (.numbers)"),
    ("index.zip", "a Numbers workbook (.numbers)"),
)

_MARKUP = (
    (re.compile(rb"<html|<!doctype\s+html|<table", re.IGNORECASE), "a web page"),
    (re.compile(rb"urn:schemas-microsoft-com:office:spreadsheet"), "an XML spreadsheet of 2003"),
    (re.compile(rb"opendocument\.spreadsheet"), "a flat OpenDocument spreadsheet (.fods)"),
    (re.compile(rb"<\?xml|<svg"), "an XML document"),
)


def cannot(code: str, **facts: object) -> CannotRead:
    """Make the exception for a file of which nothing can be read."""
    return CannotRead(Problem(code, CellRef(""), facts))


def read_bytes(path: Path) -> bytes:
    """Read a whole file once, so that every later look at it sees the same bytes.

    Raises
    ------
    CannotRead
        There is no such file, it may not be read, it is empty or too big, or it changes while it is read.
    """
    limit = DEFAULTS["file.size"].value
    try:
        if not path.exists():
            raise cannot("file.missing", path=path)
        if not path.is_file():
            raise cannot("file.other_kind", what="no stored data")
        for _ in range(3):
            before = path.stat()
            if before.st_size > limit * 1e6:
                size = f"{before.st_size / 1e6:,.0f} MB"
                raise cannot("file.too_big", what="the file", size=size, limit=f"{limit:,.0f} MB")
            with path.open("rb") as stream:
                data = stream.read(int(limit * 1e6) + 1)
            after = path.stat()
            if (before.st_size, before.st_mtime_ns) == (after.st_size, after.st_mtime_ns):
                break
        else:
            raise cannot("file.changing")
    except PermissionError:
        raise cannot("file.no_permission") from None
    except (OSError, ValueError) as error:
        raise cannot("file.unreadable", reason=getattr(error, "strerror", None) or error) from None
    if not data:
        raise cannot("file.empty")
    return data


def kind_of(data: bytes, suffix: str) -> str:
    """Tell what the bytes are: xlsx, ods, xls or csv.

    ``suffix`` decides only whether plain text is a table.

    Raises
    ------
    CannotRead
        They are something else, and the problem says what; or an encrypted workbook; or a damaged one.
    """
    if data.startswith((b"PK\x03\x04", b"PK\x05\x06", b"PK\x07\x08")):
        return _kind_of_zip(data)
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        return _kind_of_compound(data)
    for magic, what in _MAGIC:
        if data.startswith(magic):
            raise cannot("file.other_kind", what=what)
    if suffix.lower() in TEXT_SUFFIXES and _is_text(data):
        return "csv"
    head = data[:4096]
    for pattern, what in _MARKUP:
        if pattern.search(head):
            raise cannot("file.other_kind", what=what)
    if not data.strip(b"\x00"):
        raise cannot("file.damaged", reason="it holds nothing but empty bytes")
    if _is_text(data):
        raise cannot("file.other_kind", what="plain text (name it .csv if it is a table)")
    raise cannot("file.other_kind", what="something unknown")


def _is_text(data: bytes) -> bool:
    """Whether the bytes may be text: hardly any control characters, unless they say that they are UTF-16."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return True
    controls = len(data) - len(data.translate(None, _CONTROLS))
    return controls * 20 < len(data)


def _kind_of_zip(data: bytes) -> str:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            names = {name.lower() for name in archive.namelist()}
            kind = archive.read("mimetype")[:200] if "mimetype" in names else b""
    except (zipfile.BadZipFile, zlib.error, KeyError, OSError, RuntimeError, EOFError, ValueError):
        raise cannot("file.damaged", reason="its list of parts can't be read") from None
    if b"opendocument.spreadsheet" in kind:
        return "ods"
    if b"opendocument" in kind:
        raise cannot("file.other_kind", what="an OpenDocument file that is no spreadsheet")
    for part, what in _ZIPPED:
        if part in names:
            raise cannot("file.other_kind", what=what)
    if "[content_types].xml" in names:
        return "xlsx"
    raise cannot("file.other_kind", what="a packed archive (.zip)")


def _kind_of_compound(data: bytes) -> str:
    try:
        names = stream_names(data)
    except ValueError as error:
        raise cannot("file.damaged", reason=error) from None
    if "EncryptedPackage" in names:
        raise cannot("file.locked")
    if names & {"Workbook", "Book"}:
        return "xls"
    if "WordDocument" in names:
        raise cannot("file.other_kind", what="a text document (.doc)")
    raise cannot("file.other_kind", what="some other old office file")
