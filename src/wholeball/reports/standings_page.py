"""Makes the page of one pool's standings after one round, each place with its reason."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.reports.dates import day
from wholeball.reports.figures import score, signed
from wholeball.reports.not_as_played import (
    as_awarded,
    as_counted,
    forfeit_points,
    not_as_played,
)
from wholeball.reports.places_svg import places_svg
from wholeball.reports.reasons import (
    AS_LISTED,
    Names,
    Why,
    absence,
    is_level_on_first,
    why,
)
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.rulebook.sentence import Sentence, listed, say
from wholeball.season.count import Counting
from wholeball.season.result import Result
from wholeball.season.season import Season, regulation, upheld_in
from wholeball.season.standings import RoundTable, Row, Standings


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolPages:
    """The standings of one pool, a page a round.

    `tables` hold the table after each round, oldest first; `hrefs` the page of each round;
    `under` the link among the shell's that leads to standings; `games` the page of each game
    that has one. `whys` gives the page of the reason for a place, counted from 0, where reasons
    have pages of their own; then there is no picture either, and the page stays small.
    """

    season: Season
    pool: PoolId
    tables: tuple[RoundTable, ...]
    hrefs: Mapping[int, str]
    under: str
    names: Names = field(default_factory=dict)
    games: Mapping[GameId, str] = field(default_factory=dict)
    whys: Callable[[int], str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One row as it is printed: its place, its figures, and why it stands above the next.

    `deducted` are points taken off by ruling, `forfeited` the points lost by forfeits that
    bring fewer than none; the points are less both.
    """

    place: str
    is_shared: bool
    team: str
    figures: tuple[str, ...]
    sentence: str
    points: int
    deducted: int
    forfeited: int
    has_why: bool
    why: Why | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Game:
    """One game as it stands; `score` is empty where it has none, `href` where it has no page."""

    home: str
    away: str
    score: str
    told: str
    href: str = ""


def standings_page(pages: PoolPages, *, shown: int, shell: Shell) -> str:
    """Return the page of the table after round `shown`.

    Raises:
        KeyError: there is no table after that round.
    """
    tables = {table.round: table for table in pages.tables}
    table = tables[shown].standings
    so_far = tuple(one for one in pages.tables if one.round <= shown)
    return rendered(
        "standings.html",
        _head(pages, shown, len(so_far)),
        shell,
        league=pages.season.league.name,
        source=pages.season.source,
        shown=shown,
        hrefs=pages.hrefs,
        counting=_points(pages),
        lines=lines(table, pages.names, _penalties(pages, shown), with_whys=pages.whys is None),
        unresolved=_unresolved(table, pages.names),
        absences=[absence(one, pages.names) for one in table.absences],
        changes=not_as_played(
            pages.season,
            pages.pool,
            shown=shown,
            is_newest=shown == pages.tables[-1].round,
            names=pages.names,
        ),
        games=_games(pages, shown),
        picture="" if pages.whys else places_svg(so_far, pages.names),
        whys=pages.whys,
    )


def why_page(pages: PoolPages, *, shown: int, index: int, shell: Shell) -> str | None:
    """Return the page of the reason for a place after round `shown`, or None where it has none.

    Raises:
        KeyError: there is no table after that round.
    """
    table = {one.round: one for one in pages.tables}[shown].standings
    found = _why(table, index, pages.names) if 0 <= index < len(table.rows) else None
    if found is None or pages.whys is None:
        return None
    row = table.rows[index]
    team = pages.names.get(row.team, row.team)
    return rendered(
        "why.html",
        Page(
            here=pages.whys(index),
            under=pages.under,
            title=team,
            about=f"why it stands where it does after round {shown}",
            spot=Spot(number=f"{row.place}", label="place"),
        ),
        shell,
        league=pages.season.league.name,
        pool=pages.pool,
        shown=shown,
        why=found,
        back=pages.hrefs[shown],
    )


