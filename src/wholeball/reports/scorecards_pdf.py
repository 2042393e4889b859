"""Prints the scorecards of a night as a tagged PDF: two to a page, rating slips after them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from math import ceil
from typing import Any, Final

from wholeball.league.fixture import Stage
from wholeball.reports.dates import day
from wholeball.reports.roster_lines import (
    RosterLine,
    breakable,
    is_foreign,
    letters_wide,
    lines_of,
    roster_lines,
)
from wholeball.reports.scorecards import CardSide, Scorecard, Sheet, rating_slip, sheet
from wholeball.reports.typeset import Paper, typeset
from wholeball.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True)
class Size:
    """How large a scorecard is, two of which fill a page, in millimetres.

    `strip` is the width of the column with what not to forget, `letters` what a line of it
    holds.
    """

    width: float
    height: float
    strip: float
    letters: int


SIZES: Final[dict[Paper, Size]] = {
    "a4": Size(192.0, 140.0, 66.0, 43),
    "us-letter": Size(197.9, 131.2, 72.0, 47),
}
AROUND: Final = 23.8
"""Millimetres above and below the columns of a scorecard."""
NAME: Final = 6.0
LINE: Final = 4.15
GOALS: Final = 10.0
KICKS: Final = 7.5
GAPS: Final = 3.0
ENTRY: Final = 6.0
ABREAST: Final = 9
"""Boxes for kicks in a row."""

LEAST_PITCH: Final = 3.8
MOST_PITCH: Final = 6.5
HIGH_PITCH: Final = 4.8
"""Millimetres from line to line of a roster: in half a page, and with a page of its own."""

LATECOMERS: Final = 2
"""Empty lines of a roster at least."""

LEAST_ENTRIES: Final = 4
MOST_ENTRIES: Final = 10
"""Lines for yellow and red."""

LONGEST_BOOK: Final = 40
NO_BREAK: Final = "\N{NO-BREAK SPACE}"
PARTS: Final = "scorecard_parts.typ"
STAGES: Final[dict[Stage, str]] = {
    "league": "League game",
    "play_off": "Play-off game",
    "decider": "Deciding game",
}


def scorecards_pdf(
    cards: Sequence[Scorecard], book: Rulebook, *, printed: datetime, paper: Paper
) -> bytes:
    """Return the scorecards of one or more games as PDF/UA-1.

    Rating slips follow on pages of their own where officials rate, so that they can be taken
    off before captains see the rest. Letters that the fonts lack are printed as code points.

    Args:
        cards: in the order in which they are printed; one at least.
        book: the rulebook.
        printed: local time.
        paper: A4 or US Letter.
    """
    values = card_values(cards, book, printed=printed, paper=paper)
    return typeset("scorecards.typ", values, parts=(PARTS,))


def card_values(
    cards: Sequence[Scorecard], book: Rulebook, *, printed: datetime, paper: Paper
) -> dict[str, Any]:
    """Return what the templates of scorecards read, for one game or more."""
    size = SIZES[paper]
    sheets = {stage: sheet(book, stage) for stage in sorted({card.stage for card in cards})}
    entries = {stage: _entries(one, size) for stage, one in sheets.items()}
    made = [_card(card, sheets[card.stage], entries[card.stage], size) for card in cards]
    slip = rating_slip(book)
    return {
        "title": f"Scorecards, {day(cards[0].day)}",
        "paper": paper,
        "date": list(printed.timetuple()[:6]),
        "width": size.width,
        "strip": size.strip,
        "foot": f"{_short(book.head.name)}. Printed {printed:%Y-%m-%d %H:%M}.",
        "officials": f"Officials ({book.crew.size})",
        "sheets": {stage: _sheet(one, entries[stage]) for stage, one in sheets.items()},
        "pages": list(_pages(made)),
        "slip": None if slip is None else {"values": slip.values, "says": slip.says},
    }


def _short(name: str) -> str:
    return name if len(name) <= LONGEST_BOOK else f"{name[: LONGEST_BOOK - 3].rstrip()}..."


def _sheet(one: Sheet, entries: int) -> dict[str, Any]:
    return {
        "goals": one.goals,
        "kicks": _kicks_rows(one),
        "entries": min(max(entries, LEAST_ENTRIES), MOST_ENTRIES),
        "reminders": _reminders(one),
    }


def _reminders(one: Sheet) -> list[str]:
    return [
        f"{reminder.says} ({reminder.ref.replace(' ', NO_BREAK)})"
        if reminder.ref
        else reminder.says
        for reminder in one.reminders
    ]


def _entries(one: Sheet, size: Size) -> int:
    """Return how many lines for yellow and red the strip leaves room for."""
    strip = sum(lines_of(says, size.letters) for says in _reminders(one)) + 1
    return int((size.height - AROUND - GAPS - strip * LINE) / ENTRY) - 1


def _kicks_rows(one: Sheet) -> list[tuple[str, int, int]]:
    """Return rows of boxes: a label, those before sudden death, and those in it."""
    before, in_pairs = one.kicks
    if before == 0:
        return []
    if before + in_pairs <= ABREAST:
        return [("Kicks", before, in_pairs)]
    return (
        [("Kicks", before, 0), ("Pairs", 0, in_pairs)] if in_pairs else [("Kicks", before, 0)]
    )


def _pages(cards: Sequence[dict[str, Any]]) -> Iterator[list[dict[str, Any]]]:
    """Put two neighbours on a page where both have the height of a half."""
    waiting: list[dict[str, Any]] = []
    for card in cards:
        if waiting and (card["is-high"] or len(waiting) == 2):
            yield waiting
            waiting = []
        waiting.append(card)
        if card["is-high"]:
            yield waiting
            waiting = []
    if waiting:
        yield waiting


def _card(card: Scorecard, common: Sheet, entries: int, size: Size) -> dict[str, Any]:
    sides = (card.home, card.away)
    rosters = [roster_lines(side.players) for side in sides]
    is_short = all(_is_short(side) for side in sides)
    heads = NAME if is_short else NAME + LINE * max(map(_name_lines, sides))
    goals = GOALS * ceil(len(common.goals) / GOALS_ABREAST)
    kicks = KICKS * len(_kicks_rows(common))
    room = size.height - AROUND - GAPS - heads - goals - kicks
    named = max(sum(one.high for one in roster) for roster in rosters)
    lines = max(named + LATECOMERS, int(room / MOST_PITCH))
    is_high = room / lines < LEAST_PITCH or entries < LEAST_ENTRIES - 1
    return {
        "start": f"{card.start:%H:%M}",
        "where": f"{day(card.day)}, {card.field}",
        "game": f"{STAGES[card.stage]} {card.game}",
        "stage": card.stage,
        "pitch": max(room / lines, HIGH_PITCH) if is_high else room / lines,
        "is-high": is_high,
        "sides": [
            _side(side, roster, lines) for side, roster in zip(sides, rosters, strict=True)
        ],
        "is-short": is_short,
    }


GOALS_ABREAST: Final = 5
LARGE: Final = 13.0
SMALL: Final = 10.0
LARGE_LETTERS: Final = 22
SMALL_LETTERS: Final = 29
HEAD_LETTERS: Final = 26
"""Letters of a team's name and its colours that stand on one line."""


