"""Writes a game down as two phones at the field do: entries sealed into a chain for each."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from random import Random
from typing import Final, NamedTuple

from demo.account import Account
from demo.house import HOUSE
from demo.plot import Kind
from demo.world import SIDES, Person, Side, other
from wholeball.game import happenings as was
from wholeball.game.envelope import Draft, Entry, heads, next_clock, seal
from wholeball.game.event import BEFORE, KICKS, Moment
from wholeball.game.happenings import Happening

_RAGGED: Final = 98
"""A number typed by mistake."""
LATE_AT: Final = Moment(2, 655)


class Noted(NamedTuple):
    """One thing written down: by which of the two phones, at which moment."""

    phone: int
    at: Moment
    what: Happening


@dataclass(slots=True, kw_only=True)
class Phones:
    """The two phones of a crew at one game, and all that has been sealed of it so far."""

    game: str
    rulebook: str
    names: tuple[str, str]
    crew: tuple[str, str]
    wall: int
    rng: Random
    entries: list[Entry] = field(default_factory=list)

    def note(self, one: Noted) -> Entry:
        """Seal one thing as the next entry of a phone; a minute in four it hears the other."""
        dev = self.names[one.phone]
        self.wall += 1_000 + self.rng.randrange(20_000)
        own = [entry for entry in self.entries if entry.said.dev == dev]
        heard = self.entries if self.rng.random() < 0.25 else own
        draft = Draft(
            id=_uuid7(self.wall, self.rng),
            game=self.game,
            dev=dev,
            hlc=next_clock(self.wall, (entry.said.hlc for entry in heard)),
            wall=self.wall,
            mono=self.wall % 10_000_000,
            at=one.at,
            who=self.crew[one.phone],
            role=("lead", "trail")[one.phone],
            what=one.what,
            seen=heads(heard),
            rb=self.rulebook,
        )
        entry = seal(draft, after=own[-1] if own else None)
        self.entries.append(entry)
        return entry


def phones(account: Account, rulebook: str, rng: Random, *, again: bool = False) -> Phones:
    """Return the phones of a game's crew, or of the other crew that resumes it `again`."""
    listed = account.listed
    start = datetime.combine(listed.day, listed.start, tzinfo=UTC)
    later = 3 * 86_400_000 if again else 0
    return Phones(
        game=listed.game,
        rulebook=rulebook,
        names=("lead-2", "trail-2") if again else ("lead", "trail"),
        crew=listed.crew,
        wall=int(start.timestamp() * 1000) + later,
        rng=rng,
    )


def record(account: Account, pair: Phones, kind: Kind) -> list[Entry]:
    """Return the entries of a game up to its end, or up to where it was broken off."""
    if account.ended == "forfeit":
        for one in _short(account):
            pair.note(one)
        return pair.entries
    noted = sorted(_course(account), key=lambda one: one.at)
    if account.broken_at is not None:
        noted = [one for one in noted if one.at < account.broken_at]
        noted += _thunder(account.broken_at)
    for one in noted:
        _note(pair, one, kind)
    for one in _after(account):
        pair.note(one)
    return pair.entries


def resumed(account: Account, pair: Phones) -> list[Entry]:
    """Return the entries of the second night of a game that was broken off, by another crew."""
    at = Moment(*(account.broken_at or (1, 0)))
    before = len(pair.entries)
    on = datetime.fromtimestamp(pair.wall / 1000, tz=UTC).date()
    pair.note(Noted(0, at, was.Resumed(on=f"{on}")))
    for one in sorted(_course(account), key=lambda one: one.at):
        if one.at > at:
            pair.note(one)
    for one in _rest(account):
        pair.note(one)
    return pair.entries[before:]


def late_goal(pair: Phones) -> Entry:
    """Return a goal that the second phone sends when all is over."""
    return pair.note(Noted(1, LATE_AT, was.Goal(side="away")))


