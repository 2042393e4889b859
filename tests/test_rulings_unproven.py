"""A rulebook with a gap or a conflict is refused, and the refusal tells a situation of it.

No outside source: a proof is about the rulebook's own articles.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from cases.command_line import Run
from cases.rulebooks import rulebook
from wholeball.reports.shell import Shell
from wholeball.rulings.article import Article
from wholeball.rulings.bind import bind
from wholeball.rulings.proof import prove
from wholeball.rulings.proven import proven
from wholeball.rulings.ruling import Unproven
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME, PERSONS_SPACE, PROVED
from wholeball.usecases import ask_ruling, show_rulings, stated_facts

TOUCHLINE = (
    "Was the ball in play? The ball was in play. What was it about? The ball and a line of the "
    "field. Was the whole of the ball over the whole of the line? All of it. Over which line? "
    "A touchline."
)
THROWN = (
    "Over which line? The other side's goal line. Between the posts and under the bar? Into the "
    "goal. How did it get there? Thrown by the goalkeeper."
)
BROKEN = {
    "over_touchline": ("play: goal, restart, side, basis", TOUCHLINE),
    "thrown_goal": ("play: goal, restart, basis", THROWN),
}
"""An article that is taken away or displaces nothing, and what its refusal tells."""


def without(name: str) -> Space:
    """Return the game without an article, or with one that displaces nothing any more."""
    return replace(GAME, articles=tuple(_left(name)))


def _left(name: str) -> Iterator[Article]:
    for article in GAME.articles:
        if article.name != name:
            yield article
        elif article.over:
            yield replace(article, over="")


@pytest.fixture(params=BROKEN)
def broken(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Put a broken game in the place of the game, and name the article."""
    name = str(request.param)
    game = without(name)
    monkeypatch.setattr(stated_facts, "SPACES", (game, PERSONS_SPACE))
    monkeypatch.setattr(stated_facts, "GAME", game)
    monkeypatch.setattr(show_rulings, "GAME", game)
    return name


def test_a_gap_or_a_conflict_is_told_with_a_situation_in_words(broken: str) -> None:
    about, situation = BROKEN[broken]
    with pytest.raises(Unproven) as refused:
        proven(bind(without(broken), rulebook("eleven")))
    assert f"exactly one answer here ({about})" in str(refused.value)
    assert situation in str(refused.value)


def test_ask_refuses_such_a_rulebook_whatever_it_is_asked(broken: str, run: Run) -> None:
    for words in (["--json"], []):
        told = run("ask", *words, "--facts", "moment=open seen=offside")
        assert told.status == 1
        assert BROKEN[broken][1] in " ".join((told.out + told.err).split())


def test_asking_refuses_it_before_the_first_question(broken: str) -> None:
    with pytest.raises(Unproven):
        ask_ruling.asking(rulebook("eleven"), without(broken))


def test_the_pages_of_the_thirty_situations_refuse_it(broken: str) -> None:
    book = rulebook("eleven")
    printed = datetime(2026, 10, 14, tzinfo=UTC)
    shell = Shell(links=(), rulebook=book.head.name, digest=book.digest, printed=printed)
    with pytest.raises(Unproven) as refused:
        show_rulings.ruling_pages(book, shell)
    assert BROKEN[broken][1] in str(refused.value)


@pytest.mark.parametrize("space", PROVED, ids=lambda space: space.name)
def test_it_refuses_exactly_what_the_proof_finds_open(space: Space) -> None:
    """Every twentieth article is taken away in turn."""
    book = rulebook("eight")
    live = {claim.name for claim in bind(space, book).claims}
    named = [article for article in space.articles if article.name in live]
    for gone in named[::20]:
        left = tuple(article for article in space.articles if article is not gone)
        kept = tuple(
            replace(one, over=" ".join(over for over in one.over.split() if over != gone.name))
            for one in left
        )
        rules = bind(replace(space, articles=kept), book)
        proof = prove(rules)
        if proof.count("gap") + proof.count("conflict"):
            with pytest.raises(Unproven):
                proven(rules)
        else:
            assert proven(rules) is rules
