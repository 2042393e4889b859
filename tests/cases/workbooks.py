"""Builds workbooks for tests: what a spreadsheet saves, and what no spreadsheet would."""

import io
import zipfile
from collections.abc import Iterable, Sequence

import openpyxl

SHEET = "xl/worksheets/sheet1.xml"


def workbook(*rows: Sequence[object], further: Iterable[str] = ()) -> bytes:
    """Return a workbook as openpyxl saves it: these rows in its first sheet."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Sign-ups"
    for row in rows:
        sheet.append(list(row))
    for title in further:
        book.create_sheet(title)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def remade(book: bytes, *, member: str = SHEET, data: bytes) -> bytes:
    """Return a workbook with one of its parts replaced, or with one more."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            if name != member:
                new.writestr(name, old.read(name), zipfile.ZIP_DEFLATED)
        new.writestr(member, data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def sheet_xml(rows: str, *, before: str = "") -> bytes:
    """Return the part of a sheet with rows in XML, and what stands before its root."""
    return (
        f'<?xml version="1.0"?>{before}<worksheet xmlns="http://schemas.openxmlformats.org/'
        f'spreadsheetml/2006/main"><sheetData>{rows}</sheetData></worksheet>'
    ).encode()


def inline(*texts: str) -> str:
    """Return a row of cells with their text in them, in XML."""
    cells = "".join(f'<c t="inlineStr"><is><t>{text}</t></is></c>' for text in texts)
    return f"<row>{cells}</row>"
