"""What keepers would write over columns and in cells: the generator's own pool, written without the reader's lists.

Every fourth entry is kept out of sight while the reader is mended (``part="kept"``), so that the figure for it says
how the reader does with words that nobody showed it.
"""

from __future__ import annotations

from typing import Literal

Part = Literal["seen", "kept", "all"]


def _split(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";"))


HEADINGS: dict[str, tuple[str, ...]] = {
    key: _split(text)
    for key, text in {
        "date": "date; day; when; date of entry; entry date; log date; date done; the day; date checked; noted on; "
        "day done; recorded on; work date; date of work; day of work; what day; date (day); on which day; date noted; "
        "dated",
        "bin": "bin; box; tub; container; enclosure; bin #; box no.; tub id; bin code; which bin; which box; culture; "
        "colony; terrarium; bin name; tub name; box label; tank; culture no; colony id; container number; viv; tub nr; "
        "bin label; home; housing; bin/box; crate",
        "species": "species; kind; animal; who's in it; isopod; isopod species; latin name; type of isopod; "
        "what lives here; common name; scientific name; inhabitants; occupants; breed; sp.; who lives there; "
        "residents; "
        "which isopods; species name; pods; species kept; critters; taxon; animals",
        "volume": "volume (l); litres; size (l); box size l; capacity (l); vol; vol. (l); liters; volume in litres; "
        "box volume; holds (l); bin litres; tub size (l); size in litres; bin volume [l]; l; tub litres; how big (l); "
        "content (l); volume",
        "started": "started; start; set up on; since; start date; setup date; date set up; established; begun; "
        "founded; "
        "running since; in use since; started on; date founded; set-up; date of setup; going since; first set up; "
        "date started; began",
        "did": "what I did; did; done; task; work; action; job; activity; what was done; work done; care; care given; "
        "chore; jobs done; did what; maintenance; what happened; actions taken; treatment; event; tasks; what; "
        "type of work; kind of work",
        "amount": "amount; how much; quantity; qty; dose; measure; amt; amount given; given; how much of it",
        "water": "ml; water ml; water (ml); ml water; water given (ml); misted ml; spray ml; amount of water (ml); "
        "watered (ml); ml poured; water in ml; ml given; water amount ml; how much water (ml); water added (ml); "
        "ml sprayed; wetting (ml); poured (ml); misting (ml); water dose ml",
        "food": "food; fed; food given; what I fed; food type; feed; grub; menu; what food; meal; fed what; fed with; "
        "kind of food; food item; food offered; treat; offered; served; type of food; diet; foods; feeding",
        "grams": "g; grams; food g; food (g); weight (g); g of food; grams fed; food weight g; food amount (g); "
        "portion (g); how much food (g); amount in g; meal g; g given; fed (g); weight of food (g); food grams; "
        "quantity (g); dose (g); amount (g)",
        "leaf": "leaf litter (l); leaves; leaf litter; leaves added; leaves (l); leaf top-up; litter added; leaf l; "
        "topped up leaves; leaf litter added (l); new leaves; leaf refill; leaves topped up (l); dry leaves (l); "
        "litter (l); oak leaves (l); fresh leaves; leaf litter top up; leaves in litres; leaves given",
        "moss": "moss; moss corner; moss state; moss moisture; how is the moss; moss is; moisture; moss check; "
        "sphagnum; "
        "damp corner; moss wetness; wet corner; moss feel; dampness; state of moss; moss found; damp end; wet side; "
        "moisture of moss; moss condition; moss status; condition of moss",
        "dead": "dead; deaths; died; dead found; no. dead; losses; found dead; casualties; dead ones; dead count; "
        "number dead; mortality; dead isopods; corpses; how many dead; bodies; deaths found; dead seen; dead animals; "
        "number of deaths",
        "count": "count; counted; number; how many; number counted; animals counted; total; headcount; "
        "isopods counted; "
        "no. seen; number seen; tally; how many counted; total counted; animals seen; count result; result; "
        "head count; "
        "total count; number found",
        "way": "method; way; how counted; counting method; method used; way of counting; technique; count method; "
        "way counted; counted how; kind of count; method of count; how; counted by; type of count; procedure; "
        "how I counted; counting technique",
        "share": "share; share replaced; fraction; part; how much replaced; portion changed; part changed; proportion; "
        "fraction changed; share of soil; part replaced; share changed; how much soil; fraction new; portion replaced; "
        "part renewed; proportion replaced; share new; how much changed; replaced part",
        "note": "notes; note; remarks; remark; comment; comments; memo; anything else; observations; scribbles; other; "
        "misc",
        "place": "shelf; rack; place; where; location; position; spot; stands on; shelf no; where it stands",
        "inout": "in/out; in or out; direction; movement; move; type of movement; kind of movement; transfer; "
        "in / out; what happened; moved; came or went",
        "qty": "qty; number; how many; animals; count; quantity; number of animals; how many animals; pcs; heads; "
        "no. of animals; animals moved",
        "big": "big; large; adults; adult; big ones; ad; grown; full size",
        "mid": "mid; medium; middling; middle; half grown; mid size; subadults; sub",
        "tiny": "tiny; small; mancas; babies; little ones; juveniles; young; small ones",
        "stamp": "timestamp; submitted at; time stamp; sent; submission time; submitted; date and time; form sent",
    }.items()
}

