"""Says each statement about a game in one sentence, with the article that it follows from."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.game.event import Moment
from wholeball.game.happenings import Cautioned, Protested, Replayed, SentOff
from wholeball.game.state import Away, CardLine, GoalLine, Statement
from wholeball.kernel.identity import Side
from wholeball.reports.figures import score
from wholeball.reports.game_entries import ABOUT, capital
from wholeball.reports.game_persons import person, person_of, shown
from wholeball.reports.game_told import (
    ToldGame,
    is_timed,
    minutes,
    period_name,
    score_at,
    seconds_left,
    side_name,
    the_period,
    untimed_periods,
)
from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.sentence import Sentence, counted, say
from wholeball.rulebook.words.lookup import words

STATEMENTS: Final[Mapping[str, str]] = {
    "kick_off_side": "{Side} kicks off {period}, as was chosen.",
    "second_caution": "{Who} has {yellows} in this game, which make a red.",
    "time_penalty": "{Who} is off for {off} after yellow.",
    "time_penalty_over": "{Who} has been off for {off} and may come on again.",
    "off_until_replaced": "{Who} is off after yellow until somebody comes on instead.",
    "plays_short": "{Side} plays with one fewer after red.",
    "may_fill_up": "{Side} may fill up again, {fill} after red.",
    "injured_off": "{Who} is off, injured, until the next time the ball is dead.",
    "out_for_the_day": "{Who} is out for the day.",
    "chance_played_out": "Time is up, and the chance that is on is played out.",
    "mercy": "The mercy rule ends the game: {leader} leads by {lead} with {left} left.",
    "full_time": "Full time: the game ends {score}.",
    "to_overtime": "The game is level, {score}, and goes to overtime.",
    "to_kicks": "The game is level, {score}, and goes to kicks from the mark.",
    "draw": "The game ends level, {score}, and is a draw.",
    "golden_goal": "The first goal of overtime ends the game, {score}.",
    "overtime_over": "Overtime is over, and the game ends {score}.",
    "kicks_decided": "{Kicks_winner} wins the kicks from the mark, {kicks}.",
    "kicks_level": "The kicks from the mark end level, {kicks}, and no more are taken.",
    "wait_allowed": "{Side} is waited for, up to {grace}.",
    "no_wait": "{Side} is not waited for.",
    "grace_over": "The time to wait for {side}, {grace}, has run out.",
    "clock_shortened": "The {first_period} is shorter by the time that was waited.",
    "forfeit": "{By} forfeits, and the game counts {result}.",
    "played_stands": "{By} forfeits; the score already played is worse for it and stands, {result}.",
    "default": "{By} said in time that it would not come, and the game counts {result}.",
    "default_late": "{By} said too late that it would not come, which is a forfeit.",
    "double_forfeit": "Neither side was ready, so neither wins.",
    "complete": "The game had gone on long enough when it was broken off: {score} stands.",
    "to_resume": "The game was broken off and is to go on from there on another day.",
    "to_replay": "The game was broken off and is to be played again from its start.",
    "annulled": "The game counts for nothing.",
    "side_to_blame": "{Side} is to blame that the game was broken off.",
    "both_to_blame": "Both sides are to blame that the game was broken off, and neither wins.",
    "resumed": "The game goes on where it was broken off; only the time left is played.",
    "replayed": "The game is played again from {since}; what came after counts no more.",
    "protest": "{Side} protests against {about}; the score is {score}.",
}
"""The sentence of each code; a value in braces is filled in from the game."""
_EARLY: Final = "The game ends {score}, before time was up."
"""What full time is called where there was time left."""
_PROTEST: Final = "{Side} protests against {about}."
"""What is said of a protest where nobody wrote down when it was made, and at which score."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cited:
    """A sentence with the article it follows from: how it is cited, and its heading."""

    at: Moment
    says: Sentence
    ref: str
    title: str
    path: Path


