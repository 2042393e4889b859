"""Every situation has exactly one ruling: proved here for three rulebooks, for all by make prove.

No outside source: a proof is about the rulebook's own articles. What they answer is checked
against the Laws in tests/external/test_law_outcomes.py.
"""

import json
from typing import Final

import pytest

from cases.command_line import Run
from cases.rulebooks import EDITIONS, HOUSES, PRESETS, rulebook
from wholeball.rulings.bind import bind
from wholeball.rulings.cases import cases
from wholeball.rulings.graph import compile_rules, follow
from wholeball.rulings.packed import pack
from wholeball.rulings.paths import paths
from wholeball.rulings.proof import prove
from wholeball.rulings.ruling import Lacks, Ruling, Situation, rule
from wholeball.rulings.spaces import GAME, PROVED

THREE: Final = ("mixed", "laws-2018-19", "laws-2026-27")


@pytest.mark.parametrize("name", THREE)
def test_each_situation_has_one_ruling_and_nothing_is_idle(name: str) -> None:
    for space in PROVED:
        proof = prove(bind(space, rulebook(name)))
        assert proof.findings == ()
        assert sum(stage.paths for stage in proof.stages) < 60_000


@pytest.mark.parametrize("name", HOUSES)
def test_a_house_that_changes_much_still_has_one_ruling_for_each_situation(name: str) -> None:
    for space in PROVED:
        proof = prove(bind(space, rulebook(name)))
        assert (proof.count("gap"), proof.count("conflict")) == (0, 0)


@pytest.mark.parametrize("name", PRESETS)
def test_the_compiled_graph_agrees_with_the_claims_on_every_path(name: str) -> None:
    for space in PROVED:
        rules = bind(space, rulebook(name))
        root = compile_rules(rules)
        packed = pack(root, rules)
        asked = {fact.name for fact in rules.facts}
        for path, case in zip(paths(rules), cases(rules), strict=True):
            facts = {name: value for name, value in path.known.items() if name in asked}
            answers = {name: value for name, value in path.known.items() if name not in asked}
            assert follow(root, facts) == answers
            assert (case.facts, dict(case.answers)) == (facts, answers)
            ruled = packed.ruling(facts)
            assert ruled == Ruling(answers=answers, articles=path.articles)


def test_the_compiled_graph_names_the_fact_that_lacks() -> None:
    root = compile_rules(bind(GAME, rulebook("nine")))
    assert follow(root, {}) == "moment"
    assert follow(root, {"moment": "open"}) == "seen"


def test_the_claims_rule_a_situation_as_its_path_says() -> None:
    book = rulebook("laws-2025-26")
    for space in PROVED:
        rules = bind(space, book)
        names = {fact.name for fact in rules.facts}
        for path in list(paths(rules))[::50]:
            facts = {name: value for name, value in path.known.items() if name in names}
            ruled = rule(Situation(facts=facts), book, space)
            assert isinstance(ruled, Ruling)
            assert path.known == {**facts, **ruled.answers}
            first = next(iter(facts))
            without = {name: value for name, value in facts.items() if name != first}
            lacks = rule(Situation(facts=without), book, space)
            assert isinstance(lacks, Lacks)
            assert lacks.fact.name == first


def test_the_proof_counts_what_the_paths_are() -> None:
    rules = bind(GAME, rulebook("laws-2025-26"))
    assert prove(rules).stages[-1].stands_for == sum(1 for _ in paths(rules))


def test_every_edition_and_preset_binds() -> None:
    counts = {
        name: [len(bind(space, rulebook(name)).claims) for space in PROVED]
        for name in (*EDITIONS, *PRESETS)
    }
    assert all(n > 240 and m > 30 and k == 8 for n, m, k in counts.values()), counts


def test_prove_prints_what_it_walked(run: Run) -> None:
    told = run("rulebook", "prove", "laws-2024-25")
    assert told.status == 0
    assert "0 gaps, 0 conflicts" in told.out


def test_prove_prints_json(run: Run) -> None:
    said = json.loads(run("rulebook", "prove", "laws-2024-25", "--json").out)
    assert said["ok"] is True
    assert [space["space"] for space in said["spaces"]] == ["game", "persons", "together"]
    assert [space["findings"] for space in said["spaces"]] == [[], [], []]


def test_prove_refuses_a_rulebook_that_there_is_not(run: Run) -> None:
    assert run("rulebook", "prove", "laws-2024-26").status == 1
