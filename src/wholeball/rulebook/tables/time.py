"""Declares how a game begins, runs and ends, and what decides a level one."""

from typing import ClassVar, Literal, TypeAlias

from wholeball.rulebook.value import (
    Article,
    Idle,
    Kind,
    Value,
    idle,
    items,
    key,
)

Stops: TypeAlias = Literal[
    "goal", "caution", "sending_off", "penalty", "injury", "substitution", "ball_out", "hold"
]


class Stoppages(Article):
    """What stops the clock, and what makes up for lost time."""

    own_kind: ClassVar[Kind] = "local"

    clock_stops_for: tuple[Stops, ...] = items("What stops it.", most=8)
    lost_time: Literal["added", "not_added"] = key("Whether lost time is added to a period.")


class PeriodEnd(Article):
    """When exactly a period is over."""

    own_kind: ClassVar[Kind] = "local"
    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("chance", at=("time",)),)

    at: Literal["time", "chance_played_out"] = key(
        "At the whistle for time, or once an immediate chance is played out."
    )
    chance: Literal["none", "in_or_by_penalty_area", "attacking_half", "anywhere"] = key(
        "Where the ball must be for such a chance."
    )
    penalty_completed: bool = key("Whether a penalty kick is still completed.")


class Breaks(Article):
    """Short breaks inside a period."""

    own_kind: ClassVar[Kind] = "permitted"

    drinks_seconds_most: int = key("The longest drinks break.", least=0, most=300)
    cooling_seconds_least: int = key("The shortest cooling break.", least=0, most=600)
    cooling_seconds_most: int = key("The longest cooling break.", least=0, most=600)


class Game(Article):
    """How long a game is and how its clock runs."""

    own_kind: ClassVar[Kind] = "permitted"
    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("interval_minutes", periods=(1,)),)

    periods: int = key("How many periods.", least=1, most=4)
    minutes: int = key("How long each is.", least=1, most=60)
    interval_minutes: int = key("The break between them.", least=0, most=30)
    clock: Literal["running", "stopped"] = key(
        "Whether the clock runs on while play is stopped."
    )
    counts: Literal["up", "down"] = key("Whether the clock counts up or down.")
    stoppages: Stoppages = key("What stops the clock.")
    period_end: PeriodEnd = key("When a period is over.")
    breaks: Breaks = key("Breaks inside a period.")


class Ends(Article):
    """Who chooses an end or the kick-off, and how that is decided."""

    own_kind: ClassVar[Kind] = "local"

    decided_by: Literal["coin", "number_guessed"] = key(
        "A coin, or one of two numbers that the official holds."
    )
    guesser: Literal["visiting_captain", "home_captain", "either"] = key(
        "Who calls or guesses."
    )
    winner_chooses: Literal["end", "kick_off", "end_or_kick_off"] = key(
        "What the winner chooses."
    )
    change_ends: bool = key("Whether ends change at half-time.")


class MercyStep(Value):
    """One rung: a lead of so many or more with so many minutes or fewer left ends the game."""

    lead: int = key("The least lead.", least=1, most=99, unit="goals")
    minutes_left: int = key("The most minutes left.", least=0, most=240)


class Mercy(Article):
    """When a one-sided game ends early."""

    own_kind: ClassVar[Kind] = "local"

    ladder: tuple[MercyStep, ...] = items(
        "Each rung ends the game at the moment it becomes true; empty for no mercy rule.",
        most=8,
    )


class Ties(Article):
    """What a level game is decided by."""

    own_kind: ClassVar[Kind] = "permitted"

    league: Literal["draw", "overtime", "kicks", "overtime_then_kicks"] = key(
        "What follows a level league game."
    )
    play_off: Literal["draw", "overtime", "kicks", "overtime_then_kicks"] = key(
        "What follows a level play-off game."
    )


class Overtime(Article):
    """How overtime is played where it is."""

    own_kind: ClassVar[Kind] = "local"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("ends", "minutes", "interval_minutes", periods=(0,)),
    )

    ends: Literal["full_time", "golden_goal"] = key("Whether the first goal ends it.")
    periods: int = key("How many periods; 0 for no overtime.", least=0, most=4)
    minutes: int = key("How long each is; 0 for no overtime.", least=0, most=15)
    interval_minutes: int = key("The break before it.", least=0, most=15)


class KickTakers(Article):
    """Who takes kicks from the mark."""

    own_kind: ClassVar[Kind] = "local"

    who: Literal["on_field_at_end", "whole_roster_present"] = key("Who may take one.")
    order: Literal["free", "genders_alternate"] = key("In what order they come.")
    twice: Literal["after_all_eligible", "never"] = key("When one may take a second.")
    equal_numbers: Literal["larger_side_reduces", "not_asked"] = key(
        "What a side with more players does."
    )
    yellow_carried: bool = key("Whether yellow cards of the game count on.")


class Kicks(Article):
    """Kicks from the mark."""

    own_kind: ClassVar[Kind] = "local"

    each: int = key("How many each side takes before sudden death.", least=1, most=11)
    sudden_death: bool = key("Whether it goes on in pairs until one side leads.")
    ends: Literal["as_soon_as_decided", "all_taken"] = key("When it stops.")
    takers: KickTakers = key("Who takes them.")