def stated(told: ToldGame, statement: Statement) -> Cited:
    """Return a statement in words.

    Raises:
        KeyError: the code is not one of `STATEMENTS`, or no article stands at its path.
    """
    ref, title = cited(told.rules.book, statement.article)
    is_early = statement.code == "full_time" and has_time_left(told)
    template = _EARLY if is_early else STATEMENTS[statement.code]
    if statement.code == "protest" and not is_timed(told.event(statement.event)):
        template = _PROTEST
    says = say(template, **_values(told, statement))
    return Cited(at=statement.at, says=says, ref=ref, title=title, path=statement.article)


def has_time_left(told: ToldGame) -> bool:
    """Tell whether a game ended as if at full time, in a period that ended before its time."""
    ending = told.state.ending
    return (
        ending is not None
        and ending.how == "full_time"
        and any(
            asked.code == "ended_early" and asked.at.period == ending.at.period
            for asked in told.state.questions
        )
    )


def cited(book: Rulebook, path: Path) -> tuple[str, str]:
    """Return how an article is cited, and its heading."""
    return book.article(path).ref or path, words(path).title


def subject(told: ToldGame, side: Side | None, event_id: str | None) -> tuple[Side | None, str]:
    """Return the side and the person that an entry is about: "number 7 of Ash"."""
    event = told.event(event_id)
    if event is None:
        return side, person_of(told, side, _number_of(told, event_id), event_id)
    if isinstance(event.what, Cautioned | SentOff):
        return event.what.side, shown(told, event.what)
    found: Side | None = side or getattr(event.what, "side", None)
    return found, person(told, found, getattr(event.what, "number", None))


def _number_of(told: ToldGame, event_id: str | None) -> int | None:
    state = told.state
    lines: tuple[GoalLine | CardLine | Away, ...] = (*state.goals, *state.cards, *state.away)
    return next((line.number for line in lines if line.event == event_id), None)


def _values(told: ToldGame, statement: Statement) -> dict[str, str]:
    side, who = subject(told, statement.side, statement.event)
    return {
        "Side": capital(side_name(told, side)),
        "side": side_name(told, side),
        "Who": capital(who),
        "period": the_period(told.rules, max(statement.at.period, 1)),
        "first_period": period_name(told.rules, 1),
        **_by_rulebook(told),
        **_by_score(told, statement),
        **_by_ending(told, side),
        **_by_event(told, statement),
    }


def _by_rulebook(told: ToldGame) -> dict[str, str]:
    book = told.rules.book
    return {
        "yellows": counted(book.cards.cautions_for_red, "yellow"),
        "off": counted(book.cards.cautioned.minutes, "minute"),
        "fill": counted(book.cards.sent_off.after_minutes, "minute"),
        "grace": counted(book.forfeit.grace.minutes, "minute"),
    }


def _by_score(told: ToldGame, statement: Statement) -> dict[str, str]:
    stands = score_at(told, statement.at)
    leader: Side = "home" if stands.home >= stands.away else "away"
    kicks = told.state.kicks
    return {
        "score": score(*stands),
        "leader": side_name(told, leader),
        "lead": counted(abs(stands.home - stands.away), "goal"),
        "left": _left(told, statement),
        "kicks": score(*kicks.scored) if kicks else "",
        "Kicks_winner": capital(side_name(told, kicks.winner if kicks else None)),
    }


def _left(told: ToldGame, statement: Statement) -> str:
    """Return how much is left; about, where goals of that period have no minute."""
    left = seconds_left(told, statement.at)
    if statement.at.period in untimed_periods(told):
        return f"about {counted(round(left / 60), 'minute')}"
    return minutes(left)


def _by_ending(told: ToldGame, side: Side | None) -> dict[str, str]:
    ending, result = told.state.ending, told.state.result
    by = ending.by if ending is not None and ending.by is not None else side
    return {
        "By": capital(side_name(told, by)),
        "result": score(*(result if result is not None else told.state.score)),
    }


def _by_event(told: ToldGame, statement: Statement) -> dict[str, str]:
    event = told.event(statement.event)
    what = None if event is None else event.what
    from_start = isinstance(what, Replayed) and what.protest is None
    return {
        "since": "its start" if from_start else "the moment of a protest",
        "about": ABOUT[what.about] if isinstance(what, Protested) else "a decision",
    }
