"""Takes from a rulebook what the fold of one game asks at every event."""

from dataclasses import dataclass

from wholeball.league.fixture import Stage
from wholeball.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True, kw_only=True)
class GameRules:
    """The rules of one game: its rulebook, its stage, and the figures asked most, in seconds."""

    book: Rulebook
    stage: Stage
    periods: int
    period_seconds: int
    ladder: tuple[tuple[int, int], ...]
    overtime_periods: int
    overtime_seconds: int
    is_golden: bool
    has_overtime: bool
    has_kicks: bool

    @property
    def last_period(self) -> int:
        """The last period there can be, overtime included."""
        return self.periods + self.overtime_periods

    def seconds_of(self, period: int) -> int:
        """How long a period lasts."""
        return self.period_seconds if period <= self.periods else self.overtime_seconds


def game_rules(book: Rulebook, stage: Stage = "league") -> GameRules:
    """Return what a game of that stage is played by."""
    level = book.ties.league if stage == "league" else book.ties.play_off
    has_overtime = level in ("overtime", "overtime_then_kicks") and bool(
        book.overtime.periods and book.overtime.minutes
    )
    return GameRules(
        book=book,
        stage=stage,
        periods=book.game.periods,
        period_seconds=book.game.minutes * 60,
        ladder=tuple((rung.lead, rung.minutes_left * 60) for rung in book.mercy.ladder),
        overtime_periods=book.overtime.periods if has_overtime else 0,
        overtime_seconds=book.overtime.minutes * 60,
        is_golden=has_overtime and book.overtime.ends == "golden_goal",
        has_overtime=has_overtime,
        has_kicks=level in ("kicks", "overtime_then_kicks"),
    )
