"""Says what the articles about restarts mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say
from wholeball.rulebook.tables.restarts import Countdown
from wholeball.rulebook.words import free_kicks
from wholeball.rulebook.words.phrases import THEN, is_none, kept_away, may, scored_straight

_DIRECTION: Final = {"any": "in any direction", "forward": "forward only"}
_OFFSIDE_LINE: Final = {
    "halfway_line": "the halfway line",
    "penalty_area_line": "the line of the opponents' penalty area",
}
_CONTACT: Final = {"first_contact": "first", "last_contact": "last"}
_DROPPED_TO: Final = {
    "contested": "for players of both sides to contest",
    "last_touch": "to the side that touched it last",
    "clear_possession_or_last_touch": "to the side that had it or would clearly have won it, "
    "and if that is not clear to the side that touched it last",
}
_DROPPED_IN_AREA: Final = {
    "contested": "for players of both sides to contest",
    "defending_goalkeeper": "to the defending goalkeeper",
}
_IN_AREA: Final = {
    "last_touch": "was in a penalty area or last touched there",
    "where_stopped": "was in a penalty area",
}
_DROPPED_SPOT: Final = {
    "last_touch": "where it was last touched",
    "where_stopped": "where it was when play was stopped",
}
_TOO_CLOSE: Final = {"nothing": "is sent back, no more", "caution": "is shown yellow"}
_OFF_OFFICIAL: Final = {
    "play_on": "Play {then} when the ball touches an official.",
    "dropped_ball_in_three_cases": "When the ball touches an official, play {then} if it then "
    "starts a promising attack, goes straight into the goal or changes sides; otherwise it "
    "goes on.",
}
_OFF_OFFICIAL_THEN: Final = {
    "play_on": "goes on",
    "dropped_ball_in_three_cases": "stops for a dropped ball",
}
_THROWN: Final = {"throw": "thrown", "kick_in": "kicked"}
_PUT_IN: Final = {"throw": "throw-in", "kick_in": "kick-in"}
_RUN_OUT: Final = {
    "throw_in": "the opponents get a {named}",
    "corner_kick": "the opponents get a corner kick",
    "indirect_free_kick": "the opponents get an indirect free kick",
    "none": "nothing follows",
}
_GOAL_KICK: Final = {
    "kicked": "A defender {takes} the ball from the goal area.",
    "thrown_by_goalkeeper": "The goalkeeper {takes} the ball from the penalty area.",
}
_TAKES: Final = {"kicked": "kicks", "thrown_by_goalkeeper": "throws"}


def _kick_off(book: Rulebook) -> tuple[Sentence, ...]:
    kick_off = book.kick_off
    return (
        say("The ball is kicked {direction}.", direction=_DIRECTION[kick_off.direction]),
        kept_away(kick_off.distance, book, who="Opponents", where="the ball"),
        say("Until the ball is in play everybody but the kicker is in their own half."),
        say("The kick-off waits for the official's signal."),
        scored_straight(kick_off.direct_goal),
    )


def _offside(book: Rulebook) -> tuple[Sentence, ...]:
    offside = book.offside
    if not offside.played:
        return (say("Offside is {played}.", played="not played"),)
    return (
        say(
            "A player can be offside only between {line} and the opponents' goal line.",
            line=_OFFSIDE_LINE[offside.from_line],
        ),
        say(
            "At a goalkeeper's throw the position is judged at the {contact} contact with the "
            "ball.",
            contact=_CONTACT[offside.goalkeeper_throw],
        ),
    )


def _dropped_ball(book: Rulebook) -> tuple[Sentence, ...]:
    dropped = book.dropped_ball
    return (
        say(
            "If the ball {was}, it is dropped there {to}.",
            was=_IN_AREA[dropped.spot],
            to=_DROPPED_IN_AREA[dropped.in_penalty_area],
        ),
        say("Elsewhere it is dropped {to}.", to=_DROPPED_TO[dropped.to]),
        say("It is dropped {spot}.", spot=_DROPPED_SPOT[dropped.spot]),
        kept_away(dropped.distance, book, who="All other players", where="it"),
        *_too_close(book),
    )


def _too_close(book: Rulebook) -> tuple[Sentence, ...]:
    dropped = book.dropped_ball
    if is_none(dropped.distance):
        return ()
    return (say("Whoever stays closer {costs}.", costs=_TOO_CLOSE[dropped.too_close]),)


def _ball_off_official(book: Rulebook) -> tuple[Sentence, ...]:
    then = book.ball_off_official.then
    return (say(_OFF_OFFICIAL[then], then=_OFF_OFFICIAL_THEN[then]),)


def _throw_in(book: Rulebook) -> tuple[Sentence, ...]:
    throw_in = book.throw_in
    return (
        say(
            "The ball is {thrown} in from where it left the field.",
            thrown=_THROWN[throw_in.method],
        ),
        kept_away(throw_in.distance, book, who="Opponents", where="that point"),
        _time_for_throw(throw_in.seconds_most),
        scored_straight(throw_in.direct_goal),
    )


def _time_for_throw(seconds: int) -> Sentence:
    if seconds == 0:
        return say("There is {no} limit of time for the taker.", no="no")
    return say("The taker has {seconds}.", seconds=counted(seconds, "second"))


def _misplayed(book: Rulebook) -> tuple[Sentence, ...]:
    misplayed, named = book.throw_in.misplayed, _PUT_IN[book.throw_in.method]
    return (
        say(
            "When a {named} is taken wrongly or from the wrong place, {first}.",
            named=named,
            first=_again_or_lost(misplayed.first, named),
        ),
        say(
            "When it is taken wrongly again, {second}.",
            second=_again_or_lost(misplayed.second, named),
        ),
    )


def _not_entering(book: Rulebook) -> tuple[Sentence, ...]:
    not_entering, named = book.throw_in.not_entering, _PUT_IN[book.throw_in.method]
    return (
        say(
            "When the ball of a {named} does not come into the field, {first}.",
            named=named,
            first=_again_or_lost(not_entering.first, named),
        ),
        say(
            "When it does not come in again, {second}.",
            second=_again_or_lost(not_entering.second, named),
        ),
    )


def _again_or_lost(then: str, named: str) -> str:
    return "it is taken again" if then == "retake" else f"the opponents get the {named}"


def _throw_in_countdown(book: Rulebook) -> tuple[Sentence, ...]:
    named = _PUT_IN[book.throw_in.method]
    return _countdown(book.throw_in.countdown, at=f"a {named}", named=named)


def _goal_kick_countdown(book: Rulebook) -> tuple[Sentence, ...]:
    named = _PUT_IN[book.throw_in.method]
    return _countdown(book.goal_kick.countdown, at="a goal kick", named=named)


def _countdown(countdown: Countdown, *, at: str, named: str) -> tuple[Sentence, ...]:
    if countdown.seconds == 0:
        return (say("There is {no} countdown at " + at + ".", no="no"),)
    return (
        say(
            "When " + at + " is delayed, the official may count down {seconds} by hand; when "
            "they have run out, {then}.",
            seconds=counted(countdown.seconds, "second"),
            then=_RUN_OUT[countdown.then].format(named=named),
        ),
    )


def _goal_kick(book: Rulebook) -> tuple[Sentence, ...]:
    goal_kick = book.goal_kick
    return (
        say(_GOAL_KICK[goal_kick.taken], takes=_TAKES[goal_kick.taken]),
        _leaving_area(book),
        _over_halfway(book),
        scored_straight(goal_kick.direct_goal),
    )


def _over_halfway(book: Rulebook) -> Sentence:
    goal_kick = book.goal_kick
    if goal_kick.may_pass_halfway:
        return say(
            "The ball {may} cross the halfway line before anybody touches it.",
            may=may(allowed=True),
        )
    return say(
        "The ball {may} cross the halfway line before anybody touches it; if it does, {then}.",
        may=may(allowed=False),
        then=THEN[goal_kick.too_far],
    )


def _leaving_area(book: Rulebook) -> Sentence:
    goal_kick = book.goal_kick
    if not goal_kick.must_leave_area:
        return say("The ball {need} leave the penalty area to be in play.", need="need not")
    return say(
        "The ball {need} leave the penalty area to be in play; if it does not, {then}.",
        need="must",
        then=THEN[goal_kick.not_leaving],
    )


def _corner(book: Rulebook) -> tuple[Sentence, ...]:
    return (
        kept_away(book.corner.distance, book, who="Opponents", where="the corner arc"),
        scored_straight(book.corner.direct_goal),
    )


WORDS: Final[Dictionary] = {
    "kick_off": Words(title="The kick-off", says=_kick_off),
    "offside": Words(title="Offside", says=_offside),
    **free_kicks.WORDS,
    "throw_in": Words(title="The throw-in", says=_throw_in),
    "throw_in.misplayed": Words(title="A throw-in taken wrongly", says=_misplayed),
    "throw_in.not_entering": Words(
        title="A throw-in that does not come in", says=_not_entering
    ),
    "throw_in.countdown": Words(title="A delayed throw-in", says=_throw_in_countdown),
    "goal_kick": Words(title="The goal kick", says=_goal_kick),
    "goal_kick.countdown": Words(title="A delayed goal kick", says=_goal_kick_countdown),
    "corner": Words(title="The corner kick", says=_corner),
    "dropped_ball": Words(title="The dropped ball", says=_dropped_ball),
    "ball_off_official": Words(title="The ball off an official", says=_ball_off_official),
}