def _name_lines(side: CardSide) -> int:
    return 1 if _points(side) == LARGE else lines_of(side.team, SMALL_LETTERS)


def _is_short(side: CardSide) -> bool:
    """Tell whether name and colours stand on one line."""
    told = letters_wide(side.team) * 1.3 + letters_wide(side.colours)
    return told <= HEAD_LETTERS and not is_foreign(side.team)


def _points(side: CardSide) -> float:
    """Return the size of a team's name: smaller where it might not fit on one line."""
    fits = letters_wide(side.team) <= LARGE_LETTERS and not is_foreign(side.team)
    return LARGE if fits else SMALL


def _side(side: CardSide, roster: Sequence[RosterLine], lines: int) -> dict[str, Any]:
    return {
        "team": breakable(side.team),
        "points": _points(side),
        "colours": side.colours or "shirts:",
        "groups": list(_groups(roster, lines)),
    }


GROUP: Final = 20
"""Lines of a roster that stay on one page."""


def _groups(roster: Sequence[RosterLine], lines: int) -> Iterator[dict[str, Any]]:
    """Return a roster in groups that stay on one page, its empty lines last."""
    left = lines
    for start in range(0, len(roster), GROUP):
        some = roster[start : start + GROUP]
        named = sum(one.high for one in some)
        is_last = start + GROUP >= len(roster)
        high = min(left, max(named, GROUP)) if is_last else named
        left -= high
        yield {"lines": high, "players": list(_paragraphs(some))}
    while left > 0:
        yield {"lines": min(left, GROUP), "players": []}
        left -= GROUP


def _paragraphs(some: Sequence[RosterLine]) -> Iterator[tuple[str, bool]]:
    """Return neighbours of one line each as one paragraph, and those that may wrap alone.

    With each is said whether it may wrap; further lines are then indented.
    """
    for may_wrap, players in groupby(some, key=lambda one: one.may_wrap):
        told = [one.text for one in players]
        if may_wrap:
            yield from ((text, True) for text in told)
        else:
            yield "\n".join(told), False
