"""Teams are put into divisions, blocks and pools: one by one, or dealt out within each."""

from collections.abc import Callable
from typing import Final

import pytest

from cases.kept_texts import KeptTexts
from cases.meadow import SEASON
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import BlockId, DivisionId, PoolId, TeamId
from wholeball.usecases.arrange_pools import (
    Chosen,
    Moved,
    Place,
    look_at_spread,
    place_teams,
    show_pools,
    spread_teams,
)

HEAD: Final = "team,pool,colours,second_colours,division,block\n"
NOWHERE: Final = Place()
GOLD: Final = Place(division=DivisionId("Gold"))
MON: Final = Place(division=DivisionId("Gold"), block=BlockId("Mon"))
WED: Final = Place(division=DivisionId("Gold"), block=BlockId("Wed"))
TIN: Final = Place(division=DivisionId("Tin"))


def season(teams: str) -> KeptTexts:
    """Return a season of two divisions, Gold with a block on Mondays and one on Wednesdays."""
    texts = {
        "season.toml": SEASON,
        "rulebook.toml": 'base = "laws-2025-26"\n',
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "divisions.csv": "division\nGold\nTin\n",
        "blocks.csv": "block,division,weekday,from,until,places\n"
        "Mon,Gold,monday,19:00,22:00,9\nWed,Gold,wednesday,19:00,22:00,9\n",
        "teams.csv": teams,
    }
    return KeptTexts(place="here", texts={name: one.encode() for name, one in texts.items()})


def listed(kept: KeptTexts) -> list[tuple[str, str, Place]]:
    """Return each team, its pool, and where it is."""
    return [
        (one.team, one.pool, Place(division=one.division, block=one.block))
        for one in show_pools(kept).teams
    ]


def to(pool: str, place: Place) -> Chosen:
    return Chosen(place=place, pool=PoolId(pool))


def refused(kept: KeptTexts, change: Callable[[], object]) -> WholeballError:
    before = dict(kept.texts)
    with pytest.raises(WholeballError) as told:
        change()
    assert kept.texts == before
    return told.value


FOUR: Final = "team,pool\nAsh,A\nBay,A\nCedar,A\nElm,A\n"


def test_places_are_offered_division_by_division_and_none_without_one() -> None:
    kept = season(FOUR)
    assert show_pools(kept).places == (NOWHERE, GOLD, MON, WED, TIN)
    assert [one.says for one in show_pools(kept).places] == [
        "no division",
        "Gold",
        "Gold, Mon",
        "Gold, Wed",
        "Tin",
    ]
    assert len({one.key for one in show_pools(kept).places}) == 5
    for name in ("divisions.csv", "blocks.csv"):
        del kept.texts[name]
    assert show_pools(kept).places == ()


def test_a_team_that_leaves_its_pool_for_another_division_goes_into_a_pool_of_that() -> None:
    kept = season(FOUR)
    assert place_teams(kept, {TeamId("Ash"): to("A", MON), TeamId("Elm"): to("A", GOLD)}) == 2
    assert listed(kept) == [
        ("Ash", "Gold", MON),
        ("Bay", "A", NOWHERE),
        ("Cedar", "A", NOWHERE),
        ("Elm", "Gold", GOLD),
    ]
    assert place_teams(kept, {TeamId("Bay"): to("A", WED)}) == 1
    assert listed(kept)[1] == ("Bay", "Gold", WED)


def test_a_team_that_joins_a_division_with_pools_goes_into_the_first() -> None:
    kept = season("team,pool,division\nAsh,A,\nBay,A,\nCedar,Z,Gold\nElm,B,Gold\n")
    place_teams(kept, {TeamId("Ash"): to("A", GOLD)})
    assert listed(kept)[0] == ("Ash", "Z", GOLD)


def test_a_pool_that_goes_into_a_division_whole_stays_a_pool() -> None:
    kept = season(FOUR)
    every = {TeamId(name): to("A", GOLD) for name in ("Ash", "Bay", "Cedar", "Elm")}
    assert place_teams(kept, every) == 4
    assert listed(kept) == [(name, "A", GOLD) for name in every]
    last = {**every, TeamId("Elm"): to("A", TIN)}
    assert place_teams(kept, last) == 1
    assert listed(kept)[-1] == ("Elm", "Tin", TIN)


