"""Writes a table as a workbook of one sheet, the same bytes for the same table.

Parts and their names are those of ECMA-376, part 1 (SpreadsheetML) and part 2 (packages).
"""

import io
import re
import zipfile
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Final
from xml.sax.saxutils import escape

from wholeball.files.export_csv import as_text
from wholeball.kernel.plain_table import PlainCell, PlainTable

_MADE: Final = (1980, 1, 1, 0, 0, 0)
"""The time of every part, the earliest that an archive can state."""
_FIRST_DAY: Final = date(1899, 12, 30)
"""The day that a sheet counts days from, for every day after February 1900."""
_FIRST_COUNTED: Final = date(1900, 3, 1)
_MOST_DIGITS: Final = 15
"""A sheet keeps no more digits of a number; a longer one is written as text."""
_LONGEST_TITLE: Final = 31
_NO_TITLE: Final = re.compile(r"[\[\]:*?/\\]|^'|'$")
_NOT_IN_XML: Final = re.compile("[\ufffe\uffff]")
_ESCAPE: Final = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
"""How a sheet writes a character that it cannot hold (ECMA-376 part 1, ST_Xstring)."""
_MAIN: Final = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_PARTS: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE: Final = "http://schemas.openxmlformats.org/package/2006"
_TYPES: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_XML: Final = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'


def xlsx_of(table: PlainTable) -> bytes:
    """Return a table as a workbook: texts as texts, numbers as numbers, days as days."""
    parts = {
        "[Content_Types].xml": _CONTENT_TYPES,
        "_rels/.rels": _relations(("officeDocument", "xl/workbook.xml")),
        "xl/workbook.xml": _workbook(table.title),
        "xl/_rels/workbook.xml.rels": _relations(
            ("worksheet", "worksheets/sheet1.xml"), ("styles", "styles.xml")
        ),
        "xl/styles.xml": _STYLES,
        "xl/worksheets/sheet1.xml": "".join(_sheet(table)),
    }
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, text in parts.items():
            part = zipfile.ZipInfo(name, date_time=_MADE)
            part.create_system = 0
            part.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(part, f"{_XML}{text}")
    return out.getvalue()


_CONTENT_TYPES: Final = (
    f'<Types xmlns="{_PACKAGE}/content-types">'
    '<Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPES}.sheet.main+xml"/>'
    f'<Override PartName="/xl/worksheets/sheet1.xml" ContentType="{_TYPES}.worksheet+xml"/>'
    f'<Override PartName="/xl/styles.xml" ContentType="{_TYPES}.styles+xml"/>'
    "</Types>"
)
_STYLES: Final = (
    f'<styleSheet xmlns="{_MAIN}">'
    '<numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts>'
    '<fonts count="2"><font><sz val="11"/></font><font><b/><sz val="11"/></font></fonts>'
    '<fills count="2"><fill><patternFill patternType="none"/></fill>'
    '<fill><patternFill patternType="gray125"/></fill></fills>'
    '<borders count="1"><border/></borders>'
    '<cellStyleXfs count="1"><xf/></cellStyleXfs>'
    '<cellXfs count="4"><xf/><xf fontId="1" applyFont="1"/>'
    '<xf numFmtId="49" applyNumberFormat="1"/><xf numFmtId="164" applyNumberFormat="1"/>'
    '</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/>'
    "</cellStyles></styleSheet>"
)
_HEAD, _TEXT, _DAY = 1, 2, 3
"""Which of the styles above a cell has: bold, kept as text when it is edited, and a day."""


def _relations(*targets: tuple[str, str]) -> str:
    each = "".join(
        f'<Relationship Id="rId{number}" Type="{_PARTS}/{kind}" Target="{target}"/>'
        for number, (kind, target) in enumerate(targets, start=1)
    )
    return f'<Relationships xmlns="{_PACKAGE}/relationships">{each}</Relationships>'


def _workbook(title: str) -> str:
    name = _NO_TITLE.sub(" ", _plain(title))[:_LONGEST_TITLE].strip() or "Sheet 1"
    quoted = escape(name, {'"': "&quot;", "\n": " ", "\t": " "})
    return (
        f'<workbook xmlns="{_MAIN}" xmlns:r="{_PARTS}"><sheets>'
        f'<sheet name="{quoted}" sheetId="1" r:id="rId1"/></sheets></workbook>'
    )


def _sheet(table: PlainTable) -> Iterator[str]:
    yield f'<worksheet xmlns="{_MAIN}"><sheetViews><sheetView workbookViewId="0">'
    yield '<pane ySplit="1" topLeftCell="A2" state="frozen"/></sheetView></sheetViews><sheetData>'
    yield f"<row>{''.join(_text(name, _HEAD) for name in table.header)}</row>"
    for row in table.rows:
        yield f"<row>{''.join(map(_cell, row))}</row>"
    yield "</sheetData></worksheet>"


def _cell(cell: PlainCell) -> str:
    match cell:
        case None:
            return "<c/>"
        case str():
            return _text(cell, _TEXT)
        case int() | Decimal():
            return _number(cell)
        case date():
            return _day(cell)


def _number(number: int | Decimal) -> str:
    written = f"{number:f}" if isinstance(number, Decimal) else str(number)
    digits = sum(map(str.isdigit, written))
    return f"<c><v>{written}</v></c>" if digits <= _MOST_DIGITS else _text(written, _TEXT)


def _day(day: date) -> str:
    if day < _FIRST_COUNTED:
        return _text(day.isoformat(), _TEXT)
    return f'<c s="{_DAY}"><v>{(day - _FIRST_DAY).days}</v></c>'


def _text(text: str, style: int) -> str:
    told = escape(_plain(text))
    return f'<c s="{style}" t="inlineStr"><is><t xml:space="preserve">{told}</t></is></c>'


def _plain(text: str) -> str:
    """Return a text that XML can hold, of which nothing passes for an escape of a sheet's own."""
    told = _NOT_IN_XML.sub(lambda found: f"\\u{ord(found[0]):04x}", as_text(text))
    return _ESCAPE.sub("_x005F_", told)
