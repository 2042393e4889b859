"""Says what the articles about substitution and injury mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say
from wholeball.rulebook.value import Most

_WHEN: Final = {
    "any_stoppage": "at any stoppage",
    "own_restarts": "at the side's own restarts",
    "goals_kicks_and_halves": "after a goal, at a goal kick and between periods",
    "flying": "at any time, also while the ball is in play",
}
_ENTERS: Final = {"halfway_line": "at the halfway line", "own_bench": "at the own bench"}
_CONCUSSION: Final = {
    "not_used": "A suspected head injury gives {extra} further substitution.",
    "optional": "A suspected head injury gives {extra} further substitution, where the "
    "league uses it.",
}
_EXTRA: Final = {"not_used": "no", "optional": "one"}
_BY: Final = {
    "anywhere": "wherever the player likes",
    "halfway_line": "at the halfway line",
    "nearest_point": "at the nearest point of the lines",
    "own_bench": "at the own bench",
}
_INJURED: Final = {
    "after_treatment": "A player who is treated on the field {leaves} and comes back on the "
    "official's signal.",
    "until_next_dead_ball": "A player for whom play was stopped {leaves} until the next time "
    "the ball is dead.",
    "may_stay": "A player for whom play was stopped {leaves}.",
}
_LEAVES: Final = {
    "after_treatment": "leaves after treatment",
    "until_next_dead_ball": "leaves",
    "may_stay": "may stay",
}


def _substitution(book: Rulebook) -> tuple[Sentence, ...]:
    substitution = book.substitution
    if substitution.most == 0:
        return (say("A side {may} substitute.", may="may not"),)
    again = "may come back" if substitution.again else "does not come back"
    signal = "waits for the official's signal" if substitution.signal else "waits for no signal"
    recorded = "are" if substitution.recorded else "are not"
    return (
        _number(substitution.most),
        say("A player who was replaced {again}.", again=again),
        say("Substitutions are made {when}.", when=_WHEN[substitution.when]),
        say(
            "The substitute enters {where} and {signal}.",
            where=_ENTERS[substitution.enters_at],
            signal=signal,
        ),
        say("Substitutions {recorded} written on the scorecard.", recorded=recorded),
        say(
            _CONCUSSION[substitution.concussion_extra],
            extra=_EXTRA[substitution.concussion_extra],
        ),
    )


def _number(most: Most) -> Sentence:
    if most == "no_limit":
        return say("A side may substitute {often}.", often="as often as it likes")
    return say("A side may substitute {often} a game.", often=_often(most))


def _often(most: int) -> str:
    return "once" if most == 1 else f"{most} times"


def _leaving(book: Rulebook) -> tuple[Sentence, ...]:
    if book.substitution.most == 0:
        return (
            say("{nobody} is replaced, so nobody leaves for a substitute.", nobody="Nobody"),
        )
    leaving = book.substitution.leaving
    by = say("A player who is replaced leaves {by}.", by=_BY[leaving.by])
    if leaving.seconds == "no_limit":
        return (by, say("{no} time is set for leaving.", no="No"))
    waits = leaving.too_slow_waits_seconds
    late = (
        f"waits {counted(waits, 'second')} of play, then for the first stoppage"
        if waits
        else "may enter at once all the same"
    )
    return (
        by,
        say("The player leaves {time}.", time=_in_time(leaving.seconds)),
        say("If it takes longer, the substitute {late}.", late=late),
    )


def _in_time(seconds: int) -> str:
    return f"within {counted(seconds, 'second')}" if seconds else "at once"


def _injury(book: Rulebook) -> tuple[Sentence, ...]:
    injury = book.injury
    return (
        say(_INJURED[injury.leaves], leaves=_LEAVES[injury.leaves]),
        *_off(book),
        say(
            "A bleeding player leaves until the bleeding has stopped and the wound is covered; "
            "an official looks first."
        ),
        say(
            "A player with a suspected head injury is out for the day; another night needs the "
            "clearance that local policy asks for."
        ),
    )


def _off(book: Rulebook) -> tuple[Sentence, ...]:
    injury = book.injury
    if injury.leaves == "may_stay":
        return ()
    goalkeeper = "may be treated and stay" if injury.goalkeeper_exempt else "leaves too"
    exempt = say("A goalkeeper {goalkeeper}.", goalkeeper=goalkeeper)
    seconds = injury.off_after_restart_seconds
    if seconds == 0:
        return (exempt,)
    off = say(
        "The player stays off for {time} after the restart.", time=counted(seconds, "second")
    )
    return (exempt, off)


WORDS: Final[Dictionary] = {
    "substitution": Words(title="Substitution", says=_substitution),
    "substitution.leaving": Words(title="Leaving the field", says=_leaving),
    "injury": Words(title="Injury", says=_injury),
}
