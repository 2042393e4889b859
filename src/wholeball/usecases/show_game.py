"""Shows what one game of a season has come to, in words and as a page."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from wholeball.files.editions import book_of
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import has_log, read_game
from wholeball.files.open_games import refuse_open
from wholeball.files.write import write_files
from wholeball.game.official import certified_events, official
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.fixture import Stage
from wholeball.league.record import LeagueRecord
from wholeball.reports.dates import day
from wholeball.reports.figures import score
from wholeball.reports.game_page import game_page
from wholeball.reports.game_told import Reader, Settled, ToldGame, standing
from wholeball.reports.not_as_played import as_awarded
from wholeball.reports.shell import Link, Shell
from wholeball.reports.shipped import assets
from wholeball.season.result import Result
from wholeball.season.ruled import holding
from wholeball.season.season import Season, regulation
from wholeball.usecases.game_events import game_events
from wholeball.usecases.not_started import starts_only


@dataclass(frozen=True, slots=True, kw_only=True)
class GameShown:
    """A game to be told, remarks on its log, and what was written.

    `to_start` says when it starts, and is empty once it has.
    """

    told: ToldGame
    remarks: tuple[Fault, ...]
    written: tuple[Path, ...]
    to_start: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Listed:
    """A game as timetable or results list it; `day` is empty where nobody wrote it down."""

    home: TeamId
    away: TeamId
    stage: Stage
    day: str


def show_game(
    record: LeagueRecord, game: GameId, *, reader: Reader, html: Path | None, printed: datetime
) -> GameShown:
    """Return one game as its events and its rulebook have it.

    Raises:
        InputFaults: everything that is wrong with the folder, or with the game's log.
        WholeballError: there is no such folder, or no such game in it.
    """
    read = read_folder(record)
    told, when, doubts = told_game(record, read, game, reader)
    written = () if html is None else _write(told, read.season, when, html, printed)
    fixture = next((one for one in read.timetable if one.game == game), None)
    zone = read.season.league.timezone
    to_start = "" if fixture is None else starts_only(fixture, at=printed, timezone=zone)
    return GameShown(told=told, remarks=doubts, written=written, to_start=to_start)


def game_pages(
    record: LeagueRecord, read: SeasonFolder, shell: Shell, *, under: str, rulebook: str
) -> dict[str, bytes]:
    """Return a page for each game of the timetable that has a log, by the name of its file.

    `rulebook` is the page that articles link to.
    """
    pages = {}
    for fixture in read.timetable:
        if has_log(record, fixture.game):
            name = page_name(fixture.game)
            told, when, _ = told_game(record, read, fixture.game, "everybody")
            pages[name] = game_page(
                told, shell=shell, here=name, under=under, day=when, rulebook=rulebook
            ).encode()
    return pages


def page_name(game: GameId) -> str:
    """Return the file of a game's page."""
    return f"game-{game}.html"


def told_game(
    record: LeagueRecord, read: SeasonFolder, game: GameId, reader: Reader
) -> tuple[ToldGame, str, tuple[Fault, ...]]:
    """Return a game to be told, when and where it was played, and doubts about its log."""
    listed = _listed(read, game)
    book = book_of(read_game(record, game), read.season.rulebook, read.editions)
    recorded = game_events(record, game, book)
    rules = game_rules(book, listed.stage)
    counted = official(recorded.entries, rules)
    events = recorded.events if counted is None else certified_events(counted)
    told = ToldGame(
        game=game,
        home=listed.home,
        away=listed.away,
        rules=rules,
        state=play(events, rules) if counted is None else counted.state,
        events=standing(events),
        reader=reader,
        official=counted,
        settled=settled_in(read, game),
    )
    return told, listed.day, recorded.remarks


def score_in(read: SeasonFolder, game: GameId) -> str:
    """Return the score that a game counts as in the season; "no result" where it has none."""
    result = next((one for one in _results(read.season) if one.game == game), None)
    if result is None:
        return "no result"
    if result.how == "annulled":
        return "annulled"
    return score(*as_awarded(result, regulation(read.season.rulebook).counting))


def _results(season: Season) -> tuple[Result, ...]:
    return (*season.results, *season.outside.play_offs, *season.play_offs)


def settled_in(read: SeasonFolder, game: GameId) -> Settled | None:
    """Return what a ruling or a row of results.csv makes of a game, where there is one."""
    season = read.season
    result = next((one for one in _results(season) if one.game == game), None)
    ruling, row = holding(season.rulings).get(game), read.rows.get(game)
    if result is None or (ruling is None and row is None):
        return None
    note = season.notes.get(game, "")
    return Settled(result=result, ruling=ruling, row=row, note=note)


def _listed(read: SeasonFolder, game: GameId) -> _Listed:
    for fixture in read.timetable:
        if fixture.game == game:
            when = f"{day(fixture.day)}, {fixture.start:%H:%M}, {fixture.field}"
            return _Listed(home=fixture.home, away=fixture.away, stage=fixture.stage, day=when)
    season = read.season
    every = _results(season)
    for result in every:
        if result.game == game:
            played = season.days.get(game)
            when = "" if played is None else day(played)
            stage: Stage = "league" if result in season.results else "play_off"
            return _Listed(home=result.home, away=result.away, stage=stage, day=when)
    refuse_open(read.open_fixtures, game)
    known = [*(one.game for one in read.timetable), *(one.game for one in every)]
    raise WholeballError(
        f"There is no game {game} in timetable.csv or results.csv.",
        fix=did_you_mean(game, known),
        code="unknown_game",
    )


def _write(
    told: ToldGame, season: Season, when: str, html: Path, printed: datetime
) -> tuple[Path, ...]:
    shell = Shell(
        links=(Link(label="Game", href=html.name),),
        rulebook=season.rulebook.head.name,
        digest=season.rulebook.digest,
        printed=printed.astimezone(ZoneInfo(season.league.timezone)),
    )
    page = game_page(told, shell=shell, here=html.name, day=when)
    write_files(html.parent, {html.name: page.encode(), **assets()})
    return (html,)
