"""Lays out the pages of rulings: situations with their scenes, and what is different here."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from wholeball.kernel.length import system_of
from wholeball.kernel.units import Tenths
from wholeball.pitch.ball import ball_radius
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.rulings_page import Case, Shown, different_page, rulings_page, shown_case
from wholeball.reports.shell import Shell
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.words.lookup import words
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.proven import proven
from wholeball.rulings.ruling import Lacks
from wholeball.rulings.spaces import GAME
from wholeball.training.answered import Answered, answered
from wholeball.training.compose import scene_of
from wholeball.training.different import different
from wholeball.training.thirty import THIRTY, Told
from wholeball.usecases.by_digest import ByDigest, by_digest

RULINGS: Final = "rulings.html"
DIFFERENT: Final = "different.html"
ON_A_PAGE: Final = 5
"""Situations on one page of the site."""
_MOST_KEPT: Final = 8
"""Rulebooks whose differences are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    """A rulebook and the Laws it stands on, with what the scenes of its situations need."""

    book: Rulebook
    edition: Rulebook
    here: Rules
    laws: Rules

    def case(self, here: Answered, laws: Answered, *, name: str, title: str, says: str) -> Case:
        """Return a situation to show."""
        plan, ball = field_plan(self.book), largest_ball(self.book)
        return Case(
            name=name,
            title=title,
            says=says,
            here=here,
            laws=laws,
            scene=scene_of(here.situation, here.ruling, plan, ball=ball),
            book=self.book,
            edition=self.edition,
        )


def ruling_pages(book: Rulebook, shell: Shell) -> dict[str, bytes]:
    """Return the page of situations and the page of what is different, by their files.

    Raises:
        Unproven: the rulebook has not exactly one ruling for every situation.
    """
    held = _held(book)
    unit = book.field.unit
    told = tuple(_told(one, held) for one in THIRTY)
    return {
        RULINGS: rulings_page(
            told, different=DIFFERENT, unit=unit, shell=shell, here=RULINGS
        ).encode(),
        DIFFERENT: different_page(
            _different(held),
            laws=held.edition.head.name,
            unit=unit,
            shell=shell,
            here=DIFFERENT,
            under=RULINGS,
        ).encode(),
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferentHere:
    """Some of the situations that a rulebook rules otherwise than the edition it stands on.

    `number` is the part shown, of so many `parts`; `total` counts the situations of all.
    """

    edition: str
    total: int
    number: int
    parts: int
    cases: tuple[Shown, ...]


def different_here(book: Rulebook, *, number: int) -> DifferentHere | None:
    """Return one part of what is different here, the first is 1; None where there is no such.

    Where nothing is different, the first part is empty.

    Raises:
        Unproven: the rulebook has not exactly one ruling for every situation.
    """
    found = _kept_different(by_digest(book))
    parts = max(1, -(-len(found) // ON_A_PAGE))
    if not 1 <= number <= parts:
        return None
    shown = found[(number - 1) * ON_A_PAGE : number * ON_A_PAGE]
    return DifferentHere(
        edition=edition(book.head.base).head.name,
        total=len(found),
        number=number,
        parts=parts,
        cases=tuple(shown_case(case, book.field.unit) for case in shown),
    )


@lru_cache(maxsize=_MOST_KEPT)
def _kept_different(known: ByDigest) -> tuple[Case, ...]:
    """Return all that is different, found once for each rulebook in this process: a second."""
    return _different(_held(known.book))


def _held(book: Rulebook) -> _Held:
    laws = edition(book.head.base)
    return _Held(book=book, edition=laws, here=proven(bind(GAME, book)), laws=bind(GAME, laws))


def largest_ball(book: Rulebook) -> Tenths:
    """Return the radius of the largest ball that the rulebook allows."""
    largest = book.ball.circumference_most
    return ball_radius(largest.measured(system_of(book.field.unit)).tenths)


def _told(one: Told, held: _Held) -> Case:
    return held.case(
        _complete(one, held.here),
        _complete(one, held.laws),
        name=one.name.replace("_", "-"),
        title=one.title,
        says=one.says,
    )


def _complete(one: Told, rules: Rules) -> Answered:
    """Return the ruling of a situation that is ours to tell in full.

    Raises:
        ValueError: it lacks a fact that some rulebook asks.
    """
    match answered(one.seen, rules):
        case Answered() as found:
            return found
        case Lacks() as lacks:
            raise ValueError(f"{one.name} says nothing of {lacks.fact.name}")


def _different(held: _Held) -> tuple[Case, ...]:
    order = [path for path, _ in held.book.articles()]
    found = sorted(different(held.here, held.laws), key=lambda one: order.index(one.path))
    return tuple(
        held.case(
            one.here,
            one.laws,
            name=f"different-{number}",
            title=f"{held.book.article(one.path).ref} {words(one.path).title}",
            says="",
        )
        for number, one in enumerate(found, start=1)
    )
