"""What can be done or seen: the acts of the log and keepers' words for them."""

from dataclasses import dataclass

from workbook_tools.fields.kinds import listed


@dataclass(frozen=True, slots=True)
class Act:
    """One thing that can be done or seen.

    ``words`` are keepers' words for it in lower case. ``opens`` says whether doing it means that the bin was
    opened and seen, so that it also counts as a look.
    """

    key: str
    label: str
    words: tuple[str, ...]
    opens: bool = True


ACTS: dict[str, Act] = {
    act.key: act
    for act in (
        Act(
            "water",
            "Water",
            listed(
                "water; watered; watering; mist; misted; misting; spray; sprayed; wetted; soak; soaked; poured; "
                "topped water; w; gave water; rewetted; moistened; poured water; moss watered; "
                "watered moss; sprayed moss; topped up water; spritzed; hydrated; gave a drink"
            ),
        ),
        Act(
            "moss",
            "Look at moss corner",
            listed(
                "moss; moss corner; checked moss; moss check; check moss; moss ok; moisture check; "
                "checked moisture; moss checked; moss looked at; looked at moss; felt moss"
            ),
        ),
        Act(
            "feed",
            "Feed",
            listed(
                "feed; fed; fd; food; feeding; fed them; gave food; protein; veg; vegetable; f; food given; "
                "fresh food; new food; food added; added food; gave them food; offered food; feeding day; "
                "feeding time; meal"
            ),
        ),
        Act(
            "leftovers",
            "Look at leftovers",
            listed(
                "leftovers; left overs; removed food; took out food; cleared food; removed leftovers; "
                "checked leftovers; food out; checked food; food check"
            ),
        ),
        Act(
            "leaf",
            "Top up leaf litter",
            listed(
                "leaf; leaves; leaf litter; litter; topped leaves; added leaves; more leaves; ll; top up leaves; "
                "topped up leaves; top up leaf litter; leaf top up; topped up litter; leaves added; new leaves; "
                "fresh leaves; leaf refill; leaf litter added; leaf litter topped up; refilled leaves; "
                "gave leaves"
            ),
        ),
        Act("calcium", "Give calcium", listed("calcium; lime; cuttlebone; eggshell; chalk; limestone")),
        Act(
            "look",
            "Look the bin over",
            listed(
                "look; looked; check; checked; inspected; looked over; look over; looked the bin over; "
                "inspection; checkup; all well; looked in; opened"
            ),
        ),
        Act(
            "count",
            "Count",
            listed(
                "count; counted; counting; count day; census; headcount; tally; counted them; "
                "animals counted; population count; counted animals"
            ),
        ),
        Act(
            "substrate_look",
            "Look at substrate",
            listed(
                "looked at substrate; substrate check; checked substrate; soil check; dirt check; checked "
                "soil; looked at dirt; looked at soil; substrate look; look at substrate"
            ),
        ),
        Act(
            "substrate_change",
            "Change substrate",
            listed(
                "substrate; substrate change; changed substrate; new substrate; replaced substrate; soil change; "
                "new soil; changed soil; dirt change; new dirt; changed dirt; partial change; part change; "
                "full change; renewed substrate; change substrate; swapped substrate; substrate renewed; "
                "substrate changed; soil replaced; fresh soil; soil renewed; fresh substrate; swapped soil; "
                "replaced soil; substrate swap; substrate replaced"
            ),
        ),
        Act("split", "Split", listed("split; split off; divided; splitting")),
        Act(
            "move_up",
            "Move up",
            listed(
                "move up; moved up; bigger box; upsized; moved to bigger box; new box; rehoused; larger "
                "bin; moved up a size; up a size; bigger bin; moved bin"
            ),
        ),
        Act(
            "hides",
            "Renew hides",
            listed(
                "hides; bark; new bark; new hides; hide; cork; decor; new cork; renewed hides; hide "
                "renewed; new moss; moss renewed"
            ),
        ),
        Act(
            "trap",
            "Trap stragglers",
            listed(
                "trap; trapped; straggler check; stragglers; bait; baited; trap check; trapped stragglers; checked trap"
            ),
        ),
        Act(
            "sift",
            "Sift substrate",
            listed(
                "sift; sifted; sifting; sift pass; sifting pass; pass; sifted old substrate; picked over; "
                "picked through; sorted old substrate; searched old substrate"
            ),
        ),
        Act(
            "mark",
            "Mark animals",
            listed("mark; marked; marking; marked and released; dotted; marked animals"),
        ),
        Act(
            "recapture",
            "Catch again",
            listed("recapture; recaptured; recaught; caught again; catch again; second catch; re-catch"),
        ),
        Act(
            "freeze",
            "Freeze",
            listed("freeze; froze; frozen; into freezer; in freezer; freezer"),
            opens=False,
        ),
        Act(
            "discard",
            "Discard",
            listed("discard; discarded; threw away; thrown away; binned; disposed; waste"),
            opens=False,
        ),
        Act(
            "animals_in",
            "Animals in",
            listed(
                "in; arrived; animals in; added; added animals; introduced; bought; received; got; came in; "
                "new arrivals; stocked; added isopods; arrivals; bought in; moved in"
            ),
        ),
        Act(
            "animals_out",
            "Animals out",
            listed(
                "out; sold; animals out; gave away; given away; swapped; took out; removed animals; sent; "
                "traded; shared; harvested; picked out; sale; went out; given out; moved out"
            ),
        ),
        Act(
            "dead",
            "Dead",
            listed(
                "dead; died; death; deaths; doa; loss; corpse; found dead; casualties; dead ones; dead animals; "
                "dead found; corpses; losses; bodies"
            ),
        ),
        Act(
            "young",
            "Mancas seen",
            listed("babies; mancas; mancae; young; birth; births; juveniles; saw babies; born"),
        ),
        Act(
            "room",
            "Room reading",
            listed("room; room reading; temperature; humidity; climate; reading; temp; thermometer"),
            opens=False,
        ),
        Act(
            "house",
            "House event",
            listed(
                "house; house event; heating on; heating off; heater on; heater off; cleaning; cleaned "
                "room; bug spray; air freshener; power cut; window open; painted; spray in house"
            ),
            opens=False,
        ),
        Act(
            "stock",
            "Stock on hand",
            listed("stock; stock on hand; supplies; on hand; inventory"),
            opens=False,
        ),
        Act("start", "Set up", listed("start; started; set up; setup; new bin; began; founded")),
        Act(
            "end",
            "Closed",
            listed("ended; closed; bin gone; dissolved; emptied; retired; gone"),
            opens=False,
        ),
        Act("rest", "Resting", listed("resting; rest; paused"), opens=False),
        Act("quarantine", "Quarantine", listed("quarantine; qt; quarantined; into quarantine"), opens=False),
        Act(
            "release",
            "Out of quarantine",
            listed("quarantine over; out of quarantine; quarantine ended"),
            opens=False,
        ),
        Act(
            "move_place",
            "Moved place",
            listed("moved shelf; new shelf; moved place; other shelf; moved to shelf; changed shelf"),
            opens=False,
        ),
        Act(
            "rename",
            "Renamed",
            listed("renamed; rename; renaming; renamed to; relabelled; relabeled; now called; new name"),
            opens=False,
        ),
        Act("note", "Note", listed("note; nothing; none; n/a"), opens=False),
    )
}
