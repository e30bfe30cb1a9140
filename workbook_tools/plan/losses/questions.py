"""What to look at first in bins that lose animals: questions, in the order that the entries suggest."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, FINDINGS
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.room import room_series
from workbook_tools.plan.losses.records import Event, Question
from workbook_tools.plan.losses.sights import found_in
from workbook_tools.plan.wording import Wording

TOPICS: dict[str, str] = {
    "Moisture": "Is one side damp and the other drier, and can they move from one to the other?",
    "Ventilation": "Does air get in and out: are the holes free, is there film under the lid, does it smell sour?",
    "Temperature": "How warm and how cold has it been just there, by day and by night?",
    "Chemicals": "Was anything sprayed, wiped, scented or painted near them, or on the leaves, food or hands?",
    "Recent change": "What was new in these bins in the weeks before: substrate, leaves, food, hides, animals?",
}
"""What is asked, in the order in which it is asked where the entries suggest none."""
MOSS = {"dry": 0.5, "soaked": 0.5}
CHANGES = {"substrate_change": 1.0, "move_up": 1.0, "split": 0.7, "animals_in": 1.0, "move_place": 1.0, "hides": 0.5}
EVENT = 1.5
"""An event in the house reaches all bins, so that it goes before what was seen in some of them."""


@dataclass
class _Noted:
    """What speaks for one topic, by what was noted: how strongly, and in which bins with the last day."""

    said: dict[str, float] = field(default_factory=dict)
    bins: dict[str, dict[str, dt.date | None]] = field(default_factory=dict)
    events: list[str] = field(default_factory=list)

    def add(self, what: str, strength: float, name: str, day: dt.date | None) -> None:
        self.said[what] = strength
        self.bins.setdefault(what, {})[name] = day

    def weight(self, among: int) -> float:
        """The largest share of the bins in which one thing was noted, by its strength."""
        shares = [self.said[what] * len(bins) / among for what, bins in self.bins.items()]
        return max([*shares, *(EVENT for _ in self.events)], default=0.0)

    def sentences(self, among: int, wording: Wording) -> tuple[str, ...]:
        made = []
        ranked = sorted(self.bins.items(), key=lambda one: -self.said[one[0]] * len(one[1]))
        for what, bins in ranked:
            days = [day for day in bins.values() if day is not None]
            last = f", last on {wording.date(max(days))}" if days else ""
            where = f"in {next(iter(bins))}" if len(bins) == 1 else f"in {len(bins)} of the {among} bins"
            made.append(f"{what} {where}{last}")
        return (*self.events, *made)


def questions(
    ledger: Ledger, names: Sequence[str], first: dt.date, on: dt.date, events: Iterable[Event], wording: Wording
) -> tuple[Question, ...]:
    """Order the topics by what was noted of the bins in the weeks before their losses and since.

    Parameters
    ----------
    ledger : Ledger
        Its entries.
    names : sequence of str
        The bins that lose animals; none gives no question.
    first : date
        The day of their first find.
    on : date
        Entries after it aren't known.
    events : iterable of Event
        House events that may count.
    wording : Wording
        How dates are written.

    Returns
    -------
    tuple of Question
        All topics: first what was noted in the largest share of the bins, an event in the house before all else.
    """
    if not names:
        return ()
    since = first - dt.timedelta(days=round(DEFAULTS["losses.before"].value))
    noted = {topic: _Noted() for topic in TOPICS}
    for event in events:
        if since <= event.day <= on and (not event.bins or set(event.bins) & set(names)):
            topic = "Temperature" if event.heat else "Chemicals"
            noted[topic].events.append(f"{event.says} on {wording.date(event.day)}")
    wanted = set(names)
    for entry in ledger.entries:
        if entry.when is None or not since <= entry.when.first <= on:
            continue
        for name in entry.bins:
            if name in wanted:
                _take(noted, entry, name, entry.when.first, first)
    for name in names:
        bin = ledger.bins.get(name)
        if bin is not None and bin.word("ventilation") == "low":
            noted["Ventilation"].add("little ventilation by your list", 0.4, name, None)
    noted["Temperature"].events += _room(ledger, since, on, wording)
    order = sorted(TOPICS, key=lambda topic: -noted[topic].weight(len(names)))
    return tuple(Question(topic, TOPICS[topic], noted[topic].sentences(len(names), wording)) for topic in order)


def _take(noted: dict[str, _Noted], entry: Entry, name: str, day: dt.date, first: dt.date) -> None:
    """Note what one entry says of one bin."""
    for key in found_in(entry):
        finding = FINDINGS.get(key)
        if finding is not None and finding.topic:
            noted[finding.topic].add(f"{key} seen", finding.speaks, name, day)
    moss = entry.state("moss")
    if entry.act == "moss" and moss in MOSS:
        noted["Moisture"].add(f"moss corner found {moss}", MOSS[moss], name, day)
    if entry.act in CHANGES and day <= first:
        noted["Recent change"].add(f"'{ACTS[entry.act].label}' logged", CHANGES[entry.act], name, day)


def _room(ledger: Ledger, since: dt.date, on: dt.date, wording: Wording) -> list[str]:
    """Say when the room was warmer or colder than most isopods are kept."""
    room = room_series(ledger, on)
    warmth = room.temperature[room.day >= since.toordinal()]
    days = room.day[room.day >= since.toordinal()]
    if not warmth.size:
        return []
    warm, cold = int(np.argmax(warmth)), int(np.argmin(warmth))
    far = [warm] if warmth[warm] >= DEFAULTS["losses.warm"].value else []
    far += [cold] if warmth[cold] <= DEFAULTS["losses.cold"].value else []
    return [
        f"the room at {wording.number(float(warmth[at]), 1)} °C on {wording.date(dt.date.fromordinal(int(days[at])))}"
        for at in far
    ]
