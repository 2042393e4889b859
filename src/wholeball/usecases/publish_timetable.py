"""Publishes a timetable that was worked on, and says before whom that concerns and how."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from wholeball.files.closures import COLUMNS as CLOSURE_COLUMNS
from wholeball.files.closures import FILE as CLOSURES_FILE
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.table import MOST_BYTES
from wholeball.files.timetable import FILE
from wholeball.files.timetable_edit import ListedGame, listed_games, merged
from wholeball.files.timetable_write import with_the_old_one
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.record import LeagueRecord
from wholeball.planning.difference import Moved, told
from wholeball.planning.problem import Pairing
from wholeball.rulebook.sentence import counted
from wholeball.usecases.letters import Key, Letter, Reached, letters
from wholeball.usecases.move_game import Desk, desk_of, published_timetable, where


def who_is_told(desk: Desk, reached: Reached) -> tuple[Letter, ...]:
    """Return the message that each captain and official concerned will read."""
    league = desk.read.season.league
    says: dict[Key, list[str]] = {}
    teams = {one.team for one in league.teams}
    for moves, games in _apart(desk):
        for team, sentences in told(moves, _pairings(games)).items():
            if team in teams:
                says.setdefault(("captain", team), []).extend(sentences)
    for official, sentence in _of_officials(desk):
        says.setdefault(("official", official), []).append(sentence)
    if not desk.were:
        return letters(
            says,
            reached,
            subject=f"{league.name}: your timetable",
            lead=f"The timetable of {league.name} is out. These are your games:",
        )
    return letters(
        says,
        reached,
        subject=f"{league.name}: your timetable changed",
        lead=f"The timetable of {league.name} changed. This is what changed for you:",
    )


def _apart(desk: Desk) -> Iterator[tuple[list[Moved], Mapping[GameId, ListedGame]]]:
    """Yield moves with the pairings they are of.

    Where a name has another pairing by now, the old one is not played and the new one is new.
    """
    others = desk.others
    yield (
        [one for one in desk.moved if one.game not in others],
        {**desk.were, **desk.games},
    )
    was, now = desk.were, desk.games
    yield [Moved(game=one, was=was[one].placement, now=None) for one in sorted(others)], was
    yield [Moved(game=one, was=None, now=now[one].placement) for one in sorted(others)], now


def _pairings(games: Mapping[GameId, ListedGame]) -> dict[GameId, Pairing]:
    return {
        game: Pairing(game=game, home=TeamId(one.home), away=TeamId(one.away), round=one.round)
        for game, one in games.items()
    }


def changes_between(before: bytes, after: bytes) -> tuple[str, ...]:
    """Say in words what differs between two timetables, a sentence a game."""
    was, now = listed_games(before), listed_games(after)
    return tuple(
        _told(was.get(game), now.get(game))
        for game in dict.fromkeys((*was, *now))
        if was.get(game) != now.get(game)
    )


def on_newest(
    record: LeagueRecord, *, base: bytes, text: bytes
) -> tuple[bytes, tuple[str, ...]]:
    """Return a draft upon the timetable as it is by now, and where both changed one game."""
    now = published_timetable(record)
    found = merged(base, text, now)
    mine, theirs = listed_games(found.text), listed_games(now)
    return found.text, tuple(
        f"Game {game} was changed by both: {_told(theirs.get(game), mine.get(game))}"
        for game in found.clashes
    )


def is_newest(record: LeagueRecord, base: bytes) -> bool:
    """Tell whether a draft was begun upon the timetable that is published."""
    return listed_games(published_timetable(record)) == listed_games(base)


def publish_timetable(
    record: LeagueRecord,
    *,
    base: bytes,
    text: bytes,
    lost: Sequence[Sequence[str]] = (),
    now: datetime,
) -> None:
    """Write a draft as the timetable; the one that it replaces is kept.

    Raises:
        InputFaults: the season would not be read with it.
        WholeballError: another was published meanwhile, it changes nothing, or it breaks a rule
            that the timetable until now does not; nothing was written.
    """
    with record.held():
        if not is_newest(record, base):
            raise WholeballError(
                "Another timetable was published while you worked on yours.",
                fix="Nothing was written. Go on from the newest: your moves are kept.",
                code="conflict",
            )
        contents = {FILE: text, **_closures(record, lost)}
        desk = desk_of(record, published=base, text=text)
        _refuse_broken(desk)
        read_folder(record, instead=contents)
        local = now.astimezone(ZoneInfo(desk.read.season.league.timezone))
        record.write({**contents, **with_the_old_one(record, text, at=local)})


def _refuse_broken(desk: Desk) -> None:
    if not desk.differs:
        raise WholeballError(
            "The draft changes no game.", fix="Move one, or throw it away.", code="missing"
        )
    if desk.newly_broken:
        rules = counted(len(desk.newly_broken), "rule")
        says = " ".join(one.says for one in desk.newly_broken)
        raise WholeballError(
            f"Nothing was published: the draft breaks {rules}. {says}",
            fix="Move the games elsewhere, undo the last step, or change the rules to plan by.",
            code="broken",
        )


def _closures(record: LeagueRecord, lost: Sequence[Sequence[str]]) -> dict[str, bytes]:
    if not lost:
        return {}
    data = record.read(CLOSURES_FILE, MOST_BYTES) if record.has(CLOSURES_FILE) else b""
    rows = (tuple(row) for row in lost)
    return {CLOSURES_FILE: with_rows(data, rows, columns=CLOSURE_COLUMNS)}


def _of_officials(desk: Desk) -> Iterator[tuple[str, str]]:
    for found, games in _apart(desk):
        moves = {one.game: one for one in found}
        for on_crew in desk.read.crews:
            if on_crew.game in moves:
                one = games[on_crew.game]
                what = (
                    f"Game {one.game}, {one.home} v {one.away}, where you are {on_crew.role},"
                )
                yield on_crew.official, f"{what} {_moves(moves[on_crew.game])}"


def _moves(one: Moved) -> str:
    if one.now is None:
        return "is not played."
    if one.was is None:
        return f"is new: {where(one.now)}."
    return f"moves from {where(one.was)} to {where(one.now)}."


def _told(was: ListedGame | None, now: ListedGame | None) -> str:
    one = now or was
    if one is None:
        return ""
    name = f"Game {one.game}, {one.home} v {one.away},"
    if now is None:
        return f"{name} is not in it."
    if was is None:
        return f"{name} is new: {where(now.placement)}."
    if was.sides != now.sides:
        return f"{name} is new: {where(now.placement)}. Until now {was.home} v {was.away} had that name."
    if was.placement == now.placement:
        return f"{name} stays where it was; its round or stage is another."
    return f"{name} moves from {where(was.placement)} to {where(now.placement)}."
