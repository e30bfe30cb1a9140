"""Match what a log calls its bins to the names in the list of bins. Near misses are suggested, never taken."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from rapidfuzz import fuzz, process

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields.kinds import listed

How = Literal["exact", "alike", "number", "range", "several", "place", "all", "none"]

_ALL = frozenset(
    listed(
        "all; all bins; all boxes; all tubs; all of them; every bin; every box; every tub; everything; everyone; "
        "everybody; each; each bin; every one; the lot; whole lot; whole room; all the bins; all the boxes; *; alle; "
        "alles; tous; toutes; todos; todas; allemaal; all round"
    )
)
_LEADS = frozenset(
    listed(
        "all; every; everything; everyone; everybody; each; whole; entire; complete; alle; alles; ganze; tous; todos; "
        "tout"
    )
)
_SMALL = frozenset(
    listed("on; in; at; of; the; from; bins; bin; boxes; box; tubs; tub; auf; im; dem; den; sur; la; le; en")
)
_SHELVES = frozenset(listed("shelf; shelves; rack; racks; regal; etagere; fach; estante; plank"))
"""Words for a place that are hardly a part of one bin's own name, while a bin may be called Row 3."""
_PLACE_WORDS = _SHELVES | frozenset(listed("row; level; tier; place"))
_CALLED = re.compile(
    r"^(?:bin|box|tub|container|enclosure|no|nr|number|code|kiste|dose)s?\b[.:#\s]*|^[#№]\s*", re.IGNORECASE
)
_BUT = re.compile(
    r"\s*(?:,\s*)?\b(?:but|except|excluding|without|apart from|bar|minus|außer|sauf|ohne)\b\s*(?:for\s+)?",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"\s*(?:[+&,;/|\n]|\band\b|\bund\b|\bet\b|\by\b|\ben\b)\s*", re.IGNORECASE)
_RANGE = re.compile(r"(.*?\d+)\s*(?:-|\.\.+|…|\bto\b|\bbis\b|\bthrough\b|\bthru\b)\s*(\D*?\d+)", re.IGNORECASE)
_CODE = re.compile(r"([A-Za-z]{1,4})?[ _-]?\d{1,4}[a-z]?")
_KEY = re.compile(r"(\D*)(\d+)")
_LONGEST_RANGE = 500


@dataclass(frozen=True, slots=True)
class Match:
    """The bins that a text means.

    Attributes
    ----------
    names : tuple of str
        As the list of bins writes them, in its order for places and ranges; empty when ``how`` is ``none``.
    how : str
        ``exact``: word for word; ``alike``: but for case, blanks, dashes, leading zeros, quotes or a bracket behind;
        ``number``: by its bare number, a guess; ``range``, ``several``, ``place``, ``all``: more than one; ``none``.
    rivals : tuple of tuple of str
        Where two bins could both be meant: what could be meant, one tuple each. ``how`` is then ``none``.
    missing : tuple of str
        The parts of the text that are no bin.
    suggestions : tuple of str
        Names that look like the first missing part, for the problem; never taken.
    guessed : bool
        Something beside spelling was assumed.
    """

    names: tuple[str, ...]
    how: How
    rivals: tuple[tuple[str, ...], ...] = ()
    missing: tuple[str, ...] = ()
    suggestions: tuple[str, ...] = ()
    guessed: bool = False


def _plain(text: str) -> str:
    """Return the text with one kind of dash and blank, without quotes."""
    text = re.sub(r"[‐‑‒–—−]", "-", text)
    return " ".join(re.sub(r"[\"'“”„‟«»‘’‚`´″′]", "", text).split())


def alike_key(name: str) -> str:
    """Return what is left of a name without case, blanks, dashes, quotes and leading zeros: ``b-07`` gives ``b7``.

    Numbers that stand apart stay apart: ``A1-2`` is not ``A12``.
    """
    runs = re.findall(r"\d+|[^\W\d_]+|[+&/,;♀♂*]", _plain(name).casefold())
    key = ""
    for run in runs:
        if run.isdecimal():
            key += ("-" if key[-1:].isdecimal() else "") + (run.lstrip("0") or "0")
        else:
            key += run
    return key


def looks_like_code(text: str) -> bool:
    """Whether a text looks like the code of one bin: A1, b-07, 12, Fog 3b."""
    return _CODE.fullmatch(text.strip()) is not None


def parts(text: str) -> list[str]:
    """Cut a text where it may go on to another bin: at a comma, a plus, a stroke, the word and."""
    return [part for part in _BETWEEN.split(text.strip()) if part]


