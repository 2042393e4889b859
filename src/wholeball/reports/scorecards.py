"""Makes what stands on the scorecards of a night, whatever they are printed with."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time
from typing import Final

from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import Fixture, Stage
from wholeball.league.league import Team
from wholeball.league.player import Player, Rosters
from wholeball.reports.reminders import Reminder, has_kicks, has_overtime, reminders
from wholeball.rulebook.book import Rulebook

BIBS: Final = "same colours: bibs"
SUDDEN_DEATH: Final = 4
"""Boxes a side for kicks in sudden death; more are written beside."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSide:
    """One side of a game as its scorecard shows it; colours are empty where nobody gave any."""

    team: TeamId
    colours: str
    players: tuple[Player, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scorecard:
    """One game as its scorecard shows it. Captains may see all of it."""

    game: GameId
    stage: Stage
    day: date
    start: time
    field: str
    home: CardSide
    away: CardSide


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What all scorecards of one stage have in common, as the rulebook says.

    Attributes:
        goals: a label for each box of a side's goals.
        kicks: boxes a side for kicks, before and in sudden death; none where there are no kicks.
        reminders: what an official forgets.
    """

    goals: tuple[str, ...]
    kicks: tuple[int, int]
    reminders: tuple[Reminder, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingSlip:
    """How officials rate a side, where they do; never on what captains see."""

    values: tuple[str, ...]
    says: str


def scorecards(
    fixtures: Sequence[Fixture], teams: Sequence[Team], rosters: Rosters
) -> tuple[Scorecard, ...]:
    """Return a scorecard for each game, in their order."""
    by_name = {team.team: team for team in teams}
    return tuple(
        _scorecard(one, by_name[one.home], by_name[one.away], rosters) for one in fixtures
    )


def sheet(book: Rulebook, stage: Stage) -> Sheet:
    """Return what the scorecards of a stage have in common."""
    kicks = book.kicks
    in_pairs = SUDDEN_DEATH if kicks.sudden_death else 0
    return Sheet(
        goals=_goals(book, stage),
        kicks=(kicks.each, in_pairs) if has_kicks(book, stage) else (0, 0),
        reminders=reminders(book, stage),
    )


def rating_slip(book: Rulebook) -> RatingSlip | None:
    """Return how officials rate, or None where they do not."""
    ratings = book.ratings
    if ratings.by not in ("officials", "officials_and_opponents"):
        return None
    scale, least = ratings.scale, ratings.reason_at_or_below
    steps = int((scale.high - scale.low) / scale.step)
    values = (
        tuple(f"{scale.low + step * scale.step:f}" for step in range(steps + 1))
        if steps <= MOST_STEPS
        else ()
    )
    says = (
        f"{scale.low:f} to {scale.high:f} in steps of {scale.step:f}. At {least:f} or lower "
        f"write the reason. With a red at most {ratings.cap_after_sending_off:f}"
    )
    ref = f" ({ratings.ref})" if ratings.ref else ""
    return RatingSlip(values=values, says=f"{says}{ref}.")


MOST_STEPS: Final = 10
"""Values of a rating that are printed to be circled; a longer scale is written."""


def _scorecard(game: Fixture, home: Team, away: Team, rosters: Rosters) -> Scorecard:
    return Scorecard(
        game=game.game,
        stage=game.stage,
        day=game.day,
        start=game.start,
        field=game.field,
        home=_side(home, home.colours, rosters),
        away=_side(away, away_colours(home, away), rosters),
    )


def _side(team: Team, colours: str, rosters: Mapping[TeamId, tuple[Player, ...]]) -> CardSide:
    return CardSide(team=team.team, colours=colours, players=rosters.get(team.team, ()))


def away_colours(home: Team, away: Team) -> str:
    """Return the first colours of the away side, or its second where the first clash.

    Colours are compared as words; where the second clash too, or there are none, bibs part
    the sides.
    """
    worn = home.colours.casefold()
    if not worn or away.colours.casefold() != worn:
        return away.colours
    if not away.second_colours or away.second_colours.casefold() == worn:
        return BIBS
    return away.second_colours


def _goals(book: Rulebook, stage: Stage) -> tuple[str, ...]:
    """Return a label for each period, overtime and the total; short ones where they are many."""
    periods, over = book.game.periods, _overtime(book, stage)
    nths = ("1st", "2nd", "3rd", "4th")[:periods]
    if periods == 1:
        nths = ("Game",)
    elif periods == 2 and len(over) < 2:
        nths = ("1st half", "2nd half")
    return (*nths, *over, "Total")


def _overtime(book: Rulebook, stage: Stage) -> tuple[str, ...]:
    if not has_overtime(book, stage):
        return ()
    periods = book.overtime.periods
    return ("OT",) if periods == 1 else tuple(f"OT {nth + 1}" for nth in range(periods))
