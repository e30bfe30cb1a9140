"""Which chunks make an act: what a clause must hold, what it may hold besides, and how sure that is.

Each line: what is needed, parted by commas, with strokes between what will do as well | what else may stand there ->
the act, and how sure. A clause is read by a rule only if all its chunks are needed, allowed, or say nothing by
themselves. How sure is a judgement, in steps: .9 and more for what was plainly done, .7 and more for what is booked,
below that it is asked.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

SILENT = frozenset(
    {
        "filler",
        "modifier",
        "now",
        "place",
        "person",
        "named",
        "date",
        "tick",
        "length",
        "past day",
        "named day",
        "past filler",
    }
)
"""Kinds of chunks that say nothing by themselves."""
MILD = frozenset(
    "into,out,to,from,arrow,state,equipment,share,number,times,volume,mass,duration,degrees,left,colony,bin,animals,"
    "source,store,dry,wet,holds,everywhere,named day,new,alive".split(",")
)
"""Kinds that take little away from what was done beside them."""
_ALWAYS = frozenset({"new"})
_BESIDE = 0.06
_PLAIN = frozenset({"dead", "trap", "quarantine", "freezer", "resting"})
"""Things that name by themselves what was done."""
_TEXT = """
did water | amount, everywhere, water, moss, substrate, hide, dry, wet, equipment, animals, bin -> water .97
did give/did put/did make, water | amount, moss, dry, animals, into, equipment, bin, to, water measure -> water .95
did give, water vessel | amount, water -> water .8
did give, water measure | amount, water, animals -> water .85
water measure | amount, water -> water .7
did give/did put, volume | moss, into, dry, to, bin -> water .9
water measure, volume | water -> water .9
did swap, water | amount -> water .8
water, volume | amount, moss, substrate, hide, into, to, dry -> water .93
water, mass | amount, moss, substrate -> water .85
water, number | moss, into, to -> water .8
volume | number, times, moss, share, into, to, bin -> water .85
water | moss, times, share, to, into, dry -> water .75
moss, did water | amount, dry -> water .97
did feed | amount, food, food named, leaf, animals, bin, colony -> feed .97
did feed/did give/did put/did swap, food/food named | amount, into, to, animals, bin, colony, calcium -> feed .95
food/food named, mass/number/times/volume | amount, into, to, animals -> feed .88
food named | share, into, to -> feed .8
food | share, into, to, food named -> feed .75
mass | -> feed .7
did give/did put/did swap/did make, leaf | amount, into, to, substrate, from -> leaf .95
leaf, mass/number/times/volume | amount, into, to -> leaf .87
leaf | share, into -> leaf .75
did give/did put/did swap, calcium | amount, into, to, animals -> calcium .95
calcium | amount, into, to -> calcium .78
did give/did put/did swap/did take, moss | amount, into, to, out -> hides .92
hide/moss, out | number -> hides .7
did give/did put/did swap/did take/did clean/did bake, hide | amount, into, to, calcium, mould, out -> hides .92
hide | number, times, into -> hides .6
did give/did put/did swap/did make, substrate | amount, into, to, bin -> substrate_change .9
do swap, substrate | amount -> substrate_change .85
substrate, share | into -> substrate_change .6
did swap, share | left, into -> substrate_change .75
substrate, new | share, volume, into, mass, number -> substrate_change .85
hide, new | number, times, into, out -> hides .84
moss, new | number, times, into -> hides .84
leaf, new | amount, into -> leaf .88
food/food named, new | amount, into -> feed .88
calcium, new | amount, into, from, source -> calcium .88
did give, number, to | animals, young -> animals_out .74
did take, young/animals, droppings | out, from, number -> sift .84
leftovers, did weigh | mass, share -> leftovers .88
leftovers, arrow/to | bin -> leftovers .84
did get, quarantine, number | animals, into, to, bin, from, source -> quarantine+animals_in .86
share, recognisable | leaf, hide, substrate, old substrate -> substrate_look .88
substrate/leaf, recognisable | state -> substrate_look .84
supply, mass/volume/number | left, leaf, food, food named, calcium, substrate, equipment -> stock .86
supply, leaf/food/food named/substrate/calcium/hide | amount, left, state, out -> stock .84
left, leaf/substrate/calcium, mass/volume | bin -> stock .74
did take/did move/did put, share, animals/colony/young | into, bin, to, number -> split .82
bin/holds, to/arrow, holds | number -> move_up .84
from, to, holds | bin, number -> move_up .8
did get/did move, holds | bin, into, to, number -> move_up .8
did swap, food/food named, to/from | food named -> feed+leftovers .84
did swap, food/food named, new | number -> feed+leftovers .84
did get, out, number/animals | from -> animals_out .6
did see, number, state | animals, hide -> count .6
number, alive | animals, state -> count .86
did take, substrate | amount, out, to -> discard .75
substrate, out | amount -> discard .75
did take/did put/did clean, leftovers | amount, out, from, food, food named -> leftovers .93
did take, food/food named | amount, out, from, mould, state, left -> leftovers .9
did take, mould/left | share, out, food, food named -> leftovers .7
leftovers | amount, out, left, state, food named, mould -> leftovers .75
food/food named, out | share, left, mould -> leftovers .8
food/food named, left/did eat/used up | amount, animals, into -> leftovers .88
food/food named, mould | share, left -> leftovers .75
share, left/did eat | -> leftovers .8
did eat | share, animals, everywhere, left -> leftovers .75
did take, dead | number, animals, did see, out -> dead .97
dead | number, times, animals, did see, everywhere, hide, moult -> dead .95
did die | number, animals, moult -> dead .93
did count, number | animals, did see, hide, young -> count .95
do count/doing count, number | animals, state -> count .9
did see, number | animals, hide -> count .88
number, animals | did see, share -> count .74
did count | animals -> count .75
number | -> count .55
young | everywhere, number, did see, times, hide, animals, state -> young .85
did give/did put/did get, springtails | amount, into, to, colony -> animals_in .3
did give/did put/did get, number, animals | into, from, bin, young, source, colony -> animals_in .9
did give/did put, number, into/from | bin, animals, source -> animals_in .75
did get, number/animals | into, from, bin, young, source, colony -> animals_in .85
number/animals, into | from, bin, young, to, number, animals -> animals_in .62
number/animals, from, bin/source | into, number, animals -> animals_in .75
did move, number/animals, from, bin | into, number, animals -> animals_in .76
did move, number/animals, from, to, bin | number, animals, young -> animals_out .84
did rename, bin | to, from, arrow -> rename .88
did move, number/animals | to, out, into, bin, young, share, number, animals -> animals_out .75
did sell | number, animals, to, out, named, young, money, source, colony -> animals_out .93
did give, number, to, source | animals, young -> animals_out .85
did take, number | animals, out, to, other animals, bin, from, young, colony -> animals_out .8
did take, animals | out, to, bin, from, young, share -> animals_out .75
number/animals, out | to, arrow, bin, young, other animals, share, number, animals -> animals_out .8
number, did feed, other animals | to, animals -> animals_out .9
number, to, other animals | did give, did sell, did move, animals, from, source, young -> animals_out .86
number/animals, into, number | from, bin, source -> animals_in .62
number, animals, into | from, bin, young, source -> animals_in .84
number, to/arrow, bin | animals -> animals_out .75
bin, arrow, times/number | animals -> animals_out .75
did split | number, animals, out, into, to, bin, share, young, colony -> split .9
do split | number, animals, out, into, to, bin, share -> split .5
did look | animals, moss, bin, colony, into, hide, state -> look .9
did look, equipment | bin, colony, animals, into -> look .6
do look | animals -> look .6
did look/did dig, substrate/old substrate | number, state, dry, wet, droppings, share -> substrate_look .9
substrate, state/droppings/wet/dry | share, everywhere -> substrate_look .75
substrate, share, left | -> substrate_look .7
share, leaf, state | -> substrate_look .6
moss, dry/wet/state | everywhere, did look, did dig, share, length, number -> moss .86
moss, did look | -> moss .85
did weigh, leaf/food/food named/calcium | mass -> stock .6
did weigh, supply | mass, leaf, food, calcium, substrate, left -> stock .85
leaf/food/food named/calcium, store, mass | number -> stock .9
store, mass/volume | leaf, food, food named, calcium, left -> stock .8
freezer | duration -> freeze .66
did end, source/house | -> end .5
did freeze | freezer, equipment, number, animals, bin, duration, colony, pest, to, young, substrate, leftovers,
    leaf, hide, moss, food -> freeze .84
