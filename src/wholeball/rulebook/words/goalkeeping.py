"""Says what the articles about the goalkeeper mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say
from wholeball.rulebook.words.phrases import (
    NO_GOALKEEPER,
    THEN,
    Says,
    a_goalkeeper_plays,
    only_where,
)

_AT_FEET: Final = {
    "ordinary_foul": "is judged as any player is",
    "always_foul": "always commits a foul",
}
_PASSED_SPOT: Final = {
    "offence": "where the ball was handled",
    "goal_area_line": "on the goal-area line, at the nearest point",
    "penalty_area_line": "on the penalty-area line, at the nearest point",
}
_AFTER_CLEARING: Final = {"allowed": "may", "offence": "still may not"}
_FREE_KICKS: Final = ("direct_free_kick", "indirect_free_kick")


def _goalkeeper(book: Rulebook) -> tuple[Sentence, ...]:
    at_feet = _AT_FEET[book.goalkeeper.at_feet]
    return (say("A goalkeeper who goes at an opponent's feet {judged}.", judged=at_feet),)


def _hold(book: Rulebook) -> tuple[Sentence, ...]:
    hold = book.goalkeeper.hold
    return (
        say(
            "A goalkeeper may keep the ball in the hands for {seconds}; if it takes longer, "
            "{then}.",
            seconds=counted(hold.seconds, "second"),
            then=THEN[hold.then],
        ),
        _shown(hold.shown_seconds),
    )


def _shown(seconds: int) -> Sentence:
    if seconds == 0:
        return say("The official shows {no} countdown.", no="no")
    return say(
        "The official shows the last {seconds} by hand.", seconds=counted(seconds, "second")
    )


def _hands_outside(book: Rulebook) -> tuple[Sentence, ...]:
    return (
        say(
            "When a goalkeeper handles the ball outside the own penalty area, {then}.",
            then=THEN[book.goalkeeper.hands_outside.then],
        ),
    )


def _return_pass(book: Rulebook) -> tuple[Sentence, ...]:
    passed = book.goalkeeper.return_pass
    then = say(
        "When a goalkeeper handles a ball that a team-mate deliberately kicked to them, {then}.",
        then=THEN[passed.then],
    )
    cleared = say(
        "Who has clearly kicked, or tried to kick, it away {may} handle it.",
        may=_AFTER_CLEARING[passed.after_clearing],
    )
    if passed.then not in _FREE_KICKS:
        return (then, cleared)
    return (then, say("It is taken {spot}.", spot=_PASSED_SPOT[passed.spot]), cleared)


def _return_throw(book: Rulebook) -> tuple[Sentence, ...]:
    return (
        say(
            "When a goalkeeper handles a team-mate's throw-in, {then}.",
            then=THEN[book.goalkeeper.return_throw.then],
        ),
    )


def _distribution(book: Rulebook) -> tuple[Sentence, ...]:
    distribution = book.goalkeeper.distribution
    counts = "counts" if distribution.direct_goal else "does not count"
    return (
        _past_halfway(book),
        say("A goalkeeper's throw straight into the opponents' goal {counts}.", counts=counts),
    )


def _past_halfway(book: Rulebook) -> Sentence:
    distribution = book.goalkeeper.distribution
    if distribution.past_halfway == "allowed":
        return say("A goalkeeper {may} send the ball past halfway.", may="may")
    return say(
        "A goalkeeper {may} send the ball past halfway in the air; if it goes there, {then}.",
        may="may not",
        then=THEN[distribution.then],
    )


def _if_one_plays(says: Says) -> Says:
    return only_where(a_goalkeeper_plays, NO_GOALKEEPER, says)


WORDS: Final[Dictionary] = {
    path: Words(title=title, says=_if_one_plays(says))
    for path, title, says in (
        ("goalkeeper", "Going at an opponent's feet", _goalkeeper),
        ("goalkeeper.hold", "Keeping the ball in the hands", _hold),
        ("goalkeeper.hands_outside", "Hands outside the penalty area", _hands_outside),
        ("goalkeeper.return_pass", "A team-mate's kick to the goalkeeper", _return_pass),
        ("goalkeeper.return_throw", "A team-mate's throw-in to the goalkeeper", _return_throw),
        ("goalkeeper.distribution", "Sending the ball away", _distribution),
    )
}
