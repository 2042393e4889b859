"""Finds what a paper scorecard cannot mean under the rules of its game.

What happened is never refused: these are slips of the pen and of the keyboard.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.game.paper import PaperCard, PaperProtest, PaperRating, PaperYellow
from wholeball.game.paper_goals import ROOM, played_seconds, seconds_of
from wholeball.game.rules import GameRules
from wholeball.kernel.lines import Loc

_CUT_SHORT: Final = ("mercy", "forfeit", "broken_off")


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """One value that cannot be meant: where it stands, what is so, and the cure."""

    code: str
    loc: Loc
    says: str
    value: str
    allowed: str
    cure: str


def misfits(card: PaperCard, rules: GameRules) -> tuple[Misfit, ...]:
    """Return everything about a card that cannot be meant; empty is a pass."""
    return (
        *_ending(card),
        *_periods(card, rules),
        *_time_left(card, rules),
        *_resumed(card, rules),
        *_too_many_goals(card, rules),
        *_named_goals(card),
        *_minutes(card),
        *_kickers(card),
        *_players(card),
        *(
            found
            for index, rating in enumerate(card.ratings)
            for found in rating_misfits(rating, rules, loc=("ratings", index, "value"))
        ),
    )


def rating_misfits(rating: PaperRating, rules: GameRules, *, loc: Loc) -> Iterator[Misfit]:
    """Yield what is wrong with a rating's value: off the scale, or none of its steps."""
    ratings, value = rules.book.ratings, rating.value
    scale = ratings.scale
    is_whole = value.is_finite() and 0 <= value <= 100 and value * 100 % 1 == 0
    if ratings.by == "nobody":
        low, high, step, is_on = "0", "100", "0.01", is_whole
    else:
        low, high, step = f"{scale.low:f}", f"{scale.high:f}", f"{scale.step:f}"
        is_on = is_whole and scale.has(value)
    if not is_on:
        yield Misfit(
            code="range",
            loc=loc,
            says=f"the rating {value} is no value of the scale.",
            value=str(value),
            allowed=f"{low} to {high} in steps of {step}",
            cure=f"Give {low} to {high} in steps of {step}.",
        )


def ended(card: PaperCard) -> tuple[str, ...]:
    """Return how a card says that the game ended, other than by time."""
    ways = {
        "mercy": card.ended == "mercy",
        "forfeit": card.forfeit is not None,
        "default": card.default is not None,
        "broken_off": card.broken_off is not None,
    }
    return tuple(name for name, is_so in ways.items() if is_so)


def _ending(card: PaperCard) -> Iterator[Misfit]:
    ways = ended(card)
    if len(ways) > 1:
        yield Misfit(
            code="contradiction",
            loc=(ways[1],),
            says=f"the game ended in {len(ways)} ways: {', '.join(ways)}.",
            value=", ".join(ways),
            allowed="one way",
            cure="Keep the one that ended it.",
        )
    if "mercy" in ways and card.overtime:
        yield Misfit(
            code="contradiction",
            loc=("ended",),
            says="no mercy rule ends a game in overtime.",
            value="mercy",
            allowed="no ending, or a game without overtime",
            cure="Take ended out, or the score of overtime.",
        )
    if "default" in ways and card.scores:
        yield Misfit(
            code="contradiction",
            loc=("periods",),
            says="a game that a side defaulted has a score.",
            value=", ".join(f"{one.home}-{one.away}" for one in card.scores),
            allowed="no score",
            cure="Take the score out, or write [forfeit] where a side gave up on the field.",
        )


def _periods(card: PaperCard, rules: GameRules) -> Iterator[Misfit]:
    given, wanted = len(card.periods), rules.periods
    ways = ended(card)
    if given > wanted:
        says, cure = "more than the rulebook has", "Write overtime as overtime = [...]."
    elif given < wanted and (card.overtime or card.kicks is not None):
        says, cure = "and overtime or kicks after them", "Give the goals of each period."
    elif given < wanted and not ways:
        says = "and nothing says why there are no more"
        cure = 'Give each, or say how the game ended: ended = "mercy", [forfeit], [broken_off].'
    elif not given and "mercy" in ways:
        says, cure = "and no score to end a game by", "Give the goals of each period."
    else:
        return
    yield Misfit(
        code="missing" if given < wanted else "range",
        loc=("periods",),
        says=f"periods has {given} of {wanted} scores, {says}.",
        value=str(given),
        allowed=str(wanted),
        cure=cure,
    )


def _time_left(card: PaperCard, rules: GameRules) -> Iterator[Misfit]:
    left, last = card.minutes_left, len(card.scores)
    needed = (card.broken_off is not None and last) or _is_mercy_unknown(card, rules)
    if left is None and needed:
        yield Misfit(
            code="missing",
            loc=("minutes_left",),
            says="minutes_left is missing, and the game ended before its time.",
            value="",
            allowed="a number of minutes",
            cure="Give what the clock of the last period still had.",
        )
    if left is None:
        return
    if not last or not set(ended(card)) & set(_CUT_SHORT):
        yield Misfit(
            code="contradiction",
            loc=("minutes_left",),
            says=f"minutes_left is {left}, and the game did not end before its time.",
            value=str(left),
            allowed="only where a game that was played ended before its time",
            cure='Take it out, or say how the game ended: ended = "mercy", [forfeit], [broken_off].',
        )
    elif 60 * left > seconds_of(rules, last):
        most = seconds_of(rules, last) // 60
        yield Misfit(
            code="range",
            loc=("minutes_left",),
            says=f"minutes_left is {left}, and the last period has {most} minutes.",
            value=str(left),
            allowed=f"0 to {most}",
            cure=f"Give 0 to {most}: what the clock of the last period still had.",
        )


