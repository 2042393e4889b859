"""Has the kinds about when a team plays: blocks, absences, early and late, fields, length."""

from collections import Counter, defaultdict
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Final, Literal

from pydantic import Field, ValidationInfo, field_validator
from pydantic_core import PydanticCustomError

from wholeball.league.division import Weekday
from wholeball.planning.days import clock, day, spans, weekday
from wholeball.planning.kind import (
    AnyKind,
    Clock,
    Found,
    Kind,
    Night,
    Params,
    games_of,
    who,
)
from wholeball.planning.placed import Game, Placed
from wholeball.planning.problem import Start
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed

_FIRST, _LAST = time(0, 0), time(23, 59)
_NAMED: Final = 4
"""How many teams of a block are named at most."""


def _later(value: time, info: ValidationInfo, before: str) -> time:
    """Refuse an end that does not come after its beginning."""
    begins = info.data.get(before)
    if begins is not None and value <= begins:
        says = f"a time after {clock(begins)}, at which it begins"
        raise PydanticCustomError("range", "{says}", {"says": says})
    return value


class Block(Params):
    """A weekday and a window; a game begins and ends, with its turnover, within it."""

    block: str = Field(min_length=1, max_length=80)
    weekday: Weekday
    opens: Clock
    closes: Clock

    @field_validator("closes")
    @classmethod
    def _ends_later(cls, value: time, info: ValidationInfo) -> time:
        return _later(value, info, "opens")


class Absent(Params):
    """When a team cannot play: on weekdays or nights, or on every night; between two times.

    A game is in it where they overlap: one that ends when the absence begins is not, nor one
    that begins when it ends.
    """

    weekdays: tuple[Weekday, ...] = Field(default=(), max_length=7)
    nights: tuple[Night, ...] = Field(default=(), max_length=400)
    from_: Clock = Field(default=_FIRST, alias="from")
    until: Clock = _LAST

    @field_validator("until")
    @classmethod
    def _ends_later(cls, value: time, info: ValidationInfo) -> time:
        return _later(value, info, "from_")

    def covers(self, start: Start, minutes: int) -> bool:
        """Tell whether so many minutes from a start on lie in it, or some of them."""
        is_named = start.night in self.nights or weekday(start.night) in self.weekdays
        if (self.nights or self.weekdays) and not is_named:
            return False
        begins = datetime.combine(start.night, start.at)
        ends = begins + timedelta(minutes=minutes)
        until = datetime.combine(start.night, self.until)
        is_over = self.until != _LAST and begins >= until
        return not is_over and ends > datetime.combine(start.night, self.from_)


class Even(Params):
    """Which starts are shared out: the last ones of the nights or the first ones."""

    which: Literal["late", "early"]


class EvenFields(Params):
    """Fields are shared out; nothing more to say."""


class Length(Params):
    """How many minutes a game's slot has at least."""

    minutes: int = Field(ge=1, le=600)


class NotAt(Params):
    """Games that do not begin from one time to another, both included, on some night or any."""

    game_names: tuple[str, ...] = Field(alias="names", min_length=1, max_length=400)
    nights: tuple[Night, ...] = Field(default=(), max_length=400)
    from_: Clock = Field(default=_FIRST, alias="from")
    until: Clock = _LAST