bin/animals/colony/substrate/leaf/hide/moss, freezer | duration, into, to, number, did put, did move -> freeze .75
larger bin | did move, holds, into, to, animals, colony, number -> move_up .75
did move/did put/did start/did give/did get/did take, quarantine | into, animals, number, to, young -> quarantine .85
did move/did take/did get, from/out, quarantine | animals, number, to, bin, colony -> release .85
did lose, number/animals | dead, young, moult -> dead .86
did die, equipment/house | number, state -> house .6
did dig/did look, moss | dry, wet, into, number -> moss .85
did dig | into, dry, wet, share, length -> substrate_look .72
house | person, equipment, duration, out, number, did water, did take, did move, bin, state, did put, did clean,
    into, food, store, from, source -> house .75
did quarantine | bin, animals, number, into, to, colony, pest, from -> quarantine .9
quarantine | into, animals, number, to, duration, bin, colony, pest, from, source -> quarantine .75
did put/did move/did give/did rest/did start/did make, resting | into, to, animals, bin, colony, degrees -> rest .85
resting | degrees, duration, from, bin, colony, equipment, to -> rest .72
did start, bin/colony/animals/number/from/into/substrate/leaf | animals, amount, from, bin, into, colony,
    substrate, leaf, hide, moss, holds, springtails -> start .85
