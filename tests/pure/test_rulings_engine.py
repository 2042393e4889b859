"""The engine by itself, on a space of three facts: asking, displacing, gaps and conflicts."""

from collections.abc import Mapping
from typing import Final

import pytest

from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.editions import edition
from wholeball.rulings.article import Article, Claim
from wholeball.rulings.bind import bind
from wholeball.rulings.fact import Said
from wholeball.rulings.proof import Finding, StageProof, prove
from wholeball.rulings.ruling import Lacks, Ruling, Situation, rule
from wholeball.rulings.situation_words import situation_in_words
from wholeball.rulings.space import Space, Stage, space
from wholeball.rulings.words import finding_in_words

LAWS: Final = edition("laws-2025-26")
STAGES: Final = (
    Stage(name="play", parts={"goal": frozenset({"A", "none"})}),
    Stage(name="card", parts={"card": frozenset({"none", "yellow"})}),
)
OVER: Final = Said(
    name="over",
    stage="play",
    question="Was the ball over the line?",
    values={"yes": "it was", "no": "it was not"},
)
HAND: Final = Said(
    name="hand",
    stage="play",
    question="Was it put in by hand?",
    values={"yes": "by hand", "no": "not by hand", "unseen": "nobody saw"},
    when=({"over": "yes"},),
    cuts=(("unseen", {"over": "yes"}, "somebody always sees a goal"),),
)
MEANT: Final = Said(
    name="meant",
    stage="card",
    question="Was it meant?",
    values={"yes": "meant", "no": "not meant"},
    when=({"hand": "yes"},),
)


def article(
    name: str,
    stage: str = "play",
    over: str = "",
    *,
    goal: str = "",
    card: str = "",
    **when: str,
) -> Article:
    said = {part: value for part, value in (("goal", goal), ("card", card)) if value}
    return Article(
        name=name, stage=stage, says=f"{name}.", law="Law 0", when=when, then=said, over=over
    )


ARTICLES: Final = (
    article("no_goal", goal="none"),
    article("goal", over="no_goal", goal="A", hand="no"),
    article("no_card", "card", card="none"),
    article("yellow", "card", over="no_card", card="yellow", meant="yes"),
)


def made(*articles: Article, facts: tuple[Said, ...] = (OVER, HAND, MEANT)) -> Space:
    return space("small", stages=STAGES, facts=facts, articles=articles or ARTICLES)


SMALL: Final = made()


def ruled(facts: Mapping[str, str], of: Space = SMALL) -> Ruling | Lacks:
    return rule(Situation(facts=facts), LAWS, of)


def test_the_first_fact_that_lacks_is_named_with_what_it_may_be() -> None:
    assert ruled({}) == Lacks(fact=SMALL.fact("over"), values=("yes", "no"))
    assert ruled({"over": "yes"}) == Lacks(fact=SMALL.fact("hand"), values=("yes", "no"))


def test_a_complete_situation_gets_its_answers_and_every_article_that_stands() -> None:
    ruling = ruled({"over": "yes", "hand": "yes", "meant": "yes"})
    assert isinstance(ruling, Ruling)
    assert ruling.answers == {"goal": "none", "card": "yellow"}
    assert [claim.name for claim in ruling.articles] == ["no_goal", "yellow"]


def test_a_fact_that_no_live_article_reads_is_not_asked() -> None:
    only_goals = made(*ARTICLES[:3])
    assert isinstance(ruled({"over": "yes", "hand": "yes"}, only_goals), Ruling)


@pytest.mark.parametrize(
    ("facts", "code", "says"),
    [
        ({"ovre": "yes"}, "unknown_fact", "Did you mean over?"),
        ({"over": "yse"}, "unknown_value", "Did you mean yes?"),
        ({"over": "yes", "hand": "unseen"}, "contradiction", "somebody always sees a goal"),
        ({"over": "no", "hand": "no"}, "not_asked", "Was it put in by hand?"),
    ],
)
def test_facts_that_cannot_be_are_named_not_ruled(
    facts: dict[str, str], code: str, says: str
) -> None:
    with pytest.raises(WholeballError) as refused:
        ruled(facts)
    assert refused.value.code == code
    assert says in str(refused.value)


