"""Says each question that an entry raises: what is so, and what a person can answer."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.game.event import KICKS, Moment
from wholeball.game.happenings import SignRefused
from wholeball.game.state import Ending, Question
from wholeball.reports.figures import score
from wholeball.reports.game_entries import SIGNERS, capital, entry_name
from wholeball.reports.game_statements import cited, subject
from wholeball.reports.game_told import (
    ToldGame,
    ended_when,
    length,
    minutes,
    period_name,
    score_at,
    side_name,
)
from wholeball.rulebook.sentence import Sentence, counted, listed, say

Answer: TypeAlias = Literal["counts", "does_not_count", "as_it_is"]
_COUNTING: Final[tuple[Answer, ...]] = ("counts", "does_not_count")
_LEAVING: Final[tuple[Answer, ...]] = ("as_it_is",)
ANSWERS: Final[dict[Answer, str]] = {
    "counts": "It counts.",
    "does_not_count": "It does not count.",
    "as_it_is": "It stays as it is.",
}

COUNTING: Final[Mapping[str, str]] = {
    "before_start": "The {entry} came before the kick-off.",
    "after_end": "The {entry} came after the game was over.",
    "after_time": "The {entry} came after the time of the {period} was up.",
    "not_in_play": "The {entry} came while the ball was not in play.",
    "double_tap": "The {entry} came two seconds or less after another of the same side.",
    "unknown_player": "{Who} was not checked in.",
    "already_off": "{Who} had been sent off before this.",
    "out_for_the_day": "{Who} is out for the day, and came back all the same.",
    "mercy": "The {entry} came after the mercy rule had ended the game.",
    "decided": "The {entry} came after the game was decided.",
    "not_in_rulebook": "The rulebook does not have {extra} for this game.",
    "turn": "The {entry} came out of turn.",
    "kicked_twice": "{Who} took a second kick before that is allowed.",
    "not_eligible_kicker": "{Who} is not among those who may take a kick.",
    "kick_order": "A kick of {Side} came out of the order that is asked for.",
    "unequal_numbers": "The sides have different numbers of players for the kicks.",
    "too_many_substitutions": "{Side} made more substitutions than {most}.",
    "came_again": "{Side} brought on somebody who had been replaced.",
    "rating_range": "A rating of {Side} is not on the scale.",
    "rating_by": "A rating of {Side} came from somebody who is not asked for one.",
    "rating_reason": "A rating of {Side} is so low that it needs a reason, and has none.",
    "rating_cap": "A rating of {Side} is above the best for a side with a red.",
    "rated_twice": "{Side} was rated twice at one moment by the same person.",
    "disorder": "The game was broken off for disorder, and nobody wrote down that a side is to "
    "blame. Say whether {stood} stands; where it does not, the coordinator rules.",
    "id_clash": "Two entries say that they are the same and differ; one is set aside.",
}
"""Questions about an entry that counts or does not."""
LEAVING: Final[Mapping[str, str]] = {
    "no_chance": "Time was up, and the chance was further off than is played out.",
    "second_start": "The {period} had begun and was begun again.",
    "period_order": "The {period} came out of turn.",
    "ended_early": "The {period} ended {early}.",
    "kick_off_side": "Another side than should kicked off the {period}.",
    "ends_choice": "{Side} chose what the rulebook does not let the winner choose.",
    "below_minimum": "{Side} has fewer than the {continue} it may go on with.",
    "below_start": "{Side} began with fewer than the {start} it may start with.",
    "too_many": "{Side} had more than {field} on the field.",
    "too_soon": "{Who} came back sooner than is allowed.",
    "played_on": "The scorecard says that the game was played to its time. By "
    "{mercy_rule} it would have ended {would_end}, at a lead of {lead}; if it did, mend how "
    "it ended.",
    "not_supervisor": "A hold was lifted by somebody other than the supervisor.",
    "not_theirs": "The choice whether to wait was made by somebody whose choice it is not.",
    "final_choice": "Whether to wait was chosen a second time; the first choice stands.",
    "late_start": "{Side} was ready only after the time to wait, {grace}, had run out.",
    "not_protestable": "{Side} protests against what the rulebook takes no protest about.",
    "protest_by": "The protest of {Side} was not made by its captain.",
    "unsigned": "{Signer} refused to sign the scorecard.",
    "not_broken_off": "The game was resumed though it had not been broken off.",
    "pending": "A correction or answer speaks of an entry that has not arrived.",
    "not_retractable": "What was taken back cannot be brought back like this: enter it again.",
    "not_a_goal": "A goal was disallowed that is no goal.",
    "not_amendable": "A correction speaks of something that its entry does not have.",
    "update_needed": "An entry was made by a newer version of this program; it is kept, not read.",
}
"""Questions about an entry that stays whatever is answered."""
_OF_RATINGS: Final = frozenset(
    {"rating_range", "rating_by", "rating_reason", "rating_cap", "rated_twice"}
)
QUESTIONS: Final[Mapping[str, str]] = {**COUNTING, **LEAVING}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question in words; `ref` and `title` are empty where no article asks it.

    `stands` says how things stand, or what was answered; `answers` is what a person may say.
    """

    at: Moment
    code: str
    says: Sentence
    stands: str
    answers: tuple[str, ...]
    ref: str
    title: str
    path: str = ""


