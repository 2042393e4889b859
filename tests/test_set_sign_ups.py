"""What teams and players alone asked for is shown, changed and taken out; all else stays."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from typing import Final

import pytest

from cases.kept_texts import KeptTexts
from cases.meadow import SEASON
from cases.sign_up_season import ALONE_HEAD, FILES, HEAD
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import BlockId, PersonId, TeamId
from wholeball.league.sign_up import Alone, SignUp
from wholeball.usecases.make_pools import make_pools
from wholeball.usecases.set_blocks import drop_block
from wholeball.usecases.set_sign_ups import (
    AloneTold,
    TeamTold,
    change_alone,
    change_sign_up,
    drop_alone,
    drop_sign_up,
)
from wholeball.usecases.show_sign_ups import SignUpsShown, TeamAsks, show_sign_ups

NOON: Final = datetime(2026, 8, 23, 12, 0)  # noqa: DTZ001 - local, as the files have it
HERONS: Final = TeamTold(
    team="Heron United",
    block="Tuesday",
    at=datetime(2026, 8, 20, 9, 5),  # noqa: DTZ001 - local
    captain="Ida Brackwell",
    players=11,
    colours="blue",
    second_colours="grey",
)
WIL: Final = AloneTold(name="Wil Sandry", block="Thursday", at=NOON)


def season(**files: str) -> KeptTexts:
    texts = {
        "season.toml": SEASON,
        "rulebook.toml": 'base = "laws-2025-26"\n',
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "teams.csv": "team,pool,division,block\n",
        **{f"{name}.csv": text for name, text in {**FILES, **files}.items()},
    }
    return KeptTexts(place="here", texts={name: one.encode() for name, one in texts.items()})


def text(kept: KeptTexts, name: str = "sign_ups.csv") -> str:
    return kept.texts[name].decode()


def refused(kept: KeptTexts, change: Callable[[], None]) -> WholeballError:
    before = dict(kept.texts)
    with pytest.raises(WholeballError) as told:
        change()
    assert kept.texts == before
    return told.value


def words(shown: SignUpsShown) -> dict[str, list[tuple[str, str, str]]]:
    return {
        one.block.block: [(team.sign_up.team, team.state, team.word) for team in one.teams]
        for one in shown.asked
    }


def test_sign_ups_stand_by_block_first_come_first_with_what_becomes_of_them() -> None:
    shown = show_sign_ups(season())
    assert words(shown) == {
        "Tuesday": [
            ("Mallards", "on", "has a place"),
            ("Heron United", "on", "has a place"),
            ("Coots", "before", "waits"),
        ],
        "Thursday": [("Coots", "on", "has a place")],
    }
    tuesday, thursday = shown.asked
    assert tuesday.alone == (
        Alone(
            person=PersonId("lone-1"),
            name="Wil Sandry",
            block=BlockId("Tuesday"),
            at=datetime(2026, 8, 22, 10),  # noqa: DTZ001 - local
        ),
    )
    assert [one.others for one in tuesday.teams] == [(), (), ("Thursday",)]
    assert (shown.count, shown.blocks, thursday.alone) == (5, ("Tuesday", "Thursday"), ())
    herons = SignUp(
        team=TeamId("Heron United"),
        block=BlockId("Tuesday"),
        at=HERONS.at,
        captain="Ida Brackwell",
        players=11,
        colours="blue",
        second_colours="grey",
    )
    assert tuesday.teams[1] == TeamAsks(
        sign_up=herons, state="on", word="has a place", others=()
    )
    assert shown.team("Tuesday", "Heron United") == herons
    assert (shown.team("Thursday", "Heron United"), shown.player("Thursday", "lone-1")) == (
        None,
        None,
    )


def test_where_teams_are_listed_it_is_told_who_of_them_plays() -> None:
    teams = "team,pool,division,block\nmallards,A,one,Tuesday\nCoots,B,two,Thursday\n"
    assert words(show_sign_ups(season(teams=teams))) == {
        "Tuesday": [
            ("Mallards", "over", "plays here"),
            ("Heron United", "before", "not taken in"),
            ("Coots", "over", "plays elsewhere"),
        ],
        "Thursday": [("Coots", "over", "plays here")],
    }


def test_a_season_without_sign_ups_has_none() -> None:
    shown = show_sign_ups(season(sign_ups=HEAD, alone=ALONE_HEAD))
    assert (shown.asked, shown.count) == ((), 0)


def test_what_a_team_asked_for_is_changed_and_every_other_row_stays() -> None:
    kept = season()
    told = replace(HERONS, block="Thursday", at=NOON, players=None, captain="=Ida")
    change_sign_up(kept, "Tuesday", "Heron United", told)
    assert text(kept) == FILES["sign_ups"].replace(
        "Heron United,Tuesday,2026-08-20 09:05,Ida Brackwell,11,blue,grey",
        "Heron United,Thursday,2026-08-23 12:00,'=Ida,,blue,grey",
    )
    assert text(kept, "alone.csv") == FILES["alone"]


def test_a_later_sign_up_waits_behind_the_others() -> None:
    kept = season()
    change_sign_up(kept, "Tuesday", "Heron United", replace(HERONS, at=NOON))
    assert words(show_sign_ups(kept))["Tuesday"] == [
        ("Mallards", "on", "has a place"),
        ("Coots", "on", "has a place"),
        ("Heron United", "before", "waits"),
    ]


def test_a_file_without_further_columns_gets_them_where_they_are_filled() -> None:
    kept = season(sign_ups="team,block,at\nHeron United,Tuesday,2026-08-20 09:05\n")
    change_sign_up(kept, "Tuesday", "Heron United", HERONS)
    (found,) = show_sign_ups(kept).asked[0].teams
    assert (found.sign_up.captain, found.sign_up.players) == ("Ida Brackwell", 11)


def test_a_team_that_does_not_play_yet_may_be_called_otherwise_and_one_that_plays_not() -> None:
    kept = season()
    change_sign_up(kept, "Tuesday", "Heron United", replace(HERONS, team=" Herons "))
    assert "\nHerons,Tuesday,2026-08-20 09:05," in text(kept)
    kept = season(teams="team,pool,division,block\nHeron United,A,one,Tuesday\n")
    renamed = replace(HERONS, team="Herons")
    told = refused(kept, lambda: change_sign_up(kept, "Tuesday", "Heron United", renamed))
    assert isinstance(told, InputFaults)
    assert [(one.code, one.place.column) for one in told.faults] == [("in_season", "team")]
    change_sign_up(kept, "Tuesday", "Heron United", replace(HERONS, block="Thursday"))
    assert "Heron United,Thursday," in text(kept)


@pytest.mark.parametrize("team", ["Mallards", "mALLARDS"])
def test_a_block_is_asked_for_once_whatever_the_capitals(team: str) -> None:
    kept = season()
    told = refused(
        kept,
        lambda: change_sign_up(kept, "Tuesday", "Heron United", replace(HERONS, team=team)),
    )
    assert isinstance(told, InputFaults)
    assert [f"{one.says} {one.cure}" for one in told.faults] == [
        (
            f"{team} asks for Tuesday already. "
            "Choose another block, or take one of the two sign-ups out."
        )
    ]
    coots = TeamTold(team="COOTS", block="Tuesday", at=NOON)
    change_sign_up(kept, "Tuesday", "Coots", coots)
    assert "COOTS,Tuesday,2026-08-23 12:00," in text(kept)


@pytest.mark.parametrize(("told", "code"), [("Friday", "unknown_block"), ("", "missing")])
def test_a_block_that_there_is_not_is_refused(told: str, code: str) -> None:
    kept = season()
    error = refused(
        kept,
        lambda: change_sign_up(kept, "Tuesday", "Heron United", replace(HERONS, block=told)),
    )
    assert isinstance(error, InputFaults)
    assert [one.code for one in error.faults] == [code]


def test_a_sign_up_is_taken_out_of_its_block_alone() -> None:
    kept = season()
    drop_sign_up(kept, "Tuesday", "Coots")
    assert text(kept) == FILES["sign_ups"].replace("Coots,Tuesday,2026-08-21 10:00,,,,\n", "")
    assert words(show_sign_ups(kept))["Thursday"] == [("Coots", "on", "has a place")]


def test_a_block_goes_once_nobody_asks_for_it_any_more() -> None:
    kept = season()
    assert refused(kept, lambda: drop_block(kept, "Thursday")).code == "filled"
    drop_sign_up(kept, "Thursday", "Coots")
    drop_block(kept, "Thursday")
    assert "Thursday" not in text(kept, "blocks.csv")


def test_a_team_that_would_have_two_places_has_one_once_a_sign_up_is_out() -> None:
    many = HEAD + "".join(
        f"T{number},{block},2026-08-20 09:00,,,,\n"
        for number, block in [*((n, "Tuesday") for n in range(4)), (0, "Thursday")]
    )
    blocks = FILES["blocks"].replace("22:00,2", "22:00,4")
    kept = season(sign_ups=many, blocks=blocks, alone=ALONE_HEAD, teams="team\n")
    drop_sign_up(kept, "Thursday", "T0")
    assert [len(one.placed.pools) for one in make_pools(kept).blocks] == [1, 0]


def test_a_player_alone_is_changed_and_taken_out() -> None:
    kept = season()
    change_alone(kept, "Tuesday", "lone-1", WIL)
    assert text(kept, "alone.csv") == (
        f"{ALONE_HEAD}lone-1,Wil Sandry,Thursday,2026-08-23 12:00\n"
    )
    assert text(kept) == FILES["sign_ups"]
    drop_alone(kept, "Thursday", "lone-1")
    assert text(kept, "alone.csv") == ALONE_HEAD


def test_a_player_asks_for_a_block_once() -> None:
    more = f"{FILES['alone']}lone-1,Wil Sandry,Thursday,2026-08-22 10:00\n"
    kept = season(alone=more)
    told = refused(kept, lambda: change_alone(kept, "Tuesday", "lone-1", WIL))
    assert isinstance(told, InputFaults)
    assert [(one.code, one.place.column) for one in told.faults] == [("duplicate", "block")]
    change_alone(kept, "Tuesday", "lone-1", replace(WIL, block="Tuesday", name="=Wil"))
    assert "lone-1,'=Wil,Tuesday,2026-08-23 12:00\n" in text(kept, "alone.csv")


@pytest.mark.parametrize(
    "change",
    [
        lambda kept: change_sign_up(kept, "Thursday", "Heron United", HERONS),
        lambda kept: drop_sign_up(kept, "Thursday", "Heron United"),
        lambda kept: drop_sign_up(kept, "Tuesday", "Nobody"),
        lambda kept: change_alone(kept, "Thursday", "lone-1", WIL),
        lambda kept: drop_alone(kept, "Thursday", "lone-1"),
    ],
)
def test_what_is_not_there_is_refused(change: Callable[[KeptTexts], None]) -> None:
    kept = season()
    told = refused(kept, lambda: change(kept))
    assert (told.code, str(told)) == (
        "gone",
        ("This sign-up is not there any more. Nothing was changed. Look at what is there now."),
    )
