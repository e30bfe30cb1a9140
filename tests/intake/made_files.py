"""Workbooks made part by part, for what no spreadsheet program would write."""

import io
import zipfile
from pathlib import Path

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main"
RELS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"


def sheet_xml(rows: str, *, after: str = "", before: str = "", prefix: str = "", namespace: str = MAIN) -> str:
    declared = f"xmlns:{prefix[:-1]}" if prefix else "xmlns"
    return (
        f'<{prefix}worksheet {declared}="{namespace}">{before}<{prefix}sheetData>{rows}</{prefix}sheetData>'
        f"{after}</{prefix}worksheet>"
    )


def xlsx_bytes(*sheets: str, strings: str = "", properties: str = "", parts: dict[str, str] | None = None) -> bytes:
    """A workbook whose sheets A, B… have the XML given; ``strings`` are <si> elements."""
    count = range(1, len(sheets) + 1)
    listed = "".join(f'<sheet name="{chr(64 + n)}" sheetId="{n}" r:id="rId{n}"/>' for n in count)
    links = "".join(
        f'<Relationship Id="rId{n}" Type="{RELS}/worksheet" Target="worksheets/sheet{n}.xml"/>' for n in count
    )
    types = "".join(
        f'<Override PartName="/xl/worksheets/sheet{n}.xml" ContentType="{TYPE}.worksheet+xml"/>' for n in count
    )
    made = {
        "[Content_Types].xml": f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{TYPE}.sheet.main+xml"/>'
        f'<Override PartName="/xl/sharedStrings.xml" ContentType="{TYPE}.sharedStrings+xml"/>'
        f"{types}</Types>",
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}/relationships"><Relationship Id="rId1" '
        f'Type="{RELS}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{RELS}"><workbookPr {properties}/>'
        f"<sheets>{listed}</sheets></workbook>",
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}/relationships">{links}<Relationship '
        f'Id="rIdS" Type="{RELS}/sharedStrings" Target="sharedStrings.xml"/></Relationships>',
        "xl/sharedStrings.xml": f'<sst xmlns="{MAIN}">{strings}</sst>',
    }
    made |= {f"xl/worksheets/sheet{n}.xml": sheet for n, sheet in enumerate(sheets, 1)}
    return zipped(made | (parts or {}))


def zipped(parts: dict[str, str]) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            archive.writestr(name, text)
    return stream.getvalue()


def with_part(path: Path, name: str, change) -> None:
    """Rewrite one part of a zipped file."""
    with zipfile.ZipFile(path) as archive:
        parts = {item: archive.read(item).decode("utf-8") for item in archive.namelist()}
    parts[name] = change(parts[name])
    path.write_bytes(zipped(parts))


ODS_SPACES = (
    'xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" '
    'xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" '
    'xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0" '
    'xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"'
)
ODS_KIND = "application/vnd.oasis.opendocument.spreadsheet"


def ods_bytes(*tables: str, styles: str = "", settings: str = "", manifest: str = "", prolog: str = "") -> bytes:
    """A spreadsheet with the <table:table> elements given."""
    content = (
        f"{prolog}<office:document-content {ODS_SPACES}><office:automatic-styles>{styles}</office:automatic-styles>"
        f"<office:body><office:spreadsheet>{settings}{''.join(tables)}</office:spreadsheet></office:body>"
        "</office:document-content>"
    )
    space = "urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"
    return zipped(
        {
            "mimetype": ODS_KIND,
            "content.xml": content,
            "META-INF/manifest.xml": f'<m:manifest xmlns:m="{space}">{manifest}</m:manifest>',
        }
    )


def shown(book) -> dict[str, dict[str, str]]:
    """Texts of all cells by sheet and address."""
    return {s.name: {str(c.ref).partition("!")[2]: c.text for c in s.cells.values()} for s in book.sheets}


def named(problems) -> list[tuple[str, str]]:
    """Where and what, for each cell a problem names."""
    return sorted((str(cell), p.code) for p in problems for cell in p.cells)
