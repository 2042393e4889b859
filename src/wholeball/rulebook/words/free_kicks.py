"""Says what the articles about free kicks and the penalty kick mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say
from wholeball.rulebook.words.phrases import (
    NO_GOALKEEPER,
    Says,
    a_goalkeeper_plays,
    is_none,
    kept_away,
    measured,
    only_where,
)

_KINDS: Final = {
    "direct_and_indirect": "A free kick is {kinds}, as the offence asks.",
    "all_indirect": "{kinds}: no goal may be scored straight from it.",
    "all_direct": "{kinds}: a goal may be scored straight from it.",
}
_KIND_WORDS: Final = {
    "direct_and_indirect": "direct or indirect",
    "all_indirect": "Every free kick is indirect",
    "all_direct": "Every free kick is direct",
}
_GIVEN: Final = {"always": "at every free kick", "on_request": "when the kickers ask for it"}
_NEAR_GOAL: Final = {
    "goal_area_line": "on the goal-area line, at the nearest point",
    "where_it_happened": "where the offence was",
    "penalty_area_line": "on the penalty-area line, at the nearest point",
    "penalty_mark": "on the penalty mark",
}
_BALL_ON_MARK: Final = {
    "on_mark": "lies on the penalty mark",
    "touches_or_overhangs_centre": "touches or overhangs the centre of the penalty mark",
}
_ON_LINE: Final = {"both_feet": "both feet", "part_of_one_foot": "part of at least one foot"}
_FIRST_OFFENCE: Final = {
    "caution": "yellow",
    "warning": "a warning, and each further one yellow",
}
_MISSED: Final = {"retake": "is taken again", "no_retake": "is not taken again"}
_WITH_KICKER: Final = {
    "retake": "the kick is taken again",
    "kicker_penalised_if_goal": "the kick is taken again if it did not go in; if it did, the "
    "kicker is shown yellow and the opponents get an indirect free kick",
    "kicker_penalised": "the kicker is shown yellow and the opponents get an indirect free "
    "kick, goal or no goal",
}
_PUNISHED: Final = {
    "always": "whether or not it matters for the kick",
    "with_impact": "only if it matters for the kick",
}
_TWICE_IN: Final = {
    "indirect_free_kick": "the opponents get an indirect free kick",
    "retake": "the kick is taken again",
}
_TWICE_OUT: Final = {
    "indirect_free_kick": "the opponents get an indirect free kick",
    "play_on": "play goes on",
}


def _free_kick(book: Rulebook) -> tuple[Sentence, ...]:
    free_kick = book.free_kick
    return (
        say(_KINDS[free_kick.kinds], kinds=_KIND_WORDS[free_kick.kinds]),
        kept_away(free_kick.distance, book, who="Opponents", where="the ball"),
        say(
            "The official measures the distance {when}.", when=_GIVEN[free_kick.distance_given]
        ),
    )


def _wall(book: Rulebook) -> tuple[Sentence, ...]:
    wall = book.free_kick.wall
    if wall.players == 0 or is_none(wall.distance):
        return (say("Attackers {may} stand at a wall of defenders.", may="may"),)
    return (
        say(
            "When {players} or more make a wall, attackers stay at least {distance} from it.",
            players=counted(wall.players, "defender"),
            distance=measured(wall.distance, book),
        ),
    )


def _own_area(book: Rulebook) -> tuple[Sentence, ...]:
    need = "must" if book.free_kick.own_area.must_leave_area else "need not"
    return (
        say(
            "At a free kick to the defenders in their own penalty area the ball {need} leave "
            "the area to be in play.",
            need=need,
        ),
    )


def _near_goal(book: Rulebook) -> tuple[Sentence, ...]:
    return (
        say(
            "An indirect free kick to the attackers in the goal area is taken {spot}.",
            spot=_NEAR_GOAL[book.free_kick.near_goal.spot],
        ),
    )


def _crossing(book: Rulebook) -> tuple[Sentence, ...]:
    shown = "is shown" if book.free_kick.crossing.caution else "is not shown"
    return (
        say(
            "Whoever crosses the line that the official set for the distance {shown} yellow.",
            shown=shown,
        ),
    )


def _penalty(book: Rulebook) -> tuple[Sentence, ...]:
    penalty = book.penalty
    return (
        say("The ball {lies}.", lies=_BALL_ON_MARK[penalty.ball]),
        say("All but kicker and goalkeeper stay outside the penalty area and behind the mark."),
        kept_away(penalty.distance, book, who="They", where="the mark"),
    )


def _goalkeeper(book: Rulebook) -> tuple[Sentence, ...]:
    goalkeeper = book.penalty.goalkeeper
    return (
        say(
            "Until the kick the goalkeeper has {feet} on or above the goal line.",
            feet=_ON_LINE[goalkeeper.on_line],
        ),
        say(
            "A first offence for which the kick is taken again costs the goalkeeper {costs}.",
            costs=_FIRST_OFFENCE[goalkeeper.first_offence],
        ),
        say(
            "If the goalkeeper offends, the kick misses and the kicker was not affected, the "
            "kick {then}.",
            then=_MISSED[goalkeeper.missed_unaffected],
        ),
        say(
            "If goalkeeper and kicker offend together, {then}.",
            then=_WITH_KICKER[goalkeeper.with_kicker],
        ),
    )


def _encroachment(book: Rulebook) -> tuple[Sentence, ...]:
    return (
        say(
            "A player who comes too near before the kick is penalised {when}.",
            when=_PUNISHED[book.penalty.encroachment.punished],
        ),
    )


def _double_touch(book: Rulebook) -> tuple[Sentence, ...]:
    twice = book.penalty.double_touch
    return (
        say(
            "If the kicker touches the ball twice by accident and it goes in, {then}.",
            then=_TWICE_IN[twice.goal],
        ),
        say("If it does not go in, {then}.", then=_TWICE_OUT[twice.no_goal]),
    )


def _if_played(says: Says) -> Says:
    return only_where(lambda book: book.penalty.played, "No penalty kicks are taken.", says)


WORDS: Final[Dictionary] = {
    "free_kick": Words(title="Free kicks", says=_free_kick),
    "free_kick.wall": Words(title="Attackers at a wall", says=_wall),
    "free_kick.own_area": Words(title="Free kicks out of the own area", says=_own_area),
    "free_kick.near_goal": Words(title="Free kicks close to goal", says=_near_goal),
    "free_kick.crossing": Words(title="Crossing the official's line", says=_crossing),
    "penalty": Words(title="The penalty kick", says=_if_played(_penalty)),
    "penalty.goalkeeper": Words(
        title="The goalkeeper at a penalty kick",
        says=_if_played(only_where(a_goalkeeper_plays, NO_GOALKEEPER, _goalkeeper)),
    ),
    "penalty.encroachment": Words(
        title="Coming too near at a penalty kick", says=_if_played(_encroachment)
    ),
    "penalty.double_touch": Words(
        title="An accidental second touch at a penalty kick", says=_if_played(_double_touch)
    ),
}
