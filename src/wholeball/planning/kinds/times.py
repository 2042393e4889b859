"""Has the kinds about when a team plays: blocks, absences, early and late, fields, length."""

from collections import Counter, defaultdict
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Final, Literal

from pydantic import Field

from wholeball.league.division import Weekday
from wholeball.planning.kind import AnyKind, Found, Kind, Params, clock, plural, whom
from wholeball.planning.placed import Game, Placed
from wholeball.planning.problem import Start
from wholeball.planning.rule import Rule

WEEKDAYS: Final[tuple[Weekday, ...]] = (
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
)
_FIRST, _LAST = time(0, 0), time(23, 59)


class Block(Params):
    """A weekday and a window; a game begins and ends, with its turnover, within it."""

    block: str = Field(min_length=1, max_length=80)
    weekday: Weekday
    opens: time
    closes: time


class Absent(Params):
    """When a team does not play: weekdays or nights, from a time to a time."""

    weekdays: tuple[Weekday, ...] = ()
    nights: tuple[date, ...] = ()
    from_: time = Field(default=_FIRST, alias="from")
    until: time = _LAST

    def covers(self, start: Start) -> bool:
        """Tell whether a start lies in it."""
        named = start.night in self.nights or weekday(start.night) in self.weekdays
        return named and self.from_ <= start.at <= self.until


class Even(Params):
    """Which starts are shared out: the last ones of the nights or the first ones."""

    which: Literal["late", "early"]


class EvenFields(Params):
    """Fields are shared out; nothing more to say."""


class Length(Params):
    """How many minutes a game's slot has at least."""

    minutes: int = Field(ge=1, le=600)


class NotAt(Params):
    """Games that are not at some start."""

    game_names: tuple[str, ...] = Field(alias="names", min_length=1)
    nights: tuple[date, ...] = ()
    from_: time = Field(default=_FIRST, alias="from")
    until: time = _LAST


def weekday(day: date) -> Weekday:
    """Return the name of a day's weekday."""
    return WEEKDAYS[day.weekday()]


