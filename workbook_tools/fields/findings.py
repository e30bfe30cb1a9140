"""What may be found in a bin, and what follows: one record a finding, and the things that findings are about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from workbook_tools.fields.kinds import listed

WELL = "all well"
"""Said of the whole bin: it settles every finding."""
WELL_WORDS = listed(
    "all well; ok; okay; fine; good; well; nothing; healthy; normal; all good; active; ✓; ✔; all ok; nad; n.a.d.; "
    "nothing amiss; nothing to report; alles ok; alles gut; alles i.o.; tutto bene; tout va bien; ça va; todo bien; "
    "alles goed; wszystko dobrze"
)

BLUE = "blue or violet"
COLOURS = frozenset("blue bluish violet purple lilac".split())
"""No finding by themselves in a text of acts, since lines are named by them."""


@dataclass(frozen=True, slots=True)
class Thing:
    """What findings may be about.

    Attributes
    ----------
    key : str
        Its name.
    settled : str
        What we say once it is well again; empty for what is a good sign anyway.
    words : tuple of str
        Keepers' words for that.
    named : tuple of str
        Words for the thing itself: beside 'fine' they settle, beside 'no' or 'low' they mean ``lacking``.
    lacking : str
        The finding that there is too little of it; empty where there can only be too much.
    """

    key: str
    settled: str = ""
    words: tuple[str, ...] = ()
    named: tuple[str, ...] = ()
    lacking: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found in a bin, with what follows from it.

    Attributes
    ----------
    key : str
        What we call it; stands in drop-downs.
    words : tuple of str
        Keepers' words for it.
    about : str
        The thing it is about.
    task, label : str
        The task that it calls for; both empty for a good sign, which calls for none.
    do : str
        What to look at or to do first.
    acts : frozenset of str
        Acts that settle it.
    sights : mapping
        By field: what else may be seen that settles it.
    quiet : str
        The default that says after how many later looks that are silent about it it is let go; empty for never.
    only_well : bool
        Whether nothing settles it but 'all well'; it is then to be looked at again and again.
    caution : str
        The caution that goes with it, see ``report.cautions``.
    topic, speaks : str, float
        Where animals die: what of our topics it speaks for, and how strongly.
    wet : bool
        Whether it says that the bin holds too much water.
    """

    key: str
    words: tuple[str, ...]
    about: str
    task: str = "sight"
    label: str = ""
    do: str = ""
    acts: frozenset[str] = frozenset()
    sights: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    quiet: str = "sights.silent"
    only_well: bool = False
    caution: str = ""
    topic: str = ""
    speaks: float = 1.0
    wet: bool = False

    @property
    def days(self) -> str:
        """The default that says after how many days it is due."""
        return f"found.{self.key.replace(' ', '_')}"

    @property
    def good(self) -> bool:
        """Whether it is a good sign, of which nothing need follow."""
        return not self.task


