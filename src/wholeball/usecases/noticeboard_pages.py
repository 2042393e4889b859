"""Shows the pages of a public season but for its front, each by the renderer of its folder page."""

from collections.abc import Collection
from datetime import date
from typing import Final

from wholeball.files.draws import DRAW, VERIFIER
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.kernel.length import system_of
from wholeball.pitch.markings import markings
from wholeball.reports.booklet import booklet
from wholeball.reports.bracket_page import bracket_page
from wholeball.reports.bracket_words import ordinal
from wholeball.reports.calendar import week_of
from wholeball.reports.calendar_page import (
    OfTeam,
    calendar_page,
    field_list_page,
    night_page,
    team_page,
)
from wholeball.reports.dates import day
from wholeball.reports.draws_page import DrawTold, draws_page
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.field_page import field_page
from wholeball.reports.field_svg import field_svg
from wholeball.reports.figures import score
from wholeball.reports.game_page import game_page
from wholeball.reports.house_rules_page import (
    articles_by_chapter,
    chapter_page,
    chapters_of,
    house_rules_page,
)
from wholeball.reports.public_names import public_roster
from wholeball.reports.results_page import ResultTold, RoundTold, results_page
from wholeball.reports.shell import Spot
from wholeball.reports.standings_page import PoolPages, standings_page, why_page
from wholeball.rulebook.sentence import counted
from wholeball.usecases.addresses import named_in
from wholeball.usecases.bracket_pages import bracket_told
from wholeball.usecases.season_draws import season_draws
from wholeball.usecases.settled import settled
from wholeball.usecases.show_game import told_game
from wholeball.usecases.show_noticeboard import Board, NoSuchPage, next_night
from wholeball.usecases.show_results import ResultLine, results_of

MOST_INLINE: Final = 24
"""Teams of a pool beyond which each reason has a page, so that the table's stays small."""


def table_of(board: Board, number: int, round_: int | None) -> str:
    """Return the standings of a pool: the newest, or those after a round.

    Raises:
        NoSuchPage: there is no such pool, or no table after that round.
    """
    told, shown = _pool(board, number, round_)
    return standings_page(told, shown=shown, shell=board.shell)


def why_of(board: Board, number: int, round_: int, place: int) -> str:
    """Return the reason for a place of a large pool, counted from 1 down the table.

    Raises:
        NoSuchPage: there is no such place, or its reason stands in the table itself.
    """
    told, shown = _pool(board, number, round_)
    page = why_page(told, shown=shown, index=place - 1, shell=board.shell)
    if page is None:
        raise NoSuchPage
    return page


def _pool(board: Board, number: int, round_: int | None) -> tuple[PoolPages, int]:
    """Return a pool's pages and the round to show, the newest unless another is asked."""
    if not 1 <= number <= len(board.pools):
        raise NoSuchPage
    pool = board.pools[number - 1]
    tables = board.tables(pool)
    hrefs = {one.round: board.at.table(number, one.round) for one in tables}
    shown = round_ if round_ is not None else max(hrefs, default=None)
    if shown is None or shown not in hrefs:
        raise NoSuchPage
    is_large = len(board.read.season.league.pools[pool]) > MOST_INLINE
    told = PoolPages(
        season=board.read.season,
        pool=pool,
        tables=tables,
        hrefs=hrefs,
        under=board.tables_link,
        games=board.games,
        whys=(lambda index: board.at.why(number, shown, index + 1)) if is_large else None,
    )
    return told, shown


def week_page(board: Board, week: int | None) -> str:
    """Return a week of the timetable: the one that is played next, or the last of all.

    Raises:
        NoSuchPage: nothing is played in that week.
    """
    told, at = board.calendar, board.at
    shown = week
    if week is None and told.weeks:
        coming = next_night(told, board.local.date())
        shown = max(told.weeks) if coming is None else week_of(coming, told.first_day)
    if week is not None and week not in told.weeks:
        raise NoSuchPage
    here = at.calendar if week is None else at.week(week)
    return calendar_page(told, shell=board.shell, here=here, week=shown, under=at.calendar)


def night_of(board: Board, night: date) -> str:
    """Return a night of the timetable.

    Raises:
        NoSuchPage: nothing is played on it.
    """
    if night not in board.calendar.nights:
        raise NoSuchPage
    return night_page(board.calendar, night, shell=board.shell, under=board.at.calendar)


def team_of(board: Board, part: str) -> str:
    """Return the page of a team: how it stands, its games, its players as they chose.

    Raises:
        NoSuchPage: no team is called so.
    """
    named, read = named_in(part), board.read
    team = next((one for one in read.season.league.teams if one.team == named), None)
    if team is None:
        raise NoSuchPage
    stands, table = _stands(board, team.team, team.pool)
    people = {one.person: one for one in read.people}
    more = OfTeam(
        colours=team.colours,
        stands=stands,
        table=table,
        people=public_roster(team.team, read.rosters.get(team.team, ()), people),
    )
    return team_page(
        board.calendar, team.team, shell=board.shell, under=board.at.calendar, more=more
    )


def field_of(board: Board, part: str) -> str:
    """Return the page of a field.

    Raises:
        NoSuchPage: nothing is played on a field that is called so.
    """
    field = named_in(part)
    if field not in board.calendar.fields:
        raise NoSuchPage
    return field_list_page(board.calendar, field, shell=board.shell, under=board.at.calendar)


