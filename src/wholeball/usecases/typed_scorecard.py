"""Reads a paper scorecard that was typed in on one sheet; an answer that is emptied goes."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any, Final, Literal, TypeVar, get_args

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
    PaperResumed,
    PaperYellow,
)
from wholeball.game.paper_checks import rating_misfits
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.faults import InputFaults
from wholeball.kernel.identity import Side
from wholeball.reports.game_entries import WHY_BROKEN, WHY_FORFEITED
from wholeball.usecases import scorecard_answers as answers
from wholeball.usecases import scorecard_before as before
from wholeball.usecases.scorecard_sheet import Rater, rated_by
from wholeball.usecases.scorecard_shown import as_typed, shown_as, shown_line
from wholeball.usecases.typed_more import MoreTyped

MOST_KICKS: Final = 60
_HOME: Final[Side] = "home"
_ANY: Final[Side | Literal["both"]] = "both"
"""They stand for a side that cannot be read; no card is made of it."""
_T = TypeVar("_T")
_Shown = TypeVar("_Shown", bound=PaperYellow)


def card_of(typed: Mapping[str, str], *, rules: GameRules, was: PaperCard) -> PaperCard:
    """Return the scorecard that the answers make; what the sheet does not ask for is kept.

    Raises:
        InputFaults: every answer that cannot be read, each with its name as its column.
    """
    return _Sheet(typed, rules, was).card()


@dataclass(slots=True)
class _Sheet(MoreTyped):
    """Reads the answers and gathers what is wrong with them."""

    def card(self) -> PaperCard:
        periods = self._scores(1, self.rules.periods)
        overtime: tuple[Score, ...] = ()
        if self.rules.has_overtime:
            overtime = self._scores(self.rules.periods + 1, self.rules.last_period)
        if overtime and len(periods) < self.rules.periods:
            self.wrong(f"period_{self.rules.periods}", "Fill it in: overtime comes after it.")
        kicks = self._kicks() if self.rules.has_kicks else None
        ending = self._ending()
        goals = self.scorers((*periods, *overtime))
        home_players, away_players = (self.players(side) for side in ("home", "away"))
        protests = self.protests()
        yellow = self._cards("yellow", PaperYellow, self.was.yellow)
        red = self._cards("red", PaperRed, self.was.red)
        ratings = self._ratings(ending)
        nobody: tuple[Signer, ...] = ()
        signed = self.read("signed", answers.signed_alone, nobody)
        refused = self._refusals(signed)
        note = self.read("note", answers.note, "", is_long=True)
        resumed = self._resumed()
        if self.faults:
            raise InputFaults(self.faults)
        return PaperCard(
            periods=periods,
            overtime=overtime,
            home_players=home_players,
            away_players=away_players,
            kicks=kicks,
            resumed=resumed,
            goals=goals,
            protests=protests,
            ratings=ratings,
            signed=signed,
            refused=refused,
            note=note,
            yellow=yellow,
            red=red,
            **ending,
        )

    def _resumed(self) -> PaperResumed | None:
        """Return the resumption with the day that was typed, where the game was resumed."""
        if self.was.resumed is None:
            return None
        on = self.read("resumed_on", answers.day, None)
        return self.was.resumed.model_copy(update={"on": on})

    def _scores(self, first: int, last: int) -> tuple[Score, ...]:
        found: list[Score] = []
        for period in range(first, last + 1):
            name = f"period_{period}"
            score = self.read(name, answers.score, None)
            before_it = f"period_{period - 1}"
            if score is not None and len(found) < period - first and not self.told(before_it):
                self.wrong(before_it, "Fill it in: a later period has goals.")
            if score is not None:
                found.append(score)
        return tuple(found)

    def _kicks(self) -> PaperKicks | None:
        first = self.read("kicks_first", answers.side_or_none, None)
        names = ("kicks_home", "kicks_away")
        if first is None:
            for name in names:
                if self.typed.get(name, "").strip():
                    self.wrong("kicks_first", "Say who kicked first.")
                    return None
            return None
        home, away = (self.read(name, _marks, "") for name in names)
        return before.with_takers(PaperKicks(first=first, home=home, away=away), self.was.kicks)

    def _ending(self) -> dict[str, Any]:
        """Return the keys that say how the game ended."""
        match self.read("ended", answers.way(is_whole=True), ""):
            case "m":
                return {"ended": "mercy", "minutes_left": self._left()}
            case "f":
                by = self._by("Choose who forfeits.", answers.forfeiting, _ANY)
                why = self._why(Forfeited)
                return {"forfeit": PaperForfeit(by=by, why=why), "minutes_left": self._left()}
            case "d":
                needed = "Choose the one side that defaults; both forfeit instead."
                side = self._by(needed, answers.side_of, _HOME)
                in_time = self.read("in_time", answers.yes, otherwise=False)
                return {"default": PaperDefault(by=side, in_time=in_time)}
            case "b":
                blamed = self.read("by", answers.blamed, None)
                broken = PaperBrokenOff(why=self._why(BrokenOff), to_blame=blamed)
                return {"broken_off": broken, "minutes_left": self._left()}
            case _:
                return {}

    def _by(self, needed: str, read: Callable[[str], _T], otherwise: _T) -> _T:
        """Return who it was; where the list has nobody for it, what to choose is told."""
        try:
            return read(self.typed.get("by", "").strip())
        except answers.Unclear:
            self.wrong("by", needed)
            return otherwise

    def _left(self) -> int | None:
        return self.read("minutes_left", answers.minutes(needed=False), None)

    def _why(self, kind: type[Forfeited | BrokenOff]) -> Any:
        known = get_args(kind.model_fields["why"].annotation)
        given = self.typed.get("why", "")
        if given not in known:
            says = WHY_FORFEITED if kind is Forfeited else WHY_BROKEN
            self.wrong("why", f"Choose one of: {', '.join(says[one] for one in known)}.")
            return known[-1]
        return given

    def _cards(
        self, name: str, kind: type[_Shown], was: Sequence[_Shown]
    ) -> tuple[_Shown, ...]:
        """Return yellows or reds: a line that stands as it was is the one that was kept."""
        left = list(was)

        def read(line: str) -> _Shown | None:
            kept = next((one for one in left if shown_line(one, self.rules) == line), None)
            if kept is None:
                return shown_as(kind, self.rules)(line)
            left.remove(kept)
            return kept

        found = []
        for one in self.lines(name, read):
            same = next((x for x in left if (x.side, x.number) == (one.side, one.number)), None)
            if same is None or any(one is kept for kept in was):
                found.append(one)
            else:
                left.remove(same)
                found.append(as_typed(one, same))
        return tuple(found)

    def _ratings(self, ending: Mapping[str, Any]) -> tuple[PaperRating, ...]:
        """Return the ratings that were typed; of a game given up the rulebook gives them."""
        if ending.get("forfeit") or ending.get("default"):
            return ()
        asked_for = list(rated_by(self.rules))
        raters = {rater for rater, _ in asked_for}
        typed = [one for pair in asked_for if (one := self._rating(*pair)) is not None]
        return (*typed, *(one for one in self.was.ratings if one.by not in raters))

    def _rating(self, rater: Rater, side: Side) -> PaperRating | None:
        def value(answer: str) -> Decimal | None:
            return _value(answer, side, rater, self.rules) if answer else None

        given = self.read(f"rating_{rater}_{side}", value, None)
        reason = self.read(f"reason_{rater}_{side}", answers.reason_of, "")
        if given is None:
            return None
        return PaperRating(side=side, by=rater, value=given, reason=reason)

    def _refusals(self, signed: tuple[Signer, ...]) -> tuple[PaperRefusal, ...]:
        def read(line: str) -> PaperRefusal | None:
            return _refusal(line, signed) if line else None

        return tuple(self.lines("refused", read))


def _marks(answer: str) -> str:
    letters = answers.marks(answer)
    if len(letters) > MOST_KICKS:
        raise answers.Unclear(f"It has {len(letters)} kicks; at most {MOST_KICKS} are kept.")
    return letters


def _value(answer: str, side: Side, by: Rater, rules: GameRules) -> Decimal:
    try:
        value = Decimal(answer) if answer.isascii() else Decimal("nan")
    except InvalidOperation:
        value = Decimal("nan")
    if not value.is_finite():
        raise answers.Unclear("Give a number, such as 4, or nothing.")
    for found in rating_misfits(PaperRating(side=side, by=by, value=value), rules, loc=()):
        raise answers.Unclear(found.cure)
    return value


def _refusal(line: str, signed: tuple[Signer, ...]) -> PaperRefusal:
    letter, _, reason = line.partition(" ")
    who = answers.refusing(letter.strip(":,"), signed)
    if len(who.signed) != 1:
        raise answers.Unclear("Give one letter and the reason, such as a did not agree.")
    return PaperRefusal(by=who.signed[0], reason=answers.reason_of(reason.strip(" :,")))
