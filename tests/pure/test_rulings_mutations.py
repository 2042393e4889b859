"""Takes every piece of every article away in turn: what goes unnoticed is listed with its reason.

A piece is an article, what it displaces, a part of its condition, or a value written there. It is
noticed if in some situation of some rulebook an answer changes, is missing or is double. No
outside source: this tests the articles themselves.
"""

from collections.abc import Iterator, Mapping
from fnmatch import filter as matching
from functools import cache
from typing import Final

import pytest

from cases.pieces import Effect, Pieces, asked_in_full
from cases.rulebooks import EDITIONS, HOUSES, PRESETS, rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulings.article import Article
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.fact import Said
from wholeball.rulings.graph import compile_rules, follow
from wholeball.rulings.settle import settle
from wholeball.rulings.space import Stage, space
from wholeball.rulings.spaces import PROVED

IMPLIED: Final = {
    "extra_of": "noticed_after_restart_harmless",
    "foul": "contact_foul_off contact_foul_off_by_area indirect_foul_off",
    "kind": "misplayed_first_* misplayed_second_* not_entering_*",
}
"""Parts of conditions that hold wherever the rest does, as the rest is asked only there.

They are kept where articles made alike read the same. By the names of the parts, the articles
that have them; a star stands for the rest of a name.
"""
ALIKE: Final = {
    "ahead": "ahead_*without_part_*",
    "chance": "promising_fair_try promising_*hand_not_meant promising_with_*",
    "chance contact foul": "obvious_*yellow_slide*_with_advantage",
    "chose": "*_half_without_choice_of_*",
    "contact": "breaks_laws_often_clean_* keeper_at_feet_always_* slide_forbidden_elsewhere "
    "slide_forbidden_own_area obvious_clean_dive_with_advantage obvious_clean_slide_*with_advantage",
    "contact foul": "breaks_laws_often_forbidden_slide obvious_forbidden_slide_with_advantage "
    "promising_clean_dive promising_clean_slide promising_forbidden_slide",
    "effect": "leaving_ball_touched_elsewhere leaving_ball_touched_own_area",
    "extra_of": "extra_scorer_stood_by",
    "flaw": "advantage_though_wrong misplayed_first_retake not_entering_first_throw_in",
    "foul": "body_foul_o* breaks_laws_often_dive breaks_laws_often_slide contact_foul_elsewhere "
    "contact_foul_own_area foul_on_own_side_own_area keeper_at_feet_elsewhere "
    "keeper_at_feet_own_area keeper_slides object_o* object_at_own_side_own_area "
    "obvious_dive_with_advantage obvious_slide_with_advantage promising_clean_slide_for_less "
    "promising_dive promising_slide slide_contact_*",
    "impact": "encroached_opp_goal_with_impact",
    "interfered": "noticed_after_restart_nobody",
    "kind": "free_kick_inside_* goal_kick_inside_* no_countdown_*",
    "person": "extra_person_dropped",
    "restart": "obvious_keepers_hand_not_meant promising_keepers_hand_not_meant",
    "result": "encroached_both_goal_with_impact encroached_both_no_goal_with_impact",
    "seen": "conduct_waits crossing_waits",
    "who": "promising_*hand_not_meant",
}
"""Parts of conditions without which the article also stands where the answer is the same.

Others say the same there, or it says nothing and there is nothing that it takes away. What is
shown with a ruling would name an article too many.
"""


@cache
def pieces() -> Pieces:
    taken = Pieces()
    for name in (*PRESETS, *HOUSES, *EDITIONS):
        for of in PROVED:
            taken.take_apart(bind(of, rulebook(name)))
    return taken


def listed(groups: Mapping[str, str]) -> set[str]:
    """Return the pieces that a list stands for."""
    articles = [article.name for of in PROVED for article in of.articles]
    return {
        f"{article}: {name}"
        for names, patterns in groups.items()
        for pattern in patterns.split()
        for article in matching(articles, pattern)
        for name in names.split()
    }


def test_every_article_of_every_space_is_taken_away_in_some_rulebook() -> None:
    articles = {article.name for of in PROVED for article in of.articles}
    assert articles - pieces().effects.keys() == set()


def test_what_changes_nothing_is_implied_by_the_rest_of_its_condition() -> None:
    assert pieces().unnoticed(Effect.NOTHING) == listed(IMPLIED)


