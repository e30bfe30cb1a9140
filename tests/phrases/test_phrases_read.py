"""Phrases that were learned from, through the whole reader: a floor, not a figure of how good the reading is."""

from phrases.score import HERE, outcomes, phrases


def test_phrases_learned_from_are_read_as_well_as_before():
    found = [one for path in sorted((HERE / "read").glob("*.tsv")) for one in outcomes(phrases(path))]
    acts = sum(len(one.phrase.acts) for one in found)
    right, wrong = (sum(len(getattr(one, kind)) for one in found) for kind in ("right", "wrong"))

    assert right >= 0.76 * acts
    assert wrong <= 0.065 * (right + wrong)
    assert sum(bool(one.silent) for one in found) <= 13
