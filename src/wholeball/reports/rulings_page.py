"""Makes the pages of rulings: each situation in words, its scene, and what is ruled by what."""

from dataclasses import dataclass
from typing import Final

from wholeball.kernel.units import Unit
from wholeball.reports.kicked_in import as_put_in
from wholeball.reports.ruling_words import ArticleWords, RulingWords, ruling_words
from wholeball.reports.scene_svg import scene_svg
from wholeball.reports.scene_words import who_is_who
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.rulebook.book import Rulebook
from wholeball.rulings.article import Kind
from wholeball.rulings.ruling import Ruling
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
    """One situation to show: how it is told, its ruling here and by the Laws, and its scene.

    `book` is the rulebook it is ruled by here, `edition` the Laws it stands on.
    """

    name: str
    title: str
    says: str
    here: Answered
    laws: Answered
    scene: Scene
    book: Rulebook
    edition: Rulebook


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

    @property
    def articles(self) -> tuple[tuple[ArticleWords, tuple[Kind, str]], ...]:
        """The articles of the ruling here, each with its kind and the word for it."""
        return tuple(zip(self.words.articles, self.kinds, strict=True))


def rulings_page(
    cases: tuple[Case, ...], *, different: str, unit: Unit, shell: Shell, here: str
) -> str:
    """Return the page of situations; `different` is the file of what is ruled otherwise here."""
    spot = Spot.counting(len(cases), "situation")
    page = Page(here=here, title="How it is ruled", spot=spot)
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
    words = ruling_words(case.here.ruling, facts, case.book)
    return Shown(
        name=case.name,
        title=as_put_in(case.title, case.book),
        says=as_put_in(case.says, case.book),
        saw=tuple(
            (
                as_put_in(fact.question, case.book),
                as_put_in(fact.values[facts[fact.name]], case.book),
            )
            for fact in GAME.facts
            if fact.name in facts
        ),
        words=words,
        laws=ruling_words(case.laws.ruling, case.laws.situation.facts, case.edition)
        if is_different
        else None,
        kinds=kinds_of(words, case.here.ruling, case.book),
        picture=as_put_in(
            scene_svg(case.scene, case.here.situation, case.here.ruling, unit), case.book
        ),
        sides=who_is_who(case.scene, case.here.situation),
    )


def kinds_of(
    words: RulingWords, ruling: Ruling, book: Rulebook
) -> tuple[tuple[Kind, str], ...]:
    """Return the kind and its word of each article that the words of a ruling name."""
    kinds = {(one.ref, as_put_in(one.says, book)): one.kind for one in ruling.articles}
    found = (kinds[article.ref, article.says] for article in words.articles)
    return tuple((kind, KINDS[kind]) for kind in found)
