"""Calls off a night, a site or a field in one step, and takes it back with a correction.

It passes on what people decided. Whether anybody may play is theirs to say, by local policy.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from typing import Final
from zoneinfo import ZoneInfo

from wholeball.files.any_cell import neutral
from wholeball.files.closures_write import CALLED_OFF
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.more_rows import with_rows
from wholeball.files.notices import COLUMNS, FILE
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.league.notice import Notice, NoticeState
from wholeball.league.place import sites_of
from wholeball.league.record import LeagueRecord
from wholeball.planning.days import clock, day
from wholeball.usecases.called_off_places import with_called_off
from wholeball.usecases.letters import Key, Letter, Reached, letters
from wholeball.usecases.tonight import Listed, Told, Tonight, line, tonight

_HELD: Final[Mapping[str, NoticeState]] = {"off": "off", "later": "later"}
_TOLD: Final = {"off": "is off", "on": "is on", "later": "waits"}
_ELSEWHERE: Final = (
    "Your game that was meant has another place or has a result by now, and keeps it."
)
_AGAIN: Final = {"off": "is off", "on": "is on again", "later": "waits again"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """What would be said of a night: the games it is about, who is told, and the public line."""

    notices: tuple[Notice, ...]
    games: tuple[Listed, ...]
    letters: tuple[Letter, ...]
    public: str
    places: tuple[str, ...] = ()


def place_of(notice: Notice) -> str:
    """Say what a word is about."""
    return notice.field or notice.site or "every field"


def word_on(record: LeagueRecord, notice: Notice, reached: Reached, *, now: datetime) -> Word:
    """Return what a word would do, before anything is written or sent.

    Raises:
        InputFaults: the season cannot be read, or not with it.
        WholeballError: the night is gone by.
    """
    read = read_folder(record, instead=_contents(record, [notice], now))
    games = _games(read, notice)
    local = _local(read, now)
    _refuse_past(notice.night, local.date())
    subject = f"{read.season.league.name}: {_subject(notice)}"
    lead = f"{day(notice.night)}, {place_of(notice)}. {notice.says}".strip()
    says = _says(read, games, lambda _: _sentence(notice))
    return _word(
        read, (notice,), games, letters(says, reached, subject=subject, lead=lead), local
    )


def games_off(record: LeagueRecord, notice: Notice) -> tuple[Listed, ...]:
    """Return the games of a night that a word which calls off leaves without a place by now.

    Raises:
        InputFaults: the season cannot be read.
    """
    read = read_folder(record)
    found = tonight(read, notice.night)
    off = {one.game for one, told in found.left if told.word == "off"}
    there = _there(found, notice) if notice.state == "off" else ()
    return tuple(one for one in there if one.game in off)


def say_word(record: LeagueRecord, notices: Sequence[Notice], *, now: datetime) -> None:
    """Write words as the last that the public is told of their places; what is off is closed.

    Raises:
        InputFaults: the season would not be read with them; nothing was written.
    """
    with record.held():
        contents = _contents(record, notices, now)
        read_folder(record, instead=contents)
        record.write(contents)


def correction_of(
    record: LeagueRecord,
    notice: Notice,
    reached: Reached,
    *,
    before: Iterable[Letter],
    now: datetime,
) -> Word:
    """Return what takes a word back: all is as it was before it, and the same people are told.

    `before` is what they were told. A game that has another place since, or a result, keeps it.

    Raises:
        InputFaults: the season cannot be read.
        WholeballError: it is not the last word on its place, or the night is gone by.
    """
    read = read_folder(record)
    local = _local(read, now)
    _refuse_past(notice.night, local.date())
    games = _games(read, notice)
    earlier = _without(read, notice)
    closures = tuple(
        one
        for one in read.planning.closures
        if (one.why, one.first) != (CALLED_OFF, notice.night)
    )
    planning = replace(read.planning, notices=earlier, closures=closures)
    found = tonight(replace(read, planning=planning), notice.night)
    back = tuple(_back(notice, _there(found, notice), found.said))
    subject = f"{read.season.league.name}: correction for {day(notice.night)}"
    lead = f"Correction: {day(notice.night)}, {place_of(notice)}. What you were told is taken back."
    says = _says(read, games, lambda one: _corrected(found.said[one.game]))
    sent = letters(says, reached, subject=subject, lead=lead)
    after = read_folder(record, instead=_contents(record, back, now))
    sent = (*sent, *_to_the_rest(before, sent, subject=subject, lead=lead))
    return _word(after, back, games, sent, local)


def _to_the_rest(
    before: Iterable[Letter], sent: Iterable[Letter], *, subject: str, lead: str
) -> Iterator[Letter]:
    """Yield what those read who were told, and none of whose games is there any more."""
    known = {one.who for one in sent}
    for one in before:
        if one.who not in known:
            yield replace(one, subject=subject, body=f"{lead}\n\n{_ELSEWHERE}")


def _word(
    read: SeasonFolder,
    notices: tuple[Notice, ...],
    games: tuple[Listed, ...],
    sent: tuple[Letter, ...],
    local: datetime,
) -> Word:
    night = notices[0].night
    told = line(tonight(read, night), local)
    says = told.says if night == local.date() else told.says.replace("Tonight", day(night), 1)
    places = tuple(f"{one.place}: {one.says}" for one in told.places)
    return Word(notices=notices, games=games, letters=sent, public=says, places=places)


def _games(read: SeasonFolder, notice: Notice) -> tuple[Listed, ...]:
    """Return the games that a word is about: those that are still to be played there."""
    found = tonight(read, notice.night)
    left = {one.game for one, _ in found.left}
    return tuple(one for one in _there(found, notice) if one.game in left)


def _there(found: Tonight, notice: Notice) -> tuple[Listed, ...]:
    """Return the games of a night at the place of a word, those that have a result too."""
    return tuple(
        one for one, _ in found.games if notice.covers(one.field, found.sites.get(one.field))
    )


def _says(
    read: SeasonFolder, games: Iterable[Listed], of: Callable[[Listed], str]
) -> dict[Key, list[str]]:
    """Return what captains and officials of some games are told, and nobody else."""
    says: dict[Key, list[str]] = {}
    teams = {one.team for one in read.season.league.teams}
    for one in games:
        what = f"Game {one.game}, {one.home} v {one.away}, {one.start:%H:%M} on {one.field}, {of(one)}"
        for team in (one.home, one.away):
            if isinstance(team, str) and team in teams:
                says.setdefault(("captain", team), []).append(what)
        for official in _crew(read, one):
            says.setdefault(("official", official), []).append(what)
    return says


def _crew(read: SeasonFolder, game: Listed) -> Iterator[str]:
    """Yield the officials of a game on its night, each once."""
    named = (
        one.official
        for one in read.crews
        if one.game == game.game and one.day in (None, game.day)
    )
    yield from dict.fromkeys(named)


def _sentence(notice: Notice) -> str:
    if notice.next_word is not None:
        return f"waits: next word at {clock(notice.next_word)}."
    return f"{_TOLD[notice.state]}."


def _corrected(told: Told) -> str:
    if told.word == "later" and told.next_word is not None:
        return f"waits: next word at {clock(told.next_word)}."
    return f"{_AGAIN['on' if told.word == 'none' else told.word]}."


def _subject(notice: Notice) -> str:
    what = {"off": "off", "on": "on", "later": "next word to come"}[notice.state]
    return f"{day(notice.night)}, {place_of(notice)}: {what}"


def _back(
    notice: Notice, games: tuple[Listed, ...], told: dict[GameId, Told]
) -> Iterator[Notice]:
    """Yield the words that make everything as it was: one, or one for each field."""
    words = {one.field: told[one.game] for one in games} or {"": Told("on")}
    if len(set(words.values())) == 1:
        yield _as(notice, next(iter(words.values())), field=notice.field, site=notice.site)
        return
    for field, word in words.items():
        yield _as(notice, word, field=field, site=None)


def _as(notice: Notice, told: Told, *, field: str | None, site: object) -> Notice:
    return Notice(
        night=notice.night,
        state=_HELD.get(told.word, "on"),
        site=notice.site if site is not None else None,
        field=field,
        next_word=told.next_word,
        says=told.more,
    )


def _without(read: SeasonFolder, notice: Notice) -> tuple[Notice, ...]:
    """Return the words before one, which must be the last on its place."""
    every = [*read.planning.notices]
    sites = sites_of(read.fields)
    mine = next((at for at in reversed(range(len(every))) if every[at] == notice), None)
    fields = [one.field for one in _there(tonight(read, notice.night), notice)]
    later = [] if mine is None else every[mine + 1 :]
    is_last = mine is not None and not any(
        one.night == notice.night
        and any(one.covers(field, sites.get(field)) for field in fields)
        for one in later
    )
    if not is_last:
        raise WholeballError(
            f"Another word was given on {place_of(notice)} since then.",
            fix="Nothing was changed or sent. Say a new word instead.",
            code="conflict",
        )
    return (*every[:mine], *later)


def _contents(
    record: LeagueRecord, notices: Sequence[Notice], now: datetime
) -> dict[str, bytes]:
    """Return the files that words are written into."""
    data = _with(record, notices)
    read = read_folder(record, instead={FILE: data})
    night, local = notices[0].night, _local(read, now)
    return {FILE: data, **with_called_off(record, read, night, now=local)}


def _with(record: LeagueRecord, notices: Iterable[Notice]) -> bytes:
    data = record.read(FILE, MOST_BYTES) if record.has(FILE) else b""
    return with_rows(data, map(_cells, notices), columns=COLUMNS)


def _cells(one: Notice) -> tuple[str, ...]:
    at: time | None = one.next_word
    return (
        f"{one.night}",
        neutral(one.site or ""),
        neutral(one.field or ""),
        one.state,
        "" if at is None else clock(at),
        neutral(one.says),
    )


def _refuse_past(night: date, today: date) -> None:
    if night < today:
        raise WholeballError(
            f"{day(night)} is gone by.",
            fix="Nothing was changed or sent. Choose a night from today on.",
            code="date",
        )


def _local(read: SeasonFolder, now: datetime) -> datetime:
    return now.astimezone(ZoneInfo(read.season.league.timezone)).replace(tzinfo=None)