def draws_of(board: Board) -> str:
    """Return the draws of lots, with what checks them."""
    draws = [
        DrawTold(
            commitment=one.commitment,
            drawn=one.drawn,
            files=[
                (file, board.at.draw_file(one.name, file))
                for file in (DRAW, VERIFIER)
                if one.drawn is not None
            ],
        )
        for one in season_draws(board.record)
    ]
    league = board.read.season.league.name
    return draws_page(draws, league=league, shell=board.shell, here=board.at.draws)


def bracket_of(board: Board, number: int) -> str:
    """Return a bracket by its number.

    Raises:
        NoSuchPage: none of that number is drawn or could be drawn now.
    """
    if not 1 <= number <= len(board.brackets):
        raise NoSuchPage
    one = board.brackets[number - 1]
    told = bracket_told(board.read.season.league.name, one, board.games)
    return bracket_page(told, shell=board.shell, here=board.at.bracket(number))


def round_of(board: Board, number: int | None) -> str:
    """Return the newest results, or those of a round.

    Raises:
        NoSuchPage: the round has no result.
    """
    shown = results_of(board.read)
    rounds = sorted({one.round for one in shown.lines})
    wanted = number if number is not None else max(rounds, default=0)
    if number is not None and number not in rounds:
        raise NoSuchPage
    lines = [one for one in shown.lines if one.round == wanted]
    games = {one.result.game for one in lines}
    uncertified = {
        game for game, word in settled(board.read).items() if word == "not certified"
    }
    told = RoundTold(
        league=shown.league,
        number=wanted,
        results=[_result(one, board, uncertified) for one in lines],
        changes=[
            one for one in shown.changed if one.result is not None and one.result.game in games
        ],
        hrefs={one: board.at.results(one) for one in rounds},
        to_come=len(uncertified.union(shown.open_games)),
    )
    here = board.at.results(number)
    return results_page(told, shell=board.shell, here=here, under=board.at.results())


def game_of(board: Board, part: str) -> str:
    """Return the page of a game as everybody may read it.

    Raises:
        NoSuchPage: no game of the timetable is called so, or nothing of it was recorded.
    """
    named = named_in(part)
    game = next((one for one in board.games if one == named), None)
    if game is None:
        raise NoSuchPage
    told, when, _ = told_game(board.record, board.read, game, "everybody")
    book = board.read.season.rulebook
    titles = articles_by_chapter(booklet(book, printed=board.local))
    hrefs = _chapters(board)
    return game_page(
        told,
        shell=board.shell,
        here=board.at.game(game),
        under=board.at.results(),
        day=when,
        rulebook=lambda path: hrefs[titles[path]],
    )


def rules_of(board: Board) -> str:
    """Return the house rules, what is different first."""
    return house_rules_page(
        board.read.season.rulebook,
        shell=board.shell,
        here=board.at.rules,
        hrefs=_chapters(board),
        field=board.at.ground,
    )


def chapter_of(board: Board, number: int) -> str:
    """Return a chapter of the house rules by its number.

    Raises:
        NoSuchPage: there are fewer chapters.
    """
    hrefs = _chapters(board)
    if not 1 <= number <= len(hrefs):
        raise NoSuchPage
    title = [*hrefs][number - 1]
    return chapter_page(
        board.read.season.rulebook,
        title,
        shell=board.shell,
        here=hrefs[title],
        under=board.at.rules,
    )


def ground_of(board: Board) -> str:
    """Return the field of play to scale, every marking with its size."""
    book = board.read.season.rulebook
    plan, unit = field_plan(book), book.field.unit
    length = book.field.length.measured(system_of(unit))
    return field_page(
        field_svg(plan, unit),
        markings(plan, unit),
        spot=Spot(number=f"{length}", label="from goal line to goal line"),
        shell=board.shell,
        here=board.at.ground,
    )


def _chapters(board: Board) -> dict[str, str]:
    made = booklet(board.read.season.rulebook, printed=board.local)
    return {
        title: board.at.chapter(number)
        for number, title in enumerate(chapters_of(made), start=1)
    }


def _stands(board: Board, team: TeamId, pool: PoolId) -> tuple[str, str]:
    """Return how a team stands in its table, and the page of it."""
    tables = board.tables(pool)
    row = (
        next((one for one in tables[-1].standings.rows if one.team == team), None)
        if tables
        else None
    )
    if row is None:
        return f"In {pool}; no table yet.", ""
    says = f"{ordinal(row.place).capitalize()} of {pool}, {counted(row.points, 'point')}."
    return says, board.at.table(board.pools.index(pool) + 1)


def _result(one: ResultLine, board: Board, uncertified: Collection[GameId]) -> ResultTold:
    kicks = one.result.kicks
    known = (
        None if one.day is None else day(one.day),
        None if one.start is None else f"{one.start:%H:%M}",
        one.field,
        None if one.result.how in ("played", "annulled") else one.result.how.replace("_", " "),
        None if kicks is None else f"kicks {score(*kicks)}",
    )
    return ResultTold(
        home=one.result.home,
        away=one.result.away,
        score=one.score if one.goals is None else score(*one.goals),
        when=", ".join(part for part in known if part),
        href=board.games.get(one.result.game, ""),
        is_certified=one.result.game not in uncertified,
    )
