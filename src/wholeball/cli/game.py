"""Has the command that explains what a game has come to."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.game.official import Official
from wholeball.kernel.identity import GameId
from wholeball.league.record import LeagueRecord
from wholeball.reports.counts_as import counts, counts_as
from wholeball.reports.game_happened import Happened
from wholeball.reports.game_questions import Asked
from wholeball.reports.game_told import ToldGame, ended_when
from wholeball.reports.game_words import GameWords, game_words, off
from wholeball.usecases.show_game import show_game


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(game)


def game(
    folder: Folder,
    name: Annotated[
        str, typer.Argument(metavar="GAME", help="The game, as timetable.csv has it.")
    ],
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
    html: Annotated[Path | None, typer.Option(help="A file for the game's page.")] = None,
    officials: Annotated[
        bool,
        typer.Option("--officials", help="With ratings, reasons and notes; not for captains."),
    ] = False,
) -> None:
    """Explain what a game has come to, with the article for everything that follows."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json):
        shown = show_game(
            record,
            GameId(name),
            reader="officials" if officials else "everybody",
            html=html,
            printed=datetime.now(UTC),
        )
    words = game_words(shown.told)
    if as_json:
        print_json(_values(shown.told, words))
    else:
        print_lines(_lines(shown.told, words, record))
        print_lines(map(str, shown.written))
    print_remarks(shown.remarks)


def _lines(told: ToldGame, words: GameWords, record: LeagueRecord) -> Iterator[str]:
    yield f"Game {told.game}, {told.home} v {told.away}"
    yield " ".join(str(one) for one in (*words.stands, words.counts_as, *words.official))
    for name, score in words.periods:
        yield f"{name}: {score}"
    if words.kicks is not None:
        yield f"Kicks from the mark: {words.kicks}"
    if words.late:
        yield from _section("Came too late", map(str, words.late))
        if told.reader == "officials":
            command = f"wholeball reopen {record.place} {told.game} --by NAME --reason TEXT"
            yield f"  If they should count: {command}"
    yield from _section("Questions", map(_question, words.questions))
    yield from _section("Yellow and red", map(str, words.cards))
    yield from _section("Off the field", map(str, words.off))
    yield from _section("Protests", map(str, words.protests))
    yield from _section("Signed", map(str, words.signatures))
    yield from _section("For officials only", map(str, words.private))
    yield from _section("What happened", map(_happened, words.happened))


def _section(heading: str, lines: Iterator[str]) -> Iterator[str]:
    found = list(lines)
    if found:
        yield ""
        yield heading
        yield from (f"  {line}" for line in found)


def _question(asked: Asked) -> str:
    answers = f" Answers: {' '.join(asked.answers)}" if asked.answers else ""
    cites = f" ({asked.ref}, {asked.title})" if asked.ref else ""
    return f"{asked.says} {asked.stands}{answers}{cites}"


def _happened(row: Happened) -> str:
    cites = f" ({row.ref}, {row.title})" if row.ref else ""
    return f"{row.shown_when}: {row.says}{cites}"


def _official(official: Official, words: GameWords) -> dict[str, object]:
    late = official.late
    return {
        "says": [str(one) for one in words.official],
        "late": None
        if late is None
        else {
            "entries": len(late.entries),
            "would_change": list(late.would_change),
            "score": list(late.state.score),
            "says": [str(one) for one in words.late],
        },
    }


def _counts_as(told: ToldGame) -> dict[str, object]:
    """Return what a game counts as by the last word about it, and by which ruling or row."""
    found, settled = counts(told), told.settled
    ruling = None if settled is None else settled.ruling
    return {
        "score": None if found.result is None else list(found.result),
        "played": None if found.played is None else list(found.played),
        "winner": found.winner,
        "says": str(counts_as(told)),
        "row": None if settled is None else settled.row,
        "ruling": None
        if ruling is None
        else {
            "number": ruling.number,
            "ruled": ruling.ruled,
            "article": ruling.ref,
            "why": ruling.why,
        },
    }


def _at(row: Happened) -> list[int | None] | None:
    """Return a moment as far as it is known: a clock that nobody wrote down is null."""
    match row.known:
        case "moment":
            return [*row.at]
        case "period":
            return [row.at.period, None]
        case "nothing" | "afterwards":
            return None


def _values(told: ToldGame, words: GameWords) -> dict[str, object]:
    """Return a game as plain values: codes and figures for programs, sentences for people."""
    state, found = told.state, counts(told)
    return {
        "game": told.game,
        "home": told.home,
        "away": told.away,
        "phase": state.phase,
        "score": list(state.score),
        "played": list(state.played),
        "by_period": [list(score) for score in state.by_period],
        "result": None if found.result is None else list(found.result),
        "winner": found.winner,
        "counts_as": _counts_as(told),
        "ending": None
        if state.ending is None
        else {
            "how": state.ending.how,
            "at": list(state.ending.at),
            "when": ended_when(told, state.ending),
            "article": state.ending.article,
            "by": state.ending.by,
        },
        "stands": [str(one) for one in (*words.stands, words.counts_as)],
        "kicks": None if words.kicks is None else str(words.kicks),
        "questions": [
            {
                "code": asked.code,
                "at": list(asked.at),
                "says": str(asked.says),
                "stands": asked.stands,
                "answers": list(asked.answers),
                "article": asked.ref,
            }
            for asked in words.questions
        ],
        "yellow_and_red": [str(one) for one in words.cards],
        "off": [str(one) for one in off(told)],
        "official": None if told.official is None else _official(told.official, words),
        "protests": [str(one) for one in words.protests],
        "signed": [str(one) for one in words.signatures],
        "officials": [str(one) for one in words.private],
        "happened": [
            {
                "at": _at(row),
                "when": row.when,
                "says": str(row.says),
                "article": row.ref,
            }
            for row in words.happened
        ],
    }
