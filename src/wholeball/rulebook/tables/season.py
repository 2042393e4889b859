"""Declares what happens around and after games: forfeits, ratings, tables, play-offs, crews."""

from datetime import time
from decimal import Decimal
from typing import ClassVar, Literal

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from wholeball.rulebook.criteria import Criteria, LastResort
from wholeball.rulebook.value import (
    After,
    Article,
    Idle,
    Kind,
    Most,
    Never,
    Number,
    Value,
    idle,
    items,
    key,
)


class Grace(Article):
    """How long a side that is short is waited for."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("chosen_by", "final", "clock_runs", minutes=(0,)),
        idle("final", chosen_by=("always_waited",)),
    )

    minutes: int = key("How long; 0 for none: game time is forfeit time.", least=0, most=60)
    chosen_by: Literal["opponents", "supervisor", "always_waited"] = key("Who chooses to wait.")
    final: bool = key("Whether the choice, once made, stands.")
    clock_runs: bool = key("Whether the time waited is taken off the game.")


class AwardedScore(Value):
    """The score a game is given when it is not played out."""

    winners: int = key("Goals for the side that was ready.", least=0, most=30)
    losers: int = key("Goals for the other.", least=0, most=30)


class Default(Article):
    """A forfeit that is announced in time."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("notice_hours", "notice_by", "notice_day", "score", "in_difference", allowed=(0,)),
        idle("notice_hours", notice_day=("same_day", "day_before", "last_working_day")),
        idle("notice_by", notice_day=("hours_before",)),
    )

    allowed: Most = key("How many a team may have in a season; more are forfeits.")
    notice_hours: int = key("The notice needed, where it is by hours.", least=0, most=336)
    notice_by: time = key("The local time by which it must come.")
    notice_day: Literal["hours_before", "same_day", "day_before", "last_working_day"] = key(
        "Whether notice is counted in hours, or must come by that time on which day."
    )
    score: AwardedScore = key("The score of a default.")
    in_difference: bool = key("Whether its goals count in goals and difference.")


class DoubleForfeit(Article):
    """A game for which neither side is ready."""

    own_kind: ClassVar[Kind] = "administrative"

    then: Literal["both_lose", "annulled"] = key("What it counts as.")


class Removal(Article):
    """A team that is taken out of the league."""

    own_kind: ClassVar[Kind] = "administrative"

    after_forfeits: After = key("After how many forfeits.")
    results: Literal["annulled", "kept", "rest_forfeited"] = key("What becomes of its games.")


class Fee(Article):
    """What a forfeit costs in money; the tool keeps the list, it takes no payment."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("captain_waits", amount=(0,)),)

    amount: Number = key("The fee; 0 for none.", least=0, most=1000, unit="in local currency")
    captain_waits: bool = key("Whether the captain may not play until it is settled.")


class Forfeit(Article):
    """What a forfeit counts as."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("played_if_worse", in_difference=(False,)),)

    score: AwardedScore = key("The score of a forfeit.")
    in_difference: bool = key("Whether its goals count in goals and difference.")
    played_if_worse: bool = key("Whether a worse score already played stands instead.")
    grace: Grace = key("Waiting for a side that is short.")
    default: Default = key("A forfeit announced in time.")
    double: DoubleForfeit = key("Neither side ready.")
    removal: Removal = key("Removal from the league.")
    fee: Fee = key("The fee.")


class Scale(Value):
    """The scale that ratings are given on."""

    low: Number = key("The lowest.", least=0, most=100)
    high: Number = key("The highest.", least=0, most=100)
    step: Number = key("From one value to the next.", least=0, most=100)

    @model_validator(mode="after")
    def _rises(self) -> "Scale":
        if self.low >= self.high or self.step <= 0:
            raise PydanticCustomError("range", "low must be below high, and step above 0")
        return self

    def has(self, value: Decimal) -> bool:
        """Tell whether a value is one of the scale's."""
        return self.low <= value <= self.high and (value - self.low) % self.step == 0


class GivenRatings(Article):
    """The ratings that a forfeit or a default brings without anybody's opinion."""

    own_kind: ClassVar[Kind] = "administrative"

    forfeiting: Number = key("The side that forfeits.", least=0, most=100)
    defaulting: Number = key("The side that defaults.", least=0, most=100)
    ready: Number = key("The side that was ready.", least=0, most=100)


