"""Makes the pages of rulings: each situation in words, its scene, and what is ruled by what."""

from dataclasses import dataclass
from typing import Final

from wholeball.kernel.units import Unit
from wholeball.reports.ruling_words import RulingWords, ruling_words
from wholeball.reports.scene_svg import scene_svg
from wholeball.reports.scene_words import who_is_who
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.rulings.article import Claim, Kind
from wholeball.rulings.spaces import GAME
from wholeball.training.answered import Answered
from wholeball.training.different import differs
from wholeball.training.scene import Scene

KINDS: Final[dict[Kind, str]] = {
    "law": "Law",
    "permitted": "permitted",
    "local": "local",
    "administrative": "administrative",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One situation to show: how it is told, its ruling here and by the Laws, and its scene."""

    name: str
    title: str
    says: str
    here: Answered
    laws: Answered
    scene: Scene


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A case in words and as a picture, as the template reads it."""

    name: str
    title: str
    says: str
    saw: tuple[tuple[str, str], ...]
    words: RulingWords
    laws: RulingWords | None
    kinds: tuple[tuple[Kind, str], ...]
    picture: str
    sides: str


def rulings_page(
    cases: tuple[Case, ...], *, different: str, unit: Unit, shell: Shell, here: str
) -> str:
    """Return the page of situations; `different` is the file of what is ruled otherwise here."""
    label = "situation" if len(cases) == 1 else "situations"
    page = Page(
        here=here, title="How it is ruled", spot=Spot(number=str(len(cases)), label=label)
    )
    return _page("rulings.html", cases, unit, shell, page, different=different)


def different_page(
    cases: tuple[Case, ...], *, laws: str, unit: Unit, shell: Shell, here: str, under: str
) -> str:
    """Return the page of what is ruled otherwise here; `laws` names the edition it is held to."""
    page = Page(
        here=here,
        under=under,
        title="What is different here",
        spot=Spot(number=str(len(cases)), label="ruled differently"),
    )
    return _page("rulings_different.html", cases, unit, shell, page, edition=laws)


def _page(
    template: str,
    cases: tuple[Case, ...],
    unit: Unit,
    shell: Shell,
    page: Page,
    **more: object,
) -> str:
    shown = [shown_case(case, unit) for case in cases]
    return rendered(template, page, shell, cases=shown, **more)


def shown_case(case: Case, unit: Unit) -> Shown:
    """Return a case in words and as a picture."""
    facts = case.here.situation.facts
    is_different = differs(case.here, case.laws)
    claims = {(claim.ref, claim.says): claim for claim in case.here.ruling.articles}
    words = ruling_words(case.here.ruling, facts)
    return Shown(
        name=case.name,
        title=case.title,
        says=case.says,
        saw=tuple(
            (fact.question, fact.values[facts[fact.name]])
            for fact in GAME.facts
            if fact.name in facts
        ),
        words=words,
        laws=ruling_words(case.laws.ruling, case.laws.situation.facts)
        if is_different
        else None,
        kinds=tuple(_kind(claims[one.ref, one.says]) for one in words.articles),
        picture=scene_svg(case.scene, case.here.situation, case.here.ruling, unit),
        sides=who_is_who(case.scene, case.here.situation),
    )


def _kind(claim: Claim) -> tuple[Kind, str]:
    return claim.kind, KINDS[claim.kind]
