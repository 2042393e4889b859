"""Has the command that rules on a game after it was played."""

import re
from collections.abc import Iterator
from dataclasses import asdict
from datetime import UTC, date, datetime
from typing import Annotated

import typer

from wholeball.cli.folder import Folder
from wholeball.cli.output import (
    fault_values,
    print_json,
    print_lines,
    print_remarks,
    printing_refusals,
)
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.reports.dates import day
from wholeball.reports.figures import score, signed
from wholeball.reports.not_as_played import out_of_league
from wholeball.rulebook.sentence import counted, listed
from wholeball.season.result import CardCounts
from wholeball.usecases.award_game import TO, Award, Awarded, Standing, To, award_game

_GOALS = re.compile(r"(\d{1,2})\s*[-:\N{EN DASH}]\s*(\d{1,2})", re.ASCII)


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(award)


def award(  # noqa: PLR0913, PLR0917 - options of a command
    folder: Folder,
    game: Annotated[
        str, typer.Argument(metavar="GAME", help="The game, as timetable.csv has it.")
    ],
    to: Annotated[
        str,
        typer.Option(
            "--to", help="home, away, draw, nobody (annulled) or as_played (as it was played)."
        ),
    ],
    why: Annotated[
        str, typer.Option("--why", metavar="TEXT", help="The reason, as people shall read it.")
    ],
    ref: Annotated[
        str, typer.Option("--ref", metavar="ART", help="The article it cites, such as H 3.5.")
    ],
    goals: Annotated[
        str,
        typer.Option(
            "--goals", metavar="H-A", help="Goals that count; else the other side forfeits."
        ),
    ] = "",
    on: Annotated[
        str | None, typer.Option("--on", metavar="DATE", help="The day; today otherwise.")
    ] = None,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Show what would change and write nothing.")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
) -> None:
    """Rule on a game after it was played; both scores, and yellow and red, are kept."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json, writes=True):
        ruled = Award(game=GameId(game), to=_to(to), why=why, ref=ref, goals=_goals(goals))
        found = award_game(record, ruled, on=day_of(on), writes=not dry_run)
    if as_json:
        print_json(_values(found))
        return
    print_remarks(found.brought)
    print_lines(_lines(found, record))


def day_of(text: str | None) -> date:
    """Return a day that was typed, or today."""
    if text is None:
        return datetime.now(UTC).astimezone().date()
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise WholeballError(
            f"{text!r} is no day.", fix="Write it as 2026-10-07.", code="date"
        ) from error


def _to(text: str) -> To:
    found = next((one for one in TO if one == text), None)
    if found is None:
        raise WholeballError(
            f"--to is {text!r}.",
            fix=f"Nothing was written. Give one of: {', '.join(TO)}.",
            code="unknown_value",
        )
    return found


def _goals(text: str) -> tuple[int, int] | None:
    found = _GOALS.fullmatch(text.strip())
    if not text:
        return None
    if found is None:
        raise WholeballError(
            f"--goals is {text!r}.",
            fix="Nothing was written. Give two numbers from 0 to 99, home first, such as 0-3.",
            code="type",
        )
    return int(found[1]), int(found[2])


def _lines(found: Awarded, record: LeagueRecord) -> Iterator[str]:
    ruling = found.ruling
    yield f"Game {ruling.game}, {found.home} v {found.away}"
    yield f"Played: {_score(found.played)}. Counted until now: {_score(found.was)}."
    by = f" {ruling.number} of {day(ruling.day)}" if ruling.day else f" {ruling.number}"
    yield f"By ruling{by} ({ruling.ref}) it counts: {_score(found.now)}. {ruling.why}"
    yield f"Yellow and red stand: {_cards(found)}."
    for one in found.moved:
        yield f"  {one.pool}: {one.team}, {_standing(one.before)} -> {_standing(one.after)}"
    if not found.moved:
        yield "No line of a table changes."
    for gone in found.out:
        yield f"By this ruling {out_of_league(gone, {})}"
    for team in found.back:
        yield f"By this ruling {team} is in the league again."
    if found.has_bracket:
        yield "The draw of the bracket stays as it was made."
    if found.is_written:
        yield f"Written into {record.called('rulings.csv')}. To take it back: --to as_played."
    else:
        yield "Nothing was written."


def _score(goals: tuple[int, int] | None) -> str:
    return "no score" if goals is None else score(*goals)


def _standing(one: Standing | None) -> str:
    if one is None:
        return "no games"
    return f"place {one.place} with {counted(one.points, 'point')}, {signed(one.difference)}"


def _cards(found: Awarded) -> str:
    sides = ((found.home, found.home_cards), (found.away, found.away_cards))
    return "; ".join(f"{team} {_shown(cards)}" for team, cards in sides)


def _shown(cards: CardCounts | None) -> str:
    if cards is None:
        return "not recorded"
    yellow = cards.yellow + cards.yellow_and_straight_red
    red = cards.second_yellow + cards.straight_red + cards.yellow_and_straight_red
    said = (
        *((f"{yellow} yellow",) if yellow else ()),
        *((f"{red} red",) if red else ()),
    )
    return listed(said) or "none"


def _values(found: Awarded) -> dict[str, object]:
    ruling = found.ruling
    return {
        "ok": True,
        "written": found.is_written,
        "game": ruling.game,
        "home": found.home,
        "away": found.away,
        "ruling": {**asdict(ruling), "day": ruling.day and ruling.day.isoformat()},
        "played": found.played,
        "before": found.was,
        "after": found.now,
        "cards": {
            "home": found.home_cards and asdict(found.home_cards),
            "away": found.away_cards and asdict(found.away_cards),
        },
        "standings": [
            {
                "pool": one.pool,
                "team": one.team,
                "before": one.before and one.before._asdict(),
                "after": one.after and one.after._asdict(),
            }
            for one in found.moved
        ],
        "out": [asdict(one) for one in found.out],
        "back": list(found.back),
        "bracket_stays": found.has_bracket,
        "remarks": fault_values(found.remarks),
    }