did start | -> start .8
did end | number, animals, bin, colony, out -> end .8
did trap | food named, number, animals, stragglers, old substrate -> trap .85
trap | food named, number, animals, did give, did put, into, old substrate, out, did look, stragglers,
    did take -> trap .8
trap, did see | number, animals, food named, young, food -> trap .8
food/food named, old substrate/stragglers | did give, did put, into, to, out, share, number, animals -> trap .7
degrees | share, number, room, humidity, equipment, bin, into -> room .84
humidity, share/number | degrees, room, number -> room .85
room, number/degrees | share, humidity, state, into -> room .86
did sift | number, animals, did see, substrate, old substrate, leftovers, volume, stragglers, duration,
    young, out -> sift .9
doing sift/do sift | number, animals, substrate, old substrate, volume, stragglers, duration, did eat -> sift .75
old substrate, did look/did dig/did take, number/animals/stragglers | out, number, animals, did see -> sift .75
did discard/did take/did clean, leftovers | number, food, food named, out -> leftovers .88
mould, out | food, food named, leftovers -> leftovers .84
old substrate, left, out | did discard -> discard .8
old substrate, out | to, volume, did take, did put, mass, number -> discard .85
did discard, substrate/old substrate/leaf/freezer | volume, mass, out, number, did take -> discard .9
did discard | volume, mass, out -> discard .7
did release | animals, number, bin, to, out, person -> release .9
did rest | bin, animals, into, degrees, colony, to, duration, did put, did start, did move -> rest .85
did move up | animals, colony, number, bin, volume, holds, to, into, larger bin -> move_up .85
did move/did put, larger bin | animals, colony, number, to, into, holds -> move_up .85
did move, holds, bin | animals, colony, number, to, into -> move_up .75
did freeze, old substrate | volume, mass, duration, into, to -> freeze .9
freezer, old substrate/supply/hide/leaf/moss/leftovers/substrate | volume, mass, duration, into, to, did put,
    did give, did move, number, out, did make -> freeze .86
store, leaf/food/food named/calcium/hide/moss/substrate/springtails/supply | amount, left, did count,
    did weigh, equipment, holds -> stock .85
leaf/food/food named/calcium/hide/supply/substrate/moss, left, store/equipment | amount, into -> stock .84
did weigh/did count, supply/store | amount, left, equipment, leaf, food, food named -> stock .75
moss/hide, into | amount, out, leftovers -> hides .85
volume, into | times -> water .85
leaf, into | amount -> leaf .88
calcium, into | amount -> calcium .88
food/food named, into | amount -> feed .88
substrate, into | amount -> substrate_change .75
"""


@dataclass(frozen=True, slots=True)
class Rule:
    """What makes an act; ``needed`` holds one set for each chunk that must be there."""

    needed: tuple[frozenset[str], ...]
    allowed: frozenset[str]
    act: str
    sure: float

    def fits(self, kinds: Collection[str]) -> bool:
        """Whether a clause of these kinds is read by the rule."""
        met = [one.intersection(kinds) for one in self.needed]
        return all(met) and set(kinds) <= self.allowed.union(_ALWAYS, *met)

    def beside(self, kinds: Collection[str]) -> frozenset[str]:
        """Kinds beside what is needed that the rule doesn't name; none where something needed is absent."""
        met = [one.intersection(kinds) for one in self.needed]
        return frozenset(kinds).difference(self.allowed, _ALWAYS, *met) if all(met) else frozenset()

    @property
    def plain(self) -> bool:
        """Whether it rests on what plainly was done, or on what can hardly be anything else."""
        return any(all(kind.startswith("did ") or kind in _PLAIN for kind in one) for one in self.needed)


def _rules() -> tuple[Rule, ...]:
    amounts = frozenset({"volume", "mass", "number", "share", "times"})
    found = []
    for line in _TEXT.strip().replace("\n    ", " ").splitlines():
        needed, _, rest = line.partition("|")
        allowed, _, result = rest.partition("->")
        act, sure = result.split()
        also = frozenset(one.strip() for one in allowed.split(",") if one.strip())
        also |= amounts if "amount" in also else frozenset()
        must = tuple(frozenset(one.strip().split("/")) for one in needed.split(","))
        found.append(Rule(must, also, act, float(sure)))
    return tuple(found)


RULES = _rules()


def act_of(kinds: Collection[str]) -> tuple[str, float]:
    """The act of a clause and how sure it is: by the rule that needs most, then the surest; ('', 0) if none.

    A rule that rests on what plainly was done bears mild things beside it that it doesn't name, and is less sure then.
    """
    said = {kind for kind in kinds if kind not in SILENT}
    fitting = [(len(rule.needed), rule.sure, rule.act) for rule in RULES if rule.fits(said)]
    if not fitting:
        fitting = [
            (len(rule.needed), rule.sure - _BESIDE * len(beside), rule.act)
            for rule in RULES
            if rule.plain and (beside := rule.beside(said)) and beside <= MILD
        ]
    _, sure, act = max(fitting, default=(0, 0.0, ""))
    return act, sure