def lines(
    table: Standings,
    names: Names = AS_LISTED,
    penalties: Mapping[TeamId, int] = MappingProxyType({}),
    *,
    with_whys: bool = True,
) -> tuple[Line, ...]:
    """Return every row as it is printed, best first.

    `penalties` are the points below nought that forfeits brought. Without whys it is only told
    which rows have one.
    """
    shared = {team for teams in table.unresolved for team in teams}
    return tuple(
        Line(
            place=f"{row.place}{'=' if row.team in shared else ''}",
            is_shared=row.team in shared,
            team=names.get(row.team, row.team),
            figures=_figures(row),
            sentence=_sentence(row),
            points=row.points,
            deducted=row.deducted,
            forfeited=-penalties.get(row.team, 0),
            has_why=_has_why(table, index),
            why=_why(table, index, names) if with_whys else None,
        )
        for index, row in enumerate(table.rows)
    )


def _head(pages: PoolPages, shown: int, rounds: int) -> Page:
    return Page(
        here=pages.hrefs[shown],
        under=pages.under,
        title=pages.pool,
        about=f"standings after round {shown}",
        spot=Spot.counting(rounds, "round counted", "rounds counted"),
    )


def _penalties(pages: PoolPages, shown: int) -> dict[TeamId, int]:
    stand = upheld_in(pages.season, pages.pool, up_to=shown)
    return forfeit_points(stand, regulation(pages.season.rulebook).counting)


def _points(pages: PoolPages) -> Sentence:
    article = pages.season.rulebook.standings
    points = article.points
    return say(
        "Win {win}, draw {draw}, loss {loss}, by {ref}.",
        win=points.win,
        draw=points.draw,
        loss=points.loss,
        ref=article.ref or "standings",
    )


def _figures(row: Row) -> tuple[str, ...]:
    counts = (row.played, row.won, row.drawn, row.lost, row.goals_for, row.goals_against)
    return (*(f"{count:,}" for count in counts), signed(row.difference))


def _sentence(row: Row) -> str:
    return (
        f"{row.played} played: {row.won} won, {row.drawn} drawn, {row.lost} lost; "
        f"{score(row.goals_for, row.goals_against)} ({signed(row.difference)})"
    )


def _why(table: Standings, index: int, names: Names) -> Why | None:
    """Return the reason, where the first criterion alone does not give it."""
    if not _has_why(table, index):
        return None
    return why(table.neighbours[index], names, table.neighbours.would_show(index))


def _has_why(table: Standings, index: int) -> bool:
    return index + 1 < len(table.rows) and is_level_on_first(table.neighbours[index])


def _unresolved(table: Standings, names: Names) -> list[Sentence]:
    return [
        say(
            f"{listed(tuple(f'{{t{number}}}' for number in range(len(teams))))} share a place.",
            **{f"t{number}": names.get(team, team) for number, team in enumerate(teams)},
        )
        for teams in table.unresolved
    ]


def _games(pages: PoolPages, shown: int) -> list[Game]:
    counting = regulation(pages.season.rulebook).counting
    stand = upheld_in(pages.season, pages.pool, up_to=shown)
    return [_game(one, counting, pages) for one in stand.results if one.round == shown]


def _game(result: Result, counting: Counting, pages: PoolPages) -> Game:
    when = pages.season.days.get(result.game)
    goals = as_awarded(result, counting)
    return Game(
        home=pages.names.get(result.home, result.home),
        away=pages.names.get(result.away, result.away),
        score=score(*goals) if any(goals) or result.how == "played" else "",
        told=", ".join((*_told(result, counting), *([] if when is None else [day(when)]))),
        href=pages.games.get(result.game, ""),
    )


def _told(result: Result, counting: Counting) -> Iterator[str]:
    """Return what is odd about a game, in a few words."""
    if result.how == "played":
        return
    yield result.how.replace("_", " ")
    if as_awarded(result, counting) != as_counted(result, counting):
        yield "its goals do not count"
    yield "see below"
