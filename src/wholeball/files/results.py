"""Reads results.csv: one row a game, as it was played or as it was ruled."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Final, get_args

from wholeball.files.cells import Column, day, decimal, one_line, one_of, text, whole
from wholeball.files.result_checks import RowChecks
from wholeball.files.table import Line, Table, read_table
from wholeball.kernel.identity import GameId, Side, TeamId
from wholeball.league.fixture import Stage
from wholeball.league.league import League
from wholeball.rulebook.tables.season import Ratings
from wholeball.season.result import CardCounts, How, Result

FILE: Final = "results.csv"
_CARDS: Final = ("yellow", "second_yellow", "red", "yellow_and_red")
COLUMNS: Final = (
    Column(name="game", read=one_line),
    Column(name="round", read=whole(1, 99)),
    Column(name="date", read=day, needed=False),
    Column(name="home", read=one_line),
    Column(name="away", read=one_line),
    Column(name="home_goals", read=whole(0, 99), needed=False),
    Column(name="away_goals", read=whole(0, 99), needed=False),
    Column(
        name="how",
        read=one_of("played", "forfeit", "default", "double_forfeit", "awarded", "annulled"),
        needed=False,
    ),
    Column(name="by", read=one_of("home", "away"), needed=False),
    Column(name="home_played", read=whole(0, 99), needed=False),
    Column(name="away_played", read=whole(0, 99), needed=False),
    *(
        Column(name=f"{side}_{card}", read=whole(0, 30), needed=False)
        for side in ("home", "away")
        for card in _CARDS
    ),
    Column(name="home_rating", read=decimal, needed=False),
    Column(name="away_rating", read=decimal, needed=False),
    Column(name="stage", read=one_of(*get_args(Stage)), needed=False),
    Column(name="home_kicks", read=whole(0, 99), needed=False),
    Column(name="away_kicks", read=whole(0, 99), needed=False),
    Column(name="neutral", read=one_of("yes", "no"), needed=False),
    Column(name="note", read=text, needed=False),
)
"""The columns of results.csv; docs/reference/season-folder.md says what each means."""


@dataclass(slots=True, kw_only=True)
class Results:
    """The results of a file, with what is known of each game besides.

    `deciders` are matches between level teams, `play_offs` those of the bracket: neither counts
    in a table. `rows` says where each game stands.
    """

    results: list[Result]
    deciders: list[Result]
    play_offs: list[Result]
    days: dict[GameId, date]
    notes: dict[GameId, str]
    rows: dict[GameId, int]

    def add(self, line: Line) -> None:
        """Take a line in which nothing is wrong."""
        result = _result(line)
        by_stage = {"decider": self.deciders, "play_off": self.play_offs}
        by_stage.get(line.get("stage", str) or "", self.results).append(result)
        self.rows[result.game] = line.row
        played, note = line.get("date", date), line.get("note", str)
        if played is not None:
            self.days[result.game] = played
        if note is not None:
            self.notes[result.game] = note


def read_results(data: bytes, league: League, ratings: Ratings) -> tuple[Results, Table]:
    """Return the results of a league's games and every fault of the file.

    Raises:
        InputFaults: the file as a whole cannot be read.
    """
    table = read_table(data, COLUMNS, file=FILE)
    checks = RowChecks(FILE, league, ratings)
    found = Results(results=[], deciders=[], play_offs=[], days={}, notes={}, rows={})
    for line in table.lines:
        faults = checks.faults(line)
        table.faults.extend(faults)
        if all(fault.level != "fault" for fault in faults):
            found.add(line)
    return found, table


def _result(line: Line) -> Result:
    return Result(
        game=GameId(line.need("game", str)),
        round=line.need("round", int),
        home=TeamId(line.need("home", str)),
        away=TeamId(line.need("away", str)),
        home_goals=line.get("home_goals", int) or 0,
        away_goals=line.get("away_goals", int) or 0,
        how=_how(line),
        by=_by(line),
        played_score=_pair(line, "home_played", "away_played"),
        kicks=_pair(line, "home_kicks", "away_kicks"),
        home_cards=_cards(line, "home"),
        away_cards=_cards(line, "away"),
        home_rating=line.get("home_rating", Decimal),
        away_rating=line.get("away_rating", Decimal),
        neutral=line.get("neutral", str) == "yes",
    )


def _how(line: Line) -> How:
    written = line.get("how", str) or "played"
    return next(how for how in get_args(How) if how == written)


def _by(line: Line) -> Side | None:
    written = line.get("by", str)
    return next((side for side in get_args(Side) if side == written), None)


def _pair(line: Line, first: str, second: str) -> tuple[int, int] | None:
    one, other = line.get(first, int), line.get(second, int)
    return None if one is None or other is None else (one, other)


def _cards(line: Line, side: str) -> CardCounts | None:
    counts = [line.get(f"{side}_{card}", int) for card in _CARDS]
    if all(count is None for count in counts):
        return None
    yellow, second_yellow, red, yellow_and_red = (count or 0 for count in counts)
    return CardCounts(
        yellow=yellow,
        second_yellow=second_yellow,
        straight_red=red,
        yellow_and_straight_red=yellow_and_red,
    )
