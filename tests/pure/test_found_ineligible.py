"""Who appeared though not eligible is found, and the rulebook's answer is proposed.

No outside source: what follows is common practice and stands in the rulebook.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pytest

from cases.season_people import book, fixture, league, rosters, sheet
from wholeball.kernel.identity import GameId, PersonId, Side, TeamId
from wholeball.league.person import NotCleared
from wholeball.season.appearances import Appearance, GameSheet
from wholeball.season.discipline import Played, discipline
from wholeball.season.eligibility import Known
from wholeball.season.found_ineligible import Ineligible, found_ineligible
from wholeball.season.reason_not import Reason
from wholeball.season.result import How

GAME_DAY = date(2026, 9, 3)


def found(
    sheets: list[GameSheet],
    *,
    then: str = "forfeit",
    breach: str = "forfeit",
    on: date = GAME_DAY,
    split: bool = False,
    blocks: Sequence[NotCleared] = (),
) -> tuple[Ineligible, ...]:
    house = book(f"""
[roster]
teams_each = 1
bound_by = "first_game_played"
additions_until = "always"
additions_hours_before = 0
[eligibility]
waiver = true
[eligibility.found_later]
then = "{then}"
discovered_within_days = 2
[discipline.red]
games = 1
until_meeting = false
second_games = 1
[discipline.serving]
breach = "{breach}"
""")
    season = Played(
        league=league(split=split),
        rosters=rosters(),
        fixtures=[one.fixture for one in sheets],
        sheets=sheets,
    )
    known = Known(
        book=house,
        league=season.league,
        rosters=season.rosters,
        fixtures=season.fixtures,
        sheets=sheets,
        discipline=discipline(season, house, on=on),
        not_cleared=blocks,
    )
    return found_ineligible(known, on)


FIRST = sheet(fixture(1, "Cedar Dogwood"), appeared=["al", "ed"])
THEN = sheet(fixture(3), appeared=["al", "bo"])


def test_a_player_bound_elsewhere_in_the_league_lets_the_side_forfeit() -> None:
    assert found([FIRST, THEN]) == (
        Ineligible(
            game=GameId("A3"),
            day=GAME_DAY,
            team=TeamId("Ash"),
            side="home",
            person=PersonId("al"),
            reasons=(
                Reason(code="other_team", article="roster", teams=(TeamId("Cedar"),), most=1),
            ),
            then="forfeit",
            article="eligibility.found_later",
            last_day=date(2026, 9, 5),
        ),
    )
    assert found([FIRST, THEN], split=True) == ()


@pytest.mark.parametrize(("day", "then"), [(5, "forfeit"), (6, "result_stands")])
def test_it_may_be_found_up_to_the_last_day(day: int, then: str) -> None:
    [one] = found([FIRST, THEN], on=date(2026, 9, day))
    assert (one.then, one.forfeits) == (then, "home" if then == "forfeit" else None)


@pytest.mark.parametrize("then", ["result_stands", "coordinator"])
def test_what_the_house_says_is_proposed(then: str) -> None:
    [one] = found([FIRST, THEN], then=then)
    assert (one.then, one.forfeits) == (then, None)


@pytest.mark.parametrize("breach", ["forfeit", "coordinator"])
def test_playing_while_suspended_has_an_article_of_its_own(breach: str) -> None:
    red = sheet(fixture(1), shown={"bo": "red"})
    [one] = found([red, THEN], then="result_stands", breach=breach)
    assert (one.person, one.then, one.article) == ("bo", breach, "discipline.serving")
    assert one.reasons == (Reason(code="suspended", article="discipline.red", count=1),)


def test_where_both_sides_had_somebody_the_coordinator_decides() -> None:
    stranger = Appearance(person=PersonId("ed"), team=TeamId("Birch"), side="away", number=None)
    both = replace(THEN, appeared=(*THEN.appeared, stranger))
    assert [(one.person, one.then) for one in found([FIRST, both])] == [
        ("al", "coordinator"),
        ("ed", "coordinator"),
    ]


@pytest.mark.parametrize(
    ("how", "by"), [("forfeit", "home"), ("forfeit", "away"), ("double_forfeit", None)]
)
def test_of_a_game_that_a_side_gave_up_on_the_field_no_forfeit_is_proposed(
    how: How, by: Side | None
) -> None:
    left = sheet(fixture(3), how=how, by=by, is_played=True, appeared=["al"])
    assert [(one.person, one.then, one.forfeits) for one in found([FIRST, left])] == [
        ("al", "coordinator", None)
    ]


def test_a_game_that_was_ruled_on_is_told_with_its_ruling_and_proposes_nothing() -> None:
    assert THEN.result is not None
    ruled = replace(THEN, result=replace(THEN.result, ruling=4))
    assert [(one.ruling, one.forfeits) for one in found([FIRST, ruled])] == [(4, None)]


def test_a_game_that_was_never_played_or_counts_for_nothing_finds_nobody() -> None:
    for how in ("annulled", "double_forfeit"):
        given_up = sheet(fixture(3), how=how, appeared=["al"])
        assert found([FIRST, given_up]) == ()


def test_somebody_nobody_can_tell_is_not_called_ineligible() -> None:
    nobody = Appearance(person=None, team=TeamId("Ash"), side="home", number=99)
    assert found([replace(THEN, appeared=(nobody,))]) == ()


def block(first: int, last: int | None = None, *, person: str = "bo") -> NotCleared:
    until = None if last is None else date(2026, 9, last)
    return NotCleared(person=PersonId(person), since=date(2026, 9, first), until=until)


PLAYED = sheet(fixture(3), appeared=["bo"])


@pytest.mark.parametrize(
    ("blocks", "expected"),
    [
        ([block(4)], []),
        ([block(3)], [("blocked_that_day", "coordinator", None)]),
        ([block(2)], [("not_cleared", "forfeit", "home")]),
        ([block(1, 2), block(3)], [("blocked_that_day", "coordinator", None)]),
        ([block(1, 3), block(3)], [("not_cleared", "forfeit", "home")]),
        ([block(1, 2)], []),
        ([block(3, person="al")], []),
    ],
)
def test_only_days_are_known_of_a_block_and_its_first_proposes_nothing(
    blocks: list[NotCleared], expected: list[tuple[str, str, str | None]]
) -> None:
    told = found([PLAYED], blocks=blocks)
    assert [(one.reasons[0].code, one.then, one.forfeits) for one in told] == expected


def test_what_else_was_wrong_on_the_first_day_of_a_block_is_proposed_all_the_same() -> None:
    [one] = found([FIRST, THEN], blocks=[block(3, person="al")])
    assert [each.code for each in one.reasons] == ["blocked_that_day", "other_team"]
    assert one.forfeits == "home"


def test_the_first_day_of_a_block_is_for_the_coordinator_only_as_long_as_it_may_be_found() -> (
    None
):
    assert [one.then for one in found([PLAYED], blocks=[block(3)], then="result_stands")] == [
        "result_stands"
    ]
    assert [one.then for one in found([PLAYED], blocks=[block(3)], on=date(2026, 9, 6))] == [
        "result_stands"
    ]