def share(games: int, starts: int) -> int:
    """Return the fair share of so many games over so many starts a night, rounded up."""
    return -(-games // starts)


def marked(placed: Placed, which: Literal["late", "early"]) -> frozenset[Start]:
    """Return the last or the first start of each night that has several."""
    nights: dict[date, list[Start]] = defaultdict(list)
    for start in placed.problem.starts:
        nights[start.night].append(start)
    pick = max if which == "late" else min
    return frozenset(pick(starts) for starts in nights.values() if len(starts) > 1)


def starts_a_night(placed: Placed) -> int:
    """Return how many starts a night has at most."""
    counts = Counter(start.night for start in placed.problem.starts)
    return max(counts.values(), default=1)


def _block(rule: Rule, params: Block, placed: Placed) -> Iterator[Found]:
    for team in placed.concerned(rule):
        for one in placed.of(team, rule):
            if not within(params, placed, one):
                when = f"{one.start.night:%A} {clock(one.start.at)}"
                yield Found(
                    about=team,
                    games=(one.game,),
                    says=f"{team} plays {one.game} on {when}, outside {params.block}.",
                )


def within(params: Block, placed: Placed, one: Game) -> bool:
    """Tell whether a game lies in a block from its start to the end of its slot."""
    slot = next(
        (slot for slot in placed.problem.starts.get(one.start, ()) if slot.field == one.field),
        None,
    )
    if slot is None or weekday(one.start.night) != params.weekday:
        return False
    closes = datetime.combine(one.start.night, params.closes)
    return params.opens <= one.start.at and slot.ends <= closes


def _absent(rule: Rule, params: Absent, placed: Placed) -> Iterator[Found]:
    for team in placed.concerned(rule):
        for one in placed.of(team, rule):
            if params.covers(one.start):
                when = f"{one.start.night:%A %d %B} at {clock(one.start.at)}"
                cannot = "cannot" if rule.strength == "must" else "would rather not"
                yield Found(
                    about=team,
                    games=(one.game,),
                    says=f"{team} plays {one.game} on {when}, when they {cannot} play.",
                )


def _even(rule: Rule, params: Even, placed: Placed) -> Iterator[Found]:
    starts, parts = marked(placed, params.which), starts_a_night(placed)
    for team in placed.concerned(rule):
        games = placed.of(team, rule)
        here = tuple(one.game for one in games if one.start in starts)
        over = len(here) - share(len(games), parts)
        if over > 0:
            yield Found(
                about=team,
                games=here,
                times=over,
                says=f"{team} plays {params.which} {plural(len(here), 'time')}; "
                f"{share(len(games), parts)} would be its share.",
            )


def _fields(rule: Rule, params: EvenFields, placed: Placed) -> Iterator[Found]:
    del params
    fields = sorted({slot.field for slot in placed.problem.slots})
    for team in placed.concerned(rule):
        games = placed.of(team, rule)
        fair = share(len(games), len(fields))
        for field in fields:
            here = tuple(one.game for one in games if one.field == field)
            if len(here) > fair:
                yield Found(
                    about=team,
                    games=here,
                    times=len(here) - fair,
                    says=f"{team} plays on {field} {plural(len(here), 'time')}; {fair} would "
                    "be its share.",
                )


def _length(rule: Rule, params: Length, placed: Placed) -> Iterator[Found]:
    minutes = {(slot.start, slot.field): slot.minutes for slot in placed.problem.slots}
    for one in placed.games:
        is_looked_at = rule.games == "all" or (one.pairing.pool is None) == (
            rule.games == "play_off"
        )
        has = minutes.get((one.start, one.field), 0)
        if is_looked_at and has < params.minutes:
            yield Found(
                about=one.game,
                games=(one.game,),
                says=f"{one.game} has {has} minutes on {one.field} at {clock(one.start.at)}; it "
                f"needs {params.minutes}.",
            )


def _not_at(rule: Rule, params: NotAt, placed: Placed) -> Iterator[Found]:
    del rule
    for one in placed.games:
        if one.game in params.game_names and forbids(params, one.start):
            yield Found(
                about=one.game,
                games=(one.game,),
                says=f"{one.game} is on {one.start.night:%d %B} at {clock(one.start.at)}.",
            )


def forbids(params: NotAt, start: Start) -> bool:
    """Tell whether games are kept off a start."""
    named = not params.nights or start.night in params.nights
    return named and params.from_ <= start.at <= params.until


def _when(params: Absent) -> str:
    days = [*(f"{one.capitalize()}s" for one in params.weekdays), *map(_day, params.nights)]
    return f"on {', '.join(days)}{_between(params.from_, params.until)}"


def _between(first: time, last: time) -> str:
    if (first, last) == (_FIRST, _LAST):
        return ""
    if last == _LAST:
        return f" from {clock(first)} on"
    return (
        f" from {clock(first)} to {clock(last)}" if first > _FIRST else f" until {clock(last)}"
    )


def _day(night: date) -> str:
    return f"{night:%d %B}"


TIMES: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="block",
        params=Block,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{whom(rule)} plays in {params.block}: {params.weekday.capitalize()}, "
            f"{clock(params.opens)} to {clock(params.closes)}."
        ),
        breaks=_block,
    ),
    Kind(
        name="absent",
        params=Absent,
        strengths=("must", "wish"),
        says=lambda rule, params: (
            f"{whom(rule)} {'cannot' if rule.strength == 'must' else 'would rather not'} play "
            f"{_when(params)}."
        ),
        breaks=_absent,
    ),
    Kind(
        name="even_starts",
        params=Even,
        strengths=("wish",),
        says=lambda rule, params: f"{whom(rule)} plays {params.which} no more than its share.",
        breaks=_even,
    ),
    Kind(
        name="even_fields",
        params=EvenFields,
        strengths=("wish",),
        says=lambda rule, params: f"{whom(rule)} plays on each field about as often.",  # noqa: ARG005
        breaks=_fields,
    ),
    Kind(
        name="length",
        params=Length,
        strengths=("must",),
        says=lambda rule, params: f"A game's slot has {params.minutes} minutes at least.",  # noqa: ARG005
        breaks=_length,
    ),
    Kind(
        name="not_at",
        params=NotAt,
        strengths=("must", "wish"),
        says=lambda rule, params: (  # noqa: ARG005
            f"{', '.join(params.game_names)}: not "
            f"{'on ' + ', '.join(map(_day, params.nights)) if params.nights else 'on any night'}"
            f"{_between(params.from_, params.until)}."
        ),
        breaks=_not_at,
    ),
)
