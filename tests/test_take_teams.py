"""Teams of a spreadsheet come in with their divisions, and pools mix none of them."""

from typing import Final

import pytest

from cases.kept_texts import KeptTexts
from cases.meadow import SEASON
from wholeball.files.folder import read_folder
from wholeball.kernel.faults import InputFaults
from wholeball.season.bracket_parts import brackets_of
from wholeball.usecases.arrange_pools import spread_teams
from wholeball.usecases.take_teams import take_teams

LIST: Final = (
    b"Team,Division,Captain\nAsh,Gold,Ida\nBay,Tin,Jo\nCedar,gold,Kim\nElm,Gold,Lu\n"
    b"Fir,Tin,Max\nGorse,Tin,Ned\nHazel,Tin,Ole\nIvy,Gold,Pat\n"
)


def season(**more: str) -> KeptTexts:
    """Return a season without a team, and with other files if there are any."""
    texts = {
        "season.toml": SEASON,
        "rulebook.toml": 'base = "laws-2025-26"\n',
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "teams.csv": "team,pool,colours,second_colours,division,block\n",
        **{f"{name}.csv": text for name, text in more.items()},
    }
    return KeptTexts(place="here", texts={name: one.encode() for name, one in texts.items()})


def placed(kept: KeptTexts) -> list[tuple[str, str, str | None]]:
    """Return each team with its pool and its division."""
    return [(one.team, one.pool, one.division) for one in read_folder(kept).season.league.teams]


def test_a_column_of_divisions_makes_divisions_in_a_season_without_any() -> None:
    kept = season()
    taken = take_teams(kept, LIST, file="teams.xlsx")
    assert kept.texts["divisions.csv"] == b"division,league,level,kind\nGold,,,\nTin,,,\n"
    assert placed(kept) == [
        ("Ash", "Gold", "Gold"),
        ("Bay", "Tin", "Tin"),
        ("Cedar", "Gold", "Gold"),
        ("Elm", "Gold", "Gold"),
        ("Fir", "Tin", "Tin"),
        ("Gorse", "Tin", "Tin"),
        ("Hazel", "Tin", "Tin"),
        ("Ivy", "Gold", "Gold"),
    ]
    assert "divisions from “Division”. 2 new divisions: Gold and Tin." in taken.says
    assert list(brackets_of(read_folder(kept).season)) == ["Gold", "Tin"]


def test_pools_are_dealt_out_within_the_divisions_of_a_list() -> None:
    kept = season()
    take_teams(kept, LIST, file="teams.xlsx")
    assert spread_teams(kept, 2) == 8
    assert {(pool, division) for _, pool, division in placed(kept)} == {
        ("Gold A", "Gold"),
        ("Gold B", "Gold"),
        ("Tin A", "Tin"),
        ("Tin B", "Tin"),
    }


def test_a_pool_that_two_divisions_name_is_a_pool_of_each() -> None:
    kept = season()
    text = b"team,division,pool\nAsh,Gold,A\nBay,Gold,B\nCedar,Tin,A\nElm,Tin,A\nFir,,C\n"
    take_teams(kept, text, file="teams.csv")
    assert placed(kept) == [
        ("Ash", "Gold A", "Gold"),
        ("Bay", "B", "Gold"),
        ("Cedar", "Tin A", "Tin"),
        ("Elm", "Tin A", "Tin"),
        ("Fir", "C", None),
    ]


def test_a_season_with_divisions_takes_no_others_and_none_comes_in_twice() -> None:
    kept = season(divisions="division\nGold\n")
    before = dict(kept.texts)
    with pytest.raises(InputFaults, match='"Tin" is no division of'):
        take_teams(kept, LIST, file="teams.csv")
    assert kept.texts == before
    other = season()
    take_teams(other, LIST, file="teams.csv")
    held = dict(other.texts)
    again = take_teams(other, LIST, file="teams.csv")
    assert (again.new, again.divisions, again.already) == ((), (), 8)
    assert other.texts == held