def test_a_pool_that_is_chosen_is_taken_and_one_of_another_division_is_refused() -> None:
    kept = season(FOUR)
    place_teams(kept, {TeamId("Ash"): to("B", GOLD), TeamId("Bay"): to("B", GOLD)})
    assert listed(kept)[:2] == [("Ash", "B", GOLD), ("Bay", "B", GOLD)]
    told = refused(kept, lambda: place_teams(kept, {TeamId("Cedar"): to("B", TIN)}))
    assert isinstance(told, InputFaults)
    assert "pool B is of division Gold on row 2, and of division Tin here." in str(told)


def test_a_block_of_another_division_is_refused() -> None:
    kept = season(FOUR)
    wrong = Place(division=DivisionId("Tin"), block=BlockId("Mon"))
    told = refused(kept, lambda: place_teams(kept, {TeamId("Ash"): to("B", wrong)}))
    assert "block Mon is of division Gold, the team of Tin." in str(told)


def test_who_stays_where_they_are_changes_nothing() -> None:
    kept = season(FOUR)
    assert place_teams(kept, {TeamId("Ash"): to("A", NOWHERE)}) == 0
    assert kept.texts["teams.csv"] == FOUR.encode()


EIGHT: Final = HEAD + "".join(
    f"{name},P{at // 4},,,{place}\n"
    for at, (name, place) in enumerate(
        [
            ("Ash", "Gold,Mon"),
            ("Bay", "Gold,Mon"),
            ("Cedar", "Gold,Wed"),
            ("Elm", "Gold,Wed"),
            ("Fir", "Tin,"),
            ("Gorse", "Tin,"),
            ("Hazel", "Tin,"),
            ("Ivy", "Tin,"),
        ]
    )
)


def test_teams_are_dealt_out_within_each_block_since_two_blocks_never_meet() -> None:
    kept = season(EIGHT)
    assert [(one.pools, one.place, one.says) for one in show_pools(kept).spreads] == [
        (1, None, "1 pool of 2 to 4 in each block"),
        (1, MON, "Gold, Mon: 1 pool of 2"),
        (1, WED, "Gold, Wed: 1 pool of 2"),
        (1, TIN, "Tin: 1 pool of 4"),
        (2, TIN, "Tin: 2 pools of 2"),
    ]
    assert spread_teams(kept, 1) == 8
    assert [pool for _, pool, _ in listed(kept)] == [
        *["Gold Mon A"] * 2,
        *["Gold Wed A"] * 2,
        *["Tin A"] * 4,
    ]


def test_who_would_move_is_told_and_nobody_is_moved_by_looking() -> None:
    kept = season(EIGHT)
    before = dict(kept.texts)
    assert look_at_spread(kept, 1, place=MON) == (
        Moved(team=TeamId("Ash"), old=PoolId("P0"), new=PoolId("Gold Mon A")),
        Moved(team=TeamId("Bay"), old=PoolId("P0"), new=PoolId("Gold Mon A")),
    )
    assert kept.texts == before
    spread_teams(kept, 1, place=MON)
    assert look_at_spread(kept, 1, place=MON) == ()


def test_the_teams_of_one_place_are_dealt_out_and_all_others_stay() -> None:
    kept = season(EIGHT)
    assert spread_teams(kept, 2, place=TIN) == 4
    assert [pool for _, pool, _ in listed(kept)] == [
        *["P0"] * 4,
        "Tin A",
        "Tin B",
        "Tin A",
        "Tin B",
    ]
    assert spread_teams(kept, 1, place=MON) == 2
    assert [pool for _, pool, _ in listed(kept)][:4] == ["Gold Mon A", "Gold Mon A", "P0", "P0"]


@pytest.mark.parametrize(
    ("pools", "place", "says"),
    [
        (3, TIN, "4 teams cannot be dealt out into 3 pools."),
        (0, TIN, "4 teams cannot be dealt out into 0 pools."),
        (2, MON, "2 teams cannot be dealt out into 2 pools."),
        (2, None, "2 teams cannot be dealt out into 2 pools."),
        (1, GOLD, "0 teams cannot be dealt out into 1 pool."),
    ],
)
def test_pools_of_fewer_than_two_teams_are_refused(
    pools: int, place: Place | None, says: str
) -> None:
    kept = season(EIGHT)
    assert refused(kept, lambda: spread_teams(kept, pools, place=place)).says == says


def test_nobody_is_moved_once_a_game_was_played() -> None:
    kept = season(EIGHT)
    kept.texts["results.csv"] += b"1,1,Ash,Bay,2,1\n"
    assert show_pools(kept).is_open is False
    for change in (
        lambda: spread_teams(kept, 1),
        lambda: look_at_spread(kept, 1),
        lambda: place_teams(kept, {TeamId("Fir"): to("P1", NOWHERE)}),
    ):
        assert refused(kept, change).code == "played"
