"""Words for what an act may be done to: animals, bins, old substrate, food and other things."""


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


ANIMALS = _words(
    "animal animals isopod isopods woodlouse woodlice pillbug pillbugs slater slaters adult adults subadult subadults "
    "young juvenile juveniles juvie juvies babies baby manca mancas mancae male males female females pair pairs "
    "breeder breeders individual individuals specimen specimens head heads pcs pc piece pieces ct count ones one two "
    "three them all everyone colony culture group founders starter starters stock lot both rest arrivals isos iso"
)
"""Words for animals, how many of them, and groups of them."""
BOXES = _words(
    "bin bins box boxes tub tubs container containers enclosure enclosures tank tanks terrarium culture cultures "
    "colony colonies crate crates home"
)
OLD = _words("substrate soil dirt old bag bags batch sifted straggler stragglers tub")
"""Words for substrate that was taken out."""
FOODS = _words(
    "food leftovers leftover carrot carrots courgette cucumber potato apple pear banana pumpkin squash lettuce veg "
    "vegetable vegetables veggies fruit flakes fish pellet pellets shrimp mushroom mushrooms peas pea broccoli "
    "cabbage melon greens beet meal scraps slice"
)
NOT_ANIMALS = _words(
    "days day weeks week months month years year hours hour hrs minutes mins min times time eur euro euros usd dollars "
    "dollar gbp pounds pound ways way halves half parts part sides side lids lid jars jar packs pack cups cup bag "
    "bags bucket buckets shelves shelf leaves leaf"
) | (BOXES - {"culture", "cultures", "colony", "colonies"})
"""Words that, right behind a number, make it a number of something else than animals."""