class Ratings(Article):
    """Sportsmanship ratings."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle(
            "scale",
            "reason_at_or_below",
            "cap_after_sending_off",
            "floor",
            "minimum_count",
            "play_off_minimum",
            "given",
            by=("nobody",),
        ),
    )

    by: Literal["nobody", "officials", "opponents", "officials_and_opponents"] = key(
        "Who rates a side after a game."
    )
    scale: Scale = key("The scale.")
    reason_at_or_below: Number = key(
        "A rating this low needs a written reason.", least=0, most=100
    )
    cap_after_sending_off: Number = key(
        "The best that each rating of a side with a red counts as.", least=0, most=100
    )
    floor: Number = key(
        "One rating this low or lower goes to the coordinator.", least=0, most=100
    )
    minimum_count: int = key(
        "How many rated games before the average counts.", least=1, most=20
    )
    play_off_minimum: Number = key("The average needed for play-offs.", least=0, most=100)
    given: GivenRatings = key("Ratings that a forfeit or default brings.")

    @model_validator(mode="after")
    def _inside(self) -> "Ratings":
        low, high = self.scale.low, self.scale.high
        names = ("reason_at_or_below", "cap_after_sending_off", "floor", "play_off_minimum")
        outside = [name for name in names if not low <= getattr(self, name) <= high]
        if outside and self.by != "nobody":
            raise PydanticCustomError(
                "range",
                "{name} must lie on the scale, {low} to {high}",
                {"name": outside[0], "low": str(low), "high": str(high)},
            )
        return self


class RedCard(Article):
    """What a red brings after the game."""

    own_kind: ClassVar[Kind] = "administrative"

    games: int = key("Games of suspension at least.", least=0, most=20)
    until_meeting: bool = key("Whether the player also waits for a meeting.")
    second_games: int = key("Games for a second red in the season.", least=0, most=50)


class Serving(Article):
    """What serves a suspension."""

    own_kind: ClassVar[Kind] = "administrative"

    games: Literal["played_only", "played_and_forfeits", "any_scheduled"] = key("Which games.")
    leagues: Literal["same_league", "all_leagues"] = key("Where the player is suspended.")
    carries_over: bool = key("Whether the rest is served next season.")
    breach: Literal["forfeit", "coordinator"] = key("What playing while suspended brings.")


class Discipline(Article):
    """From yellow and red to suspensions."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("caution_games", "cautions_cleared", cautions_for_suspension=("no_limit",)),
    )

    cautions_for_suspension: After = key("How many yellows in a season make a suspension.")
    caution_games: int = key("Games of suspension for that.", least=0, most=20)
    cautions_cleared: Literal["never", "before_play_offs"] = key("When they are wiped out.")
    red: RedCard = key("A red.")
    serving: Serving = key("What serves a suspension.")


class Points(Value):
    """Points for a result."""

    win: int = key("A win.", least=0, most=20)
    draw: int = key("A draw.", least=0, most=20)
    loss: int = key("A loss.", least=0, most=20)
    forfeit_loss: int = key("A forfeit by that side.", least=-20, most=20)


class Standings(Article):
    """How teams are ordered."""

    own_kind: ClassVar[Kind] = "administrative"

    points: Points = key("Points for each result.")
    criteria: Criteria = key("What orders teams, one after the other.")
    last_resort: LastResort = key("What decides where all of them leave teams level.")


class PlayOffs(Article):
    """Who goes on, and how the bracket is made."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle(
            "places",
            "unequal_pools",
            "seeded_by",
            "same_pool",
            "third_place",
            "games_played_least",
            qualify=("none",),
        ),
        idle("places", qualify=("all",)),
    )

    qualify: Literal["all", "per_pool", "overall", "none"] = key("How teams qualify.")
    places: int = key("How many per pool or overall; 0 where all or none.", least=0, most=64)
    unequal_pools: Literal["per_game", "drop_games_against_last"] = key(
        "How teams of pools of unequal size are compared; a team taken out is the last."
    )
    seeded_by: Literal["pool_place_then_record", "record", "lots"] = key("How seeds are given.")
    same_pool: Literal["kept_apart_in_first_round", "not_asked"] = key("Teams of one pool.")
    third_place: bool = key("Whether third place is played.")
    games_played_least: int = key("Games a player needs to take part.", least=0, most=20)


class Protests(Article):
    """What may be protested, and how."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle(
            "raised",
            "by",
            "written_by",
            "written_day",
            "fee",
            "fee_returned",
            "upheld",
            about=((),),
        ),
        idle("fee_returned", fee=(0,)),
    )

    about: tuple[Literal["rule_misapplied", "eligibility"], ...] = items(
        "What may be; an official's judgement never may.", most=2
    )
    raised: Literal["before_next_live_ball", "before_leaving_field"] = key("When it is raised.")
    by: Literal["captain", "any_player"] = key("Who raises it.")
    written_by: time = key("The local time by which it must be written.")
    written_day: Literal["same_day", "next_working_day"] = key("On which day.")
    fee: Number = key("The fee; 0 for none.", least=0, most=1000, unit="in local currency")
    fee_returned: bool = key("Whether the fee comes back if it is upheld.")
    upheld: Literal["replayed_from_moment", "replayed", "coordinator"] = key("What follows.")


class Resumption(Article):
    """What becomes of a game that is broken off."""

    own_kind: ClassVar[Kind] = "administrative"

    complete_after: Literal["half", "three_quarters", "full_time"] = key(
        "From when on it counts as complete."
    )
    before_that: Literal["resumed", "replayed", "annulled"] = key("What follows otherwise.")
    level_when_complete: Literal["draw", "resumed"] = key("What a level complete game is.")
    broken_off_by_side: Literal["forfeit", "coordinator"] = key("If one side is to blame.")


class Crew(Article):
    """Who staffs a game."""

    own_kind: ClassVar[Kind] = "administrative"

    size: int = key("How many work a game.", least=1, most=6)
    roles: tuple[
        Literal["referee", "lead", "trail", "assistant", "fourth_official", "scorekeeper"], ...
    ] = items("Their roles, one each.", least=1, most=6)
    least: int = key("The fewest a game may go ahead with.", least=1, most=6)
    system: Literal["dual", "diagonal", "double_dual", "one_official"] = key("How they work.")
    own_team_allowed: Never = key("Nobody works a game of a team they belong to.")
