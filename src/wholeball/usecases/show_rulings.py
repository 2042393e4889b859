"""Lays out the pages of rulings: situations with their scenes, and what is different here."""

from typing import Final

from wholeball.kernel.length import system_of
from wholeball.kernel.units import Tenths
from wholeball.pitch.ball import ball_radius
from wholeball.pitch.plan import FieldPlan
from wholeball.reports.field_of_play import field_plan
from wholeball.reports.rulings_page import Case, different_page, rulings_page
from wholeball.reports.shell import Shell
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.words.lookup import words
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.ruling import Lacks
from wholeball.rulings.spaces import GAME
from wholeball.training.answered import Answered, answered
from wholeball.training.compose import scene_of
from wholeball.training.different import different
from wholeball.training.thirty import THIRTY, Told

RULINGS: Final = "rulings.html"
DIFFERENT: Final = "different.html"


def ruling_pages(book: Rulebook, shell: Shell) -> dict[str, bytes]:
    """Return the page of situations and the page of what is different, by their files."""
    laws = edition(book.head.base)
    here, by_laws = bind(GAME, book), bind(GAME, laws)
    plan, ball, unit = field_plan(book), _ball(book), book.field.unit
    told = tuple(_told(one, here, by_laws, plan, ball) for one in THIRTY)
    cases = _different(book, here, by_laws, plan, ball)
    return {
        RULINGS: rulings_page(
            told, different=DIFFERENT, unit=unit, shell=shell, here=RULINGS
        ).encode(),
        DIFFERENT: different_page(
            cases, laws=laws.head.name, unit=unit, shell=shell, here=DIFFERENT, under=RULINGS
        ).encode(),
    }


def _ball(book: Rulebook) -> Tenths:
    """Return the radius of the largest ball that the rulebook allows."""
    largest = book.ball.circumference_most
    return ball_radius(largest.measured(system_of(book.field.unit)).tenths)


def _told(one: Told, here: Rules, laws: Rules, plan: FieldPlan, ball: Tenths) -> Case:
    ruled = _complete(one, here)
    return Case(
        name=one.name.replace("_", "-"),
        title=one.title,
        says=one.says,
        here=ruled,
        laws=_complete(one, laws),
        scene=scene_of(ruled.situation, ruled.ruling, plan, ball=ball),
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


def _different(
    book: Rulebook, here: Rules, laws: Rules, plan: FieldPlan, ball: Tenths
) -> tuple[Case, ...]:
    cases = []
    order = [path for path, _ in book.articles()]
    found = sorted(different(here, laws), key=lambda one: order.index(one.path))
    for number, one in enumerate(found, start=1):
        article = book.article(one.path)
        situation = one.here.situation
        cases.append(
            Case(
                name=f"different-{number}",
                title=f"{article.ref} {words(one.path).title}",
                says="",
                here=one.here,
                laws=one.laws,
                scene=scene_of(situation, one.here.ruling, plan, ball=ball),
            )
        )
    return tuple(cases)