def test_not_means_asked_and_different() -> None:
    of = made(
        article("no_goal", goal="none"),
        article("goal", over="no_goal", goal="A", hand="not yes unseen"),
        ARTICLES[2],
    )
    assert [ruled(facts, of) for facts in ({"over": "no"}, {"over": "yes", "hand": "no"})] == [
        Ruling(answers={"goal": "none", "card": "none"}, articles=_articles(of, 0, 2)),
        Ruling(answers={"goal": "A", "card": "none"}, articles=_articles(of, 1, 2)),
    ]


def _articles(of: Space, *wanted: int) -> tuple[Claim, ...]:
    claims = {claim.name: claim for claim in bind(of, LAWS).claims}
    return tuple(claims[of.articles[at].name] for at in wanted)


def test_a_displaced_article_displaces_nothing() -> None:
    of = made(
        article("first", goal="none"),
        article("second", over="first", goal="A", hand="no"),
        article("third", over="second", hand="no"),
        ARTICLES[2],
    )
    ruling = ruled({"over": "yes", "hand": "no"}, of)
    assert isinstance(ruling, Ruling)
    assert [claim.name for claim in ruling.articles] == ["third", "first", "no_card"]
    assert ruling["goal"] == "none"


def test_the_proof_of_a_space_in_order_finds_nothing() -> None:
    proof = prove(bind(SMALL, LAWS))
    assert proof.findings == (
        Finding(code="value that is never possible", about="hand: unseen", situation={}),
    )
    assert proof.stages == (
        StageProof(stage="play", paths=3, stands_for=3),
        StageProof(stage="card", paths=4, stands_for=4),
    )
    assert (proof.rulings, proof.rulings_with_articles) == (3, 3)
    assert proof.decides == {"over": 1, "hand": 1, "meant": 1}


def test_a_gap_and_a_conflict_come_with_their_situation_in_words() -> None:
    of = made(
        article("goal", goal="A", hand="no"),
        article("none", goal="none", hand="no"),
        *ARTICLES[2:],
    )
    proof = prove(bind(of, LAWS))
    assert (proof.count("gap"), proof.count("conflict")) == (2, 1)
    conflict = next(one for one in proof.findings if one.code == "conflict")
    assert finding_in_words(conflict, of) == (
        "conflict: play: goal (goal, none). Was the ball over the line? It was. "
        "Was it put in by hand? Not by hand."
    )


def test_what_is_never_used_is_found() -> None:
    of = made(*ARTICLES, article("idle", over="no_goal", hand="unseen"))
    codes = [(one.code, one.about) for one in prove(bind(of, LAWS)).findings]
    assert ("article never used", "idle") in codes
    assert ("displacement never needed", "idle over no_goal") in codes


def test_a_situation_in_words_keeps_the_order_of_asking() -> None:
    said = situation_in_words({"hand": "no", "over": "yes"}, SMALL)
    assert said == "Was the ball over the line? It was. Was it put in by hand? Not by hand."


LATE: Final = Said(
    name="late", stage="play", question="?", values={"x": "x"}, when=({"meant": "yes"},)
)


@pytest.mark.parametrize(
    ("articles", "facts", "says"),
    [
        (ARTICLES, (HAND, OVER), "hand reads over before it is asked"),
        (ARTICLES, (OVER, HAND, LATE, MEANT), "late reads meant before it is asked"),
        (ARTICLES, (OVER, HAND, MEANT, LATE), "late stands after facts of a later stage"),
        (ARTICLES, (OVER, OVER), "declared twice: over"),
        ((*ARTICLES, ARTICLES[0]), (OVER, HAND, MEANT), "declared twice: no_goal"),
        ((article("a", over="b"),), (OVER,), "a displaces b, which is unknown"),
    ],
)
def test_a_space_out_of_order_is_refused(
    articles: tuple[Article, ...], facts: tuple[Said, ...], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        made(*articles, facts=facts)


@pytest.mark.parametrize(
    ("articles", "says"),
    [
        ((article("a", foot="no"),), "foot is neither a fact nor an answer"),
        ((article("a", hand="maybe"),), "hand has no value maybe"),
        ((article("a", card="yellow"),), "a claims card = yellow, which nobody declares"),
        ((article("a", over="b"), article("b", over="a")), "articles displace each other"),
        ((article("a", over="no_card"), ARTICLES[2]), "a displaces no_card of another stage"),
        ((article("a", meant="yes"),), "a reads meant after its stage is settled"),
    ],
)
def test_an_article_that_cannot_be_bound_is_refused(
    articles: tuple[Article, ...], says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        bind(made(*articles), LAWS)
