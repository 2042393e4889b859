"""Shows what one game of a season has come to, in words and as a page."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import FOLDER as LOGS
from wholeball.files.game_log import has_log
from wholeball.files.write import write_files
from wholeball.game.official import certified_events, official
from wholeball.game.play import play
from wholeball.game.rules import Stage, game_rules
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.reports.dates import day
from wholeball.reports.game_page import game_page
from wholeball.reports.game_told import Reader, ToldGame, standing
from wholeball.reports.shell import Link, Shell
from wholeball.reports.shipped import assets
from wholeball.season.season import Season
from wholeball.usecases.game_events import game_events


@dataclass(frozen=True, slots=True, kw_only=True)
class GameShown:
    """A game to be told, remarks on its folder and its log, and what was written."""

    told: ToldGame
    remarks: tuple[Fault, ...]
    written: tuple[Path, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Listed:
    """A game as timetable or results list it; `day` is empty where nobody wrote it down."""

    home: TeamId
    away: TeamId
    stage: Stage
    day: str


def show_game(
    folder: Path, game: GameId, *, reader: Reader, html: Path | None, printed: datetime
) -> GameShown:
    """Return one game as its events and its rulebook have it.

    Raises:
        InputFaults: everything that is wrong with the folder, or with the game's log.
        WholeballError: there is no such folder, or no such game in it.
    """
    read = read_folder(folder)
    told, when, doubts = _told(folder, read, game, reader)
    written = () if html is None else _write(told, read.season, when, html, printed)
    beside = (one for one in read.remarks if not one.place.file.startswith(f"{LOGS}/"))
    return GameShown(told=told, remarks=(*beside, *doubts), written=written)


def game_pages(
    folder: Path, read: SeasonFolder, shell: Shell, *, under: str
) -> dict[str, bytes]:
    """Return a page for each game of the timetable that has a log, by the name of its file."""
    pages = {}
    for fixture in read.timetable:
        if has_log(folder, fixture.game):
            name = page_name(fixture.game)
            told, when, _ = _told(folder, read, fixture.game, "everybody")
            pages[name] = game_page(
                told, shell=shell, here=name, under=under, day=when
            ).encode()
    return pages


def page_name(game: GameId) -> str:
    """Return the file of a game's page."""
    return f"game-{game}.html"


def _told(
    folder: Path, read: SeasonFolder, game: GameId, reader: Reader
) -> tuple[ToldGame, str, tuple[Fault, ...]]:
    """Return a game to be told, when and where it was played, and doubts about its log."""
    listed = _listed(read, game)
    recorded = game_events(folder, game, read.season.rulebook)
    rules = game_rules(read.season.rulebook, listed.stage)
    counted = official(recorded.entries, rules)
    events = recorded.events if counted is None else certified_events(recorded.entries, counted)
    told = ToldGame(
        game=game,
        home=listed.home,
        away=listed.away,
        rules=rules,
        state=play(events, rules) if counted is None else counted.state,
        events=standing(events),
        reader=reader,
        official=counted,
    )
    return told, listed.day, recorded.remarks


def _listed(read: SeasonFolder, game: GameId) -> _Listed:
    for fixture in read.timetable:
        if fixture.game == game:
            when = f"{day(fixture.day)}, {fixture.start:%H:%M}, {fixture.field}"
            return _Listed(home=fixture.home, away=fixture.away, stage=fixture.stage, day=when)
    for result in read.season.results:
        if result.game == game:
            played = read.season.days.get(game)
            when = "" if played is None else day(played)
            return _Listed(home=result.home, away=result.away, stage="league", day=when)
    known = [*(one.game for one in read.timetable), *(one.game for one in read.season.results)]
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
