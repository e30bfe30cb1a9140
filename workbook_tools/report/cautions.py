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
VIRUS = (
    "Animals that turn blue or violet may have a virus of isopods, against which nothing is known to help; lines that "
    "are blue by nature aren't meant. Keep the bin apart, with tools of its own. Move no animals, leaves or substrate "
    "out of it or into it, look daily, and write down every death. Nothing of it may get outdoors."
)
PESTS = (
    "No spray, powder or strip against insects in the room: what kills mites, gnats or ants kills isopods. Predatory "
    "mites and nematodes may take young isopods too: try them in one bin first."
)
OF_FINDINGS = {"virus": VIRUS, "pests": PESTS}
"""By the caution that a finding names, see ``fields.FINDINGS``."""
