"""Typesets a template as a tagged PDF, by typst, with our own letters."""

import json
import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file
from typing import Any, Final, Literal, TypeAlias
from unicodedata import category

import typst

from wholeball.reports.roster_lines import LAST_LATIN
from wholeball.reports.shipped import asset, template

Paper: TypeAlias = Literal["a4", "us-letter"]
STANDARD: Final = "ua-1"
"""PDF/UA-1: typst refuses to write what a screen reader could not read."""

_EACH: Final = b"""
#set document(title: "Letters")
#set text(font: "Wholeball Text", lang: "en")
#for one in json(bytes(sys.inputs.at("data"))) { par(one) }
"""
_SHAPELESS = re.compile(r'the text `"(.+?)"` could not be displayed')
_JOINERS: Final = re.compile("(?<=])[\u200d\ufe0e\ufe0f]+")
"""What joins a letter to the next or picks its form: nothing is left of it once that is spelt."""
_JOINS: Final = frozenset(("Cf", "Mc", "Me", "Mn"))
_EXTENDING: Final = frozenset("\uff9e\uff9f\U0001f3fb\U0001f3fc\U0001f3fd\U0001f3fe\U0001f3ff")
"""What extends a letter by Unicode Standard Annex 29 and is of no category of `_JOINS`."""
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
            found = _lacking(error, text) if not lacking else _shapeless(error)
            ways = (found, _joining(text), _beyond_latin(text))
            more = next((more for way in ways if (more := way - lacking)), None)
            if more is None:
                raise
            lacking |= more


def compiled(source: bytes | Mapping[str, bytes], **inputs: str) -> bytes:
    """Return a typst document as tagged PDF, with the shipped letters and typst's own only.

    Of several sources, `main.typ` is the document.
    """
    made: bytes = typst.compile(  # type: ignore[call-overload]  # its types leave out sources by name
        source if isinstance(source, bytes) else dict(source),
        format="pdf",
        font_paths=_fonts(),
        sys_inputs=inputs,
        pdf_standards=STANDARD,
    )
    return made


@cache
def _fonts() -> typst.Fonts:
    """Load the letters once; the fonts of the machine are left out, so that none differs."""
    with as_file(asset("")) as folder:
        return typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=True, font_paths=[folder]
        )


def _lacking(error: typst.TypstError, text: str) -> set[str]:
    """Return what an error names, and whatever else of a text has no shape.

    An error names one letter only, so the others are found out in a small document: a large one
    need not be laid out again for each.
    """
    found = _shapeless(error)
    left = _beyond_latin(text) - found
    while left and found:
        try:
            compiled(_EACH, data=json.dumps(sorted(left)))
        except typst.TypstError as again:
            more = _shapeless(again) & left
            if not more:
                break
            found, left = found | more, left - more
        else:
            break
    return found


def _shapeless(error: typst.TypstError) -> set[str]:
    texts = _SHAPELESS.findall(str(error))
    plain = (_ESCAPED.sub(lambda code: chr(int(code[1], 16)), text) for text in texts)
    return {letter for text in plain for letter in text if not letter.isascii()}


def _joining(text: str) -> set[str]:
    """Return what joins or marks the letter before it: one that is spelt out takes none."""
    return {one for one in text if category(one) in _JOINS or one in _EXTENDING}


def _beyond_latin(text: str) -> set[str]:
    """Return every letter that may be of no shape; punctuation and blanks are our own."""
    return {one for one in text if one > LAST_LATIN and category(one)[0] not in "PZ"}


def _spelt(text: str, data: dict[str, Any], lacking: set[str]) -> str:
    if not lacking:
        return text
    points = [f"[U+{ord(letter):04X}]" for letter in sorted(lacking)]
    note = f"Printed as code points, for want of their shapes: {', '.join(points)}."
    said = json.dumps({**data, "unprintable": [note]}, ensure_ascii=False)
    spelt = said.translate({ord(letter): f"[U+{ord(letter):04X}]" for letter in lacking})
    return _JOINERS.sub("", spelt)
