"""The container of old office files (MS-CFB): list its streams and take one out.

Only what is needed to look at an .xls before it is opened; every link is bounds-checked and every chain is cut when
it loops, so a damaged file ends in a ``ValueError`` that says what is wrong.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass

_END = 0xFFFFFFFA
"""Sector numbers from here on mean the end of a chain or an unused place."""


@dataclass(frozen=True, slots=True)
class _Entry:
    name: str
    start: int
    size: int


class _Container:
    """The tables of a container: which sector follows which, and what streams there are."""

    def __init__(self, data: bytes) -> None:
        try:
            self._open(data)
        except (struct.error, IndexError):
            raise ValueError("its container is cut short") from None

    def _open(self, data: bytes) -> None:
        self.data = data
        sector_shift, self.mini_shift = struct.unpack_from("<HH", data, 30)
        if sector_shift not in (9, 12) or self.mini_shift != 6:
            raise ValueError("its container has impossible sector sizes")
        self.size = 1 << sector_shift
        directory, _, self.cutoff, mini_fat, _, difat, _ = struct.unpack_from("<7I", data, 48)
        fat_sectors = [s for s in struct.unpack_from("<109I", data, 76) if s < _END]
        seen: set[int] = set()
        while difat < _END and difat not in seen:
            seen.add(difat)
            *more, difat = struct.unpack(f"<{self.size // 4}I", self._sector(difat))
            fat_sectors += [s for s in more if s < _END]
        self.fat = [n for s in fat_sectors for n in struct.unpack(f"<{self.size // 4}I", self._sector(s))]
        raw = self._chain(directory)
        self.entries = [
            entry for at in range(0, len(raw) - 127, 128) if (entry := _entry(raw[at : at + 128])) is not None
        ]
        root = struct.unpack_from("<I", raw, 116)[0]
        self.mini = self._chain(root) if root < _END else b""
        table = self._chain(mini_fat) if mini_fat < _END else b""
        self.mini_fat = list(struct.unpack(f"<{len(table) // 4}I", table))

    def _sector(self, number: int) -> bytes:
        start = (number + 1) * self.size
        sector = self.data[start : start + self.size]
        if not sector:
            raise ValueError("its container is cut short")
        return sector.ljust(self.size, b"\0")

    def _chain(self, start: int) -> bytes:
        return b"".join(self._sector(number) for number in _follow(self.fat, start))

    def stream(self, name: str) -> bytes | None:
        """Take out a stream whole; None when there is none of that name."""
        for entry in self.entries:
            if entry.name == name:
                if entry.size >= self.cutoff:
                    return self._chain(entry.start)[: entry.size]
                pieces = (self.mini[n << self.mini_shift :][: 1 << self.mini_shift] for n in self._mini_links(entry))
                return b"".join(pieces)[: entry.size]
        return None

    def _mini_links(self, entry: _Entry) -> list[int]:
        return _follow(self.mini_fat, entry.start)


def _follow(table: list[int], start: int) -> list[int]:
    links: list[int] = []
    seen: set[int] = set()
    while start < _END:
        if start in seen or start >= len(table):
            raise ValueError("its container has a broken chain")
        seen.add(start)
        links.append(start)
        start = table[start]
    return links


def _entry(raw: bytes) -> _Entry | None:
    length, kind = struct.unpack_from("<HB", raw, 64)
    if kind != 2:
        return None
    start, size = struct.unpack_from("<II", raw, 116)
    return _Entry(raw[: max(0, min(length, 64) - 2)].decode("utf-16-le", "replace"), start, size)


def stream_names(data: bytes) -> frozenset[str]:
    """Names of all streams in a container.

    Raises
    ------
    ValueError
        The container is damaged; the message says how.
    """
    return frozenset(entry.name for entry in _Container(data).entries)


def take_stream(data: bytes, *names: str) -> bytes:
    """The first stream with one of these names.

    Raises
    ------
    ValueError
        The container is damaged or holds none of them.
    """
    container = _Container(data)
    for name in names:
        stream = container.stream(name)
        if stream is not None:
            return stream
    raise ValueError("it holds no workbook")
