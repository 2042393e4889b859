"""Measures the booklet's PDF against the very words it prints as plain paragraphs.

Both are typst documents with the same page, letters and standard. The reference has none of the
booklet's layout: no table, outline, picture or underlined value. Both are made once in each of
several fresh processes, as a user makes them: typst remembers what it has laid out, and in one
process it would remember most of a booklet of which only the date had changed. As on the command
line, the collector is spared what has been imported.
"""

import gc
import json
import sys
from collections.abc import Callable
from datetime import datetime
from statistics import median

from benchmarks.in_turn import Measured, timed
from benchmarks.plain import PLAIN, fresh, words
from wholeball.pitch.example import laws_in_yards
from wholeball.reports.booklet_pdf import booklet_pdf
from wholeball.reports.field_svg import field_svg
from wholeball.reports.typeset import compiled
from wholeball.rulebook.load import load

REPETITIONS = 11

HOUSE = b"""
schema = 1
base = "laws-2025-26"
name = "House rules, eights"
source = "House rules, edition 4"
sides = { ref = "H 3.1", on_field = 8, minimum_to_start = 6, minimum_to_continue = 5, why = "Eight fit the field." }
game = { ref = "H 5.1", minutes = 22, interval_minutes = 5 }
slide_tackle = { ref = "H 6.1", allowed = false, why = "Most injuries came from slides." }
goalkeeper.hold = { ref = "H 4.2", seconds = 12, then = "indirect_free_kick", why = "New goalkeepers need longer." }
mercy = { ref = "H 7.2", why = "Long one-sided games end in injuries.", ladder = [{ lead = 9, minutes_left = 8 }] }
"""


def measure() -> list[Measured]:
    """Return for each operation its name, its reference, the ratio, and the most allowed."""
    given = words(_booklet()())
    runs = [fresh("benchmarks.booklet", given) for _ in range(REPETITIONS)]
    plain, made = (median(times) for times in zip(*runs, strict=True))
    told = f"booklet: PDF of {sum(map(len, given)):,} letters, {made * 1000:.0f} ms"
    return [(told, f"the same words, plain, {plain * 1000:.0f} ms", made / plain, 2.0)]


def _booklet() -> Callable[[], bytes]:
    """Return what prints the booklet; the rulebook is loaded and the field drawn before."""
    book = load(HOUSE, file="house.toml").rulebook
    printed = datetime(2026, 10, 13, 15, 5)  # noqa: DTZ001 - local time, as the booklet prints it
    field = field_svg(laws_in_yards(), "yd")
    return lambda: booklet_pdf(book, field=field, printed=printed, paper="a4")


if __name__ == "__main__":
    given = sys.stdin.read()
    subject = _booklet()
    gc.freeze()
    compiled(PLAIN, data=json.dumps(["the letters are read once, before both"]))
    print(timed(lambda: compiled(PLAIN, data=given)), timed(subject))
