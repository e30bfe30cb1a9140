"""Words that may stand beside a known heading without changing what it means: 'date' and 'date of work'."""

_BOXES = "bin box tub container enclosure culture colony tank terrarium"
_ANIMALS = "animal isopod woodlouse woodlice pod one of which them"
_GIVEN = "given added put topped up refill refilled new fresh extra more poured used offered how much amount"


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


BESIDE: dict[str, frozenset[str]] = {
    "when": _words(
        "of on the which what entry log logged record recorded noted note written work job care visit check "
        "checked done day date time made taken sent submitted form submission"
    ),
    "name": _words("name label code id no nr number which what lid mark bin box tub container"),
    "bins": _words("name label code id no nr number which what lid mark bin box tub container"),
    "species": _words("name kind type sort kept live living here there it who which what"),
    "volume": _words(f"{_BOXES} how big much hold total inside approx"),
    "started": _words(f"date day on first when since of up use {_BOXES}"),
    "place": _words(f"{_BOXES} stand on name no nr number which"),
    "did": _words("what was is i we kind type of sort kept today carried out done did all"),
    "amount": _words("food fed feed meal portion dose weight of given how much offered gram"),
    "water": _words(f"{_GIVEN} moss corner volume of dose about"),
    "food": _words("what type kind sort item name offered given served them which i was with on"),
    "leaf": _words(f"{_GIVEN} top dry dried oak beech supply volume fallen leaf leave litter"),
    "moss": _words("state statu condition how moisture wetness dampness level feel found check checked corner is end"),
    "dead": _words(f"{_ANIMALS} found count number no how many seen total body"),
    "number": _words(f"{_ANIMALS} found seen total result no number how many all together moved"),
    "way": _words("of used count counting counted kind type how i we did which"),
    "share": _words("replaced changed renewed new swapped soil substrate dirt of how much out old taken"),
    "note": _words("other further own my any some general"),
}
"""By field: words without plural endings, as ``intake.headings`` makes them."""

TOGETHER: dict[str, tuple[frozenset[str], frozenset[str], frozenset[str]]] = {
    "founders": (
        _words("many number no nr qty quantity count amount total animal isopod individual specimen head"),
        _words("start started starting begin began beginning founding founded initial initially original set setup"),
        _words("how up with when it them were was put there had"),
    ),
}
"""By field: a word of each of the first two lists makes a heading its own, if all others are of the third."""