ACTS: dict[str, tuple[str, ...]] = {
    key: _split(text)
    for key, text in {
        "water": "watered; misted; sprayed; water; mist; spray; gave water; poured water; watering; moistened; "
        "added water; dampened; gave a drink; spritzed; watered moss; rewetted; topped up water; moss watered; wetted; "
        "sprayed moss",
        "feed": "fed; feed; food; feeding; gave food; fed them; food given; meal; food in; offered food; food added; "
        "new food; added food; put food in; feeding time; feeding day; gave them food; fresh food",
        "leaf": "leaves; leaf litter; added leaves; topped up leaves; leaf top up; more leaves; new leaves; litter; "
        "leaves added; leaf refill; put leaves in; fresh leaves; gave leaves; leaf litter added; refilled leaves; "
        "leaf litter topped up",
        "count": "counted; count; counting; headcount; counted them; count day; census; tally; did a count; "
        "counted animals; population count; animals counted",
        "dead": "dead; died; found dead; deaths; dead ones; dead found; casualties; losses; dead animals; corpses",
        "substrate_change": "substrate change; changed substrate; new substrate; soil change; new soil; changed soil; "
        "dirt change; replaced substrate; substrate renewed; fresh soil; soil replaced; renewed substrate; "
        "substrate replaced; swapped soil; soil renewed; substrate swap",
        "moss": "moss check; checked moss; moss; looked at moss; moss looked at; moss checked; check moss; felt moss",
        "animals_in": "in; arrived; came in; received; animals in; bought; got; new arrivals",
        "animals_out": "out; sold; gave away; given away; went out; animals out; sent; traded",
    }.items()
}

MOSS: dict[str, tuple[str, ...]] = {
    "dry": _split("dry; bone dry; dried out; very dry; all dry; parched; crispy; crunchy"),
    "drying": _split("drying; getting dry; nearly dry; drying out; almost dry; a bit dry; going dry; dryish"),
    "damp": _split("damp; moist; nice and damp; dampish; slightly damp; still damp; just damp; damp enough"),
    "wet": _split("wet; quite wet; fully wet; still wet; good and wet; well wetted; nicely wet; all wet"),
}

WAYS: dict[str, tuple[str, ...]] = {
    "hide lift": _split("under bark; lifted the hide; hide lift; under one hide; lifted bark; looked under bark"),
    "trap": _split("trap; bait trap; potato trap; trapped; trap count; with a trap"),
    "hand sort": _split("hand sort; full sort; sorted by hand; hand sorted; by hand; hand count"),
    "sieve": _split("sieve; sieved; sieve 2mm; sifted; through a sieve; with sieve"),
}

SHARES: dict[str, tuple[str, ...]] = {
    "1/4": _split("1/4; quarter; 25%; ¼; 25 %; a quarter"),
    "1/3": _split("1/3; third; ⅓; a third; one third; 1/3 of it"),
    "1/2": _split("1/2; half; 50%; ½; one half; half of it"),
    "2/3": _split("2/3; two thirds; ⅔; 2/3 of it"),
    "all": _split("all; full; 100%; everything; whole; all of it"),
}

SHEETS: dict[str, tuple[str, ...]] = {
    "list": _split("Bins; My bins; Boxes; Tubs; List; Overview; Collection; Who lives where; Sheet1; Inventory"),
    "log": _split("Log; Diary; Work; Journal; Care log; Record; Daily; Notes; Logbook; What I did"),
    "water": _split("Watering; Water; Misting; Water log; Spraying; Watering log"),
    "feed": _split("Feeding; Food; Feed; Feeding log; Fed; Food log"),
    "leaf": _split("Leaf litter; Leaves; Leaf top-ups; Leaf log; Leaf litter added; Topping up leaves"),
    "count": _split("Counts; Counting; Census; Count log; Headcounts; Population counts"),
    "dead": _split("Deaths; Dead; Losses; Dead found; Casualties; Death log"),
    "substrate_change": _split(
        "Substrate changes; Substrate; Soil changes; New soil; Substrate change log; Changing soil"
    ),
    "moss": _split("Moss; Moss checks; Moss corner; Moss log; Moss check; Checking moss"),
    "grid": _split("Chart; Grid; Calendar; Spring; Tick sheet; Plan; Month; Sheet2"),
    "book": _split("In and out; Movements; Ins and outs; Traffic; Comings and goings; Swaps; Moves; In-out book"),
    "form": _split("Form Responses 1; Form; Responses; Answers; Phone form; Submissions"),
}

TITLES = _split(
    "My isopods; what I did this spring; isopod room; kept by hand; updated now and then; THE BIG LIST; "
    "cellar shelf; bins and boxes 2025"
)
NOTES = _split("lid is tight; on the top shelf; smells fine; they hide; label fell off; by the window; will see")
EMOJI = {
    "date": "📅", "bin": "📦", "water": "💧", "food": "🥕", "leaf": "🍂", "dead": "☠", "count": "🔢", "note": "📝",
    "moss": "🌿", "species": "🪲", "share": "🪴",
}  # fmt: skip


def part_of(entries: tuple[str, ...], part: Part) -> tuple[str, ...]:
    """The entries in sight, those kept out of sight, or all."""
    if part == "all" or len(entries) < 4:
        return entries
    kept = entries[3::4]
    return kept if part == "kept" else tuple(entry for entry in entries if entry not in kept)