def pieces(name: str) -> tuple[str, ...]:
    """Cut a text that names several bins by codes of one pattern, such as ``A04 / A05``; else leave it whole."""
    found = parts(name)
    codes = [_CODE.fullmatch(part) for part in found]
    if len(found) > 1 and all(codes) and len({(code[1] or "").casefold() for code in codes if code}) == 1:
        return tuple(dict.fromkeys(found))
    return (name.strip(),)


def means_group(text: str) -> bool:
    """Whether a text speaks of a shelf or of all bins, so that it is no bin's own name."""
    return _is_everything(text) or not (_LEADS | _SHELVES).isdisjoint(_words(text))


def _is_everything(text: str) -> bool:
    return text.casefold().strip("!. ") in _ALL


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"\w+", _plain(text).casefold()))


def _without_bracket(text: str) -> str:
    return re.sub(r"\s*[(\[].*?[)\]]\s*$", "", text)


class BinNames:
    """The names and places of all bins, to look up what a log calls them.

    Parameters
    ----------
    bins : iterable of (str, str)
        Name and place of each bin, in the keeper's order.
    """

    def __init__(self, bins: Iterable[tuple[str, str]]) -> None:
        self._bins = tuple(dict(bins).items())
        self._exact = {_plain(name): name for name, _ in reversed(self._bins)}
        self._alike: dict[str, list[str]] = {}
        self._unbracketed: dict[str, list[str]] = {}
        self._numbered: dict[int, list[str]] = {}
        self._prefixed: dict[tuple[str, int], list[str]] = {}
        self._places: dict[str, list[str]] = {}
        for name, place in self._bins:
            key = alike_key(name)
            self._alike.setdefault(key, []).append(name)
            self._unbracketed.setdefault(alike_key(_without_bracket(name)), []).append(name)
            if (m := _KEY.fullmatch(key)) and len(m[2]) <= 9:
                self._numbered.setdefault(int(m[2]), []).append(name)
                self._prefixed.setdefault((m[1], int(m[2])), []).append(name)
            if place.strip():
                self._places.setdefault(place, []).append(name)
        self._place_words = [(_words(place), names) for place, names in self._places.items()]
        self._seen: dict[str, Match] = {}

    def find(self, text: str) -> Match:
        """Find the bins that a text means.

        Parameters
        ----------
        text : str
            A name, several ("12+13", "A1, A2 & A3"), a range ("A01-A05"), a place ("all shelf A"), or all of them
            ("all but A3").

        Returns
        -------
        Match
            A name that itself holds a ``+`` or ``-`` wins as a whole. A bare number is a guess, taken only when a
            single bin has it. Where any part is no bin or could be two, nothing is taken at all.
        """
        found = self._seen.get(text)
        if found is None:
            found = self._seen[text] = self._find(_plain(text))
        return found

    def _find(self, text: str) -> Match:
        if not text:
            return Match((), "none")
        whole = self._one(text, numbers=False)
        if whole.names or whole.rivals:
            return whole
        if but := _BUT.split(text, maxsplit=1)[1:]:
            return self._all_but(_BUT.split(text, maxsplit=1)[0], but[0])
        for reader in (self._everything, self._place, self._range):
            if match := reader(text):
                return match
        single = self._one(text)
        if single.names or single.rivals:
            return single
        return self._several(text) or self._missing(text)

    def _missing(self, *parts: str) -> Match:
        like = process.extract(
            parts[0],
            [name for name, _ in self._bins],
            scorer=fuzz.ratio,
            processor=str.casefold,
            limit=3,
            score_cutoff=DEFAULTS["names.alike"].value,
        )
        return Match((), "none", missing=parts, suggestions=tuple(name for name, _, _ in like))

    def _one(self, text: str, *, numbers: bool = True) -> Match:
        """Find a single bin by its name, or by its bare number."""
        if text in self._exact:
            return Match((self._exact[text],), "exact")
        key = alike_key(text)
        called = _CALLED.sub("", text)
        for keys, table in (
            (key, self._alike),
            (alike_key(called), self._alike),
            (alike_key(_without_bracket(text)), self._alike),
            (alike_key(_without_bracket(text)), self._unbracketed),
        ):
            if keys and (names := table.get(keys)):
                return self._only(names, "alike")
        bare = _without_bracket(called).strip(" .:")
        if numbers and bare.isdecimal() and len(bare) <= 9 and (names := self._numbered.get(int(bare))):
            return self._only(names, "number")
        return Match((), "none")

    @staticmethod
    def _only(names: list[str], how: How) -> Match:
        if len(names) == 1:
            return Match((names[0],), how, guessed=how == "number")
        return Match((), "none", rivals=tuple((name,) for name in names))

    def _everything(self, text: str) -> Match | None:
        if not _is_everything(text) or not self._bins:
            return None
        return Match(tuple(name for name, _ in self._bins), "all")

    def _all_but(self, first: str, but: str) -> Match:
        group, out = self._find(first), self._find(but)
        for match in (group, out):
            if match.how == "none":
                return match
        names = tuple(name for name in group.names if name not in out.names)
        return Match(names, group.how if names else "none", guessed=group.guessed)

    def _place(self, text: str) -> Match | None:
        """Find the bins of a place: its own words, or its words with "all" or "shelf" before or behind."""
        words = _words(text)
        for place, names in self._place_words:
            if words == place:
                return Match(tuple(names), "place")
        led = bool(_LEADS.intersection(words)) or bool(_PLACE_WORDS.intersection(words))
        if not led or _BETWEEN.search(text) or not self._bins:
            return None
        rest = [word for word in words if word not in _LEADS and word not in _SMALL]
        bare = frozenset(word.lstrip("0") or "0" for word in rest if word not in _PLACE_WORDS)
        if not bare:
            return None
        fitting = [names for place, names in self._place_words if sorted(place) == sorted(rest)]
        fitting = fitting or [names for place, names in self._place_words if self._bare(place) == bare]
        if len(fitting) == 1:
            return Match(tuple(fitting[0]), "place")
        if len(fitting) > 1:
            return Match((), "none", rivals=tuple(tuple(names) for names in fitting))
        within = {name for place, names in self._place_words if bare <= self._bare(place) for name in names}
        if not within and len(bare) == 1:
            prefix = next(iter(bare))
            within = {name for key, names in self._alike.items() if re.match(rf"{prefix}\d", key) for name in names}
        if not within:
            return self._missing(text)
        return Match(tuple(name for name, _ in self._bins if name in within), "place", guessed=True)

    @staticmethod
    def _bare(place: tuple[str, ...]) -> frozenset[str]:
        return frozenset(word.lstrip("0") or "0" for word in place if word not in _PLACE_WORDS)

    def _range(self, text: str) -> Match | None:
        """Find the bins from one to another: A01-A05, A1..5, 12 to 15. Only both ends must be listed."""
        m = _RANGE.fullmatch(text)
        if not m:
            return None
        ends = [_KEY.fullmatch(alike_key(_CALLED.sub("", end.strip()))) for end in m.groups()]
        first, last = ends
        if not first or not last or max(len(first[2]), len(last[2])) > 9 or (last[1] and last[1] != first[1]):
            return None
        low, high = sorted((int(first[2]), int(last[2])))
        if high - low > _LONGEST_RANGE or low == high:
            return None
        names: list[str] = []
        for number in range(low, high + 1):
            here = self._prefixed.get((first[1], number), [])
            if not here and not first[1]:
                here = self._numbered.get(number, [])
            if len(here) > 1:
                return Match((), "none", rivals=tuple((name,) for name in here))
            if not here and number in (low, high):
                return self._missing(m[1] if number == int(first[2]) else m[2])
            names += here
        return Match(tuple(names), "range", guessed=not first[1])

    def _several(self, text: str) -> Match | None:
        """Find several bins in one text; the longest run of parts that is a name counts as that name."""
        cuts = [(m.start(), m.end()) for m in _BETWEEN.finditer(text)]
        if not cuts:
            return None
        starts, ends = [0, *(end for _, end in cuts)], [*(start for start, _ in cuts), len(text)]
        names: list[str] = []
        missing: list[str] = []
        guessed = False
        prefix = ""
        at = 0
        while at < len(starts):
            if starts[at] >= ends[at]:
                at += 1
                continue
            for upto in range(len(ends) - 1, at - 1, -1):
                part = text[starts[at] : ends[upto]]
                match = self._part(part, prefix) if upto == at else self._one(part, numbers=False)
                if match.names or match.rivals:
                    break
            if match.rivals:
                return match
            if match.names:
                guessed = guessed or match.guessed
                names += match.names
                last = _KEY.fullmatch(alike_key(match.names[-1]))
                prefix = last[1] if last else ""
            else:
                missing.append(part)
            at = upto + 1
        if missing or not names:
            return self._missing(*(missing or [text]))
        return Match(tuple(dict.fromkeys(names)), "several", guessed=guessed)

    def _part(self, part: str, prefix: str) -> Match:
        """Find one part of a list: a name, a range, a place, or a number with the letters of the part before."""
        if part.isdecimal() and len(part) <= 9 and prefix and alike_key(part) not in self._alike:
            names = self._prefixed.get((prefix, int(part)))
            if names:
                return self._only(names, "alike")
        whole = self._one(part, numbers=False)
        if whole.names or whole.rivals:
            return whole
        return self._place(part) or self._range(part) or self._one(part)
