"""What is asked in vain is an error of the proof: facts and values that decide nowhere.

No outside source: this is about the proof itself, on a space of two facts, and on the rulebooks.
"""

from collections.abc import Mapping
from functools import cache
from itertools import combinations
from typing import Final, TypeAlias

from cases.rulebooks import EDITIONS, HOUSES, PRESETS, rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulings.article import Article
from wholeball.rulings.bind import bind
from wholeball.rulings.fact import Said
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.proof import Finding, Proof, prove
from wholeball.rulings.space import Stage, space
from wholeball.rulings.spaces import PROVED
from wholeball.rulings.weigh import Weighed, weigh

LAWS: Final = edition("laws-2025-26")
KEPT: Final = (
    ("against", "opponent the_ball"),
    (
        "conduct",
        "blocks_quick delay dissent distance persistent simulation slow_off too_much_joy unsporting",
    ),
    ("conduct", "joy stays_on"),
    ("effect", "attack turnover"),
    ("flaw", "feint wrong_taker"),
    ("flaw", "place stance"),
    ("foul", "hold held_object"),
    ("foul", "violent bite_spit"),
    ("lapse", "untold_at_start untold_at_interval"),
    ("move", "leaves offside_trap"),
    ("part", "none opponent_played opponent_handled"),
    ("part", "plays hinders gains"),
    ("reason", "noise early_signal"),
    ("saved", "saved affected"),
    ("would", "unclear same"),
)
"""Values of a fact that every rulebook rules alike: officials and the Laws have a word for each."""
FOUL: Final = Said(
    name="foul",
    stage="play",
    question="What was it?",
    values={"trip": "a trip", "push": "a push", "none": "nothing"},
)
Cut: TypeAlias = tuple[str, Mapping[str, str], str]


def hard(*cuts: Cut, foul: str = "not none") -> Said:
    return Said(
        name="hard",
        stage="play",
        question="How hard?",
        values={"no": "not hard", "some": "somewhat", "very": "very"},
        when=({"foul": foul},),
        cuts=cuts,
    )


def article(name: str, free: str, over: str = "", **when: str) -> Article:
    return Article(
        name=name,
        stage="play",
        says=f"{name}.",
        law="Law 0",
        when=when,
        then={"free": free},
        over=over,
    )


def proof_of(*articles: Article, fact: Said) -> Proof:
    stage = Stage(name="play", parts={"free": frozenset({"kick", "none"})})
    made = space("small", stages=(stage,), facts=(FOUL, fact), articles=articles)
    return prove(bind(made, LAWS))


def test_a_value_that_is_alone_where_it_may_be_given_decides_nowhere() -> None:
    """After a trip nothing but "no" may be said of the force; after a push the others differ."""
    proof = proof_of(
        article("nothing", "none"),
        article("given", "kick", "nothing", hard="no very"),
        fact=hard(
            ("some very", {"foul": "trip"}, "a trip is no matter of force"),
            ("no", {"foul": "push"}, "a push has force"),
        ),
    )
    assert proof.findings == (
        Finding(code="value that decides nowhere", about="hard: no", situation={}),
    )
    assert proof.has_errors
    assert proof.alike == ()


def test_a_fact_all_of_whose_values_rule_alike_decides_nowhere() -> None:
    proof = proof_of(
        article("nothing", "none"),
        article("given", "kick", "nothing", hard="no some very"),
        fact=hard(),
    )
    assert proof.findings == (
        Finding(code="fact that decides nowhere", about="hard", situation={}),
    )
    assert proof.has_errors
    assert proof.alike == (
        ("foul", "trip", "push"),
        ("hard", "no", "some"),
        ("hard", "no", "very"),
        ("hard", "some", "very"),
    )


def test_one_value_that_rules_otherwise_makes_a_fact_decide_and_the_others_alike() -> None:
    proof = proof_of(
        article("nothing", "none"),
        article("given", "kick", "nothing", hard="very"),
        fact=hard(),
    )
    assert proof.findings == ()
    assert not proof.has_errors
    assert proof.alike == (("foul", "trip", "push"), ("hard", "no", "some"))


def test_values_that_rule_otherwise_in_one_place_are_no_longer_alike() -> None:
    proof = proof_of(
        article("nothing", "none"),
        article("given", "kick", "nothing", hard="very"),
        article("pushed", "kick", "nothing", hard="some", foul="push"),
        fact=hard(),
    )
    assert proof.findings == ()
    assert proof.alike == ()


def test_an_article_that_is_never_used_is_told_and_is_no_error() -> None:
    proof = proof_of(
        article("nothing", "none"),
        article("given", "kick", "nothing", hard="very"),
        article("idle", "kick", "nothing", hard="no", foul="push"),
        fact=hard(("no", {"foul": "push"}, "a push has force"), foul="push"),
    )
    assert proof.count("article never used") == 1
    assert not proof.has_errors


@cache
def weighed() -> tuple[Weighed, ...]:
    books = map(rulebook, (*PRESETS, *HOUSES, *EDITIONS))
    return tuple(weigh(compile_rules(bind(of, book))) for book in books for of in PROVED)


def test_no_rulebook_asks_a_fact_or_offers_a_value_in_vain() -> None:
    assert {
        name for one in weighed() for name, nodes in one.decides.items() if not nodes
    } == set()
    assert {pair for one in weighed() for pair in one.idle} == set()


def test_values_that_every_rulebook_rules_alike_are_kept_for_their_words() -> None:
    alike = [
        (fact, frozenset(pair))
        for fact, values in KEPT
        for pair in combinations(values.split(), 2)
    ]
    assert always_alike() == set(alike)


def always_alike() -> set[tuple[str, frozenset[str]]]:
    """Return pairs of values of a fact that are alike wherever a rulebook asks it."""
    asked: dict[str, list[set[frozenset[str]]]] = {}
    for one in weighed():
        for fact in one.decides:
            pairs = {frozenset(values) for name, *values in one.alike if name == fact}
            asked.setdefault(fact, []).append(pairs)
    return {(fact, pair) for fact, books in asked.items() for pair in set.intersection(*books)}
