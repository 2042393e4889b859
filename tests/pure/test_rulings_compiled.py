"""Compiling by bits agrees with walking the claims, on small spaces made at random.

No outside source: the claims, weighed path by path, are the reference. The real spaces are
compared with them in tests/test_rulings_proof.py.
"""

from collections.abc import Mapping, Sequence
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.rulebook.editions import edition
from wholeball.rulings.article import Article, Claim
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.cases import cases
from wholeball.rulings.fact import Said
from wholeball.rulings.graph import Answered, Node, compile_rules
from wholeball.rulings.paths import paths
from wholeball.rulings.ruling import Unproven
from wholeball.rulings.space import Space, Stage, space

LAWS: Final = edition("laws-2025-26")
WORDS: Final = ("x", "y", "z")
STAGES: Final = (
    Stage(name="play", parts={"goal": frozenset(WORDS)}),
    Stage(name="shown", parts={"shown": frozenset(WORDS), "care": frozenset(WORDS)}),
)
ASKED: Final = {"play": ("p1", "p2", "p3"), "shown": ("s1", "s2", "s3")}


def condition(names: Sequence[str], least: int) -> st.SearchStrategy[dict[str, str]]:
    words = st.sets(st.sampled_from(WORDS), min_size=1, max_size=2).map(
        lambda some: " ".join(sorted(some))
    )
    if not names:
        return st.just({})
    return st.dictionaries(st.sampled_from(names), words, min_size=least, max_size=3)


@st.composite
def fact(draw: st.DrawFn, name: str, stage: str, known: Sequence[str]) -> Said:
    """Draw a fact that what is known before may call for, and may cut."""
    conditions = condition(known, least=1)
    gates = draw(st.lists(conditions, max_size=2)) if known else []
    cuts = draw(st.lists(conditions, max_size=1)) if known else []
    shut = draw(st.sampled_from(WORDS))
    return Said(
        name=name,
        stage=stage,
        question="?",
        values=dict.fromkeys(WORDS, "so"),
        when=tuple(gates),
        cuts=tuple((shut, when, "it cannot be") for when in cuts),
    )


@st.composite
def articles(draw: st.DrawFn, stage: Stage, known: Sequence[str]) -> list[Article]:
    """Draw articles of a stage, each over some later ones, or over all and the last for all."""
    is_one_answer = draw(st.sampled_from((True, True, True, False)))
    conditions = draw(st.lists(condition(known, least=1), max_size=4))
    whens = [*conditions, {}] if is_one_answer else conditions
    names = [f"{stage.name}_{number}" for number in range(len(whens))]
    return [
        Article(
            name=names[at],
            stage=stage.name,
            says="So.",
            law="Law 0",
            when=when,
            then={part: draw(st.sampled_from(WORDS)) for part in stage.parts},
            over=" ".join(
                later for later in names[at + 1 :] if is_one_answer or draw(st.booleans())
            ),
        )
        for at, when in enumerate(whens)
    ]


@st.composite
def spaces(draw: st.DrawFn) -> Space:
    known: list[str] = []
    facts: list[Said] = []
    written: list[Article] = []
    for stage in STAGES:
        for name in ASKED[stage.name]:
            facts.append(draw(fact(name, stage.name, tuple(known))))
            known.append(name)
        written.extend(draw(articles(stage, tuple(known))))
        known.extend(stage.parts)
    return space("small", stages=STAGES, facts=facts, articles=written)


def walked(rules: Rules) -> list[tuple[Mapping[str, str], tuple[Claim, ...]]]:
    """Return what is known and which articles stand at the end of each path of the claims."""
    return [(path.known, path.articles) for path in paths(rules)]


def compiled(
    node: Node | None, known: Mapping[str, str], standing: tuple[Claim, ...]
) -> list[tuple[Mapping[str, str], tuple[Claim, ...]]]:
    """Return the same of a graph."""
    if node is None:
        return [(known, standing)]
    if isinstance(node, Answered):
        return compiled(node.then, {**known, **node.answers}, (*standing, *node.articles))
    return [
        end
        for value, below in node.to.items()
        for end in compiled(below, {**known, node.fact: value}, standing)
    ]


@given(spaces())
def test_a_small_rulebook_compiles_to_its_paths_or_is_refused(small: Space) -> None:
    rules = bind(small, LAWS)
    ends = walked(rules)
    parts = {part for stage in STAGES for part in stage.parts}
    if all(parts <= known.keys() for known, _ in ends):
        assert compiled(compile_rules(rules), {}, ()) == ends
        assert [{**case.facts, **dict(case.answers)} for case in cases(rules)] == [
            known for known, _ in ends
        ]
    else:
        with pytest.raises(Unproven):
            compile_rules(rules)
