"""What a chunk becomes by what stands beside it: 'water bottle' is no water, 'into the moss' is a place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from workbook_tools.intake.phrases.chunks import Chunk
from workbook_tools.vocabulary.phrase_words import SUPPLY_WORDS

GIVEN = frozenset({"water", "food", "food named", "leaf", "calcium", "moss", "hide", "substrate"})
"""Things that are put into a bin."""
_THINGS = GIVEN | {"animals", "young", "dead", "springtails", "leftovers"}
_WITHIN = frozenset(
    "to,to the,near the,behind the,at the,on,onto,into,under,beneath,near,on the,onto the,into the,in the,under the,"
    "around the,around,over,against,behind,beside,between,at,inside,through,along,sur,auf,dans,op,in,side of,on top,"
    "into a,along the back,next to,next to the".split(",")
)
"""Words behind which a thing is a place."""
_SIDES = frozenset("side end corner half area spot patch sides ends zone part".split())
_WEAK = frozenset({"modifier", "filler", "person"})


def numbered(chunk: Chunk) -> bool:
    """Whether it is a bin with a number, such as can only be one of the keeper's."""
    return chunk.kind == "bin" and any(map(str.isdigit, chunk.text))


def in_context(chunks: Sequence[Chunk]) -> list[Chunk]:
    """Settle the kind of each chunk by its neighbours, from left to right."""
    out: list[Chunk] = []
    at = 0
    while at < len(chunks):
        behind = chunks[at + 1] if at + 1 < len(chunks) else None
        for rule in _RULES:
            if found := rule(out, chunks[at], behind):
                chunk, used = found
                break
        else:
            chunk, used = chunks[at], 1
        out.append(replace(chunk, end=chunks[at + used - 1].end))
        at += used
    return out


Found = tuple[Chunk, int] | None
_Rule = Callable[[list[Chunk], Chunk, Chunk | None], Found]


