"""What can be seen, and keepers' words for it: one table of words a kind of sight."""

from workbook_tools.fields.findings import FINDINGS, THINGS, WELL, WELL_WORDS
from workbook_tools.fields.kinds import listed
from workbook_tools.vocabulary.presence import Presence, words_of

KNOWN_WORDS_HEADINGS = ("Meaning", "Said of", "Words known")
"""Headings of the list of known words in our own blank workbook: by them the reader knows that it holds no data."""


def _marks(*kinds: Presence) -> tuple[str, ...]:
    return tuple(sorted(word for word in words_of(*kinds) if word))


STATES: dict[str, dict[str, tuple[str, ...]]] = {
    "moss": {
        "dry": listed("dry; bone dry; dried out; very dry; crisp; crispy; parched; 0"),
        "drying": listed(
            "drying; dryish; almost dry; nearly dry; getting dry; going dry; drying out; half dry; a bit dry; 1"
        ),
        "damp": listed(
            "damp; damp ish; dampish; slightly damp; just damp; damp enough; moist; ok; okay; fine; good; still damp; 2"
        ),
        "wet": listed("wet; very damp; well wet; well wetted; wetted; fully wet; nicely wet; quite wet; all wet; 3"),
        "soaked": listed("soaked; soaking; sodden; too wet; waterlogged; dripping; puddle; swampy; 4"),
    },
    "leftovers": {
        "gone": listed("gone; all gone; eaten; finished; none left; all eaten; nothing left; clean; empty"),
        "some": listed("some; some left; a bit left; little left; few bits; crumbs; half; half left; part"),
        "most": listed("most; most left; lots left; untouched; not touched; all left; uneaten; not eaten"),
        "mouldy": listed("mouldy; moldy; mould; mold; fuzzy; rotten; fungus; furry"),
    },
    "substrate": {
        "fresh": listed("fresh; new; just changed"),
        "good": listed("good; ok; okay; fine; all right"),
        "part frass": listed("part frass; some frass; half frass; half; sunk; sinking; bit frassy; low"),
        "mostly frass": listed("mostly frass; frassy; nearly frass; much frass; old; tired; worn"),
        "spent": listed("spent; all frass; frass; black mush; mush; finished; sour; paste; used up"),
    },
    "litter": {
        "none": listed("none; gone; bare; no leaves; all gone; empty; finished; nothing left; skeletons; stems only"),
        "little": listed("little; low; few; a few; thin; nearly gone; almost gone; running low; some; some left"),
        "half": listed("half; half left; part; medium; ok; okay; fine"),
        "plenty": listed("plenty; full; lots; lots left; thick; good; enough; most; most left"),
    },
    "method": {
        "hide lift": listed(
            "hide lift; lift; lifted; under bark; under hide; under the hide; under the bark; one hide; main hide; "
            "lifted bark; "
            "bark lifted; hide lifted; glance; at a glance; quick look; surface; on top"
        ),
        "all hides": listed(
            "all hides; all hides lifted; hides lifted; under all bark; all bark; hides and leaves; hides; "
            "under hides; under leaves; leaves turned; whole surface"
        ),
        "trap": listed("trap; trapped; bait; potato trap; potato; cardboard; carrot; bait trap; overnight trap"),
        "hand sort": listed(
            "hand sort; hand; by hand; full sort; sort; sorted; sorted by hand; full count; hand count; counted all; "
            "all counted; "
            "counted out; one by one; whole bin; full"
        ),
        "sieve": listed("sieve; sieved; sieve and sort; sieved and sorted; sieved sorted; sifted; sift"),
        "passes": listed(
            "pass; passes; in passes; by passes; pass by pass; several passes; first pass; second pass; third pass; "
            "pass 1; pass 2; pass 3; pass 4; pass 5; pass 6; whole bin in passes; removal"
        ),
        "weighing": listed("weighing; weighed; weight; by weight; scales"),
        "guess": listed("guess; guessed; rough guess; by eye; estimate; estimated; eyeballed; roughly"),
    },
    "finding": {WELL: WELL_WORDS, **{one.key: one.words for one in FINDINGS.values()}},
    "settled": {one.settled: one.words for one in THINGS.values() if one.settled},
    "truth": {
        "yes": (*_marks(Presence.DONE), *listed("yes!!; 1; some; few; lots; many")),
        "no": _marks(Presence.NONE, Presence.NOT_DONE, Presence.EMPTY),
        "unknown": _marks(Presence.UNKNOWN, Presence.ASKED, Presence.NOT_YET),
    },
    "outcome": {
        "done": (*_marks(Presence.DONE), *listed("complete; all done; finished; did it; closed; 1")),
        "not done": (
            *_marks(Presence.NONE, Presence.NOT_DONE, Presence.NOT_YET, Presence.ASKED),
            *listed("started; 0; missed it; cancel; skipping"),
        ),
    },
    "ventilation": {
        "low": listed("low; few; small; 2 small; pinholes; 3 pins; none yet; none; tight; little; closed"),
        "medium": listed("medium; med; normal; some; 2 grilles"),
        "high": listed("high; lots; lot; cross; cross vents; half mesh; good; many"),
        "mesh": listed("mesh; mesh lid; lid off; open; open top; screen; full mesh"),
    },
    "appetite": {
        "slow": listed("slow; low; small; light; little"),
        "medium": listed("medium; med; normal; average"),
        "hearty": listed("hearty; heavy; high; big; large; greedy; strong"),
    },
    "status": {
        "active": listed("active; ok; running; live; in use; current; yes; going"),
        "quarantine": listed("quarantine; qt; isolated; in quarantine"),
        "straggler tub": listed("straggler tub; stragglers; straggler; straggler bin; straggler corner; waste"),
        "resting": listed("resting; rest; paused; on hold; empty; fallow"),
        "gone": listed("gone; ended; closed; dead; dissolved; sold; given away; retired; died out; no"),
    },
}
