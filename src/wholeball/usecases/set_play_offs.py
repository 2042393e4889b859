"""Sets the play-off games of a plan: takes those of the bracket, adds, changes and drops one."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import log_name
from wholeball.files.open_sides import open_side
from wholeball.files.planning_toml import FILE
from wholeball.files.play_offs_edit import with_play_offs
from wholeball.files.problem import played_games, problem_of
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.fixture import From
from wholeball.league.record import LeagueRecord
from wholeball.usecases.bracket_offered import brackets_offered
from wholeball.usecases.named_rows import listed_some, refuse_gone, text_of

COLUMNS: Final = ("game", "round", "home", "away")
_WHAT: Final = "This game"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayOffTold:
    """What somebody says of a play-off game: its sides as "seed 1", "winner of P1"."""

    game: str
    round: int
    home: str
    away: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Game:
    """A game as it is to stand; `was` is its place in planning.toml, None where it is new."""

    was: int | None
    told: PlayOffTold


def play_offs_of(read: SeasonFolder) -> tuple[PlayOffTold, ...]:
    """Return the play-off games of planning.toml in their order."""
    said = read.planning.said
    return tuple(
        PlayOffTold(game=one.game, round=one.round, home=one.home, away=one.away)
        for one in (() if said is None else said.entry.play_offs)
    )


def bracket_games(read: SeasonFolder, rounds: Sequence[int]) -> tuple[PlayOffTold, ...]:
    """Return the games of all brackets, those of their first round of the first of `rounds`."""
    return tuple(
        PlayOffTold(
            game=one.game, round=rounds[one.round - 1], home=f"{one.home}", away=f"{one.away}"
        )
        for offered in brackets_offered(read)
        for one in offered.games
    )


def take_bracket(record: LeagueRecord, rounds: Sequence[int]) -> int:
    """Let the plan have the games of the brackets and no others; return how many they are.

    `rounds` has the number of each round of the brackets.

    Raises:
        InputFaults: the season would have a fault; nothing was written.
        WholeballError: there is no bracket, or not of so many rounds; a game that was played
            would be another; or it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        every = [one.round for each in brackets_offered(read) for one in each.games]
        if not every or max(every) != len(rounds):
            raise WholeballError(
                "The bracket is not what it was any more.",
                fix="Nothing was changed. Look at what it is now.",
                code="gone",
            )
        places = {one.game: at for at, one in enumerate(play_offs_of(read))}
        wanted = bracket_games(read, rounds)
        _keep(record, read, [_Game(was=places.get(one.game), told=one) for one in wanted])
    return len(wanted)


def add_play_off(record: LeagueRecord, told: PlayOffTold) -> None:
    """Add a game, after those that there are.

    Raises:
        InputFaults: its name or a side is another's, or no game or bracket brings the side;
            nothing was written.
        WholeballError: it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        _keep(record, read, [*_held(read), _Game(was=None, told=_plain(told))], about=told)


def change_play_off(record: LeagueRecord, game: str, told: PlayOffTold) -> None:
    """Change a game; sides that it brings follow another name.

    Raises:
        InputFaults: as for `add_play_off`; nothing was written.
        WholeballError: it is not there any more, has been played, or cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(game, [one.game for one in play_offs_of(read)], what=_WHAT)
        told = _plain(told)
        others = [
            replace(one, told=told if one.told.game == game else _after(one.told, game, told))
            for one in _held(read)
        ]
        _keep(record, read, others, about=told)


