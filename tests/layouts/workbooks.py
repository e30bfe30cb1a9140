"""Whole workbooks: a known log written in one layout, or in several at once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

from layouts import folded, tables
from layouts.hand import Hand
from layouts.known import Fact, Known, draw
from layouts.page import Page
from layouts.pool import Part
from workbook_tools.intake.cells import Book

LAYOUTS = (
    "one long log",
    "a sheet a kind of work",
    "two-row headings",
    "a grid of dates",
    "a sheet a bin",
    "bins as columns",
    "census blocks",
    "in-and-out book",
    "form export",
    "list on two sheets",
    "several mixed",
)


@dataclass(frozen=True)
class Workbook:
    """A workbook as one keeper wrote it."""

    layout: str
    seed: int
    pages: tuple[Page, ...]

    def book(self) -> Book:
        """As opened, without a file."""
        return Book(Path("made.xlsx"), tuple(page.sheet() for page in self.pages), facts={"format": "xlsx"})


def make(seed: int, layout: str, part: Part = "all", strange: float = 0.0) -> Workbook:
    """Draw a known log and a keeper's hand from a seed, and write the one with the other."""
    rng = Random(f"{seed} {layout}")
    hand = Hand(rng, part, strange)
    known = draw(rng, movements=layout == "in-and-out book")
    taken: set[str] = set()
    pages = _pages(layout, hand, known, taken)
    if hand.chance(0.2) and len(pages) > 1:
        rng.shuffle(pages)
    return Workbook(layout, seed, tuple(pages))


def _pages(layout: str, hand: Hand, known: Known, taken: set[str]) -> list[Page]:
    if layout == "a sheet a bin":
        return [folded.bin_sheet(hand, known, name) for name in known.bins]
    if layout == "list on two sheets":
        cut = len(known.bins) // 2
        parts = (known.bins[:cut], known.bins[cut:])
        pages = [_listed(hand, replace(known, bins=part), taken) for part in parts]
        return [*pages, _log(hand, known, taken)]
    listed = _listed(hand, known, taken, turned=layout == "bins as columns", grouped=layout == "two-row headings")
    match layout:
        case "a sheet a kind of work":
            return [listed, *tables.job_sheets(hand, known, taken)]
        case "a grid of dates":
            return [listed, _grid(hand, known, taken)] if hand.chance(0.6) else [_grid(hand, known, taken)]
        case "census blocks":
            return [listed, _census(hand, known, taken)]
        case "in-and-out book":
            page = Page(hand.sheet("book", taken))
            folded.book(page, hand, known)
            return [listed, page]
        case "form export":
            page = Page(hand.sheet("form", taken))
            tables.form(page, hand, known)
            return [listed, page]
        case "several mixed":
            return [listed, *_mixed(hand, known, taken)]
    return [listed, _log(hand, known, taken)]


def _mixed(hand: Hand, known: Known, taken: set[str]) -> list[Page]:
    """Watering in a grid, counts in blocks, the rest in a log or on sheets of its own."""

    def part(acts: set[str], *, others: bool = False) -> Known:
        return replace(known, deeds=tuple(deed for deed in known.deeds if (deed.act in acts) != others))

    pages = []
    left = {"water", "moss", "feed", "leaf", "dead", "substrate_change", "count"}
    if hand.chance(0.6):
        pages.append(_grid(hand, part({"water", "leaf"}), taken, of_bins=False))
        left -= {"water", "leaf"}
    if hand.chance(0.6) and part({"count"}).deeds:
        pages.append(_census(hand, part({"count"}), taken))
        left -= {"count"}
    rest = part(left)
    return [*pages, *(tables.job_sheets(hand, rest, taken) if hand.chance(0.4) else [_log(hand, rest, taken)])]


def _listed(hand: Hand, known: Known, taken: set[str], *, turned: bool = False, grouped: bool = False) -> Page:
    page = Page(hand.sheet("list", taken))
    if turned:
        folded.turned_list(page, hand, known)
    else:
        tables.list_of_bins(page, hand, known, grouped=grouped)
    return page


def _log(hand: Hand, known: Known, taken: set[str]) -> Page:
    page = Page(hand.sheet("log", taken))
    tables.long_log(page, hand, known)
    return page


def _grid(hand: Hand, known: Known, taken: set[str], *, of_bins: bool = True) -> Page:
    page = Page(hand.sheet("grid", taken))
    folded.grid(page, hand, known)
    if not of_bins:
        page.told = [one for one in page.told if one[0].day]
    return page


def _census(hand: Hand, known: Known, taken: set[str]) -> Page:
    page = Page(hand.sheet("list", taken) if hand.chance(0.2) else hand.sheet("count", taken))
    counts: tuple[Fact, ...] = tuple(deed for deed in known.deeds if deed.act == "count")
    if not counts:
        day = next(deed.day for deed in known.deeds)
        counts = tuple(Fact(name, day, "count", 10 + at, "trap") for at, name in enumerate(known.bins))
    folded.census(page, hand, replace(known, deeds=counts))
    return page
