"""Exported CSV against RFC 4180, Common Format and MIME Type for Comma-Separated Values (CSV) Files (October 2005).

Source: Y. Shafranovich, RFC 4180, section 2, read where two packages of software carry its text along (a library of C++
classes and a tool for tables). The grammar at the end of that section is turned into patterns below, rule by rule. Its
TEXTDATA is ASCII alone; here it is any sign beyond that too, since section 3 allows other character sets. It has no tab
either, though every program writes them: that is a disagreement, and tabs of a keeper's texts are kept.

That an apostrophe keeps a text which begins with = + - @ or a tab from being run is the advice of CWE-1236, Improper
Neutralization of Formula Elements in a CSV File, and of OWASP's ASVS 5.0, requirement 1.2.10, which also asks for rules
6 and 7 of the RFC. Both were read as other sites print them.
"""

import csv
import io
import re

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.report_sample import NASTY, sample
from workbook_tools.report.export.files import as_csv
from workbook_tools.report.export.tables import HEADINGS, Tidy, tidy_tables

TEXTDATA = r"[\t\x20-\x21\x23-\x2b\x2d-\x7e\x80-\U0010ffff]"
ESCAPED = f'"(?:{TEXTDATA}|,|\r|\n|"")*"'
FIELD = f"(?:{ESCAPED}|{TEXTDATA}*)"
RECORD = f"{FIELD}(?:,{FIELD})*"
FILE = re.compile(f"{RECORD}(?:\r\n{RECORD})*(?:\r\n)?")

FROM_THE_RFC = [
    ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),
    ('"aaa","b \r\nbb","ccc"\r\nzzz,yyy,xxx', [["aaa", "b \r\nbb", "ccc"], ["zzz", "yyy", "xxx"]]),
    ('"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]),
]
TEXTS = st.text(
    st.one_of(st.sampled_from(',"\r\n\t=ä'), st.characters(min_codepoint=32, exclude_categories=("Cs", "Cc")))
)


def records(text):
    """The records of a text by the grammar alone."""
    assert FILE.fullmatch(text)
    found, at = [[]], 0
    while True:
        field = re.compile(FIELD).match(text, at)
        raw = field.group()
        found[-1].append(raw[1:-1].replace('""', '"') if raw.startswith('"') else raw)
        at = field.end()
        if text[at:] in ("", "\r\n"):
            return found
        if text[at] != ",":
            found.append([])
        at += 1 if text[at] == "," else 2


def by_module(text):
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


def by_pandas(text):
    frame = pd.read_csv(io.StringIO(text, newline=""), header=None, dtype=str, keep_default_na=False)
    return frame.to_numpy().tolist()


@pytest.mark.parametrize(("text", "expected"), FROM_THE_RFC)
def test_the_grammar_reads_the_rfcs_own_examples(text, expected):
    assert records(text) == expected


@pytest.mark.parametrize("text", ['a"b,c', '"a"b,c', '"a,b', "a\nb", "a\rb"])
def test_the_grammar_refuses_what_breaks_rules_5_to_7(text):
    assert not FILE.fullmatch(text)


@pytest.mark.parametrize("table", tidy_tables(sample()), ids=lambda table: table.name)
def test_every_table_keeps_to_the_grammar_and_is_read_alike_by_others(table):
    text = as_csv(table)
    found = records(text)
    assert found[0] == list(HEADINGS[table.name])
    assert {len(record) for record in found} == {len(table.headings)}
    assert len(found) == len(table.rows) + 1
    assert text.endswith("\r\n")
    assert found == by_module(text) == by_pandas(text)


@given(st.lists(st.tuples(TEXTS, TEXTS), min_size=1))
def test_whatever_a_keeper_writes_the_file_keeps_to_the_grammar(texts):
    text = as_csv(Tidy("tasks", tuple(("A1", one, None, 1, None, other, "") for one, other in texts)))
    assert records(text) == by_module(text)


@pytest.mark.parametrize("text", [*NASTY[:4], NASTY[5], "\tx"])
def test_no_field_begins_with_what_a_program_may_run(text):
    written = records(as_csv(Tidy("tasks", ((text, text, None, 1, None, text, text),))))[1]
    assert [written[place] for place in (0, 1, 5, 6)] == [f"'{text}"] * 4
