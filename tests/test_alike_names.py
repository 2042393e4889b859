"""Rows that may be one person are found, in a time that grows with the rows and not with the pairs.

The oracle holds every row against every other.
"""

from collections import Counter
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rapidfuzz import fuzz

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import Player, Rosters
from wholeball.usecases import alike_names
from wholeball.usecases.alike_names import alike_rows

ASH, BIRCH, CEDAR = TeamId("Ash"), TeamId("Birch"), TeamId("Cedar")
LEAGUES = {ASH: "one", BIRCH: "one", CEDAR: "two"}
NAMES = st.builds(
    " ".join,
    st.lists(st.text("abno", min_size=3, max_size=6), min_size=1, max_size=3),
)


def rosters(**teams: list[tuple[str, str | None]]) -> Rosters:
    return {
        TeamId(team): tuple(
            Player(name=name, number=None, person=None if code is None else PersonId(code))
            for name, code in players
        )
        for team, players in teams.items()
    }


def found(of: Rosters) -> list[tuple[str, str]]:
    return [(one.player.name, other.player.name) for one, other in alike_rows(of, LEAGUES)]


@pytest.mark.parametrize(
    ("name", "other", "is_told"),
    [
        ("Noor Zephirou", "Noor Zephirou", True),
        ("Noor Zephirou", "Zephirou Noor", True),
        ("Noor Zephirou", "Noor Zefirou", True),
        ("Noor Zephirou", "Nora Zephirou", True),
        ("Noor Zephirou", "Umaru Zephirou", False),
        ("Noor Zephirou", "Zephirou", False),
    ],
)
def test_two_rows_are_told_where_their_words_are_alike(
    name: str, other: str, *, is_told: bool
) -> None:
    both = rosters(Ash=[(name, None)], Birch=[(other, None)])
    assert found(both) == ([(name, other)] if is_told else [])


def test_one_team_another_league_and_two_codes_are_left_alone() -> None:
    name = "Noor Zephirou"
    assert found(rosters(Ash=[(name, None), (name, None)], Cedar=[(name, None)])) == []
    assert found(rosters(Ash=[(name, "k-1")], Birch=[(name, "k-2")])) == []
    assert found(rosters(Ash=[(name, "k-1")], Birch=[(name, None)])) == [(name, name)]


@settings(max_examples=300)
@given(
    st.lists(st.tuples(NAMES, st.sampled_from([None, "k-1"])), max_size=12),
    st.lists(st.tuples(NAMES, st.sampled_from([None, "k-1"])), max_size=12),
)
def test_what_every_pair_would_tell_is_told_where_a_word_is_the_same_but_for_a_letter(
    ash: list[tuple[str, str | None]], birch: list[tuple[str, str | None]]
) -> None:
    wanted = [
        (mine, other) if code is None else (other, mine)
        for (mine, code), (other, other_code) in product(ash, birch)
        if None in (code, other_code) and _is_alike(mine, other) and _have_a_word(mine, other)
    ]
    told = found(rosters(Ash=ash, Birch=birch))
    assert not Counter(told) - Counter(wanted)
    if max(Counter(one for one, _ in wanted).values(), default=0) <= 5:
        assert sorted(told) == sorted(wanted)


def test_the_rows_looked_at_grow_with_the_rows_and_not_with_the_pairs(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A thousand players of one name on each of two teams would make a million pairs."""
    asked = []

    def looked_at(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
        asked.append((one, other))
        return False

    monkeypatch.setattr(alike_names, "_may_be_one", looked_at)
    many: list[tuple[str, str | None]] = [("Sam Lee", None)] * 1000
    assert found(rosters(Ash=many, Birch=many)) == []
    assert 0 < len(asked) <= 200 * 2000


def test_of_many_rows_of_one_name_each_is_told_to_be_like_a_few() -> None:
    many: list[tuple[str, str | None]] = [("Sam Lee", None)] * 50
    assert len(found(rosters(Ash=many, Birch=many))) == 5 * 50


def _is_alike(one: str, other: str) -> bool:
    words, others = sorted(one.split()), sorted(other.split())
    return (
        len(words) == len(others)
        and fuzz.ratio(" ".join(words), " ".join(others)) >= 85
        and all(fuzz.ratio(a, b) >= 75 for a, b in zip(words, others, strict=True))
    )


def _have_a_word(one: str, other: str) -> bool:
    def keys(name: str) -> set[str]:
        return {
            word[:at] + word[at + 1 :] for word in name.split() for at in range(len(word) + 1)
        }

    return bool(keys(one) & keys(other))
