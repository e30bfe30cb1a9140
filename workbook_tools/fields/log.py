"""What an entry of the log may hold: one fact or several about one bin or several on one day."""

from workbook_tools.fields.kinds import Field, Kind, listed
from workbook_tools.fields.movements import MOVEMENT_FIELDS
from workbook_tools.fields.outcome import OUTCOME_FIELDS
from workbook_tools.fields.sizes import SIZE_FIELDS

LOG_FIELDS: tuple[Field, ...] = (
    Field(
        "when",
        Kind.DATE,
        "Date",
        "The day. A month or a year will do if that is all you know.",
        listed(
            "when; day of; on; date done; done on; date and time; datetime; timestamp; time stamp; "
            "counted on; fed on; watered on; dated; actual; actual date; completed on; date completed; finished on;"
            " noted; recorded; logged; submitted; sent; submission time"
        ),
        example="2026-03-01",
    ),
    Field("time", Kind.TIME, "Time", "The time of day, if it matters.", listed("hour; clock; at"), in_blank=False),
    Field(
        "weekday",
        Kind.TEXT,
        "Weekday",
        "Checked against the date, not used otherwise.",
        listed("day; day of week; wd"),
        in_blank=False,
    ),
    Field(
        "bins",
        Kind.BINS,
        "Bin",
        "One bin or several: A1, A1 + A2, all shelf A, all.",
        listed(
            "bin no; bin number; bin code; bin id; bin name; bins; box; boxes; box no; tub; tubs; container; "
            "which; which bin; enclosure; code; culture; colony; tank; terrarium; vivarium; viv; crate; "
            "home; housing"
        ),
        example="Example 1",
    ),
    Field(
        "species",
        Kind.TEXT,
        "Species",
        "Who lives there. Helps to tell bins apart.",
        listed(
            "who lives there; kind; animal; animals; isopods; line; species ish; latin name; "
            "scientific name; common name; english name; occupants; residents; breed; taxon; species name; "
            "inhabitants; what lives here; what lives there; sp; critter; creature"
        ),
        in_blank=False,
    ),
    Field(
        "did",
        Kind.ACT,
        "Done",
        "What was done, in your own words: water, feed, leaves, count, new substrate.",
        listed(
            "did; in out; in or out; movement; did what; what i did; what was done; done; action; activity; "
            "task; work; job; what; event; care; done what; what did you do; what did i do; "
            "what have you done; what was it; chore; treatment; maintenance; kind of work; type of work; "
            "care given; jobs; moved; move; direction; transfer; type of movement; kind of movement; "
            "came or went"
        ),
        example="water + feed",
    ),
    Field(
        "amount",
        Kind.AMOUNT,
        "Amount",
        "How much, with its unit: 40 ml, 2 g, 1 L, a handful.",
        listed(
            "how much; qty; quantity; actual; actual amount; portion; dose; grams; g; litres; liters; l; weight; "
            "volume; amount given; given; amt; measure"
        ),
        example="30 ml",
    ),
    Field(
        "unit",
        Kind.TEXT,
        "Unit",
        "The unit of the amount, if it has a column of its own.",
        listed("units"),
        in_blank=False,
    ),
    Field(
        "water",
        Kind.AMOUNT,
        "Water",
        "Water given: an amount, or yes.",
        listed(
            "spray; sprayed; mist; misted; watered; wet; spray?; water ml; water given; ml water; ml; "
            "wetting; wetted; misting; watering; spraying; poured"
        ),
        unit="ml",
        implies="water",
        in_blank=False,
    ),
    Field(
        "moss",
        Kind.STATE,
        "Moss corner",
        "How the moss corner was found: dry, drying, damp, wet or soaked.",
        listed(
            "moss; moss 0-3; moisture; wet end; humidity of moss; damp; dampness; moss state; moss found; "
            "sm; sphagnum; damp corner; damp end; damp side; wet corner; wet side; moist corner; "
            "moss corner state"
        ),
        implies="moss",
        states="moss",
        example="drying",
    ),
    Field(
        "food",
        Kind.TEXT,
        "Food",
        "What was fed.",
        listed(
            "fed; feed; grub; food given; what food; meal; feeding; diet; fed what; menu; treat; offered; "
            "served; food type"
        ),
        implies="feed",
        example="courgette",
    ),
    Field(
        "leftovers",
        Kind.STATE,
        "Leftovers",
        "What was left of the last feeding: gone, some, most or mouldy.",
        listed("left over; left; remains; food left; eaten; uneaten; leftover"),
        implies="leftovers",
        states="leftovers",
        example="gone",
    ),
    Field(
        "leaf",
        Kind.AMOUNT,
        "Leaf litter",
        "Leaf litter added: litres, grams or handfuls.",
        listed(
            "leaves; leaves topped; leaves added; litter; leaf; leaf added; topped up; ll; leaf top up; "
            "litter added; leaves topped up; leaf refill; leaf supply; fresh leaves; dry leaves"
        ),
        unit="l",
        implies="leaf",
        example="0.5 L",
    ),
    Field(
        "leaf_left",
        Kind.STATE,
        "Leaf litter left",
        "How much leaf litter was found, before any was added: none, little, half or plenty.",
        listed(
            "leaves left; litter left; leaf level; litter level; leaves found; litter found; leaf litter found; "
            "leaf layer; litter layer; layer of leaves; leaf depth; litter depth"
        ),
        implies="look",
        states="litter",
        in_blank=False,
    ),
    Field(
        "calcium",
        Kind.AMOUNT,
        "Calcium",
        "Calcium given: an amount, or yes.",
        listed("lime; cuttlebone; calcium given; eggshell; chalk"),
        unit="g",
        implies="calcium",
        in_blank=False,
    ),
    Field(
        "substrate",
        Kind.STATE,
        "Substrate",
        "How the substrate was found: fresh, good, part frass, mostly frass, spent; or the share still to be "
        "recognised.",
        listed(
            "looked at dirt; dirt; soil; sub; substrate state; soil state; frass; frass 0-10; substrate "
            "found; soil condition; substrate look"
        ),
        implies="substrate_look",
        states="substrate",
        example="good",
    ),
    Field(
        "depth",
        Kind.AMOUNT,
        "Depth (cm)",
        "How deep the substrate was found: it sinks as it is eaten.",
        listed("depth now; substrate depth; soil depth; dirt depth; depth left"),
        unit="cm",
        implies="substrate_look",
        in_blank=False,
    ),
    Field(
        "share",
        Kind.SHARE,
        "Share replaced",
        "At a change of substrate: 1/3, half, 75 %, all.",
        listed(
            "share; fraction; how much replaced; part replaced; replaced; portion replaced; part; "
            "proportion; part renewed; how much changed; how much soil; how much substrate; part changed"
        ),
        example="1/3",
    ),
    Field(
        "way",
        Kind.TEXT,
        "Way",
        "How it was done or counted: one side, full sort, hides lifted, trap.",
        listed(
            "method; how; technique; way counted; counted how; count method; which way; procedure; "
            "counted by; kind of count; type of count; counting method"
        ),
        example="one side",
    ),
    Field(
        "old_went",
        Kind.TEXT,
        "Old substrate went",
        "Where the old substrate went: straggler tub, freezer, bin.",
        listed(
            "old went; old substrate; old soil; where old went; old dirt; went to; disposal; where the "
            "old went; old soil to"
        ),
        example="straggler tub",
    ),
    Field(
        "number",
        Kind.NUMBER,
        "Number",
        "A count, or animals moved. 30+, ~50 and 40-60 will do.",
        listed(
            "saw; seen; count; counted; how many; sum; total; no of animals; animals seen; seen where; "
            "number seen; qty animals; heads; headcount; tally; result; population count; number of animals; "
            "animals counted; pcs; pieces; head; number of isopods"
        ),
        implies="count",
        example="",
    ),
    *SIZE_FIELDS,
    Field(
        "dead",
        Kind.NUMBER,
        "Dead",
        "Dead animals found.",
        listed(
            "deaths; died; losses; corpses; found dead; dead found; †; ✝; mortality; death; casualties; "
            "bodies; loss; fatalities; deceased"
        ),
        implies="dead",
        example="0",
    ),
    Field(
        "marked",
        Kind.NUMBER,
        "With a mark",
        "Of the animals caught, how many carried a mark.",
        listed("marked; marked ones; marks; already marked; of them marked; with mark; recaptured; marked seen"),
        in_blank=False,
    ),
    Field(
        "minutes",
        Kind.NUMBER,
        "Minutes",
        "How long it took, in minutes.",
        listed("mins; min; minutes spent; time taken; time spent; duration; how long; minutes taken"),
        in_blank=False,
    ),
    Field(
        "young",
        Kind.STATE,
        "Mancas",
        "Mancas seen: yes, no, or how many.",
        listed("babies; young; mancae; manca; juveniles; juv; offspring; small ones"),
        implies="young",
        states="truth",
        in_blank=False,
    ),
    Field(
        "seen",
        Kind.STATE,
        "Seen",
        "What you noticed: mites, gnats, mould, condensation, gap in the lid, huddling.",
        listed(
            "finding; findings; found; what did you see; what did you notice; noticed; "
            "observation; observations; condition; problems; health"
        ),
        implies="look",
        states="finding",
        example="all well",
    ),
    Field(
        "temperature",
        Kind.AMOUNT,
        "Temp (C)",
        "Room temperature.",
        listed("temp; temperature; t; room temp; c; deg c; degrees"),
        unit="degC",
        implies="room",
        in_blank=False,
    ),
    Field(
        "humidity",
        Kind.SHARE,
        "Humidity (%)",
        "Room humidity.",
        listed("hum; humidity; rh; rel humidity; room humidity; h"),
        unit="percent",
        implies="room",
        in_blank=False,
    ),
    Field(
        "from_bin",
        Kind.BINS,
        "From bin",
        "The bin the animals came out of.",
        listed("from; out of; source bin; moved from"),
        in_blank=False,
    ),
    Field(
        "to_bin",
        Kind.BINS,
        "To",
        "The bin the animals or the substrate went to.",
        listed("to; to bin; into; new bin; moved to; target bin; new name; renamed to"),
        example="",
    ),
    *MOVEMENT_FIELDS,
    *OUTCOME_FIELDS,
    Field(
        "look_again",
        Kind.DATE,
        "Look again",
        "A day on which you want to look at this bin again.",
        listed("next; next look; next check; again; follow up; remind; reminder; check again; next date"),
        in_blank=False,
    ),
    Field(
        "who",
        Kind.TEXT,
        "Who",
        "Who did it.",
        listed("by; keeper; person; initials; done by; name"),
        private=True,
        in_blank=False,
    ),
    Field(
        "note",
        Kind.TEXT,
        "Note",
        "Anything else.",
        listed(
            "notes; remark; remarks; comment; comments; scribble; memo; idea; what happened; anything else; "
            "anything to add; anything odd; other remarks; misc; other"
        ),
        private=True,
        example="This row is an example and is not read.",
    ),
)
