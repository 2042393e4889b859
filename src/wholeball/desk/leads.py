"""Turns what a text says to do, and what it is about, into the address of a page of the desk."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from django.urls import reverse

from wholeball.league.ways import Named, ToDo
from wholeball.usecases.show_doubts import About, Remark


@dataclass(frozen=True, slots=True)
class Lead:
    """A link: where it leads, and its words."""

    href: str
    label: str


_OF_A_GAME: Final[Mapping[ToDo, tuple[str, str]]] = {
    "answer": ("questions", "Answer"),
    "award": ("award", "Rule on game {}"),
    "bring_back": ("game", "To game {}"),
    "certify": ("certify", "Certify game {}"),
    "enter": ("scorecard", "To the scorecard of game {}"),
    "look": ("game", "To game {}"),
    "reopen": ("reopen", "Reopen game {}"),
    "resume": ("scorecard", "To the scorecard of game {}"),
    "rule": ("award", "Rule on game {}"),
    "take_back": ("game", "To game {}"),
}
"""The page where something is done to a game, and the words that lead there."""
_OF_A_SEASON: Final[Mapping[ToDo, tuple[str, str]]] = {
    "bracket": ("bracket", "See the bracket"),
    "certify_one": ("results", "To the results"),
    "draw_lots": ("lots", "Draw lots"),
    "explain": ("tasks", "To plan, repair, explain"),
    "plan": ("tasks", "To plan, repair, explain"),
}
_ABOUT: Final[Mapping[About, tuple[str, str]]] = {
    "Games": ("results", "To the results"),
    "Calendar": ("calendar", "To the calendar"),
    "Absences": ("absences", "Who cannot play when"),
    "Sign-ups": ("sign_ups", "To the sign-ups"),
    "Bracket": ("bracket", "See the bracket"),
    "Crews": ("nights", "To the nights"),
    "Rosters": ("season", "To the teams"),
    "Suspensions": ("suspensions", "To the suspensions"),
    "Fees": ("fees", "To the fees"),
    "Rulebook": ("rulebook", "To the rulebook"),
    "Season": ("season", "To the season"),
}
"""Where a matter is looked at."""


def lead_of(remark: Remark, where: tuple[str, str]) -> Lead:
    """Return the link of a remark: what its cure names, else its game, else its matter."""
    if remark.named is not None:
        named = _lead(remark.named, where)
        if named is not None:
            return named
    if remark.game is not None:
        href = reverse("desk:game", args=(*where, remark.game))
        return Lead(href, f"To game {remark.game}")
    name, label = _ABOUT[remark.about]
    return Lead(reverse(f"desk:{name}", args=where), label)


def _lead(named: Named, where: tuple[str, str]) -> Lead | None:
    if named.to_do in _OF_A_GAME:
        name, label = _OF_A_GAME[named.to_do]
        href = reverse(f"desk:{name}", args=(*where, named.game))
        return Lead(href, label.format(named.game))
    if named.to_do in _OF_A_SEASON:
        name, label = _OF_A_SEASON[named.to_do]
        return Lead(reverse(f"desk:{name}", args=where), label)
    return None