def _supply(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """A thing and what holds or is named after it: 'water bottle', 'leaf bag'."""
    if behind and chunk.kind in GIVEN | {"animals", "other animals"} and behind.text in SUPPLY_WORDS:
        kind = "store" if behind.text in ("stock", "store") else "supply"
        return Chunk(kind, f"{chunk.text} {behind.text}", chunk.at), 2
    return None


def _side(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Wet side', 'mossy end', 'left corner'."""
    about = chunk.kind in ("dry", "wet", "moss", "left", "state") or chunk.text in ("warm", "cold", "deep")
    if behind and about and (behind.text in _SIDES):
        return Chunk("place", f"{chunk.text} {behind.text}", chunk.at), 2
    if chunk.text == "left" and before and before[-1].text in ("on the", "the", "on", "bottom", "top", "far", "back"):
        return replace(chunk, kind="place"), 1
    return None


def _place(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """A thing behind a word of place, once something was given: '20 ml into the cork tube', 'dusted on carrot'."""
    if chunk.kind not in GIVEN | {"bin", "equipment", "water vessel"} or numbered(chunk):
        return None
    lead = next((one for one in reversed(before) if one.kind not in _WEAK or one.text in _WITHIN), None)
    if lead is None or lead.text not in _WITHIN or lead is before[0]:
        return None
    if lead.text == "in" and chunk.kind != "bin" and not any(one.kind in ("volume", "mass") for one in before):
        return None
    return replace(chunk, kind="place"), 1


def _adjective(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """A state before a thing says which one: 'took out the worn cork', 'dry leaves', 'dead leaves'."""
    if behind is None:
        return None
    if chunk.text == "dead" and behind.kind in ("leaf", "hide", "equipment", "unknown"):
        return replace(chunk, kind="modifier"), 1
    if chunk.kind not in ("state", "dry", "wet", "mould", "left", "did bake") or chunk.text in ("left", "gone"):
        return None
    done = any(one.kind.startswith("did ") for one in before)
    if behind.kind in _THINGS - {"animals"} | {"bin", "colony"} and (
        done or (behind.kind in GIVEN and chunk.kind in ("dry", "wet"))
    ):
        rests = chunk.kind in ("mould", "left") and behind.kind in ("food", "food named")
        return replace(chunk, kind="leftovers" if rests else "modifier"), 1
    return None


def _named_food(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Apple leaf' is a leaf, 'carrot flakes' one food, 'dandelion leaf' a food."""
    if behind and chunk.kind == "food named" and behind.kind == "leaf" and behind.text in ("leaf", "leaves", "litter"):
        return replace(behind, text=f"{chunk.text} {behind.text}", at=chunk.at), 2
    if before and chunk.kind in ("food", "food named") and before[-1].kind == "food named":
        return replace(chunk, kind="modifier"), 1
    if before and chunk.kind == "leaf" and before[-1].kind == "leaf":
        return replace(chunk, kind="modifier"), 1
    return None


def _to_do(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'To' and a verb that isn't done: a plan or a purpose."""
    if chunk.text == "to" and behind and (behind.kind.startswith("do ") or behind.kind == "trap"):
        for_it = any(one.kind.startswith("did ") or one.kind in ("food named", "old substrate") for one in before)
        return replace(chunk, kind="filler" if for_it else "planned"), 1
    return None


def _source(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """Who stands behind 'from' gave it."""
    if before and before[-1].kind == "from" and chunk.kind in ("named", "person", "unknown", "food"):
        return replace(chunk, kind="source"), 1
    if before and before[-1].kind == "to" and chunk.kind in ("named", "person"):
        return replace(chunk, kind="source"), 1
    return None


def _only(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Not only', 'no more than' and 'no problem' deny nothing; 'nearly forgot' was done."""
    if chunk.kind == "denied" and behind and behind.text in ("only", "more than", "less than"):
        return replace(chunk, kind="filler"), 2
    if chunk.text in ("no problem", "nearly forgot", "almost forgot"):
        return replace(chunk, kind="filler"), 1
    return None


def _imperative(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Change half the soil' asks for what 'full change' tells."""
    starts = not before or before[-1].kind in ("link", "planned")
    told = behind is None or behind.kind in _TELL
    if starts and chunk.text in NOUNS and (not told or (behind is not None and behind.text == "the")):
        return replace(chunk, kind=chunk.kind.replace("did ", "do ")), 1
    return None


def _looked(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Looked good' tells how it was; a meter that says so many degrees reports nothing from elsewhere."""
    if chunk.text in ("looked", "looks", "looking") and behind and behind.kind in ("state", "dry", "wet", "modifier"):
        return replace(chunk, kind="is"), 1
    metered = before and before[-1].kind in ("room", "humidity", "equipment")
    if chunk.kind == "reported" and metered and behind and behind.kind in ("number", "degrees", "share"):
        return replace(chunk, kind="filler"), 1
    return None


def _begins(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """A phrase that begins with 'setup' tells of one; 'room 2' is no reading of 2 degrees."""
    if chunk.text in ("setup", "set-up") and not before:
        return replace(chunk, kind="did start"), 1
    if chunk.kind == "new" and behind and behind.kind == "bin" and not before:
        return Chunk("did start", f"{chunk.text} {behind.text}", chunk.at), 2
    numbered_room = behind is not None and behind.kind == "number" and (behind.value or 0) < _COLDEST_ROOM
    if chunk.kind == "room" and chunk.text in _ROOMS and behind and numbered_room:
        return Chunk("place", f"{chunk.text} {behind.text}", chunk.at), 2
    return None


def _extreme(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Min 17 max 24' is a reading of the room."""
    if chunk.text in ("min", "max", "minimum", "maximum") and behind and behind.kind in ("number", "degrees"):
        return replace(chunk, kind="room"), 1
    return None


def _past(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'3 days ago', 'since Monday' are days gone by; 'leaves frozen' was done, 'frozen leaves' were given."""
    if chunk.kind == "duration" and behind and behind.text == "ago":
        return Chunk("past day", f"{chunk.text} ago", chunk.at), 2
    if chunk.text == "since" and behind and behind.kind in ("named day", "date", "past day"):
        return Chunk("past day", f"since {behind.text}", chunk.at), 2
    if chunk.text == "frozen" and (behind is None or behind.kind not in _THINGS):
        return replace(chunk, kind="did freeze"), 1
    return None


def _old(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Old pepper' is what was left of it, 'old soil' was taken out before."""
    if chunk.text in ("old", "alte", "alter", "oude", "vieux", "vecchio", "viejo", "stary", "yesterday's") and behind:
        if behind.kind in ("food", "food named"):
            return Chunk("leftovers", f"{chunk.text} {behind.text}", chunk.at), 2
        if behind.kind == "substrate":
            return Chunk("old substrate", f"{chunk.text} {behind.text}", chunk.at), 2
    within = before and before[-1].text in ("the", "in the", "of the", "from the", "on the", "through the")
    if within and chunk.text in _TAKEN_OUT and behind and behind.kind == "substrate":
        return Chunk("old substrate", f"{chunk.text} {behind.text}", chunk.at), 2
    return None


def _damp_corner(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """How the damp corner is is how the moss is."""
    told = behind is not None and behind.kind in ("wet", "dry", "state")
    return (replace(chunk, kind="moss"), 1) if chunk.text in _DAMP and told else None


def _when(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'When I lifted it' hangs nothing on a condition."""
    done = behind is not None and (behind.text in ("i", "we") or behind.kind.startswith("did "))
    return (replace(chunk, kind="filler"), 1) if chunk.text in ("when", "once", "as soon as") and done else None


def _spread(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Ten to a dozen' is one number."""
    if chunk.text in ("to", "to a", "or") and behind and behind.kind == "number" and before:
        last = before[-1]
        if last.kind == "number" and (last.value or 0) < (behind.value or 0) < _WIDEST * (last.value or 0):
            before.pop()
            middle = ((last.value or 0) + (behind.value or 0)) / 2
            return Chunk("number", f"{last.text} to {behind.text}", last.at, middle), 2
    return None


def _still(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Still food there', 'still 300 g leaves' tells of what is left."""
    if chunk.text in ("still", "immer noch", "encore") and behind and behind.kind in _LASTING:
        return replace(chunk, kind="left"), 1
    return None


def _wets(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Wet the moss' was done; 'the moss was wet' was seen."""
    starts = not before or before[-1].kind in ("person", "link", "now")
    if chunk.text == "wet" and starts and behind and behind.text in ("the", "moss", "it", "down", "em", "them"):
        return replace(chunk, kind="did water"), 1
    if chunk.text in ("top off", "top up", "top-up", "refill") and before and before[-1].kind in GIVEN:
        return replace(chunk, kind="did give"), 1
    return None


def _measured(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Gave a cup' gave water; 'tote 3' is a bin and nobody dead; 'the rest of the carrot' is what was left."""
    given = any(one.kind == "did give" for one in before) and not any(one.kind in GIVEN for one in before)
    if chunk.text in _VESSELS and given and (behind is None or behind.kind in ("link", "now", "filler")):
        return replace(chunk, kind="water measure"), 1
    if chunk.text in ("tote", "totes") and behind and behind.kind in ("number", "bin"):
        return Chunk("bin", f"{chunk.text} {behind.text}", chunk.at), 2
    if chunk.text == "the rest" and behind and behind.text == "of":
        return Chunk("leftovers", "the rest of", chunk.at), 2
    return None


def _one(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'The big one' is an animal, not a number."""
    stands_for = any(one.kind in GIVEN for one in before)
    if chunk.text == "one" and before and before[-1].text in ("old", "new", "other", "fresh") and stands_for:
        return replace(chunk, kind="filler", value=None), 1
    if chunk.text == "one" and before and before[-1].kind in ("modifier", "number", "state", "moult", "new"):
        return replace(chunk, kind="animals", value=None), 1
    return None


def _helping(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Did' before 'not' or another verb only helps it; 'ca' before a number is about."""
    if chunk.kind == "did make" and behind and (behind.kind == "denied" or behind.kind.startswith("did ")):
        return replace(chunk, kind="filler"), 1
    if chunk.text == "ca" and behind and behind.kind in _MEASURED:
        return replace(chunk, kind="filler"), 1
    return None


def _numbered(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Moved to 4' names a bin, and 'count 40?' doubts how many, not whether."""
    if chunk.kind == "number" and before and before[-1].kind == "to":
        alone = behind is None or behind.kind in ("link", "now")
        if alone and any(one.kind in ("did move", "did split", "did sell") for one in before):
            return replace(chunk, kind="bin", value=None), 1
    counted = any(one.kind in ("did count", "do count") for one in before)
    if chunk.kind == "asked" and counted and before[-1].kind == "number":
        return replace(chunk, kind="filler"), 1
    return None


def _range_of_bins(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'A1 to A4' are bins in a row, where nothing is moved from one to another."""
    moved = any(one.kind in ("from", "did move", "did split", "did rename", "number") for one in before)
    if chunk.text == "to" and before and numbered(before[-1]) and behind and numbered(behind) and not moved:
        return replace(chunk, kind="filler"), 1
    return None


def _arrow(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """An arrow before an amount or a deed parts, before a place or a box it leads there."""
    if chunk.kind != "arrow" or behind is None or behind.kind == "bin":
        return None
    parts = behind.kind in ("volume", "mass", "water", "number") or behind.kind.startswith("did ")
    return replace(chunk, kind="link" if parts and not (before and before[-1].kind == "bin") else "to"), 1


def _soaked(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """'Moss soaked' tells how it was; 'soaked moss' and 'moss soaked 20 ml' what was done."""
    told = chunk.text in ("soaked", "saturated", "drenched", "flooded") and (behind is None or behind.kind in _ENDS)
    if told and before and before[-1].kind in ("moss", "substrate", "place"):
        return replace(chunk, kind="wet"), 1
    return None


def _holds(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """What a box holds is no water: 'the 9 litre box', and more than any bin is given."""
    if chunk.kind == "volume" and ((behind and behind.kind in ("bin", "larger bin")) or (chunk.value or 0) > _FLOOD):
        return replace(chunk, kind="holds"), 1
    return None


def _person(before: list[Chunk], chunk: Chunk, behind: Chunk | None) -> Found:
    """A capital at the beginning before a verb is somebody."""
    if chunk.kind == "perhaps named":
        verb = behind is not None and behind.kind.startswith("did ")
        return replace(chunk, kind="named" if verb else "unknown"), 1
    return None


_ENDS = frozenset({"link", "filler", "now"})
_FLOOD = 3000.0
"""More water than anybody gives at once, ml."""
_VESSELS = frozenset("cup cups glass mug jug pint pints shot capful splash".split())
NOUNS = frozenset("change swap exchange count control check inspection switch renewal".split())
"""Words that tell of what was done, or ask for it."""
_TELL = frozenset({"link", "number", "now", "date", "filler", "did make", "did see", "past day"})
_DAMP = frozenset(
    "damp corner,wet corner,moist corner,damp end,wet end,damp side,wet side,moist end,moist side".split(",")
)
_WIDEST = 5
"""How many times the lower end the upper end of a spread can be."""
_MEASURED = frozenset({"number", "volume", "mass", "share", "length", "duration", "degrees"})
_TAKEN_OUT = frozenset("discarded used removed sifted replaced leftover".split())
_LASTING = frozenset({"food", "food named", "leaf", "calcium", "hide", "share"})
_COLDEST_ROOM = 15
_ROOMS = frozenset("room chamber kamer raum stanza pokój pièce".split()) | {"climate chamber"}
_RULES: tuple[_Rule, ...] = (
    _imperative,
    _wets,
    _measured,
    _looked,
    _begins,
    _still,
    _damp_corner,
    _when,
    _spread,
    _extreme,
    _past,
    _old,
    _helping,
    _numbered,
    _range_of_bins,
    _arrow,
    _soaked,
    _holds,
    _person,
    _only,
    _supply,
    _side,
    _to_do,
    _source,
    _one,
    _named_food,
    _place,
    _adjective,
)
