"""Says where a game stands: its score, how it ended and why, what it counts as, what is open."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from wholeball.game.state import Away, CardLine, Ended, Ending, Phase, Signature
from wholeball.kernel.identity import Side
from wholeball.reports.broken_off_words import broken_off_words
from wholeball.reports.counts_as import counts, counts_as
from wholeball.reports.figures import score
from wholeball.reports.game_entries import ABOUT, SIGNERS, capital
from wholeball.reports.game_happened import Happened, happened
from wholeball.reports.game_persons import person, person_of
from wholeball.reports.game_questions import Asked, asked
from wholeball.reports.game_statements import cited, has_time_left
from wholeball.reports.game_told import (
    NO_MINUTE,
    ToldGame,
    ended_when,
    is_timed,
    period_name,
    side_name,
    until,
    when,
)
from wholeball.reports.official_words import late_entries, official_words
from wholeball.rulebook.sentence import Sentence, counted, say

PHASES: Final[dict[Phase, str]] = {
    "before": "The game has not begun.",
    "playing": "The game is being played.",
    "stopped": "Play is stopped.",
    "hold": "Play is stopped by a hold; only the supervisor lets it go on.",
    "interval": "It is the interval.",
    "kicks": "Kicks from the mark are being taken.",
    "broken_off": "The game is broken off.",
    "over": "The game is over.",
}
ENDINGS: Final[dict[Ended, str]] = {
    "full_time": "It ended at full time",
    "mercy": "It ended by the mercy rule",
    "overtime": "It ended with overtime",
    "golden_goal": "It ended with the first goal of overtime",
    "kicks": "It ended with kicks from the mark",
    "complete": "It was broken off after it had gone on long enough",
    "forfeit": "It ended by a forfeit of {by}",
    "default": "It ended by a default of {by}",
    "double_forfeit": "It ended with neither side ready",
    "annulled": "It counts for nothing",
    "to_coordinator": "It was broken off by {by}, and the coordinator decides",
}
OFF: Final[dict[str, str]] = {
    "time_penalty": "off after yellow",
    "caution": "off after yellow",
    "injury": "off, injured",
    "head_injury": "out for the day",
    "sent_off": "sent off",
    "equipment": "off to mend equipment",
    "bleeding": "off for a bleeding to be seen to",
    "other": "off",
}
_UNTIL: Final[dict[str, str]] = {
    "time_penalty": "until the time is over",
    "caution": "until somebody comes on instead",
    "injury": "until the next time the ball is dead",
    "head_injury": "",
    "sent_off": "",
    "equipment": "until the equipment is checked",
    "bleeding": "until the bleeding has stopped and is covered",
    "other": "until somebody comes on",
}
RATED_BY: Final[dict[str, str]] = {
    "official": "the official",
    "second_official": "the second official",
    "opponent": "the opponents",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class GameWords:
    """All that is said of one game, for one reader."""

    stands: tuple[Sentence, ...]
    counts_as: Sentence
    periods: tuple[tuple[str, str], ...]
    kicks: Sentence | None
    off: tuple[Sentence, ...]
    questions: tuple[Asked, ...]
    cards: tuple[Sentence, ...]
    protests: tuple[Sentence, ...]
    signatures: tuple[Sentence, ...]
    private: tuple[Sentence, ...]
    happened: tuple[Happened, ...]
    official: tuple[Sentence, ...]
    late: tuple[Sentence, ...]


def game_words(told: ToldGame) -> GameWords:
    """Return everything that is said of a game; `private` is empty but for officials."""
    state = told.state
    return GameWords(
        stands=tuple(_stands(told)),
        counts_as=counts_as(told),
        periods=tuple(
            (capital(period_name(told.rules, number)), score(*goals))
            for number, goals in enumerate(state.by_period, start=1)
        ),
        kicks=_kicks(told),
        off=() if state.phase == "over" else off(told),
        questions=asked(told),
        cards=tuple(_card(told, one) for one in state.cards),
        protests=tuple(_protests(told)),
        signatures=tuple(_signature(told, one) for one in state.signatures),
        private=tuple(_private(told)) if told.reader == "officials" else (),
        happened=happened(told),
        official=tuple(official_words(told)),
        late=late_entries(told),
    )


def off(told: ToldGame) -> tuple[Sentence, ...]:
    """Return who is off, or was when the game ended, and until when."""
    return tuple(_off(told, one) for one in told.state.away)


def on_kicks(told: ToldGame) -> str:
    """Return the score of kicks as it follows the game's own: ", 3-1 on kicks"."""
    kicks = told.state.kicks
    return "" if kicks is None else f", {score(*kicks.scored)} on kicks"


def _stands(told: ToldGame) -> Iterator[Sentence]:
    """Yield how a game stands; what was not played is told by what it counts as alone."""
    row = None if told.settled is None else told.settled.row
    if row is not None:
        yield say("Its result stands in the list of results, row {row}.", row=row)
    elif told.has_entries and not is_unplayed(told):
        if told.state.phase != "broken_off":
            yield say(PHASES[told.state.phase])
        yield from _ending(told)
    winner = counts(told).winner
    if winner is not None:
        yield say(
            "{winner} wins{kicks}.", winner=side_name(told, winner), kicks=_won_on_kicks(told)
        )


