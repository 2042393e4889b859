"""Asks how a game ended, as its paper scorecard has it."""

from collections.abc import Mapping
from typing import Any, Final, get_args

from wholeball.cli.scorecard_asking import Asking
from wholeball.game.happenings import BrokenOff, Forfeited
from wholeball.game.paper import PaperBrokenOff, PaperDefault, PaperForfeit
from wholeball.game.paper_checks import ended
from wholeball.reports.game_entries import WHY_BROKEN, WHY_FORFEITED
from wholeball.usecases import scorecard_answers as answers
from wholeball.usecases import scorecard_before as before

_BLAMED: Final = ("disorder", "numbers", "other")
"""Reasons to break a game off of which a side may be to blame."""


class EndingQuestions(Asking):
    """Asks for the keys of a card that say how the game ended."""

    def ending(self, played: int) -> dict[str, Any]:
        """Return the keys of how the game ended."""
        is_whole = played == self.rules.periods
        known = "m mercy, f forfeit, d default (a forfeit announced beforehand), b broken off"
        kept = before.way(ended(self.was))
        default = before.WAYS[kept] if kept or is_whole else ""
        way = self.kept_or(
            f"How it ended, {known}", kept, default, answers.way(is_whole=is_whole)
        )
        match way:
            case "m":
                left = self._left(needed=False)
                return {"ended": "mercy", "minutes_left": left}
            case "f":
                return self._forfeit(played)
            case "d":
                return self._default()
            case "b":
                return self._broken_off(played)
            case _:
                return {}

    def _forfeit(self, played: int) -> dict[str, Any]:
        was = self.was.forfeit
        by = self.kept_or(
            "Who forfeits, h, a, or b for both",
            was.by if was else "both",
            was.by[0] if was else "",
            answers.forfeiting,
        )
        why = self._why(Forfeited, WHY_FORFEITED, was.why if was else None)
        left = self._left(needed=False) if played else None
        return {"forfeit": PaperForfeit(by=by, why=why), "minutes_left": left}

    def _default(self) -> dict[str, Any]:
        was = self.was.default
        side = self.kept_or(
            "Who defaults, h or a",
            was.by if was else "home",
            was.by[0] if was else "",
            answers.side_of,
        )
        in_time = self.kept_or(
            "Announced in time, y or n",
            was.in_time if was else False,
            ("y" if was.in_time else "n") if was else "",
            answers.yes,
        )
        return {"default": PaperDefault(by=side, in_time=in_time)}

    def _broken_off(self, played: int) -> dict[str, Any]:
        """Ask why, and for a side to blame only where one may be."""
        was = self.was.broken_off
        why = self._why(BrokenOff, WHY_BROKEN, was.why if was else None)
        to_blame = None
        if why in _BLAMED:
            kept = was.to_blame if was else None
            to_blame = self.kept_or(
                "Side to blame, h, a, or b for both",
                kept,
                kept[0] if kept else "none",
                answers.blamed,
            )
        left = self._left(needed=True) if played else None
        return {"broken_off": PaperBrokenOff(why=why, to_blame=to_blame), "minutes_left": left}

    def _left(self, *, needed: bool) -> int | None:
        kept = self.was.minutes_left
        shown = ("" if needed else "not known") if kept is None else str(kept)
        return self.kept_or(
            "Minutes the clock of that period still had",
            kept,
            shown,
            answers.minutes(needed=needed),
        )

    def _why(
        self, kind: type[Forfeited | BrokenOff], says: Mapping[str, str], kept: str | None
    ) -> Any:
        """Ask for one of the reasons by its number, and return its word."""
        known = get_args(kind.model_fields["why"].annotation)
        listed = ", ".join(f"{index} {says[word]}" for index, word in enumerate(known, 1))
        shown = str(known.index(kept) + 1) if kept else ""
        return self.kept_or(f"Why, {listed}", kept or "", shown, answers.numbered(known))