def asked(told: ToldGame) -> tuple[Asked, ...]:
    """Return every question that this reader may see, open ones first.

    Raises:
        KeyError: a code is not one of `QUESTIONS`.
    """
    seen = (
        one
        for one in told.state.questions
        if told.reader == "officials" or one.code not in _OF_RATINGS
    )
    return tuple(
        _asked(told, one) for one in sorted(seen, key=lambda one: one.answer is not None)
    )


def _asked(told: ToldGame, question: Question) -> Asked:
    ref, title = ("", "")
    if question.article is not None:
        ref, title = cited(told.rules.book, question.article)
    return Asked(
        at=question.at,
        code=question.code,
        says=say(_template(told, question), **_values(told, question)),
        stands=_stands(question),
        answers=_answers(question),
        ref=ref,
        title=title,
        path=question.article or "",
    )


def _template(told: ToldGame, question: Question) -> str:
    """Return the sentence of a question; officials read in it why somebody would not sign."""
    if told.reader == "officials" and _refused_for(told, question):
        return "{Signer} refused to sign the scorecard: {why}."
    return QUESTIONS[question.code]


def _answers(question: Question) -> tuple[str, ...]:
    if question.answer is not None:
        return ()
    answers = _COUNTING if question.code in COUNTING else _LEAVING
    return tuple(ANSWERS[answer] for answer in answers)


def _stands(question: Question) -> str:
    match question.answer:
        case "counts" | "does_not_count" | "as_it_is" as answer:
            said = ANSWERS[answer]
            return f"Answered: {said[:1].lower()}{said[1:]}"
        case _ if question.code in LEAVING:
            way = "stays as it is" if question.counts else "has no effect"
            return f"Until somebody answers, it {way}."
        case _:
            way = "counts" if question.counts else "does not count"
            return f"Until somebody answers, it {way}."


def _values(told: ToldGame, question: Question) -> dict[str, str]:
    book, rules = told.rules.book, told.rules
    side, who = subject(told, question.side, question.event)
    most = book.substitution.most
    stands = score_at(told, question.at)
    return {
        "Side": capital(side_name(told, side)),
        "Who": capital(who),
        "Signer": _signer(told, question),
        "why": _refused_for(told, question).rstrip("."),
        "mercy_rule": _mercy_rule(told),
        "stood": score(*told.state.score),
        "lead": counted(abs(stands.home - stands.away), "goal"),
        "would_end": ended_when(
            told, Ending(how="mercy", at=question.at, article=question.article or "mercy")
        ),
        "entry": entry_name(told, question.event),
        "period": period_name(rules, question.at.period),
        "early": _early(told, question),
        "extra": "kicks from the mark" if question.at.period == KICKS else "overtime",
        "continue": counted(book.sides.minimum_to_continue, "player"),
        "start": counted(book.sides.minimum_to_start, "player"),
        "field": counted(book.sides.on_field, "player"),
        "most": "there may be" if isinstance(most, str) else f"the {most} there may be",
        "grace": counted(book.forfeit.grace.minutes, "minute"),
    }


def _early(told: ToldGame, question: Question) -> str:
    """Return how much was left, and in the last period what the mercy rule would have asked."""
    at, rules = question.at, told.rules
    left = length(told, at.period) - at.clock
    said = f"with {minutes(left)} left, before its time was up"
    ladder = rules.book.mercy.ladder
    if at.period != rules.periods or not ladder:
        return said
    stands = score_at(told, at)
    rungs = (f"{counted(one.lead, 'goal')} with {one.minutes_left}:00 left" for one in ladder)
    lead = counted(abs(stands.home - stands.away), "goal")
    return f"{said}, at a lead of {lead}; the mercy rule asks for {listed(tuple(rungs), last='or')}"


def _mercy_rule(told: ToldGame) -> str:
    ref = cited(told.rules.book, "mercy")[0]
    return "the mercy rule" if ref == "mercy" else f"{ref}, the mercy rule,"


def _refused_for(told: ToldGame, question: Question) -> str:
    """Return why somebody refused to sign, as it was written down; empty for other questions."""
    event = told.event(question.event)
    if event is None or question.code != "unsigned":
        return ""
    return event.what.reason if isinstance(event.what, SignRefused) else ""


def _signer(told: ToldGame, question: Question) -> str:
    event = told.event(question.event)
    if event is not None and isinstance(event.what, SignRefused):
        return capital(SIGNERS[event.what.by])
    return "Somebody"
