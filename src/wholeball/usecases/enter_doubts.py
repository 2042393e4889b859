"""Finds what is doubtful about a scorecard that was entered; it stops nothing."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from wholeball.files.game_log import log_name
from wholeball.files.rosters import FILE as ROSTERS_FILE
from wholeball.game.envelope import Entry
from wholeball.game.event import Event
from wholeball.game.happenings import (
    Cautioned,
    CheckedIn,
    Goal,
    KickTaken,
    PeriodStarted,
    SentOff,
)
from wholeball.game.official import official
from wholeball.game.paper_entries import DEVICE
from wholeball.game.rules import GameRules
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId, Side, TeamId
from wholeball.league.player import Rosters
from wholeball.league.record import LeagueRecord

_SAID: Final = ("late", "not_certified", "not_ended")
"""Remarks on a game that a command about it does not repeat."""


def about(remarks: Iterable[Fault], game: GameId) -> tuple[Fault, ...]:
    """Return the remarks that concern a game, but for what is said of it anyhow."""
    return tuple(
        one
        for one in remarks
        if (one.place.file == log_name(game) or one.value == game) and one.code not in _SAID
    )


def two_sources(events: Iterable[Event], game: GameId, record: LeagueRecord) -> Iterator[Fault]:
    """Doubt a scorecard where devices on the field have recorded the same game."""
    others = {
        one.order[2]
        for one in events
        if one.order[2] != DEVICE and isinstance(one.what, Goal | PeriodStarted)
    }
    if others:
        yield _doubt(
            "two_sources",
            log_name(game),
            f"{', '.join(sorted(others))} recorded this game too, and its goals count beside "
            "the scorecard's.",
            f"Take one of them back; the scorecard: {record.way('take_back', game=game)}",
        )


def came_late(
    entries: Sequence[Entry], game: GameId, rules: GameRules, record: LeagueRecord
) -> Iterator[Fault]:
    """Doubt what is entered after the result was made official, which it does not change."""
    if official(entries, rules) is not None:
        yield _doubt(
            "late",
            log_name(game),
            "the result was certified before, and what is entered now does not change it.",
            f"If it should: {record.way('reopen', game=game)}",
        )


def strangers(
    new: Iterable[Event],
    rosters: Rosters,
    teams: dict[Side, TeamId],
    *,
    before: Iterable[Event] = (),
) -> Iterator[Fault]:
    """Doubt each number or name of a scorecard that its team's roster does not have, once.

    A team that lists no numbers is not asked about them, and a team official has none. A number
    that was given out at the gate is known by it, also where it stood in the log `before`.
    """
    events = tuple(new)
    yield from _unknown_names(events, rosters, teams)
    given = {
        (one.what.side, one.what.number)
        for one in (*before, *events)
        if isinstance(one.what, CheckedIn) and one.what.player
    }
    known = {
        side: {player.number for player in rosters.get(team, ())} - {None}
        for side, team in teams.items()
    }
    for side, number in dict.fromkeys(filter(None, map(_wearer, events))):
        if known[side] and number not in known[side] and (side, number) not in given:
            yield _doubt(
                "unknown_player",
                ROSTERS_FILE,
                f"{teams[side]} has no number {number}; it is kept as the scorecard has it.",
                "Compare with the scorecard, or add the player.",
            )


def _unknown_names(
    events: Iterable[Event], rosters: Rosters, teams: dict[Side, TeamId]
) -> Iterator[Fault]:
    """Doubt whoever was checked in by a name or code that no roster has."""
    codes = {one.person for players in rosters.values() for one in players}
    for one in events:
        if not isinstance(one.what, CheckedIn) or not one.what.player:
            continue
        team, name = teams[one.what.side], one.what.player
        players = rosters.get(team, ())
        names = {player.name.casefold() for player in players}
        if players and name not in codes and name.casefold() not in names:
            yield _doubt(
                "unknown_player",
                ROSTERS_FILE,
                f"{team} has nobody called {name}; it is kept as the scorecard has it.",
                "Write the name as rosters.csv has it, or add the player.",
            )


def _wearer(event: Event) -> tuple[Side, int] | None:
    match event.what:
        case Goal(side=side, number=int(number), own=own):
            other: Side = "away" if side == "home" else "home"
            return (other if own else side), number
        case Cautioned() | SentOff() if event.what.to == "team_official":
            return None
        case CheckedIn(side=side, number=int(number), player=""):
            return side, number
        case Cautioned(side=side, number=int(number)) | SentOff(side=side, number=int(number)):
            return side, number
        case KickTaken(side=side, number=int(number)):
            return side, number
        case _:
            return None


def _doubt(code: str, file: str, says: str, cure: str) -> Fault:
    return Fault(code=code, place=Place(file=file), says=says, cure=cure, level="doubt")