def test_no_piece_is_hidden_by_what_displaces_its_article() -> None:
    assert pieces().unnoticed(Effect.HIDDEN) == set()


def test_what_changes_only_which_articles_stand_leaves_others_with_the_same_answer() -> None:
    assert pieces().unnoticed(Effect.CITED) == listed(ALIKE)


@pytest.mark.parametrize("name", ["mixed", "direct_penalty_mark", "laws-2016-17"])
def test_a_situation_with_all_that_may_be_asked_is_ruled_as_the_graph_rules_it(
    name: str,
) -> None:
    for of in PROVED:
        rules = bind(of, rulebook(name))
        root = compile_rules(rules)
        for known, ruled in whole_situations(rules):
            assert follow(root, known) == ruled


def whole_situations(rules: Rules) -> Iterator[tuple[Mapping[str, str], Mapping[str, str]]]:
    """Yield every situation with its answers, all asked that may be."""
    yield from further(rules, rules.space.stages, {}, {})


def further(
    rules: Rules, stages: tuple[Stage, ...], known: Mapping[str, str], ruled: Mapping[str, str]
) -> Iterator[tuple[Mapping[str, str], Mapping[str, str]]]:
    if not stages:
        yield known, ruled
        return
    for met in asked_in_full(rules, stages[0], known):
        said = settle(stages[0], met.applying).answers
        yield from further(rules, stages[1:], {**met.known, **said}, {**ruled, **said})


CROSSED: Final = Said(
    name="crossed",
    stage="play",
    question="Was the ball over the line?",
    values={"yes": "it was", "no": "it was not"},
)


def hand(*when: Mapping[str, str]) -> Said:
    return Said(
        name="hand",
        stage="play",
        question="Was it by hand?",
        values={"yes": "by hand", "no": "not by hand"},
        when=when,
    )


def article(name: str, goal: str, over: str = "", **when: str) -> Article:
    return Article(
        name=name,
        stage="play",
        says=f"{name}.",
        law="Law 0",
        when=when,
        then={"goal": goal},
        over=over,
    )


NO_GOAL: Final = article("no_goal", "none")
GOAL: Final = article("goal", "A", "no_goal", crossed="yes", hand="no")
ONLY_CROSSED: Final = hand({"crossed": "yes"})
ALWAYS: Final = hand()


@pytest.mark.parametrize(
    ("fact", "articles", "effect"),
    [
        (ONLY_CROSSED, (NO_GOAL, GOAL), Effect.NOTHING),
        (ALWAYS, (NO_GOAL, GOAL), Effect.RULED),
        (
            ALWAYS,
            (NO_GOAL, GOAL, article("near", "A", "no_goal", crossed="no", hand="no")),
            Effect.CITED,
        ),
        (
            ALWAYS,
            (NO_GOAL, GOAL, article("short", "none", "goal no_goal", crossed="no", hand="no")),
            Effect.HIDDEN,
        ),
    ],
)
def test_a_part_of_a_condition_is_judged_by_what_is_asked_and_what_else_stands(
    fact: Said, articles: tuple[Article, ...], effect: Effect
) -> None:
    """The part is that the ball was over the line."""
    assert apart(fact, *articles).effects["goal: crossed"] is effect


def apart(fact: Said, *articles: Article) -> Pieces:
    stage = Stage(name="play", parts={"goal": frozenset({"A", "none"})})
    taken = Pieces()
    made = space("small", stages=(stage,), facts=(CROSSED, fact), articles=articles)
    taken.take_apart(bind(made, edition("laws-2025-26")))
    return taken


def test_each_piece_of_a_small_space_has_its_effect() -> None:
    barred = article("barred", "none", "goal", crossed="yes", hand="not yes")
    assert apart(ONLY_CROSSED, NO_GOAL, GOAL, barred).effects == {
        "no_goal": Effect.RULED,
        "goal": Effect.HIDDEN,
        "goal over no_goal": Effect.HIDDEN,
        "goal: crossed": Effect.NOTHING,
        "goal: crossed yes": Effect.HIDDEN,
        "goal: hand": Effect.RULED,
        "goal: hand no": Effect.HIDDEN,
        "barred": Effect.RULED,
        "barred over goal": Effect.RULED,
        "barred: crossed": Effect.NOTHING,
        "barred: crossed yes": Effect.RULED,
        "barred: hand": Effect.CITED,
        "barred: hand yes": Effect.CITED,
    }
