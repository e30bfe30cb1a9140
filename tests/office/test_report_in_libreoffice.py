"""LibreOffice opens the report, prints it, and saves it again with nothing lost."""

import datetime as dt
import html
import io
import re
import shutil
import subprocess
import zipfile
from itertools import pairwise

import pytest

from tools.drawn import drawn, reopened
from tools.report_sample import NASTY, sample, tasks
from workbook_tools.report.blank import blank_sheets
from workbook_tools.report.build import SHEETS, report_sheets
from workbook_tools.report.writer import draw

pytestmark = pytest.mark.office


def convert(folder, kind, source):
    soffice = shutil.which("soffice")
    if soffice is None:
        pytest.fail("LibreOffice (soffice) is not on the PATH; these tests need it.")
    out = folder / kind
    command = [soffice, f"-env:UserInstallation={(folder / 'profile').as_uri()}", "--headless", "--norestore"]
    subprocess.run(
        [*command, "--convert-to", kind, "--outdir", str(out), str(source)],
        check=True,
        capture_output=True,
        timeout=240,
    )
    (made,) = out.iterdir()
    return made


@pytest.fixture(scope="module")
def report(tmp_path_factory):
    folder = tmp_path_factory.mktemp("office")
    findings = sample(tasks=tasks(24))
    content = drawn(*report_sheets(findings))
    source = folder / "report.xlsx"
    source.write_bytes(content)
    return folder, source, content


@pytest.fixture(scope="module")
def saved_again(report):
    folder, source, _ = report
    return reopened(convert(folder, "xlsx", source).read_bytes())


def test_every_value_comes_back_the_same(report, saved_again):
    ours = reopened(report[2])
    assert saved_again.sheetnames == ours.sheetnames
    for page in ours:
        again = saved_again[page.title]
        for row in page.iter_rows():
            for cell in row:
                if cell.value is not None:
                    assert again[cell.coordinate].value == cell.value, f"{page.title}!{cell.coordinate}"


def test_no_text_of_the_keeper_became_a_formula(report, saved_again):
    folder, _, _ = report
    with zipfile.ZipFile(next((folder / "xlsx").iterdir())) as parts:
        pages = [parts.read(name).decode() for name in parts.namelist() if name.startswith("xl/worksheets/sheet")]
    assert len(pages) == len(SHEETS)
    assert not any("<f" + end in page for page in pages for end in (">", " "))
    shown = {cell.value for page in saved_again for row in page.iter_rows() for cell in row}
    assert set(NASTY) <= shown


def test_notes_drop_downs_and_tables_come_back(report, saved_again):
    for page in reopened(report[2]):
        again = saved_again[page.title]
        notes = [cell.coordinate for row in page.iter_rows() for cell in row if cell.comment]
        assert [cell for cell in notes if again[cell].comment is None] == []
        assert sorted(table.ref for table in again.tables.values()) == sorted(t.ref for t in page.tables.values())
    lists = {check.formula1 for check in saved_again["Due"].data_validations.dataValidation}
    assert any("drying" in text for text in lists)


def charts_of(content):
    """Every chart of a workbook: its title, and all that is in its series."""
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        charts = [
            parts.read(name).decode() for name in parts.namelist() if re.fullmatch(r"xl/charts/chart\d+.xml", name)
        ]
    titles = [
        "".join(re.findall(r"<a:t>([^<]*)</a:t>", re.search(r"<c:title>.*?</c:title>", one)[0])) for one in charts
    ]
    return sorted(map(html.unescape, titles)), [re.findall(r"<c:v>([^<]*)</c:v>", one) for one in charts]


def test_charts_come_back_with_their_titles_and_numbers(report):
    """Their alternative text doesn't: LibreOffice leaves it out of what it saves."""
    folder, _, content = report
    titles, _ = charts_of(content)
    again, values = charts_of(next((folder / "xlsx").iterdir()).read_bytes())
    assert len(titles) >= 8
    assert again == titles
    assert all(len(set(one)) > 2 for one in values)


@pytest.fixture(scope="module")
def printed(report):
    folder, source, _ = report
    return convert(folder, "pdf", source)


def pdf_text(printed, *options):
    if shutil.which("pdftotext") is None:
        pytest.fail("pdftotext (poppler) is not on the PATH; these tests need it.")
    return subprocess.run(["pdftotext", *options, str(printed), "-"], check=True, capture_output=True).stdout.decode()


def test_days_read_as_words(printed):
    text = pdf_text(printed, "-layout")
    assert "9 late" in text
    assert re.search(r" today +", text)
    assert "in 6" in text


def test_no_text_is_cut_off_in_print(report, printed):
    flat = "".join(pdf_text(printed, "-raw").split())
    for page in reopened(report[2]):
        for row in page.iter_rows(max_col=_columns_shown(page)):
            for cell in row:
                if isinstance(cell.value, str):
                    assert "".join(cell.value.split()) in flat, f"{page.title}!{cell.coordinate}"


def test_no_number_or_date_is_too_wide_in_print(printed):
    """The numbers of small charts stand in hidden columns: what LibreOffice draws there lies right of their heading."""
    for page in pdf_text(printed, "-bbox").split("<page ")[1:]:
        words = re.findall(r'xMin="([\d.]+)" yMin="([\d.]+)"[^>]*>([^<]*)<', page)
        edge = next((float(x) for (x, y, word), after in pairwise(words) if (word, after[2]) == ("By", "week")), 1e9)
        assert [word for x, _, word in words if word.startswith("###") and float(x) < edge] == []


def test_every_sheet_is_one_page_wide(report, printed):
    """Each page of a sheet shows the sheet's first column; a second page across would not."""
    pages = pdf_text(printed, "-layout").split("\f")[:-1]
    assert len(pages) >= 9
    assert all("Page" in page for page in pages)
    headed = [page for page in pages if re.search(r"\bDue\b", page.splitlines()[0])]
    assert headed
    for page in headed:
        assert re.search(r"Bin +Species +Place +Task +Due +Days +Why +Last done +Done on +Seen +Amount +Note", page)


def _columns_shown(page):
    return max(page[table.ref][0][-1].column for table in page.tables.values())


def test_blank_workbook_opens_too(tmp_path):
    source = tmp_path / "blank.xlsx"
    source.write_bytes(draw(blank_sheets(), region="en-GB", paper="A4", created=dt.date(2026, 1, 1))[0])
    again = reopened(convert(tmp_path, "xlsx", source).read_bytes())
    assert again.sheetnames == ["Bins", "Log", "Settings", "Words"]
    assert "Example 1" in {cell.value for row in again["Log"].iter_rows() for cell in row}