def _resumed(card: PaperCard, rules: GameRules) -> Iterator[Misfit]:
    for colour, shown in (("yellow", card.yellow), ("red", card.red)):
        for index, one in enumerate(shown):
            if one.before_stop and (card.resumed is None or one.minute is not None):
                yield Misfit(
                    code="contradiction",
                    loc=(colour, index, "before_stop"),
                    says="before_stop is set, and the minute or no stop at all is given.",
                    value="true",
                    allowed="only without a minute, in a game that was resumed",
                    cure="Take before_stop out, or add the table [resumed].",
                )
    if card.resumed is None:
        return
    period, last = card.resumed.period, len(card.scores)
    if period > last:
        yield Misfit(
            code="range",
            loc=("resumed", "period"),
            says=f"the game stopped in period {period}, which was not played: it has no score.",
            value=str(period),
            allowed=f"at most {last}",
            cure="Give a period that has a score.",
        )
        return
    ended_with = (card.minutes_left or 0) if period == last else 0
    most = seconds_of(rules, period) // 60
    if not ended_with <= card.resumed.minutes_left <= most:
        yield Misfit(
            code="range",
            loc=("resumed", "minutes_left"),
            says=f"the clock of period {period} cannot have had {card.resumed.minutes_left} "
            "minutes left when the game stopped.",
            value=str(card.resumed.minutes_left),
            allowed=f"{ended_with} to {most}",
            cure="Give what the clock still had when the game stopped.",
        )


def _is_mercy_unknown(card: PaperCard, rules: GameRules) -> bool:
    """Tell whether a card says mercy where the rulebook's ladder does not bring it by itself."""
    if card.ended != "mercy" or not card.periods:
        return False
    lead = abs(sum(one.home - one.away for one in card.periods))
    after = rules.period_seconds * (rules.periods - len(card.periods))
    return not any(lead >= least and after <= most for least, most in rules.ladder)


def _too_many_goals(card: PaperCard, rules: GameRules) -> Iterator[Misfit]:
    for period, score in enumerate(card.scores, start=1):
        most = played_seconds(card, rules, period) // ROOM
        if sum(score) > most:
            index = period - 1
            is_over = index >= len(card.periods)
            loc = ("overtime", index - len(card.periods)) if is_over else ("periods", index)
            yield Misfit(
                code="range",
                loc=loc,
                says=f"{score.home}-{score.away} is more goals than the time has room for.",
                value=f"{score.home}-{score.away}",
                allowed=f"at most {most} goals",
                cure="Look at the card again.",
            )


def _named_goals(card: PaperCard) -> Iterator[Misfit]:
    counts: dict[tuple[str, int], int] = {}
    for index, goal in enumerate(card.goals):
        counts[goal.side, goal.period] = counts.get((goal.side, goal.period), 0) + 1
        is_played = goal.period <= len(card.scores)
        score = card.scores[goal.period - 1] if is_played else (0, 0)
        most = score[goal.side == "away"]
        if counts[goal.side, goal.period] == most + 1:
            yield Misfit(
                code="contradiction",
                loc=("goals", index),
                says=f"more goals of {goal.side} in period {goal.period} are listed than it made.",
                value=str(most + 1),
                allowed=f"at most {most}",
                cure="Change the score of that period, or take a goal out.",
            )


def _minutes(card: PaperCard) -> Iterator[Misfit]:
    lists: tuple[tuple[str, Sequence[PaperYellow | PaperProtest]], ...] = (
        ("yellow", card.yellow),
        ("red", card.red),
        ("protests", card.protests),
    )
    for colour, shown in lists:
        for index, one in enumerate(shown):
            if (one.period is None) != (one.minute is None):
                name = "period" if one.period is None else "minute"
                yield Misfit(
                    code="missing",
                    loc=(colour, index, name),
                    says=f"{name} is missing: a moment is a period and a minute of it.",
                    value="",
                    allowed="both, or neither",
                    cure="Give both, or take the other out.",
                )
            elif one.period is not None and one.period > len(card.scores):
                yield Misfit(
                    code="range",
                    loc=(colour, index, "period"),
                    says=f"period {one.period} was not played: it has no score.",
                    value=str(one.period),
                    allowed=f"at most {len(card.scores)}",
                    cure="Give a period that has a score.",
                )


def _kickers(card: PaperCard) -> Iterator[Misfit]:
    if card.kicks is None:
        return
    kicks = card.kicks
    sides = (("home", kicks.home, kicks.home_numbers), ("away", kicks.away, kicks.away_numbers))
    for side, marks, numbers in sides:
        if numbers and len(numbers) != len(marks):
            yield Misfit(
                code="range",
                loc=("kicks", f"{side}_numbers"),
                says=f"{side}_numbers has {len(numbers)} numbers for {len(marks)} kicks.",
                value=str(len(numbers)),
                allowed=str(len(marks)),
                cure="Give a number for each kick, or none.",
            )


def _players(card: PaperCard) -> Iterator[Misfit]:
    """Yield who is listed twice: a shirt by its number, a person by the name."""
    for key, players in (
        ("home_players", card.home_players),
        ("away_players", card.away_players),
    ):
        seen: set[int | str] = set()
        for index, one in enumerate(players):
            said = {one.number, one.name.casefold()} - {None, ""}
            for value in seen & said:
                yield Misfit(
                    code="duplicate",
                    loc=(key, index),
                    says=f"{value} is listed twice in {key}.",
                    value=str(value),
                    allowed="each player once",
                    cure="Take one out, or give the right number.",
                )
            seen |= {value for value in said if value is not None}
