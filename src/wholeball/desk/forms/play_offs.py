"""Are the forms of a play-off game, and of the rounds in which a bracket is played."""

from collections.abc import Sequence
from typing import Any, Final

from django import forms
from django.utils.html import format_html

from wholeball.files.cells import LONGEST_NAME
from wholeball.files.open_sides import planned_side
from wholeball.planning.turns import LAST
from wholeball.reports.bracket_words import ordinal
from wholeball.rulebook.sentence import listed
from wholeball.season.bracket import MOST
from wholeball.usecases.offer_bracket import RoundOffered
from wholeball.usecases.set_play_offs import COLUMNS, PlayOffTold

FIELDS: Final = {name: name for name in COLUMNS}
"""The field for each key of a play-off game."""
ROUNDS: Final = tuple(f"round_{number}" for number in range(1, MOST.bit_length()))
"""The fields of a form of rounds, as many as a bracket has at most."""
_FEW: Final = 4
"""Games that the label of a round names at most."""
_SIDES: Final = "seed 1, winner of P1 or loser of P1"


def _round(label: str, **named: Any) -> forms.IntegerField:
    says = f"Write a whole number from 1 to {LAST}."
    return forms.IntegerField(
        label=label,
        min_value=1,
        max_value=LAST,
        error_messages={
            "required": f"There is no number yet. {says}",
            "invalid": f"This is no whole number. {says}",
            "min_value": f"It is less than 1. {says}",
            "max_value": f"It is more than {LAST}. {says}",
        },
        **named,
    )


class PlayOffForm(forms.Form):
    """Says who meets in a play-off game, and in which round."""

    game = forms.CharField(
        label="Name of the game",
        max_length=LONGEST_NAME,
        help_text="Such as: P1. Other games say “winner of P1” by it.",
        error_messages={"required": "There is no name yet. Write one, such as P1."},
    )
    round = _round("Round")
    home = forms.CharField(
        label="Side listed first",
        max_length=LONGEST_NAME,
        error_messages={"required": f"There is no side yet. Write {_SIDES}."},
    )
    away = forms.CharField(
        label="Side listed second",
        max_length=LONGEST_NAME,
        error_messages={"required": f"There is no side yet. Write {_SIDES}."},
    )

    def __init__(self, *given: Any, brackets: Sequence[str] = (), **named: Any) -> None:
        """Say what sides there are: with `brackets`, a seed names its own."""
        super().__init__(*given, **named)
        apart = format_html("Write {}.", _SIDES)
        if brackets:
            apart = format_html(
                "A seed names its division: seed 1 of {}, winner of P1 or loser of P1.",
                brackets[0],
            )
        for name in ("home", "away"):
            self.fields[name].help_text = apart

    def clean_home(self) -> str:
        """Take only a seed, or the winner or loser of a game."""
        return self._side("home")

    def clean_away(self) -> str:
        """Take only a seed, or the winner or loser of a game."""
        return self._side("away")

    @classmethod
    def of(cls, told: PlayOffTold, brackets: Sequence[str]) -> "PlayOffForm":
        """Return the form with what was said of a game."""
        return cls(initial={name: getattr(told, name) for name in FIELDS}, brackets=brackets)

    def told(self) -> PlayOffTold:
        """Return what the form says."""
        return PlayOffTold(**{name: self.cleaned_data[name] for name in FIELDS})

    def _side(self, name: str) -> str:
        says: str = self.cleaned_data[name]
        if planned_side(says) is None:
            raise forms.ValidationError(f"“{says}” is no side. Write {_SIDES}.")
        return says


class RoundsForm(forms.Form):
    """Says which rounds of the season those of the brackets are, one after another."""

    def __init__(self, *given: Any, rounds: Sequence[RoundOffered], **named: Any) -> None:
        """Ask for the number of each round, with the one that is proposed."""
        super().__init__(*given, **named)
        for one in rounds:
            label = (
                f"{ordinal(one.number).capitalize()} round of the play-offs: {_some(one.games)}"
            )
            self.fields[ROUNDS[one.number - 1]] = _round(label, initial=one.proposed)

    @property
    def names(self) -> tuple[str, ...]:
        """The fields, one a round."""
        return tuple(self.fields)

    def clean(self) -> dict[str, Any]:
        """Hold each round to the one before."""
        told = super().clean() or {}
        numbers = [told.get(name) for name in self.names]
        for before, name, now in zip(numbers, self.names[1:], numbers[1:], strict=False):
            if before is not None and now is not None and now <= before:
                self.add_error(name, f"It is not after {before}. Write a later round.")
        return told

    def rounds(self) -> tuple[int, ...]:
        """Return the number of each round."""
        return tuple(self.cleaned_data[name] for name in self.names)


def _some(games: Sequence[str]) -> str:
    more = len(games) - _FEW
    return listed((*games[:_FEW], f"{more} more") if more > 0 else tuple(games))
