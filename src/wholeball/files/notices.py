"""Reads notices.csv: one row what the public was told of a night, the last word last."""

from collections.abc import Iterator
from datetime import date, time
from typing import Final, get_args

from wholeball.files.cells import Column, Refused, clock_time, day, one_line, one_of
from wholeball.files.row_faults import Known, Wrong, outside_season, taken, wrong_place
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import SiteId
from wholeball.league.league import League
from wholeball.league.notice import Notice, NoticeState

FILE: Final = "notices.csv"
LONGEST: Final = 200


def _sentence(cell: str) -> str:
    if "\n" in cell or "\t" in cell:
        cure = "Write it on one line."
        raise Refused(code="control_char", allowed="one line", cure=cure)
    if len(cell) > LONGEST:
        allowed = f"at most {LONGEST} characters"
        raise Refused(code="limits", allowed=allowed, cure=f"Shorten it: {allowed}.")
    return cell


COLUMNS: Final = (
    Column(name="date", read=day),
    Column(name="site", read=one_line, needed=False),
    Column(name="field", read=one_line, needed=False),
    Column(name="state", read=one_of(*get_args(NoticeState))),
    Column(name="next_word", read=clock_time, needed=False),
    Column(name="says", read=_sentence, needed=False),
)
"""The columns of notices.csv; docs/reference/season-folder.md says what each means."""


def read_notices(
    data: bytes, league: League | None, fields: Known | None, sites: Known | None
) -> tuple[tuple[Notice, ...], Table]:
    """Return the words in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from wrong_place(line, fields, sites)
        if league is not None:
            yield from outside_season(league, line.get("date", date))
        yield from _word(line)

    return taken(table, wrong, _notice), table


def _word(line: Line) -> Iterator[Wrong]:
    """Find a word to come without its time, and a time without a word to come."""
    state, at = line.need("state", str), line.get("next_word", time)
    if state == "later" and at is None:
        says = "later is told without the time of the next word."
        yield Wrong("next_word", "missing", says, "Write the time, such as 16:30.")
    if state != "later" and at is not None:
        says = f"the night is {state}, and a next word is told for {at:%H:%M}."
        yield Wrong("next_word", "contradiction", says, "Write later, or no time.")


def _notice(line: Line) -> Notice:
    site, state = line.get("site", str), line.need("state", str)
    return Notice(
        night=line.need("date", date),
        state=next(one for one in get_args(NoticeState) if one == state),
        site=None if site is None else SiteId(site),
        field=line.get("field", str),
        next_word=line.get("next_word", time),
        says=line.get("says", str) or "",
    )
