"""Typesets a template as a tagged PDF, by typst, with our own letters."""

import json
import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file
from typing import Any, Final, Literal, TypeAlias

import typst

from wholeball.reports.shipped import asset, template

Paper: TypeAlias = Literal["a4", "us-letter"]
STANDARD: Final = "ua-1"
"""PDF/UA-1: typst refuses to write what a screen reader could not read."""

_SHAPELESS = re.compile(r'the text `"(.+?)"` could not be displayed')
_ESCAPED = re.compile(r"\\u\{([0-9a-f]+)\}")


def typeset(name: str, data: dict[str, Any], *, parts: tuple[str, ...] = ()) -> bytes:
    """Return a template with its data as PDF/UA-1; the same data always gives the same bytes.

    `parts` are the templates that it imports.

    Letters that the fonts lack are printed as their code points; the template finds a note
    that says which as `unprintable`, a list that is otherwise empty.
    """
    source = {"main.typ": template(name), **{part: template(part) for part in parts}}
    told = {**data, "unprintable": []}
    text = json.dumps(told, ensure_ascii=False)
    lacking: set[str] = set()
    while True:
        try:
            return compiled(source, data=_spelt(text, told, lacking))
        except typst.TypstError as error:
            found = _shapeless(error) - lacking
            if not found:
                raise
            lacking |= found


def compiled(source: bytes | Mapping[str, bytes], **inputs: str) -> bytes:
    """Return a typst document as tagged PDF, with the shipped letters and typst's own only.

    Of several sources, `main.typ` is the document.
    """
    return typst.compile(
        source if isinstance(source, bytes) else dict(source),
        format="pdf",
        font_paths=_fonts(),
        sys_inputs=inputs,
        pdf_standards=STANDARD,
    )


@cache
def _fonts() -> typst.Fonts:
    """Load the letters once; the fonts of the machine are left out, so that none differs."""
    with as_file(asset("")) as folder:
        return typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=True, font_paths=[folder]
        )


def _shapeless(error: typst.TypstError) -> set[str]:
    texts = _SHAPELESS.findall(str(error))
    plain = (_ESCAPED.sub(lambda code: chr(int(code[1], 16)), text) for text in texts)
    return {letter for text in plain for letter in text if not letter.isascii()}


def _spelt(text: str, data: dict[str, Any], lacking: set[str]) -> str:
    if not lacking:
        return text
    points = [f"[U+{ord(letter):04X}]" for letter in sorted(lacking)]
    note = f"Printed as code points, for want of their shapes: {', '.join(points)}."
    said = json.dumps({**data, "unprintable": [note]}, ensure_ascii=False)
    return said.translate({ord(letter): f"[U+{ord(letter):04X}]" for letter in lacking})
