"""A value that another of its table makes idle is no difference, and no sentence speaks of it."""

from collections.abc import Iterator
from typing import Any, get_args

import pytest

from wholeball.kernel.length import Length, length
from wholeball.rulebook.book import Rulebook, idle_keys, parts, values
from wholeball.rulebook.differences import compared
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load
from wholeball.rulebook.value import Article, Idle
from wholeball.rulebook.words.lookup import words

LAWS = edition(NEWEST)


def rules() -> Iterator[tuple[str, Idle]]:
    for path, article in LAWS.articles():
        for rule in article.idle_keys:
            yield path, rule


def house(text: str) -> Rulebook:
    return load(f'base = "{NEWEST}"\n{text}'.encode(), file="house.toml").rulebook


def differing(text: str) -> list[str]:
    return [
        f"{one.path}.{one.key}"
        for article in compared(house(text)).values()
        for one in article.differences
    ]


def with_values(book: Rulebook, path: str, changes: dict[str, Any]) -> Rulebook:
    first, *rest = path.split(".")
    return book.model_copy(update={first: _inside(getattr(book, first), rest, changes)})


def _inside(article: Article, rest: list[str], changes: dict[str, Any]) -> Article:
    if not rest:
        return article.model_copy(update=changes)
    inner = _inside(getattr(article, rest[0]), rest[1:], changes)
    return article.model_copy(update={rest[0]: inner})


def others(article: Article, name: str) -> list[Any]:
    value = getattr(article, name)
    if isinstance(value, bool):
        return [not value]
    if isinstance(value, Length):
        return [length("3 m")]
    if isinstance(value, int):
        return [value + 1]
    words_allowed = [
        one
        for one in get_args(type(article).model_fields[name].annotation)
        if isinstance(one, str)
    ]
    return [one for one in words_allowed if one != value]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ('goal_kick.not_leaving = "indirect_free_kick"', []),
        (
            'goal_kick = { must_leave_area = true, not_leaving = "indirect_free_kick" }',
            ["goal_kick.must_leave_area", "goal_kick.not_leaving"],
        ),
        ('offside = { played = false, from_line = "penalty_area_line" }', ["offside.played"]),
        ('offside.from_line = "penalty_area_line"', ["offside.from_line"]),
        (
            'substitution = { most = 0, signal = false, leaving = { by = "own_bench" } }',
            ["substitution.most"],
        ),
        (
            'substitution = { most = 1, leaving = { by = "own_bench" } }',
            ["substitution.most", "substitution.leaving.by"],
        ),
        (
            '[penalty]\nplayed = false\ndistance = "8 yd"\n[penalty.goalkeeper]\non_line = "both_feet"',
            ["penalty.played"],
        ),
    ],
)
def test_only_what_is_not_idle_differs(text: str, found: list[str]) -> None:
    assert differing(text) == found


def test_the_rules_name_keys_of_their_table_and_none_in_a_circle() -> None:
    for path, rule in rules():
        kind = type(LAWS.article(path))
        assert {*rule.keys, *rule.where} <= set(kind.model_fields), path
    for path, article in LAWS.articles():
        makes = {
            (by, key) for rule in article.idle_keys for by in rule.where for key in rule.keys
        }
        assert not [pair for pair in makes if (pair[1], pair[0]) in makes], path


@pytest.mark.parametrize(("path", "rule"), list(rules()), ids=str)
def test_no_sentence_speaks_of_an_idle_value(path: str, rule: Idle) -> None:
    for index in range(max(len(allowed) for allowed in rule.where.values())):
        where = {
            name: allowed[min(index, len(allowed) - 1)] for name, allowed in rule.where.items()
        }
        book = with_values(LAWS, path, where)
        plain = {name: tuple(map(str, words(name).says(book))) for name, _ in book.articles()}
        for name in set(rule.keys) - set(parts(type(LAWS.article(path)))):
            assert f"{path}.{name}" in idle_keys(book)
            for value in others(book.article(path), name):
                said = words(path).says(with_values(book, path, {name: value}))
                assert tuple(map(str, said)) == plain[path], (name, value)


def test_where_a_part_is_idle_so_is_every_key_of_it() -> None:
    book = house("substitution.most = 0\n")
    leaving = {f"substitution.leaving.{name}" for name in values(book.substitution.leaving)}
    assert leaving <= idle_keys(book)
    one = idle_keys(house("substitution.most = 1\n"))
    assert leaving & one == {"substitution.leaving.too_slow_waits_seconds"}


def test_nobody_leaves_where_nobody_is_replaced() -> None:
    says = words("substitution.leaving").says
    (none,) = says(house("substitution.most = 0\n"))
    assert str(none) == "Nobody is replaced, so nobody leaves for a substitute."
    one = says(house('substitution = { most = 1, leaving = { by = "anywhere" } }\n'))
    assert str(one[0]) == "A player who is replaced leaves wherever the player likes."


def test_these_keys_of_the_newest_laws_are_idle() -> None:
    """Where the Laws or a house that adds nothing switch something off (no outside source)."""
    assert sorted(idle_keys(LAWS)) == [
        "cards.cautioned.may_be_replaced",
        "cards.cautioned.minutes",
        "cards.sent_off.after_minutes",
        "discipline.caution_games",
        "discipline.cautions_cleared",
        "eligibility.identification.forgotten_most",
        "forfeit.default.notice_by",
        "forfeit.fee.captain_waits",
        "forfeit.grace.chosen_by",
        "forfeit.grace.clock_runs",
        "forfeit.grace.final",
        "game.period_end.chance",
        "goal_kick.countdown.then",
        "goal_kick.not_leaving",
        "goal_kick.too_far",
        "goalkeeper.distribution.then",
        "play_offs.games_played_least",
        "play_offs.places",
        "play_offs.same_pool",
        "play_offs.seeded_by",
        "play_offs.third_place",
        "play_offs.unequal_pools",
        "protests.by",
        "protests.fee",
        "protests.fee_returned",
        "protests.raised",
        "protests.upheld",
        "protests.written_by",
        "protests.written_day",
        "ratings.cap_after_sending_off",
        "ratings.floor",
        "ratings.given.defaulting",
        "ratings.given.forfeiting",
        "ratings.given.ready",
        "ratings.minimum_count",
        "ratings.play_off_minimum",
        "ratings.reason_at_or_below",
        "ratings.scale",
        "roster.club_players.counted",
        "sides.mixed.declared",
        "sides.mixed.goalkeeper_counts",
        "sides.mixed.short",
        "slide_tackle.caution",
        "slide_tackle.goalkeeper_exempt",
        "slide_tackle.then",
        "substitution.leaving.too_slow_waits_seconds",
        "throw_in.countdown.then",
    ]
