"""Tells what the public may know of tonight: on, off, or when the next word comes.

It is computed from facts alone: the games of the timetable, what is closed, and what the league
has said of the night. It never tells that a field is safe.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Final, Literal, TypeAlias

from wholeball.files.closures import Closure
from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import GameId, SiteId
from wholeball.league.fixture import Fixture, OpenFixture, of_night
from wholeball.league.notice import Notice
from wholeball.league.place import sites_of
from wholeball.reports.noticeboard_page import (
    GameTonight,
    PlaceTold,
    TonightTold,
    Word,
)
from wholeball.rulebook.sentence import counted
from wholeball.usecases.settled import settled
from wholeball.usecases.show_game import score_in

Listed: TypeAlias = Fixture | OpenFixture
_WORDS: Final[dict[Word, str]] = {
    "on": "on",
    "off": "off",
    "later": "later",
    "over": "",
    "none": "",
}


@dataclass(frozen=True, slots=True)
class Told:
    """What holds at a place: a word, the time of the next one where it is to come, and more."""

    word: Word
    next_word: time | None = None
    more: str = ""

    def says(self, at: time) -> str:
        """Return the word as it is read at a time of the day: a promise that lapsed is told."""
        if self.word != "later" or self.next_word is None:
            return _WORDS[self.word]
        if at < self.next_word:
            return f"next word at {self.next_word:%H:%M}"
        return f"next word was due at {self.next_word:%H:%M}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tonight:
    """A night of a season as it stands: each game with what holds for it.

    A game that has a result is over, whatever was said of its field, which is in `said`;
    `scores` has the result, and `uncertified` whether that is to be certified yet.
    """

    night: date
    games: tuple[tuple[Listed, Told], ...]
    sites: dict[str, SiteId]
    said: dict[GameId, Told]
    scores: dict[GameId, str]
    uncertified: frozenset[GameId]

    @property
    def left(self) -> tuple[tuple[Listed, Told], ...]:
        """The games that are still to be played."""
        return tuple((one, told) for one, told in self.games if told.word != "over")

    @property
    def off(self) -> frozenset[GameId]:
        """The games that are off."""
        return frozenset(one.game for one, told in self.games if told.word == "off")

    @property
    def told(self) -> set[Told]:
        """What holds somewhere tonight where a game is still to be played."""
        return {told for _, told in self.left}


def tonight(read: SeasonFolder, night: date) -> Tonight:
    """Return what holds for each game of a night, by start and field."""
    sites = sites_of(read.fields)
    every: tuple[Listed, ...] = (*read.timetable, *read.open_fixtures)
    games = of_night(every, night)
    notices = [one for one in read.planning.notices if one.night == night]
    closures = [one for one in read.planning.closures if one.first <= night <= one.last]
    results = settled(read)
    said = {one.game: _told(one, sites.get(one.field), notices, closures) for one in games}
    return Tonight(
        night=night,
        games=tuple(
            (one, Told("over") if one.game in results else said[one.game]) for one in games
        ),
        sites=sites,
        said=said,
        scores={one.game: score_in(read, one.game) for one in games if one.game in results},
        uncertified=frozenset(
            one.game for one in games if results.get(one.game) == "not certified"
        ),
    )


def promised(read: SeasonFolder, night: date) -> tuple[time, ...]:
    """Return the times of a night at which its line changes by the clock alone."""
    notices = (one for one in read.planning.notices if one.night == night)
    return tuple(sorted({one.next_word for one in notices if one.next_word is not None}))


def not_on(found: Tonight, at: time) -> dict[GameId, tuple[Literal["off", "on"], str]]:
    """Return the games that are off, or wait for the next word: where the ball is, and the word."""
    return {
        one.game: ("off" if told.word == "off" else "on", told.says(at))
        for one, told in found.left
        if told.word in ("off", "later")
    }


def line(found: Tonight, now: datetime) -> TonightTold:
    """Return the line that everybody reads first; `now` is local."""
    at = now.time()
    if not found.games:
        return TonightTold(word="none", says="No game tonight.")
    if not found.left:
        return TonightTold(word="over", says="Tonight: every game has a result.")
    if len(found.told) > 1:
        return TonightTold(word="later", says=_mixed(found, at), places=_places(found, at))
    (told,) = found.told
    is_whole = len(found.left) == len(found.games)
    return TonightTold(
        word=told.word,
        says=_whole(told, found, at) if is_whole else _mixed(found, at),
        more=(told.more,) if told.more else (),
    )


def games_told(
    found: Tonight, now: datetime, hrefs: Mapping[GameId, str]
) -> tuple[GameTonight, ...]:
    """Return the games of tonight; `hrefs` are the pages of games that have one."""
    return tuple(
        GameTonight(
            at=f"{one.start:%H:%M}",
            home=f"{one.home}",
            away=f"{one.away}",
            field=one.field,
            word=told.word,
            says="not certified" if one.game in found.uncertified else told.says(now.time()),
            href=hrefs.get(one.game, ""),
            score=found.scores.get(one.game, ""),
        )
        for one, told in found.games
    )


def _whole(told: Told, found: Tonight, at: time) -> str:
    match told.word:
        case "on":
            games = counted(len(found.games), "game")
            first = min(one.start for one, _ in found.games)
            return f"Tonight is on: {games}, the first at {first:%H:%M}."
        case "off":
            return "Tonight is off."
        case _:
            return f"Tonight: {told.says(at)}."


def _mixed(found: Tonight, at: time) -> str:
    return f"Tonight: {counts(found.games, at)}."


def counts(games: Iterable[tuple[Listed, Told]], at: time) -> str:
    """Say how many of some games are on, off, to be told of, and over."""
    every = [told for _, told in games]
    words = Counter(told.word for told in every)
    times = sorted({told.says(at) for told in every if told.word == "later"})
    parts = (
        (words["on"], " on"),
        (words["off"], " off"),
        (words["later"], f": {', '.join(times)}"),
        (words["over"], " with a result"),
    )
    return "; ".join(f"{counted(number, 'game')}{word}" for number, word in parts if number)


def _places(found: Tonight, at: time) -> tuple[PlaceTold, ...]:
    """Return what holds place by place: a site in one line where all of it has one word."""
    by_site: dict[str, list[tuple[str, Told]]] = {}
    for one, told in found.left:
        by_site.setdefault(found.sites.get(one.field, one.field), []).append((one.field, told))
    lines: list[PlaceTold] = []
    for site, fields in by_site.items():
        if len({told for _, told in fields}) == 1:
            lines.append(_place(site, fields[0][1], at))
        else:
            lines += [_place(field, told, at) for field, told in dict.fromkeys(fields)]
    return tuple(lines)


def _place(place: str, told: Told, at: time) -> PlaceTold:
    return PlaceTold(place=place, word=told.word, says=told.says(at), more=told.more)


def _told(
    one: Listed, site: SiteId | None, notices: Iterable[Notice], closures: Iterable[Closure]
) -> Told:
    """Return what holds for a game: what is closed is off; else the last word about its field."""
    last = next((word for word in reversed([*notices]) if word.covers(one.field, site)), None)
    if any(_closes(closure, one, site) for closure in closures):
        more = last.says if last is not None and last.state == "off" else ""
        return Told("off", more=more)
    if last is None:
        return Told("on")
    return Told(last.state, last.next_word, last.says)


def _closes(closure: Closure, one: Listed, site: SiteId | None) -> bool:
    """Tell whether a closure takes the start of a game."""
    if closure.field not in (None, one.field) or closure.site not in (None, site):
        return False
    begins, ends = closure.begins or time.min, closure.ends
    return begins <= one.start and (ends is None or one.start < ends)
