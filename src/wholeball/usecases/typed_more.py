"""Reads from a sheet what few scorecards hold: scorers, who played, protests."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Final

from wholeball.game.paper import PaperGoal, PaperPlayer, PaperProtest
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.reports.game_entries import ABOUT
from wholeball.usecases import scorecard_before as before
from wholeball.usecases.scorecard_minutes import period_and_minute
from wholeball.usecases.scorecard_more import (
    goal_as,
    goal_lines,
    in_order,
    player_lines,
    players_on,
)
from wholeball.usecases.typed_answers import TypedAnswers

_SIDES: Final[tuple[Side, Side]] = ("home", "away")
_NEVER: Final[tuple[int | None, int | None]] = (None, None)


@dataclass(slots=True)
class MoreTyped(TypedAnswers):
    """Reads what stands in the fold of a sheet."""

    def scorers(self, scores: tuple[Score, ...]) -> tuple[PaperGoal, ...]:
        """Return the scorers; those of a field left as it was go with the goals taken out."""
        kept, _ = before.scorers(self.was, scores)
        found: list[PaperGoal] = []
        for period in range(1, self.rules.last_period + 1):
            name = f"scorers_{period}"
            if self._stands(name, goal_lines(self.was.goals, period, self.rules)):
                found += (one for one in kept if one.period == period)
            else:
                found += self.lines(name, goal_as(period, self.rules))
        return in_order(found, kept)

    def players(self, side: Side) -> tuple[PaperPlayer, ...]:
        was = self.was.home_players if side == "home" else self.was.away_players
        name = f"players_{side}"
        if self._stands(name, player_lines(was)):
            return was
        return in_order(chain.from_iterable(self.lines(name, players_on)), was)

    def _stands(self, name: str, kept: str) -> bool:
        """Tell whether an answer of several lines is what stood there."""
        return self.typed.get(name, "").split() == kept.split()

    def protests(self) -> tuple[PaperProtest, ...]:
        """Return a protest a side, and what else was kept of them."""
        firsts = {side: _first(self.was.protests, side) for side in _SIDES}
        typed = [self._protest(side, first) for side, first in firsts.items()]
        others = (
            one for one in self.was.protests if all(one is not x for x in firsts.values())
        )
        return in_order((*filter(None, typed), *others), self.was.protests)

    def _protest(self, side: Side, was: PaperProtest | None) -> PaperProtest | None:
        name = f"protest_minute_{side}"
        about = self.typed.get(f"protest_{side}", "")
        if about not in ABOUT:
            if self.typed.get(name, "").strip():
                self.wrong(f"protest_{side}", "Say what it is about, or empty its minute.")
            return None
        period, minute = self.read(
            name, lambda answer: period_and_minute(answer, self.rules), _NEVER
        )
        by = was.by if was is not None and was.about == about else "captain"
        return PaperProtest.model_validate(
            {"side": side, "about": about, "by": by, "period": period, "minute": minute}
        )


def _first(protests: Sequence[PaperProtest], side: Side) -> PaperProtest | None:
    return next((one for one in protests if one.side == side), None)