def _note(pair: Phones, one: Noted, kind: Kind) -> None:
    """Note one thing, with the slips of the pen that belong to the story."""
    if kind == "protest" and isinstance(one.what, was.PeriodEnded) and one.at.period == 2:
        moment = Moment(2, 905)
        pair.note(Noted(0, moment, was.PlayStopped(why="other")))
        protest = was.Protested(side="away", about="rule_misapplied", by="captain")
        pair.note(Noted(0, moment, protest))
    if kind != "slips":
        pair.note(one)
        return
    match one.what:
        case was.Goal():
            pair.note(one)
            again = pair.note(one._replace(phone=1))
            pair.note(Noted(1, one.at, was.Retracted(target=again.said.id)))
        case was.Cautioned(number=number):
            wrong = one.what.model_copy(update={"number": _RAGGED})
            entry = pair.note(one._replace(what=wrong))
            mended = was.Amended(target=entry.said.id, key="number", value=number)
            pair.note(Noted(1, one.at, mended))
        case _:
            pair.note(one)


def _course(account: Account) -> Iterator[Noted]:
    """Yield what happened in play, check-in first; the first phone has goals and whistles."""
    for side in SIDES:
        for person in account.present[side]:
            yield Noted(side == "away", Moment(BEFORE, -600), _checked(account, side, person))
    yield from _periods(account)
    for goal in account.goals:
        number = account.number(goal.by)
        yield Noted(0, Moment(goal.period, goal.clock), was.Goal(side=goal.side, number=number))
    for one in account.shown:
        if not one.second:
            kind = was.Cautioned if one.colour == "yellow" else was.SentOff
            what = kind(side=one.side, number=account.number(one.to), reason=one.reason)
            yield Noted(1, Moment(one.period, one.clock), what)
    for index, kick in enumerate(account.kicks, start=1):
        number = account.number(kick.by)
        taken = was.KickTaken(side=kick.side, number=number, scored=kick.scored)
        yield Noted(0, Moment(KICKS, index), taken)


def _checked(account: Account, side: Side, person: Person) -> was.CheckedIn:
    """Check a player in by the shirt's number, and by name where it was given out tonight."""
    name = person.name if person.number is None else ""
    return was.CheckedIn(side=side, number=account.number(person), player=name)


def _periods(account: Account) -> Iterator[Noted]:
    lengths = {1: 60 * HOUSE.half, 2: 60 * HOUSE.half}
    if account.ended in ("overtime", "kicks"):
        lengths[3] = 60 * HOUSE.overtime
    kick_off: Side = "home"
    for period, length in lengths.items():
        yield Noted(0, Moment(period, 0), was.PeriodStarted(kick_off=kick_off))
        if account.ended_at is None or period < account.ended_at[0]:
            yield Noted(0, Moment(period, length), was.PeriodEnded())
        kick_off = other(kick_off)


def _short(account: Account) -> Iterator[Noted]:
    """Let a side be short, be waited for, and not be ready when the time has run out."""
    side = account.by or "home"
    for person in account.present[other(side)]:
        yield Noted(0, Moment(BEFORE, -600), _checked(account, other(side), person))
    yield Noted(0, Moment(BEFORE, 0), was.ShortAtStart(side=side, present=3))
    yield Noted(0, Moment(BEFORE, 30), was.WaitChosen(by=other(side), waits=True))
    yield Noted(0, Moment(BEFORE, 60 * HOUSE.grace), was.Forfeited(by=side, why="not_ready"))


def _thunder(at: tuple[int, int]) -> Iterator[Noted]:
    yield Noted(1, Moment(*at), was.HoldBegan(why="thunder"))
    yield Noted(0, Moment(*at), was.BrokenOff(why="weather"))


def _after(account: Account) -> Iterator[Noted]:
    """Yield what is written when a game is over; of one broken off, nothing is."""
    return iter(()) if account.broken_at is not None else _rest(account)


def _rest(account: Account) -> Iterator[Noted]:
    end = Moment(2, 60 * HOUSE.half)
    for side, value in account.ratings.items():
        why = account.why_low.get(side, "")
        rated = was.Rated(side=side, by="official", hundredths=int(value * 100), reason=why)
        yield Noted(0, end, rated)
    for by in ("home_captain", "away_captain", "official"):
        yield Noted(0, end, was.Signed(by=by))


def _uuid7(wall: int, rng: Random) -> str:
    """Return a UUID of version 7 for a time (RFC 9562, section 5.7)."""
    number = wall << 80 | 7 << 76 | rng.getrandbits(12) << 64 | 2 << 62 | rng.getrandbits(62)
    text = f"{number:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))
