"""Makes the main parts of pages about a season, for a site that puts its own frame around them."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from wholeball.files.exports import Format, exported
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.record import LeagueRecord
from wholeball.reports.bracket_page import bracket_page
from wholeball.reports.bracket_words import (
    bracket_title,
    change_line,
    compared_lines,
    conflict_line,
    left_out_line,
    seed_line,
    undecided_line,
)
from wholeball.reports.season_report import SeasonReport, report_page, report_tables
from wholeball.reports.shell import Shell
from wholeball.reports.standings_page import PoolPages, standings_page
from wholeball.rulebook.sentence import Part, Sentence
from wholeball.season.participation import participation
from wholeball.season.season import Season, pool_tables
from wholeball.usecases.bracket_pages import bracket_told
from wholeball.usecases.bracket_stands import BracketStands, brackets_stand
from wholeball.usecases.drawn_games import drawn_games
from wholeball.usecases.local_day import local
from wholeball.usecases.show_bracket import show_bracket
from wholeball.usecases.show_results import results_table, show_results
from wholeball.usecases.show_standings import standings_table

RESULTS: Final = "results"
"""The name under which the results are handed out as a table."""
STANDINGS: Final = "standings"
"""The name under which the newest standings of all pools are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolPart:
    """A pool to choose: its number from 1, its name, and whether it is the one shown."""

    number: int
    name: str
    is_shown: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingsPart:
    """The standings of one pool as HTML; it is empty while no game of it has a result.

    A season without teams has no pool, and its name is empty.
    """

    league: str
    pool: str
    pools: tuple[PoolPart, ...]
    html: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketPart:
    """One bracket as HTML, who goes on and why in words, and what a draw would have to settle.

    `number` counts brackets from 1. Only of the one that is shown there is HTML. So many `games`
    are planned or played by its draw, which stays then.
    """

    number: int
    title: str
    is_shown: bool
    html: str
    seeds: tuple[Sentence, ...]
    left_out: tuple[Sentence, ...]
    compared: tuple[str, ...]
    undecided: tuple[str, ...]
    changes: tuple[str, ...]
    is_drawn: bool
    can_be_drawn: bool
    left: int
    games: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketsPart:
    """All brackets of a season; `has_play_offs` tells whether the rulebook has any."""

    league: str
    brackets: tuple[BracketPart, ...]
    conflicts: tuple[str, ...]
    has_play_offs: bool

    @property
    def games(self) -> int:
        """How many games are planned by the draws that are still to be made."""
        return sum(one.games for one in self.brackets if not one.is_drawn)

    @property
    def can_be_drawn(self) -> bool:
        """Whether a draw made now would be taken."""
        new = [one for one in self.brackets if not one.is_drawn]
        return bool(new) and all(one.can_be_drawn for one in new)


def standings_part(
    record: LeagueRecord,
    *,
    pool: int | None,
    round_: int | None,
    href: Callable[[int, int], str],
    game_href: Callable[[GameId], str],
    at: datetime,
) -> StandingsPart:
    """Return the standings of a pool, counted from 1, after a round, the newest otherwise.

    Where no pool is named, it is the first that has a result. `href` is the address of the page
    of a pool and a round, `game_href` that of a game's.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season, pool or round.
    """
    read = read_folder(record)
    season = read.season
    names = tuple(season.league.pools)
    number = _first_played(season) if pool is None else pool
    if not names and number == 1 and round_ is None:
        return StandingsPart(league=season.league.name, pool="", pools=(), html="")
    if not 1 <= number <= len(names):
        raise WholeballError(
            f"There is no pool {number}.", fix=f"Give 1 to {len(names)}.", code="range"
        )
    name = names[number - 1]
    tables = pool_tables(season, name)
    rounds = [one.round for one in tables]
    if round_ is not None and round_ not in rounds:
        raise WholeballError(
            f"There is no table after round {round_}.",
            fix="Choose another round.",
            code="range",
        )
    pages = PoolPages(
        season=season,
        pool=name,
        tables=tables,
        hrefs={one: href(number, one) for one in rounds},
        under="",
        games={one.fixture.game: game_href(one.fixture.game) for one in read.sheets},
    )
    shown = round_ if round_ is not None else rounds[-1] if rounds else None
    return StandingsPart(
        league=season.league.name,
        pool=name,
        pools=tuple(
            PoolPart(number=nth, name=one, is_shown=nth == number)
            for nth, one in enumerate(names, start=1)
        ),
        html=""
        if shown is None
        else standings_page(pages, shown=shown, shell=_within(read, at)),
    )


