"""Declares what players may not do, and yellow and red."""

from typing import ClassVar, Literal

from wholeball.rulebook.tables.restarts import Then
from wholeball.rulebook.value import (
    Article,
    Idle,
    idle,
    key,
)


class Hold(Article):
    """How long a goalkeeper may keep the ball in the hands."""

    seconds: int = key("How long.", least=1, most=60)
    then: Then = key("What the opponents get if it takes longer.")
    shown_seconds: int = key(
        "The last seconds that the official shows by hand; 0 for none.", least=0, most=30
    )


class HandsOutside(Article):
    """A goalkeeper who handles the ball outside the own penalty area."""

    then: Then = key("What the opponents get.")


class ReturnPass(Article):
    """A goalkeeper who handles a ball that a team-mate deliberately kicked to them."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle(
            "spot",
            then=(
                "penalty_kick",
                "throw_in",
                "goal_kick",
                "corner_kick",
                "dropped_ball",
                "play_on",
                "retake",
            ),
        ),
    )

    then: Then = key("What the opponents get.")
    spot: Literal["offence", "goal_area_line", "penalty_area_line"] = key("Where it is taken.")
    after_clearing: Literal["allowed", "offence"] = key(
        "Whether a goalkeeper who has clearly kicked or tried to kick it away may handle it."
    )


class ReturnThrow(Article):
    """A goalkeeper who handles a team-mate's throw-in."""

    then: Then = key("What the opponents get.")


class Distribution(Article):
    """How far a goalkeeper may send the ball from the hands, and whether a throw scores."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("then", past_halfway=("allowed",)),)

    past_halfway: Literal["allowed", "not_in_the_air"] = key("Whether it may pass halfway.")
    then: Then = key("What the opponents get if it does though it may not.")
    direct_goal: bool = key("Whether a throw straight into the opponents' goal counts.")


class Goalkeeper(Article):
    """What a goalkeeper may not do."""

    at_feet: Literal["ordinary_foul", "always_foul"] = key(
        "How a goalkeeper who goes at an opponent's feet is judged."
    )
    hold: Hold = key("Keeping the ball.")
    hands_outside: HandsOutside = key("Hands outside the area.")
    return_pass: ReturnPass = key("A team-mate's kick.")
    return_throw: ReturnThrow = key("A team-mate's throw-in.")
    distribution: Distribution = key("Sending the ball away.")


class Handball(Article):
    """Handling the ball."""

    arm_ends: Literal["shoulder", "bottom_of_armpit"] = key("Where the arm ends.")
    before_goal: Literal["deliberate_only", "own_or_team_mates_goal", "own_immediate_goal"] = (
        key("Which accidental handling before a goal is an offence.")
    )
    not_deliberate_with_penalty: Literal["as_deliberate", "as_other_fouls"] = key(
        "How handling that was not deliberate is carded where a penalty kick is given."
    )


class SlideTackle(Article):
    """Slide tackles."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("then", "caution", "goalkeeper_exempt", allowed=(True,)),
    )

    allowed: bool = key("Whether players may slide for the ball near an opponent.")
    then: Then = key("What the opponents get where they may not.")
    caution: bool = key("Whether it is also a caution where they may not.")
    goalkeeper_exempt: bool = key("Whether a goalkeeper in the own penalty area may.")


class Advantage(Article):
    """Advantage."""

    cancels_caution: bool = key(
        "Whether advantage takes away the caution for stopping a promising attack."
    )
    quick_kick_cancels_caution: bool = key(
        "Whether a quick free kick takes away the caution for stopping a promising attack."
    )
    incorrect_restart: bool = key(
        "Whether advantage may be applied when a restart was taken incorrectly."
    )


class ExtraPersons(Article):
    """People on the field who should not be."""

    goal_stands: Literal["unless_on_field", "unless_interfered"] = key(
        "When a goal stands though the scoring side had one too many."
    )
    touch_leaving_ball: Literal["free_kick_and_caution", "indirect_free_kick"] = key(
        "What follows when such a person touches, without unfair intent, a ball leaving the field."
    )
    interference: Literal["dropped_ball", "direct_free_kick"] = key(
        "What follows interference by a substitute or team official."
    )


class TeamOfficials(Article):
    """Yellow and red for team officials."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("unidentified", shown=(False,)),)

    shown: bool = key("Whether they are shown yellow and red.")
    unidentified: Literal["nobody", "senior_coach"] = key("Who is shown it if nobody is known.")


class Cautioned(Article):
    """A player who was shown yellow."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("minutes", "may_be_replaced", comes_off=("no",)),
        idle("minutes", comes_off=("until_replaced",)),
    )

    comes_off: Literal["no", "until_replaced", "for_minutes"] = key(
        "Whether the player comes off."
    )
    minutes: int = key("For how long; 0 where not for minutes.", least=0, most=30)
    may_be_replaced: bool = key("Whether a substitute may come on at once.")


class SentOff(Article):
    """A player who was shown red."""

    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("after_minutes", may_be_replaced=(False,)),)

    may_be_replaced: bool = key("Whether the side may fill up again.")
    after_minutes: int = key("After how many minutes.", least=0, most=30)
    leaves_within_minutes: int = key(
        "How soon the player is out of sight and sound; 0 where not said.", least=0, most=15
    )


class Cards(Article):
    """Yellow and red."""

    cautions_for_red: int = key("How many yellows in a game make a red.", least=1, most=3)
    team_officials: TeamOfficials = key("Team officials.")
    cautioned: Cautioned = key("The player shown yellow.")
    sent_off: SentOff = key("The player shown red.")
