"""From sign-ups to pools: sizes and order are common practice, no source."""

from datetime import datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import BlockId, DivisionId, PersonId, TeamId
from wholeball.league.division import Block
from wholeball.league.pools import placed, pool_sizes
from wholeball.league.sign_up import Alone, SignUp
from wholeball.league.without_team import Offer, offers

OPENED = datetime.fromisoformat("2027-01-04T09:00")
TUESDAY = BlockId("Tuesday early")


def block(places: int) -> Block:
    return Block(
        block=TUESDAY,
        division=DivisionId("Open"),
        weekday="tuesday",
        opens=time(18),
        closes=time(20),
        places=places,
    )


def sign_up(index: int, players: int = 10, block: BlockId = TUESDAY) -> SignUp:
    return SignUp(
        team=TeamId(f"T{index:02}"),
        block=block,
        at=OPENED + timedelta(minutes=index),
        players=players,
    )


def alone(index: int) -> Alone:
    return Alone(
        person=PersonId(f"p{index:02}"),
        name=f"Player {index}",
        block=TUESDAY,
        at=OPENED + timedelta(minutes=index),
    )


@pytest.mark.parametrize(
    ("teams", "sizes"),
    [
        (0, ()),
        (3, ()),
        (4, (4,)),
        (5, (5,)),
        (7, (7,)),
        (8, (8,)),
        (9, (5, 4)),
        (10, (5, 5)),
        (11, (6, 5)),
        (12, (6, 6)),
        (13, (7, 6)),
        (14, (7, 7)),
        (16, (8, 8)),
        (18, (6, 6, 6)),
        (20, (4, 4, 4, 4, 4)),
        (24, (6, 6, 6, 6)),
    ],
)
def test_pools_are_of_one_size_or_differ_by_one_team(
    teams: int, sizes: tuple[int, ...]
) -> None:
    assert pool_sizes(teams) == sizes


def test_a_wanted_size_is_taken_where_it_costs_no_byes() -> None:
    assert pool_sizes(16, wanted=4) == (4, 4, 4, 4)
    assert pool_sizes(24, wanted=8) == (8, 8, 8)
    assert pool_sizes(10, wanted=8) == (5, 5)


@pytest.mark.parametrize("wanted", [3, 9])
def test_a_size_that_no_pool_has_is_refused(wanted: int) -> None:
    with pytest.raises(ValueError, match=f"a pool has 4 to 8 teams, got {wanted}"):
        pool_sizes(12, wanted=wanted)


@given(st.integers(4, 300), st.integers(4, 8))
def test_every_number_of_teams_from_four_gets_pools_that_hold_them_all(
    teams: int, wanted: int
) -> None:
    sizes = pool_sizes(teams, wanted=wanted)
    assert sum(sizes) == teams
    assert 4 <= min(sizes) <= max(sizes) <= min(8, min(sizes) + 1)


def test_those_who_sign_up_first_get_the_places_and_the_rest_wait_in_their_order() -> None:
    late_first = [sign_up(index) for index in reversed(range(10))]
    found = placed(block(8), late_first, size=4)
    assert [one.team for one in found.teams] == [f"T{index:02}" for index in range(8)]
    assert [one.team for one in found.waiting] == ["T08", "T09"]
    assert [(one.pool, [team.team for team in one.teams], one.byes) for one in found.pools] == [
        ("Tuesday early A", ["T00", "T03", "T04", "T07"], 0),
        ("Tuesday early B", ["T01", "T02", "T05", "T06"], 0),
    ]


def test_a_block_with_one_pool_gives_it_its_name() -> None:
    found = placed(block(8), map(sign_up, range(5)))
    assert [(one.pool, len(one.teams), one.byes) for one in found.pools] == [
        ("Tuesday early", 5, 1)
    ]


def test_three_teams_make_no_pool_and_keep_their_places() -> None:
    found = placed(block(8), [*map(sign_up, range(3)), sign_up(9, block=BlockId("Thursday"))])
    assert (len(found.teams), found.waiting, found.pools) == (3, (), ())


def test_players_alone_are_offered_to_the_team_that_lacks_most() -> None:
    teams = [sign_up(0, players=8), sign_up(1, players=5), sign_up(2, players=6)]
    found = offers(TUESDAY, map(alone, range(4)), teams, least=8, most=14, places=1)
    assert found.offers == (
        Offer(player=alone(0), team=TeamId("T01")),
        Offer(player=alone(1), team=TeamId("T01")),
        Offer(player=alone(2), team=TeamId("T02")),
        Offer(player=alone(3), team=TeamId("T01")),
    )
    assert (found.formed, found.left) == ((), ())


def test_seven_players_alone_wait_and_eight_are_a_team() -> None:
    seven = offers(TUESDAY, map(alone, range(7)), [], least=8, most=14, places=1)
    eight = offers(TUESDAY, map(alone, range(8)), [], least=8, most=14, places=1)
    assert (seven.formed, len(seven.left)) == ((), 7)
    assert ([len(team) for team in eight.formed], eight.left) == ([8], ())


def test_without_a_place_no_team_is_formed_and_with_two_both_are_of_one_size() -> None:
    none = offers(TUESDAY, map(alone, range(17)), [], least=8, most=14, places=0)
    two = offers(TUESDAY, map(alone, range(17)), [], least=8, most=14, places=2)
    one = offers(TUESDAY, map(alone, range(17)), [], least=8, most=14, places=1)
    assert (none.formed, len(none.left)) == ((), 17)
    assert ([len(team) for team in two.formed], two.left) == ([9, 8], ())
    assert ([len(team) for team in one.formed], len(one.left)) == ([14], 3)


@given(
    st.integers(0, 60),
    st.lists(st.integers(0, 12), max_size=6),
    st.integers(0, 4),
)
def test_every_player_alone_stands_in_exactly_one_list(
    players: int, sizes: list[int], places: int
) -> None:
    asking = [alone(index) for index in range(players)]
    teams = [sign_up(index, players=size) for index, size in enumerate(sizes)]
    found = offers(TUESDAY, asking, teams, least=8, most=14, places=places)
    everybody = [
        *(one.player for one in found.offers),
        *(one for team in found.formed for one in team),
        *found.left,
    ]
    assert everybody == asking
    assert all(8 <= len(team) <= 14 for team in found.formed)
