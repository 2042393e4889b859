"""Asks for a paper scorecard line by line, in the order in which people read one.

Plain lines in and out: it works over a slow terminal, and answers can be piped in.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any, Literal, TypeVar, get_args

from wholeball.cli import scorecard_answers as answers
from wholeball.game.happenings import BrokenOff, Forfeited, Signer
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperKicks,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperYellow,
)
from wholeball.game.paper_checks import rating_misfits
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.reports.game_entries import WHY_BROKEN, WHY_FORFEITED, capital
from wholeball.reports.game_told import period_name

_T = TypeVar("_T")
_Shown = TypeVar("_Shown", bound=PaperYellow)
_Rater = Literal["official", "opponent"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dialogue:
    """Asks by `ask`, which shows a prompt and returns a line, and says by `tell`."""

    ask: Callable[[str], str]
    tell: Callable[[str], None]
    home: str
    away: str
    rules: GameRules

    def card(self) -> PaperCard:
        """Return the card that was typed in.

        Raises:
            EOFError: the input ended before the card did.
        """
        periods = tuple(self._scores(1, self.rules.periods))
        overtime = self._overtime(periods)
        kicks = self._kicks(periods, overtime)
        ending = self._ending(len(periods))
        return PaperCard(
            periods=periods,
            overtime=overtime,
            kicks=kicks,
            **ending,
            yellow=tuple(self._shown("Yellow", PaperYellow)),
            red=tuple(self._shown("Red", PaperRed)),
            ratings=tuple(self._ratings()),
            **self._signing(),
            note=self._until(
                f"Note, at most {answers.MOST_NOTE:,} characters [none]: ", answers.note
            ),
        )

    def _until(self, prompt: str, read: Callable[[str], _T]) -> _T:
        """Ask until an answer can be read."""
        while True:
            try:
                return read(answers.readable(self.ask(prompt)))
            except answers.Unclear as unclear:
                self.tell(f"  {unclear}")

    def _scores(self, first: int, last: int) -> Iterator[Score]:
        """Yield the goals of each period, until one that was not played."""
        for period in range(first, last + 1):
            name = capital(period_name(self.rules, period))
            score = self._until(f"{name}, goals of it alone [not played]: ", answers.score)
            if score is None:
                return
            yield score
            if self.rules.is_golden and period > self.rules.periods and len(set(score)) > 1:
                return

    def _overtime(self, periods: tuple[Score, ...]) -> tuple[Score, ...]:
        is_level = len(periods) == self.rules.periods and _lead(periods) == 0
        if not (is_level and self.rules.has_overtime):
            return ()
        return tuple(self._scores(self.rules.periods + 1, self.rules.last_period))

    def _kicks(
        self, periods: tuple[Score, ...], overtime: tuple[Score, ...]
    ) -> PaperKicks | None:
        is_over = len(periods) == self.rules.periods
        is_level = is_over and _lead((*periods, *overtime)) == 0
        if not (is_level and self.rules.has_kicks):
            return None
        first = self._until(
            "Kicks, who kicked first, h or a [no kicks]: ", answers.side_or_none
        )
        if first is None:
            return None
        how = "a letter a kick (o scored, x not, - not taken): "
        home = self._until(f"Kicks of {self.home}, {how}", answers.marks)
        away = self._until(f"Kicks of {self.away}, {how}", answers.marks)
        return PaperKicks(first=first, home=home, away=away)

    def _ending(self, played: int) -> dict[str, Any]:
        """Return the keys of how the game ended."""
        is_whole = played == self.rules.periods
        known = "m mercy, f forfeit, d default, b broken off"
        default = "full time" if is_whole else "no default"
        way = self._until(
            f"How it ended, {known} [{default}]: ", answers.way(is_whole=is_whole)
        )
        match way:
            case "m":
                return {"ended": "mercy", "minutes_left": self._left(needed=False)}
            case "f":
                by = self._until("Who forfeits, h, a, or b for both: ", answers.forfeiting)
                why = self._why(Forfeited, WHY_FORFEITED)
                left = self._left(needed=False) if played else None
                return {"forfeit": PaperForfeit(by=by, why=why), "minutes_left": left}
            case "d":
                side = self._until("Who defaults, h or a: ", answers.side_of)
                in_time = self._until("Said in time, y or n: ", answers.yes)
                return {"default": PaperDefault(by=side, in_time=in_time)}
            case "b":
                why = self._why(BrokenOff, WHY_BROKEN)
                to_blame = self._until("Side to blame, h or a [none]: ", answers.side_or_none)
                left = self._left(needed=True) if played else None
                broken = PaperBrokenOff(why=why, to_blame=to_blame)
                return {"broken_off": broken, "minutes_left": left}
            case _:
                return {}

    def _left(self, *, needed: bool) -> int | None:
        default = "" if needed else " [not known]"
        return self._until(
            f"Minutes the clock of that period still had{default}: ",
            answers.minutes(needed=needed),
        )

    def _why(self, kind: type[Forfeited | BrokenOff], says: Mapping[str, str]) -> Any:
        """Ask for one of the reasons by its number, and return its word."""
        known = get_args(kind.model_fields["why"].annotation)
        listed = ", ".join(f"{index} {says[word]}" for index, word in enumerate(known, 1))
        return self._until(f"Why, {listed}: ", answers.numbered(known))

    def _shown(self, colour: str, kind: type[_Shown]) -> Iterator[_Shown]:
        """Yield yellows or reds, one a line, until an empty line."""
        more = "side, number, reason, such as h7 dissent"
        while True:
            shown = self._until(f"{colour}, {more} [no more]: ", answers.shown_as(kind))
            if shown is None:
                return
            yield shown
            more = "the next"

    def _ratings(self) -> Iterator[PaperRating]:
        by = self.rules.book.ratings.by
        raters: tuple[_Rater, ...] = ()
        if by in ("officials", "officials_and_opponents"):
            raters += ("official",)
        if by in ("opponents", "officials_and_opponents"):
            raters += ("opponent",)
        for rater in raters:
            for side, name, other in (
                ("home", self.home, self.away),
                ("away", self.away, self.home),
            ):
                whose = f" by {other}" if rater == "opponent" else ""
                rating = self._rating("home" if side == "home" else "away", rater, name + whose)
                if rating is not None:
                    yield rating

    def _rating(self, side: Side, by: _Rater, name: str) -> PaperRating | None:
        ratings = self.rules.book.ratings
        scale = f"{ratings.scale.low:f} to {ratings.scale.high:f} by {ratings.scale.step:f}"
        value = self._until(
            f"Rating of {name}, {scale} [none]: ", lambda answer: self._value(answer, side, by)
        )
        if value is None:
            return None
        needs_reason = value <= ratings.reason_at_or_below
        reason = self._until("Reason: ", answers.reason_of) if needs_reason else ""
        return PaperRating(side=side, by=by, value=value, reason=reason)

    def _value(self, answer: str, side: Side, by: _Rater) -> Decimal | None:
        if not answer:
            return None
        try:
            value = Decimal(answer)
        except InvalidOperation:
            raise answers.Unclear("Give a number, such as 4, or nothing.") from None
        rating = PaperRating(side=side, by=by, value=value)
        for found in rating_misfits(rating, self.rules, loc=()):
            raise answers.Unclear(found.cure)
        return value

    def _signing(self) -> dict[str, Any]:
        """Return who signed, and which captains refused."""
        signed = self._until(
            "Signed, letters: h and a captains, o official, s scorekeeper, u supervisor [nobody]: ",
            answers.signers,
        )
        refused = []
        captains: tuple[tuple[Signer, str], ...] = (
            ("home_captain", self.home),
            ("away_captain", self.away),
        )
        for captain, name in captains:
            if captain not in signed:
                reason = self._until(
                    f"The captain of {name} refused, and why [did not refuse]: ",
                    answers.reason_of,
                )
                refused += [PaperRefusal(by=captain, reason=reason)] if reason else []
        return {"signed": signed, "refused": tuple(refused)}


def _lead(scores: tuple[Score, ...]) -> int:
    return sum(one.home - one.away for one in scores)
