"""Reads yellow and red as they are typed, one a line, and writes them so: "h4 31 reckless tackle"."""

import re
from collections.abc import Callable
from typing import Final, TypeVar

from pydantic import ValidationError

from wholeball.game.paper import PaperYellow
from wholeball.game.rules import GameRules
from wholeball.usecases.scorecard_answers import Unclear, side_of
from wholeball.usecases.scorecard_minutes import (
    minute_text,
    parted,
    period_and_minute,
    with_minute_first,
)

_Shown = TypeVar("_Shown", bound=PaperYellow)
_SHOWN: Final = re.compile(
    r"(h|home|a|away)\s*(?:\b|(?=\d))(\d{1,2}|\?)?(?:[\s,:]+(.*))?", re.IGNORECASE | re.ASCII
)


def shown_as(kind: type[_Shown], rules: GameRules) -> Callable[[str], _Shown | None]:
    """Return what reads a line of one colour: side, number, minute if known, reason."""

    def read(answer: str) -> _Shown | None:
        if not answer:
            return None
        found = _SHOWN.fullmatch(answer)
        if found is None:
            raise Unclear("Give h or a, a number of at most two digits, and a reason.")
        number = int(found[2]) if found[2] and found[2] != "?" else None
        minute, reason = parted((found[3] or "").strip())
        period, minute_of_it = period_and_minute(minute, rules)
        try:
            return kind(
                side=side_of(found[1]),
                number=number,
                period=period,
                minute=minute_of_it,
                reason=reason.strip(),
            )
        except ValidationError:
            raise Unclear("The reason has more than 200 characters.") from None

    return read


def shown_line(one: PaperYellow, rules: GameRules) -> str:
    """Return what is typed for a yellow or red: "h4 31 reckless tackle"."""
    rest = with_minute_first(one.reason, minute_text(one.period, one.minute, rules))
    number = one.number if one.number is not None else "?" if rest else ""
    return f"{one.side[0]}{number} {rest}".strip()


def as_typed(shown: _Shown, was: _Shown) -> _Shown:
    """Return a yellow or red as it was typed, with what only a file says of the same player."""
    return was.model_copy(
        update={
            "reason": shown.reason,
            "period": shown.period,
            "minute": shown.minute,
            "before_stop": was.before_stop and shown.minute is None,
        }
    )
