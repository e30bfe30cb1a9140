"""What a row of the list of bins may hold."""

from workbook_tools.fields.kinds import Field, Kind, listed

BIN_FIELDS: tuple[Field, ...] = (
    Field(
        "name",
        Kind.NAME,
        "Bin",
        "The name or code on the bin. Every bin needs one, and no two the same.",
        listed(
            "bin no; bin number; bin code; bin id; bin name; box; box no; box code; tub; tub no; container; "
            "enclosure; code; id; no; nr; number; name on lid; label; name; culture; colony; tank; "
            "terrarium; vivarium; viv; crate; home; housing"
        ),
        example="Example 1",
    ),
    Field(
        "species",
        Kind.TEXT,
        "Species",
        "The species, by any name you use.",
        listed(
            "kind; who; who lives there; animal; animals; isopod; isopods; species ish; type; species name; "
            "scientific name; inhabitants; variety; latin name; common name; english name; occupants; "
            "residents; breed; taxon; what lives here; what lives there; kept; sp; critter; creature"
        ),
        example="Porcellio scaber",
    ),
    Field(
        "line",
        Kind.TEXT,
        "Line",
        "The line, morph or generation kept apart from others.",
        listed("line gen; morph; strain; generation; gen; lineage; colour; color; colour form; stock"),
        example="Grey A",
    ),
    Field(
        "place",
        Kind.TEXT,
        "Place",
        "The shelf or rack the bin stands on.",
        listed("shelf; rack; where; location; position; spot; room; shelf place; stands on"),
        example="Shelf A",
    ),
    Field(
        "volume",
        Kind.AMOUNT,
        "Volume (L)",
        "How much the box holds, or its length x width x height with a unit.",
        listed(
            "volume; size; litres; liters; box l; l; litre; capacity; bin size; box size; quarts; qt; "
            "gallons; l x w x h; length x width x height; l w h; w x d x h; w x l x h; lwh; vol; how big; "
            "contents; content; holds"
        ),
        unit="l",
        example="6",
    ),
    Field(
        "floor",
        Kind.AMOUNT,
        "Floor (dm2)",
        "The floor of the box, as an area or as length x width.",
        listed(
            "floor; floor area; floor size; box dm2; area; footprint; dimensions; length x width; l x w; w x l; w x d"
        ),
        unit="dm2",
        example="5.5",
    ),
    Field(
        "depth",
        Kind.AMOUNT,
        "Depth (cm)",
        "How deep the substrate is.",
        listed("depth; substrate depth; soil depth; dirt depth; layer"),
        unit="cm",
        example="5",
    ),
    Field(
        "ventilation",
        Kind.CHOICE,
        "Ventilation",
        "How airy the box is: low, medium, high or mesh.",
        listed("vents; vent; air; holes; airflow; vent class"),
        states="ventilation",
        example="medium",
    ),
    Field(
        "appetite",
        Kind.CHOICE,
        "Appetite",
        "How much they eat for their number: slow, medium or hearty.",
        listed("eats; appetite class; feeding class; eater"),
        states="appetite",
        example="medium",
    ),
    Field(
        "started",
        Kind.DATE,
        "Started",
        "When the bin was set up. A month or a year will do.",
        listed(
            "start; since; set up; setup; got it; start date; date started; begun; established; acquired; "
            "created; founded; began; running since; going since; in use; in use since; set up on"
        ),
        example="2025-03",
    ),
    Field(
        "came_from",
        Kind.TEXT,
        "Came from",
        "The bin, keeper or place the animals came from. Shown in your own report, never in an edition for others.",
        listed("got from; source; origin; from; bought from; supplier; parent bin; parent"),
        private=True,
        example="swap",
    ),
    Field(
        "formerly",
        Kind.TEXT,
        "Formerly",
        "Its name before, if you gave it another. What the log says under that name is of this bin.",
        listed(
            "was; former name; old name; previous name; earlier name; renamed from; formerly called; old code; "
            "previous code; former code; old label; used to be; previously"
        ),
        in_blank=False,
    ),
    Field(
        "mixes",
        Kind.TEXT,
        "May mix with",
        "Lines or bins whose animals may be put in with these; any, if all may.",
        listed("may mix with; mix with; mixes with; can mix with; may be put with; same line as"),
        in_blank=False,
    ),
    Field(
        "founders",
        Kind.NUMBER,
        "Founders",
        "How many animals it began with.",
        listed(
            "start qty; start number; starting number; how many then; founding number; initial count; "
            "started with; start count; began with"
        ),
        example="20",
    ),
    Field(
        "status",
        Kind.CHOICE,
        "Status",
        "Active, quarantine, straggler tub, resting or gone. Resting and gone bins get no tasks.",
        listed("state; bin status; condition"),
        states="status",
        example="active",
    ),
    Field(
        "quarantine_until",
        Kind.TEXT,
        "Quarantine until",
        "Until when they are kept apart; kept as written.",
        listed("qt until; quarantine to; in quarantine until; quarantine ends; quarantine end"),
        in_blank=False,
    ),
    Field(
        "target",
        Kind.AMOUNT,
        "Crowded at",
        "The number of animals at which you call the bin crowded.",
        listed("target density; goal; crowding number; max; maximum; split at; target; target number"),
        unit="count",
        example="200",
    ),
    Field(
        "number_now",
        Kind.NUMBER,
        "Guess now",
        "How many you think are in it today; a guess will do.",
        listed(
            "how many now; number now; current number; population; pop; qty; quantity; count now; "
            "estimate; number of animals; how many; guess"
        ),
        implies="count",
        in_blank=False,
    ),
    Field(
        "last_count",
        Kind.NUMBER,
        "Last count",
        "The last count, with its way (34 under bark).",
        listed("last count how; last counted; counted; count"),
        implies="count",
        in_blank=False,
    ),
    Field(
        "last_water",
        Kind.DATE,
        "Last watered",
        "When its moss corner was last watered.",
        listed("last wet; last soak; last misted; last water; watered; last mist; last spray; last sprayed"),
        implies="water",
        in_blank=False,
    ),
    Field(
        "last_feed",
        Kind.DATE,
        "Last fed",
        "When it was last fed.",
        listed("fed; last food; last feed; last feeding; feed day"),
        implies="feed",
        in_blank=False,
    ),
    Field(
        "last_leaf",
        Kind.DATE,
        "Last leaf litter",
        "When leaf litter was last topped up.",
        listed("last leaves; last litter; leaves added; last top up"),
        implies="leaf",
        in_blank=False,
    ),
    Field(
        "last_calcium",
        Kind.DATE,
        "Last calcium",
        "When calcium was last given.",
        listed("last lime; last cuttlebone; calcium given"),
        implies="calcium",
        in_blank=False,
    ),
    Field(
        "last_substrate_change",
        Kind.DATE,
        "Substrate changed",
        "When its substrate was last changed.",
        listed(
            "dirt changed; soil changed; last substrate change; substrate replaced; soil age; substrate "
            "age; new soil; new substrate; last change"
        ),
        implies="substrate_change",
        in_blank=False,
    ),
    Field(
        "last_substrate_look",
        Kind.DATE,
        "Substrate looked at",
        "When you last looked at its substrate; how it was found will do.",
        listed("dirt look; soil look; looked at dirt; substrate look; substrate check; last soil check"),
        implies="substrate_look",
        states="substrate",
        in_blank=False,
    ),
    Field(
        "every_moss",
        Kind.TEXT,
        "Water every",
        "How often you want to look at its moss corner: 5 days, 10-14 days, weekly. A setting of this bin alone.",
        listed(
            "soak every; mist every; spray every; moss every; check moss every; look at moss corner every; "
            "watering every; water interval; watering interval"
        ),
        in_blank=False,
    ),
    Field(
        "every_food",
        Kind.TEXT,
        "Feed every",
        "How often you want to feed it. A setting of this bin alone.",
        listed("feeding every; food every; fed every; feed interval; feeding interval"),
        in_blank=False,
    ),
    Field(
        "temperature",
        Kind.TEXT,
        "Temperature",
        "How warm it stands.",
        listed("temp; temp band; temperature band; warmth"),
        in_blank=False,
    ),
    Field(
        "plan",
        Kind.TEXT,
        "Plan",
        "What you plan for it.",
        listed("split; next size; to do; todo; split?; idea; next; warn; share; pests"),
        in_blank=False,
    ),
    Field(
        "note",
        Kind.TEXT,
        "Private note",
        "For you alone: never shown in an edition for others.",
        listed("note; notes; remark; remarks; comment; comments; scribble; weird; memo"),
        private=True,
        example="This row is an example and is not read.",
    ),
)
