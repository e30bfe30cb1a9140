import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from tools.rows import bin_row, day, log_row, ml, number, settings, words
from workbook_tools.ledger.build import build_ledger

ON = dt.date(2026, 3, 10)


def build(*rows, **values):
    return build_ledger(rows, settings(**values), on=ON)


def test_log_row_makes_one_entry_an_act_each_with_its_own_facts():
    ledger, problems = build(
        bin_row("A1"), log_row("2026-03-01", "A1", "water+feed", amount=ml(40), food="courgette", who="J", note="lid")
    )
    water, feed = sorted(ledger.entries, key=lambda entry: entry.act, reverse=True)
    assert (water.act, feed.act) == ("water", "feed")
    assert water.text("amount") == "40 ml"
    assert feed.text("amount") == ""
    assert feed.text("food") == "courgette"
    assert water.text("note") == feed.text("note") == "lid"
    assert water.where == feed.where
    assert problems == []


def test_entries_are_in_order_of_date_those_without_first():
    ledger, _ = build(
        bin_row("A1", number_now=number(40), last_water=day("2026-03-02")),
        log_row("2026-03-05", "A1", "water"),
        log_row("2026-03-01", "A1", "feed"),
    )
    assert [entry.day for entry in ledger.entries] == [
        None,
        dt.date(2026, 3, 1),
        dt.date(2026, 3, 2),
        dt.date(2026, 3, 5),
    ]


def test_one_row_on_several_bins_is_one_entry():
    ledger, _ = build(bin_row("A1"), bin_row("A2"), log_row("2026-03-01", "A1+A2", "water"))
    assert [entry.bins for entry in ledger.entries] == [("A1", "A2")]


def test_rows_left_out_are_named_and_counted():
    ledger, problems = build(
        bin_row("A1"),
        log_row("", "A1", "water", at=5),
        log_row("2026-03-01", "", "water", at=6),
        log_row("2026-03-01", "all shelf Q", "water", at=7),
        log_row("2026-03-01", "A1", "water", at=8),
    )
    assert {(p.where.row, p.code) for p in problems} == {
        (5, "entries.no_date"),
        (6, "entries.no_bin"),
        (7, "bins.group_unknown"),
    }
    assert (ledger.rows_read, ledger.rows_used) == (5, 2)


def test_a_room_reading_is_kept_when_its_row_is_left_out():
    ledger, problems = build(bin_row("A1"), log_row("2026-03-01", "all shelf Q", "water", humidity=number(50)))
    assert [(entry.act, entry.bins) for entry in ledger.entries] == [("room", ())]
    assert [problem.code for problem in problems] == ["bins.group_unknown"]
    assert (ledger.rows_read, ledger.rows_used) == (2, 1)


def test_room_and_house_need_no_bin():
    ledger, problems = build(
        bin_row("A1"), log_row("2026-03-01", "", "house"), log_row("2026-03-01", "loft", "room", humidity=number(50))
    )
    assert [entry.bins for entry in ledger.entries] == [(), ()]
    assert list(ledger.bins) == ["A1"]
    assert problems == []


def test_all_bins_means_those_that_were_there():
    ledger, _ = build(
        bin_row("A1", started="2025-01-01"),
        bin_row("A2", started="2026-03-05"),
        bin_row("A3", started="2025-01-01"),
        log_row("2026-02-01", "A3", "end"),
        log_row("2026-03-01", "all", "water"),
    )
    assert ledger.entries[-1].bins == ("A1",)


def test_set_up_and_split_in_the_log_begin_a_bin():
    ledger, _ = build(
        bin_row("A1"),
        bin_row("A2"),
        log_row("2026-02-01", "A1", "start"),
        log_row("2026-03-01", "A1", "split", to_bin="A2", number=number(10)),
    )
    assert ledger.bins["A1"].started == day("2026-02-01")
    assert ledger.bins["A2"].started == day("2026-03-01")


def test_start_in_the_list_is_kept():
    ledger, _ = build(bin_row("A1", started="2025-05"), log_row("2026-02-01", "A1", "start"))
    assert ledger.bins["A1"].started == day("2025-05")


def test_split_into_a_code_that_no_list_has_makes_that_bin():
    ledger, problems = build(bin_row("A1"), log_row("2026-03-01", "A1", "split", to_bin="D5"))
    assert not ledger.bins["D5"].listed
    assert ledger.bins["D5"].started == day("2026-03-01")
    assert [p.code for p in problems] == ["bins.begun"]


def test_animals_sold_to_a_person_make_no_bin():
    ledger, problems = build(bin_row("A1"), log_row("2026-03-01", "A1", "animals_out", to_bin="Tom", number=number(5)))
    assert list(ledger.bins) == ["A1"]
    assert problems == []
    assert ledger.entries[0].text("to_bin") == "Tom"


def test_bins_of_the_log_alone_are_noted_once():
    ledger, problems = build(log_row("2026-03-01", "A1", "water"), log_row("2026-03-01", "A2", "water"))
    assert list(ledger.bins) == ["A1", "A2"]
    assert [p.code for p in problems] == ["bins.no_list"]


def test_number_column_and_words_for_one_act_make_one_entry():
    ledger, _ = build(bin_row("A1"), log_row("2026-03-01", "A1", "count", number=number(30), way="one hide"))
    assert [entry.act for entry in ledger.entries] == ["count"]
    assert ledger.entries[0].text("way") == "one hide"