def is_unplayed(told: ToldGame) -> bool:
    """Tell whether a game is over by what is recorded without having been begun."""
    return told.state.ending is not None and not told.was_played


def _ending(told: ToldGame) -> Iterator[Sentence]:
    ending = told.state.ending
    if ending is not None and has_time_left(told):
        yield say(
            f"It ended {ended_when(told, ending)}, before time was up: see its questions."
        )
    elif ending is not None and ending.how != "complete":
        ref, title = cited(told.rules.book, ending.article)
        yield say(
            f"{ended_how(told, ending)}, {ended_when(told, ending)}: {{ref}}, {title}.",
            by=side_name(told, ending.by),
            ref=ref,
        )
    yield from broken_off_words(told)


def ended_how(told: ToldGame, ending: Ending) -> str:
    """Return how a game ended, with {by} where it was a side that ended it."""
    says = ENDINGS[ending.how]
    if ending.how != "to_coordinator" or ending.by is not None:
        return says
    is_both = any(one.code == "both_to_blame" for one in told.state.statements)
    return says.replace(" by {by}", " by both sides" if is_both else "")


def _won_on_kicks(told: ToldGame) -> str:
    result = None if told.settled is None else told.settled.result
    if result is None:
        return on_kicks(told)
    if result.how != "played":
        return ""
    return on_kicks(told) if result.kicks is None else f", {score(*result.kicks)} on kicks"


def _kicks(told: ToldGame) -> Sentence | None:
    kicks = told.state.kicks
    if kicks is None:
        return None
    home, away = (
        f"{scored} of {taken}" for scored, taken in zip(kicks.scored, kicks.taken, strict=True)
    )
    lead = "{home} {home_kicks}, {away} {away_kicks}"
    then = ""
    if kicks.winner is not None:
        then = "; {winner} wins"
    elif kicks.turn is not None:
        then = "; {turn} kicks next"
    return say(
        f"{lead}{then}.",
        home=told.home,
        away=told.away,
        home_kicks=home,
        away_kicks=away,
        winner=side_name(told, kicks.winner),
        turn=side_name(told, kicks.turn),
    )


def _off(told: ToldGame, away: Away) -> Sentence:
    is_known = away.until is not None and is_timed(told.event(away.event))
    back = until(told, away.until) if away.until and is_known else _UNTIL[away.why]
    who = capital(person_of(told, away.side, away.number, away.event))
    return say(f"{{who}} is {OFF[away.why]}{', ' if back else ''}{back}.", who=who)


def _card(told: ToldGame, card: CardLine) -> Sentence:
    """Say one yellow or red; a red that only follows from yellows is said to follow."""
    colour = capital(card.colour)
    how = ", which follows from the yellows" if card.derived else ""
    if card.second_caution and not card.derived:
        how = ", for another yellow"
    why = ": {reason}." if told.reader == "officials" and card.reason else "."
    return say(
        f"{colour}, {{who}}, {when(told, card.at) if card.timed else NO_MINUTE}{how}{why}",
        who=_shown_to(told, card),
        reason=card.reason,
    )


def _shown_to(told: ToldGame, card: CardLine) -> str:
    side: Side = card.side
    if card.to == "team_official":
        return f"a team official of {side_name(told, side)}"
    role = ", a substitute" if card.to == "substitute" else ""
    return f"{person(told, side, card.number)}{role}"


def _protests(told: ToldGame) -> Iterator[Sentence]:
    for one in told.state.protests:
        if not is_timed(told.event(one.event)):
            yield say(
                f"{{side}} protests against {ABOUT[one.about]}, {NO_MINUTE}.",
                side=side_name(told, one.side),
            )
            continue
        yield say(
            f"{{side}} protests against {ABOUT[one.about]}, {when(told, one.at)}, "
            "at {score}.",
            side=side_name(told, one.side),
            score=score(*one.score),
        )


def _signature(told: ToldGame, one: Signature) -> Sentence:
    who = capital(SIGNERS[one.by])
    if one.refused is None:
        return say("{who} signed.", who=who)
    why = ": {reason}" if told.reader == "officials" and one.refused else ""
    return say(f"{{who}} refused to sign{why}.", who=who, reason=one.refused)


def _private(told: ToldGame) -> Iterator[Sentence]:
    """Yield ratings, and how many private records there are; never what they say."""
    for one in told.state.ratings:
        yield say(
            "{side} is rated {rating} by "
            + RATED_BY[one.by]
            + (": {why}." if one.reason else "."),
            side=side_name(told, one.side),
            rating=f"{one.hundredths / 100:g}",
            why=one.reason,
        )
    records = sum(one.record is not None for one in told.state.records)
    if records:
        yield say("{records} kept apart.", records=counted(records, "private record"))