def drop_play_off(record: LeagueRecord, game: str) -> None:
    """Take a game out.

    Raises:
        InputFaults: another waits for it; nothing was written.
        WholeballError: it is not there any more, has been played, or cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(game, [one.game for one in play_offs_of(read)], what=_WHAT)
        waiting = tuple(one.game for one in play_offs_of(read) if game in _brought_by(one))
        if waiting:
            raise WholeballError(
                f"{listed_some(waiting)} {'waits' if len(waiting) == 1 else 'wait'} for {game}.",
                fix="Nothing was changed. Give it another side, or take it out first.",
                code="in_use",
            )
        _keep(record, read, [one for one in _held(read) if one.told.game != game])


def _held(read: SeasonFolder) -> list[_Game]:
    return [_Game(was=at, told=one) for at, one in enumerate(play_offs_of(read))]


def _plain(told: PlayOffTold) -> PlayOffTold:
    """Return a game with its sides as files have them, whatever their capitals and spaces."""
    home, away = (f"{open_side(side) or side}" for side in (told.home, told.away))
    return replace(told, home=home, away=away)


def _after(one: PlayOffTold, was: str, now: PlayOffTold) -> PlayOffTold:
    """Return a game that names another by the name that it has now."""
    home, away = (_renamed(side, was, now.game) for side in (one.home, one.away))
    return replace(one, home=home, away=away)


def _renamed(text: str, was: str, now: str) -> str:
    side = open_side(text)
    if isinstance(side, From) and side.game == was != now:
        return f"{replace(side, game=GameId(now))}"
    return text


def _brought_by(one: PlayOffTold) -> set[str]:
    sides = (open_side(side) for side in (one.home, one.away))
    return {side.game for side in sides if isinstance(side, From)}


def _keep(
    record: LeagueRecord,
    read: SeasonFolder,
    games: Iterable[_Game],
    *,
    about: PlayOffTold | None = None,
) -> None:
    """Write the games where the season stands with them; faults `about` one name its columns."""
    wanted = _in_order(list(games))
    _refuse_played(read, [one.told for one in wanted])
    if about is not None:
        _refuse_name(about.game)
    cells = [(one.was, _cells(one.told)) for one in wanted]
    text = with_play_offs(text_of(record, FILE), cells)
    try:
        after = read_folder(record, instead={FILE: text})
        _refuse_doubts(read, after)
    except InputFaults as refused:
        raise InputFaults(_beside(about, one) for one in refused.faults) from refused
    _refuse_question(read, after)
    record.write({FILE: text})


def _cells(told: PlayOffTold) -> Mapping[str, object]:
    return {column: getattr(told, column) for column in COLUMNS}


def _in_order(games: list[_Game]) -> list[_Game]:
    """Return each game after those that bring its sides; those that wait for themselves last."""
    waiting = list(games)
    ordered: list[_Game] = []
    while waiting:
        names = {one.told.game for one in waiting}
        ready = next((one for one in waiting if not _brought_by(one.told) & names), None)
        if ready is None:
            return [*ordered, *waiting]
        ordered.append(ready)
        waiting.remove(ready)
    return ordered


def _refuse_played(read: SeasonFolder, wanted: Sequence[PlayOffTold]) -> None:
    """Refuse to change or take out a game that has a result or an entry."""
    played = played_games(read)
    changed = [one for one in play_offs_of(read) if one not in wanted and one.game in played]
    if changed:
        names = listed_some(tuple(one.game for one in changed))
        raise WholeballError(
            f"{names} {'has' if len(changed) == 1 else 'have'} been played.",
            fix="Nothing was changed. What has been played stays as it is.",
            code="played",
        )


def _refuse_name(game: str) -> None:
    """Refuse a name under which no scorecard could be kept."""
    try:
        log_name(game)
    except WholeballError as refused:
        place = Place(file=FILE, column="game")
        fault = Fault(
            code=refused.code, place=place, says=refused.says, value=game, cure=refused.fix
        )
        raise InputFaults([fault]) from refused


def _refuse_doubts(before: SeasonFolder, after: SeasonFolder) -> None:
    """Refuse what the reader of the season would doubt of its play-offs."""
    known = {one.says for one in _doubts(before)}
    new = [replace(one, level="fault") for one in _doubts(after) if one.says not in known]
    if new:
        raise InputFaults(new)


def _doubts(read: SeasonFolder) -> list[Fault]:
    return [one for one in read.remarks if one.place.file == FILE]


def _beside(about: PlayOffTold | None, fault: Fault) -> Fault:
    """Return a fault with the column that has its value in the game that was told."""
    if about is None or fault.place.file != FILE:
        return fault
    has = {getattr(about, column): column for column in ("away", "home", "game")}
    column = has.get(fault.value or "")
    return replace(fault, place=replace(fault.place, column=column or fault.place.column))


def _refuse_question(before: SeasonFolder, after: SeasonFolder) -> None:
    """Refuse a change after which a plan could not be asked for any more, as it could before."""
    try:
        problem_of(before, as_planned=True)
    except WholeballError:
        return
    try:
        problem_of(after, as_planned=True)
    except InputFaults:
        raise
    except WholeballError as refused:
        raise WholeballError(
            refused.says,
            fix="Nothing was changed. Once games have been played, the play-offs that the "
            "timetable has stay as they are there.",
            code=refused.code,
        ) from refused