def test_nothing_gives_an_empty_ledger():
    ledger, problems = build()
    assert (ledger.bins, ledger.entries, ledger.rows_read, ledger.rows_used) == ({}, (), 0, 0)
    assert problems == []


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["A1", "A2", "A1+A2"]), st.integers(1, 28), st.sampled_from(["water", "feed", "look"])
        ),
        max_size=8,
    ).flatmap(lambda made: st.tuples(st.just(made), st.permutations(made)))
)
def test_order_of_rows_does_not_matter(both):
    def said(made):
        rows = [log_row(f"2026-02-{day:02}", bins, act, moss=words("damp")) for bins, day, act in made]
        ledger, _ = build(bin_row("A1"), bin_row("A2"), *rows)
        return sorted((entry.act, entry.day, entry.bins) for entry in ledger.entries)

    assert said(both[0]) == said(both[1])


def test_an_entry_for_all_is_for_bins_listed_or_logged_by_then():
    often = [log_row(f"2026-03-0{n}", "N9", "feed") for n in (4, 5, 6)]
    ledger, _ = build(
        bin_row("A1"), log_row("2026-03-01", "all", "water"), *often, log_row("2026-03-07", "all", "water")
    )
    assert [entry.bins for entry in ledger.entries if entry.act == "water"] == [("A1",), ("A1", "N9")]


def test_a_name_that_the_log_has_on_few_days_is_a_doubtful_bin_of_its_own_entry_alone():
    ledger, problems = build(bin_row("A1"), log_row("2026-03-02", "E03", "water"), log_row("2026-03-07", "all", "feed"))
    assert [(entry.act, entry.bins) for entry in ledger.entries] == [("water", ("E03",)), ("feed", ("A1",))]
    assert ledger.bins["E03"].doubtful
    assert not ledger.bins["A1"].doubtful
    assert [p.code for p in problems] == ["bins.unlisted"]


def test_a_bin_that_was_split_off_or_that_no_list_could_have_is_not_doubtful():
    split = log_row("2026-03-02", "A1", "split", to_bin="A9", number=number(20))
    assert not build(bin_row("A1"), split)[0].bins["A9"].doubtful
    assert not build(log_row("2026-03-02", "E03", "water"))[0].bins["E03"].doubtful


def test_the_log_gives_bins_that_no_list_has_their_species():
    ledger, _ = build(
        bin_row("A1"),
        log_row("2026-03-01", "A1", "look", species="Porcellio laevis"),
        log_row("2026-03-02", "R2", "look", species="Armadillidium vulgare"),
        log_row("2026-03-03", "R2", "look", species="Oniscus asellus"),
        log_row("2026-03-04", "all", "look", species="Porcellio laevis"),
    )
    assert [bin.species for bin in ledger.bins.values()] == ["", "Armadillidium vulgare"]


def test_a_bin_split_off_takes_species_and_line_of_its_parent_and_is_no_slip():
    ledger, problems = build(
        bin_row("K01", species="Oniscus asellus"),
        bin_row("K04", species="Porcellio laevis", line="Cow"),
        log_row("2026-03-02", "K09", "split", to_bin="K10", number=number(5)),
        log_row("2026-03-01", "K04", "split", to_bin="K09", number=number(25), note="new bin"),
    )
    assert [(p.code, p.facts["bin"], p.facts["parent"]) for p in problems] == [
        ("bins.begun", "K09", "K04"),
        ("bins.begun", "K10", "K09"),
    ]
    for name in ("K09", "K10"):
        bin = ledger.bins[name]
        assert (bin.species, bin.line, bin.listed, bin.doubtful) == ("Porcellio laevis", "Cow", False, False)
        assert bin.started is not None


def test_a_bin_split_off_two_of_different_lines_takes_what_they_share():
    ledger, _ = build(
        bin_row("K01", species="Porcellio laevis", line="Cow"),
        bin_row("K04", species="Porcellio laevis", line="Orange"),
        log_row("2026-03-01", "K01+K04", "split", to_bin="K09", number=number(25)),
    )
    assert (ledger.bins["K09"].species, ledger.bins["K09"].line) == ("Porcellio laevis", "")


def test_a_split_into_a_bin_that_lived_already_is_not_its_start():
    ledger, _ = build(
        bin_row("A1"),
        bin_row("A2"),
        log_row("2026-01-05", "A2", "water"),
        log_row("2026-03-01", "A1", "split", to_bin="A2", number=number(10)),
    )
    assert ledger.bins["A2"].started is None


def test_a_row_of_the_new_bin_begins_it_too():
    ledger, problems = build(bin_row("A1"), log_row("2026-03-01", "A6", "split", from_bin="A1", number=number(10)))
    assert ledger.bins["A6"].started == day("2026-03-01")
    assert not ledger.bins["A6"].doubtful
    assert [(p.code, p.facts["parent"]) for p in problems] == [("bins.begun", "A1")]


def test_animals_out_to_a_code_like_that_of_their_bin_begin_that_bin():
    ledger, problems = build(
        bin_row("A1", species="Oniscus asellus"),
        log_row("2026-03-01", "A1", "animals_out", to_bin="A14", number=number(5)),
        log_row("2026-03-02", "A1", "animals_out", to_bin="K14", number=number(5)),
        log_row("2026-03-03", "A1", "animals_out", to_bin="14", number=number(5)),
    )
    assert list(ledger.bins) == ["A1", "A14"]
    child = ledger.bins["A14"]
    assert (child.started, child.species, child.doubtful) == (day("2026-03-01"), "Oniscus asellus", False)
    assert [p.code for p in problems] == ["bins.begun"]


def test_rows_kept_as_a_note_are_counted_apart():
    ledger, _ = build(
        bin_row("A1"), log_row("2026-03-01", "A1", "water", at=5), log_row("2026-03-02", "A1", "note", at=6)
    )
    assert (ledger.rows_read, ledger.rows_used, ledger.rows_noted) == (3, 2, 1)
