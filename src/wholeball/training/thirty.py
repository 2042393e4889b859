"""Tells thirty situations, in the order of the Laws, with the facts that each one states."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A situation as an official would tell it: a name, what happened, and the facts."""

    name: str
    title: str
    says: str
    seen: Mapping[str, str]


def _told(name: str, title: str, says: str, seen: str) -> Told:
    """Take the facts in their short form, "moment=open seen=foul"."""
    seen_facts = dict(pair.split("=", 1) for pair in seen.split())
    return Told(name=name, title=title, says=says, seen=seen_facts)


THIRTY: Final[tuple[Told, ...]] = (
    _told(
        "on_the_line",
        "A ball on the goal line",
        "A shot beats the goalkeeper and stops with a sliver of the ball still above the line.",
        "moment=open seen=ball_over whole=no",
    ),
    _told(
        "over_the_line",
        "A ball behind the line",
        "A shot goes under the bar, touches the ground behind the line and spins out again.",
        "moment=open seen=ball_over whole=yes line=opp mouth=in sent=played",
    ),
    _told(
        "over_the_touchline",
        "Over the touchline",
        "A winger cannot keep a long pass in; all of it has crossed the touchline.",
        "moment=open seen=ball_over whole=yes line=touch",
    ),
    _told(
        "own_goal",
        "Into the own goal",
        "A defender under pressure turns the ball past the own goalkeeper.",
        "moment=open seen=ball_over whole=yes line=own mouth=in",
    ),
    _told(
        "keeper_throws_far",
        "Thrown into the far goal",
        "With the wind behind it, a goalkeeper's throw bounces into the goal at the other end.",
        "moment=open seen=ball_over whole=yes line=opp mouth=in sent=keeper_throw",
    ),
    _told(
        "indirect_straight_in",
        "Straight in from an indirect kick",
        "The arm is up, nobody touches the indirect kick, and it goes straight in.",
        "moment=taking seen=ball_over kind=indirect_free_kick whole=yes line=opp mouth=in "
        "arm_up=yes",
    ),
    _told(
        "thrown_straight_in",
        "Straight in from a throw-in",
        "A long ball goes over everybody and drops into the goal untouched.",
        "moment=taking seen=ball_over kind=throw_in whole=yes line=opp mouth=in",
    ),
    _told(
        "corner_straight_in",
        "Straight in from a corner kick",
        "A corner kick swings in at the far post before anybody reaches it.",
        "moment=taking seen=ball_over kind=corner_kick whole=yes line=opp mouth=in",
    ),
    _told(
        "kick_off_second_touch",
        "The kicker touches it twice at kick-off",
        "Nobody comes for the ball at kick-off, so the kicker dribbles off with it.",
        "moment=taking seen=form kind=kick_off flaw=twice who=player goal_area=neither "
        "chance=none",
    ),
    _told(
        "wrong_half",
        "In the wrong half at kick-off",
        "An opponent is past the halfway line before the ball has moved.",
        "moment=taking seen=near kind=kick_off by=opp",
    ),
    _told(
        "dropped_in_area",
        "Stopped in the penalty area",
        "Defenders have just cleared when a whistle on the next field stops everybody; the ball "
        "is still in their penalty area.",
        "moment=open seen=stop reason=noise ball_at=own_area",
    ),
    _told(
        "dropped_elsewhere",
        "Stopped in midfield",
        "The ball bursts in midfield just as the other side is about to reach it.",
        "moment=open seen=stop reason=ball ball_at=elsewhere last_at=elsewhere would=other",
    ),
    _told(
        "stranger_on_field",
        "A stranger stops a pass",
        "Somebody on the way to the next field walks into a pass.",
        "moment=open seen=outsider person=agent effect=hampers ball_at=elsewhere "
        "last_at=elsewhere would=same",
    ),
    _told(
        "off_the_official",
        "A pass hits the official",
        "A pass bounces off an official to the other side, who break away.",
        "moment=open seen=outsider person=official effect=turnover ball_at=elsewhere "
        "last_at=elsewhere would=same",
    ),
    _told(
        "offside_scored",
        "Scored from an offside position",
        "A forward behind the second-last opponent receives a pass and puts it in.",
        "moment=open seen=offside ahead=yes part=plays scored=yes goal_area=neither",
    ),
    _told(
        "level_scored",
        "Level with the second-last opponent",
        "A forward is level when the pass is played, runs clear and scores.",
        "moment=open seen=offside ahead=no scored=yes",
    ),
    _told(
        "reckless_tackle",
        "A reckless tackle in midfield",
        "A late tackle catches the opponent with no thought for the consequences.",
        "moment=open seen=foul foul=graded against=opponent advantage=no zone=elsewhere "
        "goal_area=neither degree=reckless chance=none earlier=no",
    ),
    _told(
        "advantage_played",
        "Advantage in midfield",
        "A careless trip, but the ball runs on to a team-mate and the official lets them go.",
        "moment=open seen=foul foul=graded against=opponent advantage=yes degree=careless "
        "chance=none often=no",
    ),
    _told(
        "tripped_in_area",
        "Tripped in the penalty area",
        "A defender goes for the ball, misses it and trips the forward in front of goal.",
        "moment=open seen=foul foul=graded against=opponent advantage=no zone=own_area "
        "goal_area=neither degree=careless chance=obvious fair_try=yes earlier=no",
    ),
    _told(
        "last_defender",
        "The last defender trips a forward",
        "Just outside the area a forward who has only the goalkeeper to beat is tripped.",
        "moment=open seen=foul foul=graded against=opponent advantage=no zone=elsewhere "
        "goal_area=neither degree=careless chance=obvious",
    ),
    _told(
        "high_foot",
        "A high foot",
        "A boot goes up to head height; the opponent pulls back, and there is no contact.",
        "moment=open seen=foul foul=risky contact=no advantage=no zone=elsewhere "
        "goal_area=neither chance=none often=no",
    ),
    _told(
        "slide",
        "A slide tackle without contact",
        "A defender slides in next to an opponent, wins the ball and touches nobody.",
        "moment=open seen=foul foul=slide contact=no who=player advantage=no zone=elsewhere "
        "goal_area=neither degree=careless chance=none often=no earlier=no",
    ),
    _told(
        "hand_in_area",
        "Arm away from the body",
        "A shot hits the raised arm of a defender in the penalty area who did not mean it.",
        "moment=open seen=handling arm=bigger net=no who=player advantage=no zone=own_area "
        "chance=none often=no",
    ),
    _told(
        "held_too_long",
        "The goalkeeper holds on",
        "A goalkeeper in the goal area waits for team-mates and keeps the ball past the limit.",
        "moment=open seen=keeper_hands hands=too_long goal_area=own",
    ),
    _told(
        "passed_back",
        "A pass back taken by hand",
        "A defender kicks the ball back on purpose and the goalkeeper picks it up in the goal "
        "area.",
        "moment=open seen=keeper_hands hands=received source=kick cleared=no goal_area=own",
    ),
    _told(
        "wall",
        "An attacker in the wall",
        "At a direct free kick an attacker squeezes in beside the wall of three.",
        "moment=taking seen=near kind=direct_free_kick by=own wall=yes goal_area=neither",
    ),
    _told(
        "quick_kick",
        "A quick free kick cut off",
        "A free kick is taken at once; an opponent who had no time to get away intercepts it.",
        "moment=taking seen=near kind=direct_free_kick by=opp how_near=quick",
    ),
    _told(
        "penalty_keeper",
        "Off the line at a penalty kick",
        "The goalkeeper steps off the line before the kick and saves it.",
        "moment=taking seen=near kind=penalty_kick at=normal by=keeper result=no_goal "
        "saved=saved warned=no earlier=no",
    ),
    _told(
        "penalty_attacker",
        "An attacker too early at a penalty kick",
        "A team-mate of the kicker runs in early and puts the goalkeeper off; the ball goes in.",
        "moment=taking seen=near kind=penalty_kick at=normal by=own impact=yes result=goal",
    ),
    _told(
        "foul_throw",
        "A throw-in taken wrongly",
        "The thrower's feet and hands are not as they must be.",
        "moment=taking seen=form kind=throw_in flaw=stance again=no advantage=no",
    ),
)
