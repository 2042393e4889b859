"""Lists the open questions of a game with what each answer does, and answers one from the desk."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from wholeball.files.game_log import held
from wholeball.game.codec import event
from wholeball.game.event import Event
from wholeball.game.happenings import Answered, Rated
from wholeball.game.paper_entries import AT_THE_DESK, Told
from wholeball.game.state import Question
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.text import is_text, unreadable
from wholeball.league.record import LeagueRecord
from wholeball.reports.game_questions import ANSWERS, COUNTING, Answer, asked
from wholeball.reports.game_told import ToldGame
from wholeball.reports.game_words import game_words
from wholeball.rulebook.book import Rulebook
from wholeball.usecases.enter_doubts import came_late
from wholeball.usecases.enter_game import GameToEnter, game_of_folder, told_so_far
from wholeball.usecases.seal_entries import DESK, Author, refuse_damage, sealed

MOST_REASON: Final = 500
_LAST: Final = (2**53 - 1, 0, DESK.dev, 1)
"""The order of an answer that is tried out: after all that was recorded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Open:
    """An open question in words, with its article and what each answer to it does."""

    question: Question
    says: str
    stands: str
    cites: str
    answers: tuple[tuple[Answer, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A game after a question was answered, the questions still open, and what is doubtful."""

    told: ToldGame
    left: tuple[Open, ...]
    remarks: tuple[Fault, ...]


def open_questions(to: GameToEnter) -> tuple[Open, ...]:
    """Return the open questions of a game in the order in which they are numbered."""
    return _open(to, to.events)


def game_to_answer(record: LeagueRecord, game: GameId) -> GameToEnter:
    """Return a game of which questions may be answered.

    Raises:
        InputFaults: as for `game_of_folder`.
        WholeballError: as for `game_of_folder`, or the desk's entries are damaged.
    """
    to = game_of_folder(record, game)
    refuse_damage(to.log, game, DESK, "the desk")
    return to


def answer_question(
    to: GameToEnter, question: Question, answer: str, *, reason: str, by: Author
) -> Said:
    """Write down what was answered to a question, and return the game as it stands with it.

    Raises:
        WholeballError: the question has no such answer or is answered by now, the reason or the
            name does not do, or the disk refuses.
    """
    why = _reason(reason)
    with held(to.record, to.game) as writes:
        now = replace(to, log=writes.log)
        refuse_damage(now.log, now.game, DESK, "the desk")
        if (question.event, question.code) not in _keys(now):
            raise WholeballError(
                "That question is open no more.",
                fix=f"Look at the game: {to.record.way('look', game=to.game)}",
                code="answered",
            )
        what = _answered(question, _known(question, answer), why)
        [entry] = sealed(
            now.log,
            [Told(AT_THE_DESK, what)],
            game=now.game,
            writer=DESK,
            by=by,
            rulebook=now.rules.book.digest,
        )
        writes.append([entry])
    after = (*now.events, event(entry))
    late = came_late(now.log.report.standing, now.game, now.rules, to.record)
    return Said(told=told_so_far(now, after), left=_open(now, after), remarks=tuple(late))


def _keys(to: GameToEnter) -> set[tuple[str, str]]:
    told = told_so_far(to, to.events)
    return {(one.event, one.code) for one in told.state.open_questions}


def _open(to: GameToEnter, found: Sequence[Event]) -> tuple[Open, ...]:
    told = told_so_far(to, found)
    pairs = zip(told.state.open_questions, asked(told), strict=False)
    return tuple(
        Open(
            question=question,
            says=f"{words.says}{_figures(told, question)}",
            stands=words.stands,
            cites=f"{words.ref}, {words.title}" if words.ref else "",
            answers=tuple(_answers(to, found, question, str(game_words(told).counts_as))),
        )
        for question, words in pairs
    )


def _answers(
    to: GameToEnter, found: Sequence[Event], question: Question, now: str
) -> Iterator[tuple[Answer, str]]:
    """Yield each answer with what it does, found by trying it out."""
    for answer in _answers_to(question):
        tried = Event("", AT_THE_DESK, _LAST, _answered(question, answer, ""))
        then = str(game_words(told_so_far(to, (*found, tried))).counts_as)
        yield answer, ANSWERS[answer] if then == now else f"{ANSWERS[answer]} {then}"


def _answers_to(question: Question) -> tuple[Answer, ...]:
    return ("counts", "does_not_count") if question.code in COUNTING else ("as_it_is",)


def _answered(question: Question, answer: Answer, reason: str) -> Answered:
    return Answered(
        target=question.event,
        asked=question.code,
        answer=answer,
        by="supervisor",
        reason=reason,
    )


def _figures(told: ToldGame, question: Question) -> str:
    """Return the figures of a question about a rating; empty where it has none."""
    given = told.event(question.event)
    if given is None or not isinstance(given.what, Rated):
        return ""
    limit = _limit(told.rules.book, question.code)
    return f" It is {given.what.hundredths / 100:g}{f', {limit}' if limit else ''}."


def _limit(book: Rulebook, code: str) -> str:
    ratings = book.ratings
    match code:
        case "rating_cap":
            return f"at most {ratings.cap_after_sending_off:f}"
        case "rating_reason":
            return f"and {ratings.reason_at_or_below:f} or less needs a reason"
        case "rating_range":
            scale = ratings.scale
            return f"and the scale is {scale.low:f} to {scale.high:f} by {scale.step:f}"
        case _:
            return ""


def _known(question: Question, answer: str) -> Answer:
    known = _answers_to(question)
    found = next((one for one in known if one == answer), None)
    if found is None:
        raise WholeballError(
            f"{answer!a} is no answer to that question.",
            fix=f"Give {' or '.join(known)}.",
            code="unknown_value",
        )
    return found


def _reason(text: str) -> str:
    cleaned = text.strip()
    if not 0 < len(cleaned) <= MOST_REASON or unreadable(cleaned) or not is_text(cleaned):
        raise WholeballError(
            f"The reason {cleaned[:40]!a} does not do.",
            fix=f'Give 1 to {MOST_REASON} letters, such as: "Both captains agree."',
            code="reason",
        )
    return cleaned
