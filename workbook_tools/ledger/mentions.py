"""Which bins the log means: names matched to the list of bins, and bins that only the log names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from workbook_tools.intake.values import Fact
from workbook_tools.ledger.names import BinNames, alike_key, means_group, parts, pieces
from workbook_tools.ledger.records import Bin, said
from workbook_tools.problems import CellRef, Problem


@dataclass
class Mentions:
    """Finds the bins that a text of the log means, and collects what had to be assumed.

    Names met in the log that the list doesn't have become bins of their own, marked as not listed.
    """

    bins: dict[str, Bin]
    problems: list[Problem] = field(default_factory=list)
    begun: dict[str, str] = field(default_factory=dict)
    """Names that the log begins as new bins, by ``alike_key``, each with the bin they come from: no slips."""
    renamed: set[str] = field(default_factory=set)
    """Old and new names of bins that were renamed, by ``alike_key``: no slips either."""

    def __post_init__(self) -> None:
        self._alike: dict[tuple[str, tuple[str, ...]], list[CellRef]] = {}
        self._has_list = bool(self.bins)
        self._splits = all(pieces(bin.name) == (bin.name,) for bin in self.bins.values())
        self._names = self._index()

    def _index(self) -> BinNames:
        return BinNames(tuple((bin.name, bin.place) for bin in self.bins.values()))

    def learn(self, facts: Iterable[Fact]) -> None:
        """Make bins of the names that no sheet lists.

        Plain numbers come last, so that ``7`` can mean a ``B07`` met in the log.
        """
        texts: dict[str, list[CellRef]] = {}
        for fact in facts:
            texts.setdefault(said(fact).strip(), []).append(fact.cell.ref)
        for bare in (False, True):
            new: dict[str, Bin] = {}
            cells: dict[str, list[CellRef]] = {}
            for text, refs in texts.items():
                if not text or means_group(text):
                    continue
                for piece in self._unknown(text):
                    if piece.isdigit() == bare and self._names.find(piece).how == "none":
                        name = new.setdefault(alike_key(piece), Bin(piece, refs[0], listed=False)).name
                        cells.setdefault(name, []).extend(refs)
            self.bins.update({bin.name: bin for bin in new.values()})
            if new:
                self._names_unlisted(cells)
                self._names = self._index()

    def _unknown(self, text: str) -> tuple[str, ...]:
        """The parts of a text that are no bin yet, the whole text if it isn't plainly several names."""
        match = self._names.find(text)
        if match.names or match.rivals:
            return ()
        if 0 < len(match.missing) < len(parts(text)):
            return match.missing
        return pieces(text) if self._splits else (text,)

    def _names_unlisted(self, cells: Mapping[str, list[CellRef]]) -> None:
        if not self._has_list:
            return
        for name, refs in cells.items():
            if alike_key(name) in self.renamed:
                continue
            if parent := self.begun.get(alike_key(name)):
                places = sorted(set(refs))
                told = {"bin": name, "parent": parent}
                self.problems.append(Problem("bins.begun", places[0], told, name, tuple(places[1:])))
                continue
            like = [other for other in self._names.find(name).suggestions if self.bins[other].listed]
            hint = f" Did you mean {like[0]}?" if like else ""
            places = sorted(set(refs))
            self.problems.append(
                Problem("bins.unlisted", places[0], {"bin": name, "hint": hint}, name, tuple(places[1:]))
            )

    def find(self, fact: Fact) -> tuple[str, ...]:
        """The bins that a cell names, empty when it can't be told; what was assumed is noted."""
        text = said(fact).strip()
        match = self._names.find(text)
        if match.rivals:
            told = {"bins": " or ".join(" + ".join(rival) for rival in match.rivals)}
            self.problems.append(Problem("bins.rivals", fact.cell.ref, told, text))
            return ()
        if match.how == "none":
            self.problems.append(Problem("bins.group_unknown", fact.cell.ref, {}, text))
            return ()
        if match.guessed:
            self.problems.append(Problem("bins.alike", fact.cell.ref, {"bins": " + ".join(match.names)}, text))
        elif match.how == "alike":
            self._alike.setdefault((text, match.names), []).append(fact.cell.ref)
        return match.names

    def spellings(self) -> list[Problem]:
        """Note the names that are only alike: each spelling with its cells."""
        return [
            Problem("bins.alike", cells[0], {"bins": " + ".join(names)}, text, tuple(cells[1:]))
            for (text, names), cells in self._alike.items()
        ]

    def known(self, text: str) -> tuple[str, ...]:
        """The bins that a text names beyond doubt, without a problem when it names none."""
        match = self._names.find(text.strip())
        return () if match.rivals else match.names

    def surely(self, text: str) -> tuple[str, ...]:
        """The bins that a text names by their own names, none where it may say something else."""
        match = self._names.find(text.strip())
        return match.names if match.how in ("exact", "alike", "several") and not match.guessed else ()

    def whole_group(self, text: str) -> bool:
        """Whether a text names bins by their place, or all of them."""
        return self._names.find(text.strip()).how in ("place", "all")
