"""Cautions that stand wherever a sheet shows a time or a method by which someone or something could be hurt."""

LAW_FIRST = (
    "Your permit and the law of the place come before anything said here: they decide what may be done with animals "
    "and old substrate."
)
DISPOSAL = (
    "Old substrate: trap out stragglers, freeze it, and only then throw it away. Never put animals or unfrozen "
    "substrate outdoors, on compost or down a drain."
)
FREEZING = (
    "Frozen for {hours:g} hours counts from when the middle is frozen. No time shown here promises that nothing is "
    "left alive. A freezer that also holds food needs a sealed, labelled box."
)
DUST = "Sifting raises dust and mould: keep the substrate damp, air the room, wear a mask and gloves."
LEAVES = (
    "Collected leaves may carry pesticide: take them from places that you know. Watch the oven while you bake "
    "leaves, and the pot while you boil them."
)
