"""Reads absences.csv: one row a time at which a team cannot play, or would rather not."""

from collections.abc import Iterator
from datetime import date, time
from typing import Final, get_args

from wholeball.files.cells import Column, clock_time, day, one_line, one_of, text, whole
from wholeball.files.row_faults import Known, Wrong, outside_season, taken, unknown
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import TeamId
from wholeball.league.division import Weekday
from wholeball.league.league import League
from wholeball.planning.rule import Param, Rule, Strength

FILE: Final = "absences.csv"
COLUMNS: Final = (
    Column(name="team", read=one_line),
    Column(name="weekday", read=one_of(*get_args(Weekday)), needed=False),
    Column(name="date", read=day, needed=False),
    Column(name="from", read=clock_time, needed=False),
    Column(name="until", read=clock_time, needed=False),
    Column(name="strength", read=one_of(*get_args(Strength)), needed=False),
    Column(name="cost", read=whole(1, 10_000), needed=False),
    Column(name="why", read=text, needed=False),
)
"""The columns of absences.csv; docs/reference/season-folder.md says what each means."""

COST: Final = "Give it a cost: 1 tiny, 3 a nuisance, 10 a complaint, 30 an appeal."


def read_absences(
    data: bytes, league: League | None, teams: Known | None
) -> tuple[tuple[Rule, ...], Table]:
    """Return a rule for each row in the order of the file, and every fault of it.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)

    def wrong(line: Line) -> Iterator[Wrong]:
        yield from unknown(line, "team", teams, "team of teams.csv")
        yield from _when(line)
        yield from _strength(line)
        if league is not None:
            yield from outside_season(league, line.get("date", date))

    return taken(table, wrong, rule_of), table


def _when(line: Line) -> Iterator[Wrong]:
    weekday, night = line.get("weekday", str), line.get("date", date)
    begins, ends = line.get("from", time), line.get("until", time)
    if weekday and night:
        cure = "Take one of the two out: a row is about a weekday or about one date."
        yield Wrong("weekday", "contradiction", "a weekday and a date are given.", cure)
    if not (weekday or night or begins or ends):
        cure = "Give a weekday or a date, or a time from or until which it holds every night."
        yield Wrong("weekday", "missing", "the row does not say when.", cure)
    if begins is not None and ends is not None and ends <= begins:
        says = f"the absence is from {begins:%H:%M} until {ends:%H:%M}."
        yield Wrong("until", "contradiction", says, "It ends later on the same day.")


def _strength(line: Line) -> Iterator[Wrong]:
    is_wish, cost = line.get("strength", str) == "wish", line.get("cost", int)
    if is_wish and cost is None:
        yield Wrong("cost", "missing", "the wish has no cost.", COST)
    if not is_wish and cost is not None:
        cure = "Write wish as its strength, or take the cost out."
        yield Wrong("cost", "contradiction", "what must hold has no cost.", cure)


def rule_of(line: Line) -> Rule:
    """Return the rule that a row without a fault stands for."""
    params: dict[str, Param] = {}
    weekday, night = line.get("weekday", str), line.get("date", date)
    if weekday is not None:
        params["weekdays"] = (weekday,)
    if night is not None:
        params["nights"] = (f"{night}",)
    for column in ("from", "until"):
        at = line.get(column, time)
        if at is not None:
            params[column] = f"{at:%H:%M}"
    return Rule(
        rule=f"{FILE} row {line.row}",
        kind="absent",
        strength="wish" if line.get("strength", str) == "wish" else "must",
        cost=line.get("cost", int) or 0,
        teams=(TeamId(line.need("team", str)),),
        params=params,
        why=line.get("why", str) or "",
    )
