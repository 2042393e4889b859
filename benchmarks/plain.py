"""Is what a printed sheet is measured against: the words it prints, as plain paragraphs."""

import json
import subprocess
import sys
from io import BytesIO

from pypdf import PdfReader

PLAIN = b"""
#set document(title: "Plain words")
#set page(paper: "a4", margin: 20mm)
#set text(font: "Wholeball Text", size: 10pt, lang: "en")
#for words in json(bytes(sys.inputs.at("data"))) { par(words) }
"""


def fresh(module: str, given: list[str]) -> tuple[float, float]:
    """Return the seconds of both in a process of their own, which remembers nothing."""
    done = subprocess.run(  # noqa: S603 - the module is a benchmark of ours
        [sys.executable, "-m", module],
        input=json.dumps(given),
        capture_output=True,
        text=True,
        check=True,
    )
    plain, made = map(float, done.stdout.split())
    return plain, made


def words(pdf: bytes) -> list[str]:
    """Return every word that a sheet prints, read back from it, in paragraphs."""
    pages = (page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)
    paragraphs = [""]
    for line in "\n".join(pages).split("\n"):
        if paragraphs[-1].endswith("."):
            paragraphs.append("")
        paragraphs[-1] = f"{paragraphs[-1]} {line}".strip()
    return paragraphs
