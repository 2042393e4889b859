"""Reads and writes reports of incidents: one private text a report, by who wrote it."""

import json
import re
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Final

from wholeball.files.game_log import log_name
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.text import is_text, unreadable
from wholeball.kernel.toml import MOST_BYTES, read_toml
from wholeball.league.record import LeagueRecord

FOLDER: Final = "reports"
MOST_WORDS: Final = 5_000
_NAME: Final = re.compile(r"(.+)\.[1-9][0-9]{0,4}\.toml")


@dataclass(frozen=True, slots=True, kw_only=True)
class IncidentReport:
    """What one person of the staff wrote about a game; `by` is the name that crews have.

    `at` is when it was written, by the clocks of the season.
    """

    game: GameId
    number: int
    by: str
    at: str
    says: str


def read_reports(record: LeagueRecord, game: GameId) -> tuple[IncidentReport, ...]:
    """Return the reports about a game in the order in which they were written.

    An empty text is what is left of one that was taken back, and is none.

    Raises:
        InputFaults: one of them cannot be read.
    """
    found = (_read(record, game, number) for number in report_numbers(record, game))
    return tuple(one for one in found if one is not None)


def report_numbers(record: LeagueRecord, game: GameId) -> tuple[int, ...]:
    """Return the numbers under which something stands about a game, in their order."""
    named = re.compile(rf"{re.escape(_stem(game))}\.([1-9][0-9]{{0,4}})\.toml")
    found = (named.fullmatch(name) for name in record.names(FOLDER))
    return tuple(sorted(int(one[1]) for one in found if one is not None))


def reported_games(record: LeagueRecord) -> tuple[GameId, ...]:
    """Return the games about which something stands among the reports, each once."""
    named = (_NAME.fullmatch(name) for name in record.names(FOLDER))
    return tuple(sorted({GameId(one[1]) for one in named if one is not None}))


def games_reported_by(record: LeagueRecord, by: str) -> tuple[GameId, ...]:
    """Return the games about which somebody wrote, each once; capitals tell no two apart.

    Raises:
        InputFaults: a report cannot be read.
    """
    return tuple(
        game
        for game in reported_games(record)
        if any(one.by.casefold() == by.casefold() for one in read_reports(record, game))
    )


def cleaned(says: str) -> str:
    """Return the words of a report as they are kept: without spaces around, lines by one sign."""
    return says.replace("\r\n", "\n").strip()


def new_report(report: IncidentReport) -> tuple[str, bytes]:
    """Return the name and the text of a report.

    Raises:
        WholeballError: it says nothing, too much, or what nobody can see.
    """
    says = cleaned(report.says)
    hidden = next((unreadable(line) for line in says.split("\n") if unreadable(line)), None)
    if not 0 < len(says) <= MOST_WORDS or hidden is not None or not is_text(says):
        raise WholeballError(
            "The report does not do as it stands.",
            fix=f"Write 1 to {MOST_WORDS:,} characters that people can see.",
            code="range",
        )
    values = {"by": report.by, "at": report.at, "says": says}
    lines = ["schema = 1", *(f"{key} = {_text(value)}" for key, value in values.items())]
    return _name(report.game, report.number), "\n".join((*lines, "")).encode()


def _name(game: GameId, number: int) -> str:
    return f"{FOLDER}/{_stem(game)}.{number}.toml"


def _stem(game: GameId) -> str:
    return PurePosixPath(log_name(game)).stem


def _read(record: LeagueRecord, game: GameId, number: int) -> IncidentReport | None:
    name = _name(game, number)
    data = record.read(name, MOST_BYTES)
    if not data.strip():
        return None
    said = read_toml(data, file=name)
    return IncidentReport(
        game=game,
        number=number,
        by=str(said.get("by", "")),
        at=str(said.get("at", "")),
        says=str(said.get("says", "")),
    )


def _text(value: str) -> str:
    """Return a text as TOML: its short escapes are those of JSON.

    Source: TOML 1.0.0, "String".
    """
    return json.dumps(value, ensure_ascii=False)
