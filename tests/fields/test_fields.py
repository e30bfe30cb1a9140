from collections import Counter

import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS, SETTINGS, STATES, Kind
from workbook_tools.intake.headings import normalise


@pytest.mark.parametrize("fields", [BIN_FIELDS, LOG_FIELDS], ids=["bins", "log"])
def test_keys_and_labels_are_not_used_twice(fields):
    assert max(Counter(field.key for field in fields).values()) == 1
    assert max(Counter(field.label.casefold() for field in fields).values()) == 1


@pytest.mark.parametrize("fields", [BIN_FIELDS, LOG_FIELDS], ids=["bins", "log"])
def test_a_heading_means_one_field_of_a_table(fields):
    owners: dict[tuple[str, ...], set[str]] = {}
    for field in fields:
        for phrase in field.phrases:
            wording = normalise(phrase)
            owners.setdefault((*wording.words, wording.unit), set()).add(field.key)
    shared = {words: keys for words, keys in owners.items() if len(keys) > 1}

    # The values of the column tell which of the meanings it has.
    by_values = {
        ("seen", ""): {"number", "seen"},
        ("done", ""): {"did", "outcome"},
        ("actual", ""): {"amount", "outcome", "when"},
    }
    assert shared in ({}, by_values)


@pytest.mark.parametrize("field", (*BIN_FIELDS, *LOG_FIELDS), ids=lambda field: field.key)
def test_a_field_has_a_note_and_known_words(field):
    assert field.says.endswith(".")
    if field.kind in (Kind.STATE, Kind.CHOICE):
        assert field.states in STATES
    if field.implies:
        assert field.implies in ACTS


def test_a_word_means_one_act():
    owners: dict[str, set[str]] = {}
    for act in ACTS.values():
        for word in (act.label.lower(), *act.words):
            owners.setdefault(word, set()).add(act.key)

    assert {word: keys for word, keys in owners.items() if len(keys) > 1} == {}


@pytest.mark.parametrize("states", STATES)
def test_a_word_means_one_sight_of_its_table(states):
    words = [word for each in STATES[states].values() for word in each]

    assert [word for word, times in Counter(words).items() if times > 1] == []


def test_settings_are_named_once():
    names = Counter(name.lower() for setting in SETTINGS for name in {setting.label.lower(), *setting.names})

    assert [name for name, times in names.items() if times > 1] == []


def test_a_setting_in_numbers_has_a_default_and_no_other_has():
    assert {s.key for s in SETTINGS if s.default} == {s.key for s in SETTINGS if s.kind in ("days", "share", "amount")}
    assert {s.default for s in SETTINGS if s.default} <= set(DEFAULTS)