def share(games: int, starts: int) -> int:
    """Return the fair share of so many games over so many starts a night, rounded up."""
    return -(-games // starts)


def marked(placed: Placed, which: Literal["late", "early"]) -> frozenset[Start]:
    """Return the last or the first start of each night that has several, rain nights too."""
    nights: dict[date, list[Start]] = defaultdict(list)
    for start in {slot.start for slot in placed.problem.slots}:
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
                yield Found(
                    about=team,
                    games=(one.game,),
                    says=f"{team} plays game {one.game} on {_at(one)}, outside {params.block}.",
                )


def within(params: Block, placed: Placed, one: Game) -> bool:
    """Tell whether a game lies in a block from its start to the end of its slot."""
    slot = placed.slot(one)
    if slot is None or weekday(one.start.night) != params.weekday:
        return False
    closes = datetime.combine(one.start.night, params.closes)
    return params.opens <= one.start.at and slot.ends <= closes


def _absent(rule: Rule, params: Absent, placed: Placed) -> Iterator[Found]:
    for team in placed.concerned(rule):
        for one in placed.of(team, rule):
            slot = placed.slot(one)
            if params.covers(one.start, 1 if slot is None else slot.minutes):
                cannot = "cannot" if rule.strength == "must" else "would rather not"
                yield Found(
                    about=team,
                    games=(one.game,),
                    says=f"{team} plays game {one.game} on {_at(one)}, when they {cannot} play.",
                )


def _even(rule: Rule, params: Even, placed: Placed) -> Iterator[Found]:
    starts, parts = marked(placed, params.which), starts_a_night(placed)
    for team in placed.concerned(rule):
        games = placed.of(team, rule)
        here = tuple(one.game for one in games if one.start in starts)
        fair = share(len(games), parts)
        if len(here) > fair:
            yield Found(
                about=team,
                games=here,
                times=len(here) - fair,
                says=f"{team} plays {params.which} {counted(len(here), 'time')}; {fair} would "
                "be its share.",
            )


def _fields(rule: Rule, params: EvenFields, placed: Placed) -> Iterator[Found]:
    del params
    fields = sorted({slot.field for slot in placed.problem.slots})
    for team in placed.concerned(rule):
        games = placed.of(team, rule)
        fair = share(len(games), max(1, len(fields)))
        for field in fields:
            here = tuple(one.game for one in games if one.field == field)
            if len(here) > fair:
                yield Found(
                    about=team,
                    games=here,
                    times=len(here) - fair,
                    says=f"{team} plays on {field} {counted(len(here), 'time')}; {fair} would "
                    "be its share.",
                )


def _length(rule: Rule, params: Length, placed: Placed) -> Iterator[Found]:
    for one in placed.games:
        slot = placed.slot(one)
        if slot is None:
            continue
        has = slot.minutes
        if rule.looks_at(is_play_off=one.pairing.pool is None) and has < params.minutes:
            yield Found(
                about=one.game,
                games=(one.game,),
                says=f"Game {one.game} has {counted(has, 'minute')} on {one.field} on {_at(one)}; it "
                f"needs {params.minutes}.",
            )


def _not_at(rule: Rule, params: NotAt, placed: Placed) -> Iterator[Found]:
    del rule
    for one in placed.games:
        if one.game in params.game_names and forbids(params, one.start):
            says = f"Game {one.game} is on {_at(one)}."
            yield Found(about=one.game, games=(one.game,), says=says)


def forbids(params: NotAt, start: Start) -> bool:
    """Tell whether games are kept off a start."""
    named = not params.nights or start.night in params.nights
    return named and params.from_ <= start.at <= params.until


def _at(one: Game) -> str:
    return f"{day(one.start.night)} at {clock(one.start.at)}"


def _when(params: Absent) -> str:
    days = (*(f"{one.capitalize()}s" for one in params.weekdays), *spans(params.nights))
    on = f"on {listed(days)}" if days else "on any night"
    return f"{on}{_between(params.from_, params.until)}"


def _between(first: time, last: time) -> str:
    if (first, last) == (_FIRST, _LAST):
        return ""
    if last == _LAST:
        return f" from {clock(first)} on"
    if first == _FIRST:
        return f" before {clock(last)}"
    return f" from {clock(first)} to {clock(last)}"


def _absent_says(rule: Rule, params: Absent) -> str:
    is_must = rule.strength == "must"
    cannot = "cannot" if is_must else "would rather not"
    whom = listed(rule.teams) if rule.teams else "Every team"
    if is_must and not rule.teams:
        whom, cannot = "No team", "can"
    stage = {"all": "play", "league": "play in the league", "play_off": "play in the play-offs"}
    return f"{whom} {cannot} {stage[rule.games]} {_when(params)}."


def _block_says(rule: Rule, params: Block) -> str:
    """Name the teams of a block where they are few; the block itself says who the rest are."""
    whom = who(rule, "plays", "play")
    if len(rule.teams) > _NAMED:
        whom = f"The {len(rule.teams)} teams of the block play"
    day_ = params.weekday.capitalize()
    return f"{whom} in {params.block}: {day_}, {clock(params.opens)} to {clock(params.closes)}."


def _not_at_says(rule: Rule, params: NotAt) -> str:
    begin = "begins" if len(params.game_names) == 1 else "begin"
    on = listed(tuple(map(day, params.nights)), last="or") if params.nights else "any night"
    word = "never" if rule.strength == "must" else "rather not"
    between = f" between {clock(params.from_)} and {clock(params.until)}"
    is_all_day = (params.from_, params.until) == (_FIRST, _LAST)
    games = f"{'Game' if len(params.game_names) == 1 else 'Games'} {listed(params.game_names)}"
    return f"{games} {word} {begin} on {on}{'' if is_all_day else between}."


TIMES: Final[tuple[AnyKind, ...]] = (
    Kind(
        name="block",
        params=Block,
        strengths=("must", "wish"),
        says=_block_says,
        breaks=_block,
    ),
    Kind(
        name="absent",
        params=Absent,
        strengths=("must", "wish"),
        says=_absent_says,
        breaks=_absent,
    ),
    Kind(
        name="even_starts",
        params=Even,
        strengths=("wish",),
        says=lambda rule, params: (
            f"{who(rule, 'plays', 'play')} {params.which} no more often than a fair share."
        ),
        breaks=_even,
    ),
    Kind(
        name="even_fields",
        params=EvenFields,
        strengths=("wish",),
        says=lambda rule, params: (  # noqa: ARG005
            f"{who(rule, 'plays', 'play')} on each field about as often as on any other."
        ),
        breaks=_fields,
    ),
    Kind(
        name="length",
        params=Length,
        strengths=("must",),
        says=lambda rule, params: (
            f"{games_of(rule, 1).replace('1 ', 'A ', 1)} has "
            f"{counted(params.minutes, 'minute')} at least, with its turnover."
        ),
        breaks=_length,
        teams="none",
    ),
    Kind(
        name="not_at",
        params=NotAt,
        strengths=("must", "wish"),
        says=_not_at_says,
        breaks=_not_at,
        teams="none",
        stages=False,
    ),
)
