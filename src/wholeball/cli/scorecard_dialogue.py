"""Asks for a paper scorecard line by line, in the order in which people read one.

Plain lines in and out: it works over a slow terminal, and answers can be piped in. Of a card that
was entered before, each answer stands in brackets: Enter keeps it, a lone - takes it out.
"""

from collections.abc import Iterator, Mapping
from decimal import Decimal, InvalidOperation
from typing import Any, Literal, TypeVar

from wholeball.cli.scorecard_ending import EndingQuestions
from wholeball.game.paper import (
    PaperCard,
    PaperKicks,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperYellow,
)
from wholeball.game.paper_checks import rating_misfits
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.reports.game_entries import SIGNERS, capital
from wholeball.reports.game_told import period_name
from wholeball.usecases import scorecard_answers as answers
from wholeball.usecases import scorecard_before as before
from wholeball.usecases.said_full_time import said_full_time
from wholeball.usecases.scorecard_shown import shown_as

_T = TypeVar("_T")
_Shown = TypeVar("_Shown", bound=PaperYellow)
_Rater = Literal["official", "opponent"]


class Dialogue(EndingQuestions):
    """Asks for the whole card."""

    def card(self) -> PaperCard:
        """Return the card that was typed in.

        Raises:
            EOFError: the input ended before the card did.
        """
        periods = tuple(self._scores(1, self.rules.periods))
        overtime = self._overtime(periods)
        kicks = self._kicks(periods, overtime)
        ending = self.ending(len(periods))
        yellow = tuple(self._shown("Yellow", PaperYellow, self.was.yellow))
        red = tuple(self._shown("Red", PaperRed, self.was.red))
        card = PaperCard(
            periods=periods,
            overtime=overtime,
            home_players=self.was.home_players,
            away_players=self.was.away_players,
            kicks=kicks,
            resumed=self.was.resumed,
            **ending,
            protests=self.was.protests,
            goals=self._scorers((*periods, *overtime)),
            yellow=yellow,
            red=red,
            ratings=tuple(self._ratings(ending)),
            **self._signing(),
            note=self.kept_or(
                f"Note, at most {answers.MOST_NOTE:,} characters",
                self.was.note,
                before.cut(self.was.note) or "none",
                answers.note,
            ),
        )
        return said_full_time(card, self.rules)

    def _scores(self, first: int, last: int) -> Iterator[Score]:
        """Yield the goals of each period, until one that was not played."""
        for period in range(first, last + 1):
            name = capital(period_name(self.rules, period))
            kept = before.score(self.was, period, self.rules)
            shown = "not played" if kept is None else f"{kept.home}-{kept.away}"
            score = self.kept_or(f"{name}, goals of it alone", kept, shown, answers.score)
            if score is None:
                return
            yield score
            if self.rules.is_golden and period > self.rules.periods and len(set(score)) > 1:
                return

    def _scorers(self, scores: tuple[Score, ...]) -> tuple[Any, ...]:
        """Return the scorers that the card had, as many as the goals are now."""
        goals, lost = before.scorers(self.was, scores)
        if lost:
            self.tell(f"  {lost} of the scorers that the card had go with the goals taken out.")
        return goals

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
        was = self.was.kicks
        first = self.kept_or(
            "Kicks, who kicked first, h or a",
            was.first if was else None,
            was.first[0] if was else "no kicks",
            answers.side_or_none,
        )
        if first is None:
            return None
        home = self._marks(self.home, was.home if was else "")
        away = self._marks(self.away, was.away if was else "")
        return before.with_takers(PaperKicks(first=first, home=home, away=away), was)

    def _marks(self, name: str, kept: str) -> str:
        bracket = f" [{kept}]" if kept else ""
        return self.until(
            f"Kicks of {name}, a letter a kick (o scored, x not, - not taken){bracket}: ",
            lambda answer: answers.marks(answer or kept),
        )

    def _shown(
        self, colour: str, kind: type[_Shown], was: tuple[_Shown, ...]
    ) -> Iterator[_Shown]:
        """Yield yellows or reds, one a line: those the card had, and more until an empty line."""
        for number, one in enumerate(was, start=1):
            kept = self.kept_or(
                f"{colour} {number}{before.minute(one, self.rules)}",
                _or_none(one),
                before.shown_line(one),
                shown_as(kind, self.rules),
            )
            if kept is not None:
                yield before.with_minute(kept, one)
        more = (
            "the next"
            if was
            else "side, number, minute if known, reason, such as h7 31 dissent"
        )
        while True:
            shown = self.kept_or(
                f"{colour}, {more}", None, "no more", shown_as(kind, self.rules)
            )
            if shown is None:
                return
            yield shown
            more = "the next"

    def _ratings(self, ending: Mapping[str, Any]) -> Iterator[PaperRating]:
        by = self.rules.book.ratings.by
        given = before.given_ratings(ending, self.home, self.away, self.rules)
        if given:
            self.tell(given)
            return
        raters: tuple[_Rater, ...] = ()
        if by in ("officials", "officials_and_opponents"):
            raters += ("official",)
        if by in ("opponents", "officials_and_opponents"):
            raters += ("opponent",)
        sides: tuple[tuple[Side, str, str], ...] = (
            ("home", self.home, self.away),
            ("away", self.away, self.home),
        )
        for rater in raters:
            for side, name, other in sides:
                whose = f" by {other}" if rater == "opponent" else ""
                rating = self._rating(side, rater, name + whose)
                if rating is not None:
                    yield rating
        yield from (one for one in self.was.ratings if one.by not in raters)

    def _rating(self, side: Side, by: _Rater, name: str) -> PaperRating | None:
        was = next((one for one in self.was.ratings if (one.side, one.by) == (side, by)), None)
        ratings = self.rules.book.ratings
        scale = f"{ratings.scale.low:f} to {ratings.scale.high:f} by {ratings.scale.step:f}"
        value = self.kept_or(
            f"Rating of {name}, {scale}",
            was.value if was else None,
            f"{was.value:f}" if was else "none",
            lambda answer: self._value(answer, side, by),
        )
        if value is None:
            return None
        reason = was.reason if was and was.value == value else ""
        if value <= ratings.reason_at_or_below:
            reason = self.kept_or("Reason", reason, before.cut(reason), answers.reason_of)
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
        """Return who signed, and who refused where a letter says that somebody did."""
        kept = answers.Signing(self.was.signed, has_refusals=bool(self.was.refused))
        signing = self.kept_or(
            "Signed, letters: h and a captains, o official, s scorekeeper, u supervisor; "
            "r where somebody refused",
            kept,
            kept.letters or "nobody",
            answers.signing,
        )
        refused = tuple(self._refusals(signing)) if signing.has_refusals else ()
        return {"signed": signing.signed, "refused": refused}

    def _refusals(self, signing: answers.Signing) -> Iterator[PaperRefusal]:
        was = {one.by: one.reason for one in self.was.refused if one.by not in signing.signed}
        kept = answers.Signing(tuple(was), has_refusals=False)
        who = self.kept_or(
            "Refused, letters of h, a, o, s and u",
            kept,
            kept.letters,
            lambda answer: answers.refusing(answer, signing.signed),
        )
        for by in who.signed:
            reason = self.kept_or(
                f"Why {SIGNERS[by]} refused",
                was.get(by, ""),
                before.cut(was.get(by, "")) or "not said",
                answers.reason_of,
            )
            yield PaperRefusal(by=by, reason=reason)


def _or_none(one: _T) -> _T | None:
    return one


def _lead(scores: tuple[Score, ...]) -> int:
    return sum(one.home - one.away for one in scores)
