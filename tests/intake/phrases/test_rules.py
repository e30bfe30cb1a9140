from workbook_tools.fields import ACTS
from workbook_tools.intake.phrases.chunks import AMOUNTS
from workbook_tools.intake.phrases.clauses import MOODS
from workbook_tools.intake.phrases.rules import RULES, SILENT, act_of
from workbook_tools.vocabulary.phrase_words import phrase_words

MADE = {"bin", "arrow", "tick", "cross", "times", "length", "degrees", "duration", "money", "holds", "supply", "named"}
MADE |= {"date", "unknown", "asked", "source"}
KINDS = {*phrase_words().values(), *AMOUNTS, *MADE}


def test_every_rule_gives_an_act_and_speaks_of_kinds_that_there_are():
    named = {kind for rule in RULES for one in (*rule.needed, rule.allowed) for kind in one} - {"amount"}
    assert {act for rule in RULES for act in rule.act.split("+")} <= set(ACTS)
    assert named - KINDS == set()


def test_no_rule_allows_a_mood():
    assert [rule for rule in RULES if rule.allowed & set(MOODS) or any(one & set(MOODS) for one in rule.needed)] == []


def test_a_strange_chunk_spoils_an_act():
    assert act_of({"did water", "moss"})[0] == "water"
    assert act_of({"did water", "moss", "house"}) == ("", 0.0)


def test_the_rule_that_needs_most_decides():
    assert act_of({"did give", "leaf", "volume"})[0] == "leaf"
    assert act_of({"did give", "volume"})[0] == "water"


def test_what_says_nothing_changes_nothing():
    assert act_of({"did feed", *SILENT}) == act_of({"did feed"})