THINGS: dict[str, Thing] = {
    thing.key: thing
    for thing in (
        Thing("colour"),
        Thing(
            "lid",
            "lid closed",
            listed("lid tight; lid shut; lid fixed; lid mended; new lid; gap closed; gap sealed; way out closed"),
            listed("lid; lids"),
        ),
        Thing(
            "huddling",
            "spread out",
            listed("spread out again; well spread; no longer huddling; evenly spread; spread over the bin"),
        ),
        Thing(
            "sides",
            "both sides used",
            listed("both sides in use; both sides occupied; both ends used; whole bin used; using both sides"),
        ),
        Thing(
            "smell",
            "smell gone",
            listed("smells fine; smells good; smells earthy; smells fresh; smells of earth; no smell; smells normal"),
            listed("smell; smells; odour"),
        ),
        Thing(
            "moisture",
            "moisture fine",
            listed("damp; moist; damp enough; moist enough; moisture ok; nicely damp"),
            listed("moisture; humidity; moss; moss corner; damp side; wet end; dampness; wetness"),
        ),
        Thing("pests", "pests gone", listed("pest free; ants gone; no pests; no ants")),
        Thing("condensation", "lid dry", listed("lid clear; no condensation; dried off")),
        Thing("mould", "mould gone", listed("mold gone; mouldy bits gone; no mould; no mold")),
        Thing("slime", "slime gone", listed("no slime; no longer slimy")),
        Thing("film", "film gone", listed("no film; walls clean; wall clean; clean walls")),
        Thing("mites", "mites gone", listed("mite free; no mites; mites none; no more mites")),
        Thing("gnats", "gnats gone", listed("gnat free; no gnats; no more gnats; no flies")),
        Thing(
            "springtails",
            "springtails fine",
            listed("springtails ok; plenty of springtails; lots of springtails; springtails added; added springtails"),
            listed("springtails; springtail; springies; collembola"),
            "springtails low",
        ),
        Thing(
            "room",
            "not crowded",
            listed("room enough; enough room; plenty of room; plenty of space; no longer crowded"),
            listed("density; stocking; space; room for them"),
        ),
        Thing(
            "hides",
            "hides fine",
            listed("hides ok; bark fine; enough hides; plenty of hides"),
            listed("hides; hide; bark; cork; cork bark; decor; wood"),
            "hides worn",
        ),
        Thing(
            "calcium",
            "calcium fine",
            listed("calcium ok; enough calcium; calcium left; plenty of calcium"),
            listed("calcium; cuttlebone; cuttlefish bone; eggshell; limestone; chalk"),
            "calcium gone",
        ),
        Thing(
            "leaf",
            "leaf litter fine",
            listed("leaf fine; leaves fine; litter fine; leaf ok; leaves ok; enough leaves"),
            listed("leaf litter; leaf; leaves; litter"),
        ),
        Thing("food", "food fine", listed("food ok"), listed("food; leftovers; meal")),
        Thing(
            "substrate",
            "substrate fine",
            listed("substrate ok; soil fine"),
            listed("substrate; soil; dirt; earth"),
        ),
        Thing("young"),
    )
}
"""Things by their key. A fine word about a thing settles the findings about it and no others."""

