"""The parts of a zipped workbook, opened with care: nothing unpacks without bound, nothing declares entities."""

from __future__ import annotations

import io
import posixpath
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import IO
from xml.etree.ElementTree import Element, ParseError
from xml.parsers import expat

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import fromstring

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.files import cannot

_CHUNK = 1 << 18
_XML = (".xml", ".rels")


class Damaged(Exception):
    """A part is damaged; the message says how, to follow a colon."""


@contextmanager
def faults_named(part: str) -> Iterator[None]:
    """Turn whatever reading a damaged part may raise into :class:`Damaged`, and a document type into ``CannotRead``."""
    try:
        yield
    except DefusedXmlException:
        raise cannot("file.unsafe") from None
    except (expat.ExpatError, ParseError):
        raise Damaged(f"{part} isn't well-formed") from None
    except (
        zipfile.BadZipFile,
        zlib.error,
        struct.error,
        EOFError,
        OSError,
        NotImplementedError,
        LookupError,
        ValueError,
    ):
        raise Damaged(f"{part} can't be unpacked") from None
    except RecursionError:
        raise Damaged(f"{part} is nested too deep") from None
    except RuntimeError as error:
        if "encrypted" in str(error):
            raise cannot("file.locked") from None
        raise


def refuse_document_type(*_: object) -> None:
    """Stop at a document type: what expat calls at ``<!DOCTYPE``."""
    raise cannot("file.unsafe")


class Parts:
    """The parts of one zipped workbook, by name without regard to case.

    Raises
    ------
    CannotRead
        The zip is damaged, has too many parts, or would unpack to more than the limit.
    """

    def __init__(self, data: bytes) -> None:
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(data))
        except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError):
            raise cannot("file.damaged", reason="its list of parts can't be read") from None
        entries = self._zip.infolist()
        most = DEFAULTS["file.parts"].value
        if len(entries) > most:
            raise cannot("file.too_big", what="the number of its parts", size=f"{len(entries):,}", limit=f"{most:,.0f}")
        self._by_name = {entry.filename.lower().lstrip("/"): entry for entry in entries}
        unpacked = sum(e.file_size for e in self._by_name.values() if e.filename.lower().endswith(_XML)) / 1e6
        limit = DEFAULTS["file.unpacked"].value
        if unpacked > limit:
            raise cannot(
                "file.too_big", what="what it unpacks to", size=f"{unpacked:,.0f} MB", limit=f"{limit:,.0f} MB"
            )

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the XML parts, in lower case, in the order stored."""
        return tuple(name for name in self._by_name if name.endswith(_XML))

    def __contains__(self, name: str) -> bool:
        return name.lower() in self._by_name

    def size(self, name: str) -> int:
        """Bytes a part unpacks to, 0 when it isn't there."""
        entry = self._by_name.get(name.lower())
        return entry.file_size if entry else 0

    def stream(self, name: str) -> IO[bytes]:
        """A part to be read from its beginning."""
        return self._zip.open(self._by_name[name.lower()])

    def chunks(self, name: str) -> Iterator[bytes]:
        """The unpacked bytes of a part, piece by piece; its checksum is checked at the end."""
        with self.stream(name) as stream:
            while piece := stream.read(_CHUNK):
                yield piece

    def parse(self, name: str, prepare: Callable[[expat.XMLParserType], None]) -> None:
        """Feed a part through expat, after ``prepare`` has set the parser's handlers.

        Raises
        ------
        Damaged, CannotRead
            As :func:`faults_named`.
        """
        parser = expat.ParserCreate()
        parser.buffer_text = True
        parser.StartDoctypeDeclHandler = refuse_document_type
        prepare(parser)
        with faults_named(name):
            for piece in self.chunks(name):
                parser.Parse(piece, False)
            parser.Parse(b"", True)

    def tree(self, name: str) -> Element:
        """A small part as a tree.

        Raises
        ------
        Damaged, CannotRead
            As :func:`faults_named`.
        """
        with faults_named(name):
            root: Element = fromstring(b"".join(self.chunks(name)), forbid_dtd=True)
        return root

    def check(self, name: str) -> None:
        """Unpack a part once, for its checksum and against a document type, without understanding it.

        Raises
        ------
        Damaged, CannotRead
            As :func:`faults_named`.
        """
        parser = expat.ParserCreate()
        parser.StartDoctypeDeclHandler = refuse_document_type
        begun = False

        def root_seen(*_: object) -> None:
            nonlocal begun
            begun = True
            parser.StartElementHandler = None

        parser.StartElementHandler = root_seen
        with faults_named(name):
            for piece in self.chunks(name):
                if not begun:
                    parser.Parse(piece, False)

    def related(self, name: str) -> dict[str, tuple[str, str]]:
        """What a part refers to: by id, the last word of the kind and the name of the part."""
        folder, base = posixpath.split(name)
        rels = posixpath.join(folder, "_rels", base + ".rels")
        if rels not in self:
            return {}
        found: dict[str, tuple[str, str]] = {}
        for relation in self.tree(rels):
            target = relation.get("Target", "")
            where = target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
            kind = relation.get("Type", "").rpartition("/")[2]
            if relation.get("TargetMode") != "External":
                found[relation.get("Id", "")] = (kind, where)
        return found