def _first_played(season: Season) -> int:
    """Return the number of the first pool that has a result; of the first where none has."""
    played = {one.home for one in season.results}
    pools = enumerate(season.league.pools.values(), start=1)
    return next((number for number, teams in pools if not played.isdisjoint(teams)), 1)


def bracket_parts(
    record: LeagueRecord, *, number: int, game_href: Callable[[GameId], str], at: datetime
) -> BracketsPart:
    """Return every bracket of a season as it was drawn, or as it would be; one of them is shown.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season, or no bracket of that number.
    """
    read = read_folder(record)
    stand = brackets_stand(read)
    if not 1 <= number <= len(stand):
        raise WholeballError(
            f"There is no bracket {number}.", fix=f"Give 1 to {len(stand)}.", code="range"
        )
    games = {one.fixture.game: game_href(one.fixture.game) for one in read.sheets}
    return BracketsPart(
        league=read.season.league.name,
        brackets=tuple(
            BracketPart(
                number=nth,
                title=bracket_title(one.bracket),
                is_shown=nth == number,
                html=_bracket_html(one, read, games, at) if nth == number else "",
                seeds=tuple(_named(seed_line(it), it.team) for it in one.qualified.seeds),
                left_out=tuple(
                    _named(left_out_line(it), it.team) for it in one.qualified.left_out
                ),
                compared=tuple(compared_lines(one.qualified)),
                undecided=tuple(map(undecided_line, one.qualified.undecided)),
                changes=tuple(map(change_line, one.changes)),
                is_drawn=bool(one.drawn),
                can_be_drawn=one.can_be_drawn,
                left=one.left,
                games=len(drawn_games(read, [one.bracket])),
            )
            for nth, one in enumerate(stand, start=1)
        ),
        conflicts=tuple(map(conflict_line, show_bracket(record).conflicts)),
        has_play_offs=read.season.rulebook.play_offs.qualify != "none",
    )


def _named(line: str, team: TeamId) -> Sentence:
    """Return a line in which a team's name is told from the words, whatever its alphabet."""
    before, name, after = line.partition(team)
    parts = (
        Part(before, is_value=False),
        Part(name, is_value=True),
        Part(after, is_value=False),
    )
    return Sentence(tuple(part for part in parts if part.text))


def _bracket_html(
    one: BracketStands, read: SeasonFolder, games: dict[GameId, str], at: datetime
) -> str:
    if not one.lines:
        return ""
    told = bracket_told(read.season.league.name, one, games)
    return bracket_page(told, shell=_within(read, at), here="")


def report_part(record: LeagueRecord, *, at: datetime) -> str:
    """Return the season's report as HTML, with its pictures.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    return report_page(_report(read), shell=_within(read, at), here="")


def table_file(record: LeagueRecord, name: str, kind: Format) -> bytes:
    """Return a table of the season for other programs: results, standings, or one of the report.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season or table.
    """
    if name == RESULTS:
        return exported(results_table(show_results(record)), kind)
    read = read_folder(record)
    if name == STANDINGS:
        return exported(standings_table(read.season), kind)
    tables = report_tables(_report(read))
    if name not in tables:
        raise WholeballError(
            f"There is no table {name!r}.",
            fix=f"Give one of: {', '.join((RESULTS, STANDINGS, *tables))}.",
            code="unknown_value",
        )
    return exported(tables[name], kind)


def _report(read: SeasonFolder) -> SeasonReport:
    season = read.season
    found = participation(season, read.timetable, read.sheets, read.rosters)
    return SeasonReport(league=season.league.name, found=found)


def _within(read: SeasonFolder, at: datetime) -> Shell:
    book = read.season.rulebook
    return Shell(
        links=(),
        rulebook=book.head.name,
        digest=book.digest,
        printed=local(read, at),
        within=True,
    )