FINDINGS: dict[str, Finding] = {
    one.key: one
    for one in (
        Finding(
            BLUE,
            listed(
                "blue; violet; purple; bluish; blue animals; violet animals; blue ones; turned blue; turned violet; "
                "blue sheen; violet sheen; purple sheen; gone blue; going blue; going violet; iridovirus"
            ),
            "colour",
            "isolate",
            "Keep this bin apart",
            "keep its tools apart, wash your hands after it, move nothing in or out, look daily",
            quiet="",
            only_well=True,
            caution="virus",
        ),
        Finding(
            "way out",
            listed(
                "gap; gap in the lid; lid cracked; cracked lid; leaning leaf; escape; escaped; escapes; runaways; "
                "escapees; climbing; climbing out; lid open; loose lid; outside the bin; found on the floor; "
                "escapee"
            ),
            "lid",
            label="Close the way out",
            do="look at lid, vents and whatever leans on a wall, and for animals outside",
        ),
        Finding(
            "huddling",
            listed("huddled; clumped; all on one side; piled up; all in one corner; all in a heap"),
            "huddling",
            label="See to huddling",
            do="feel whether the rest is too dry, too wet or too warm",
            topic="Moisture",
        ),
        Finding(
            "one side empty",
            listed("one end empty; dry side empty; wet side empty; half the bin empty; nobody on one side"),
            "sides",
            label="See to the empty side",
            do="feel whether that side is too dry, too wet or too warm; one of two hides may be empty by chance",
            topic="Moisture",
            speaks=0.5,
        ),
        Finding(
            "sour smell",
            listed("smell; smelly; sour; ammonia; stinks; stink; foul smell; bad smell; smells bad; smells off"),
            "smell",
            label="See to the smell",
            do="look for rotten food and soaked substrate, and let in more air",
            acts=frozenset({"substrate_change"}),
            topic="Ventilation",
        ),
        Finding(
            "too dry",
            listed("dry; shrivelled; dried out; bone dry"),
            "moisture",
            label="Water: too dry",
            do="water the moss corner",
            acts=frozenset({"water"}),
            sights={"moss": ("damp", "wet", "soaked")},
            topic="Moisture",
        ),
        Finding(
            "pests",
            listed("ants; spider; spiders; centipede; centipedes; predatory mites; woodlouse spider"),
            "pests",
            label="See to pests",
            do="take out what you can see, and look at its neighbours too",
            caution="pests",
        ),
        Finding(
            "too wet",
            listed("wet; soggy; puddles; waterlogged"),
            "moisture",
            label="See to the wet",
            do="give no water, let in more air, and see that one side stays drier",
            sights={"moss": ("dry", "drying", "damp")},
            topic="Moisture",
            wet=True,
        ),
        Finding(
            "slime",
            listed("slimy; slime mould; slime mold; slimy patch; slimy wood; slimy food"),
            "slime",
            label="See to slime",
            do="take out food that spoils, and see whether it is too wet there",
            topic="Ventilation",
            speaks=0.5,
        ),
        Finding(
            "condensation",
            listed("wet lid; steamed up; fogged; water on lid; film under the lid; drops on the lid; misted up"),
            "condensation",
            label="See to condensation",
            do="see whether the vents are free, and give less water",
            quiet="sights.once",
            topic="Ventilation",
            wet=True,
        ),
        Finding(
            "mould",
            listed("mold; mouldy; moldy; fungus; fuzz; fuzzy"),
            "mould",
            label="See to mould",
            do="take out food that spoils, and see whether it is too wet and whether springtails are there",
            topic="Ventilation",
            speaks=0.5,
        ),
        Finding(
            "film",
            listed("film on the wall; film on wall; film on walls; film on the walls; wall film; greasy film; biofilm"),
            "film",
            label="See to the film",
            do="wipe it off, and see whether food spoils and vents are free",
            topic="Ventilation",
            speaks=0.5,
        ),
        Finding(
            "mites",
            listed("mite; grain mites; grain mite; mite bloom"),
            "mites",
            label="See to mites",
            do="take out leftovers, give dry food only and less of it, and look how many there are",
            caution="pests",
        ),
        Finding(
            "gnats",
            listed("gnat; fungus gnats; flies; fly larvae; gnat larvae"),
            "gnats",
            label="See to gnats",
            do="let the top dry a little and hang a sticky card outside the bin: more than 20 a week call for more",
            caution="pests",
        ),
        Finding(
            "calcium gone",
            listed("out of calcium; calcium none left; calcium all gone; calcium low; calcium used up"),
            "calcium",
            "calcium",
            "Give calcium",
            "give some, such as cuttlebone or crushed shell",
            acts=frozenset({"calcium"}),
            quiet="",
        ),
        Finding(
            "springtails low",
            listed("no springtails; few springtails; springtails gone; springtails few; hardly any springtails"),
            "springtails",
            "springtails",
            "Add springtails",
            "add some from a culture of yours",
            quiet="",
        ),
        Finding(
            "crowded",
            listed("full; packed; too many; overcrowded; overstocked; no room; too full"),
            "room",
            "split",
            "Split or move up",
            "give them more room, or split",
            acts=frozenset({"split", "move_up", "animals_out"}),
            quiet="",
        ),
        Finding(
            "hides worn",
            listed(
                "worn hide; worn hides; hide worn; rotten bark; bark rotten; hides eaten; bark eaten; few hides; "
                "bark worn; worn bark; cork worn; worn cork; hides crumbling; bark crumbling; hides rotten"
            ),
            "hides",
            "hides",
            "Renew hides",
            "add bark or other hides, and leave the old until they have moved",
            acts=frozenset({"hides"}),
            quiet="",
        ),
        Finding(
            "mancas",
            listed("babies; baby; manca; mancae; young; juveniles; offspring; little ones; newborns; young seen"),
            "young",
            "",
            quiet="",
        ),
        Finding(
            "gravid",
            listed("gravid females; brooding; brooding females; pregnant; berried; with brood; brood pouch; with eggs"),
            "young",
            "",
            quiet="",
        ),
    )
}
"""Findings by their key, what can cost animals at once first."""
