"""Divisions and blocks are added, changed and taken out: in every file that names them, or not."""

from collections.abc import Callable
from datetime import time
from typing import Final

import pytest

from cases.kept_texts import KeptTexts
from cases.meadow import SEASON
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import BlockId, DivisionId, TeamId
from wholeball.league.division import Block
from wholeball.usecases.set_blocks import BlockTold, add_block, change_block, drop_block
from wholeball.usecases.set_divisions import add_division, change_division, drop_division
from wholeball.usecases.show_divisions import (
    BlockShown,
    DivisionSet,
    DivisionsShown,
    DivisionTold,
    show_divisions,
)

DIVISIONS: Final = "division,league,level,kind\nGold,,,open\nTin,Evening,B,mixed\n"
BLOCKS: Final = "block,division,weekday,from,until,places\nMon,Gold,monday,19:00,22:00,1\n"
TEAMS: Final = "team,pool,division,block\nAsh,1,Gold,Mon\nBirch,1,,Mon\nElm,2,,\n"
SIGN_UPS: Final = "team,block,at\nAsh,Mon,2026-08-21 09:00\n"
ALONE: Final = "person,name,block,at\nlone-1,Wil Sandry,Mon,2026-08-21 09:00\n"
GOLD: Final = DivisionTold(division="Gold")
MON: Final = BlockTold(
    block="Mon", division="Gold", weekday="monday", opens=time(19), closes=time(22), places=1
)


def season(**files: str) -> KeptTexts:
    """Return a season with two divisions, one block, and two of three teams in it."""
    texts = {
        "season.toml": SEASON,
        "rulebook.toml": 'base = "laws-2025-26"\n',
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "divisions.csv": DIVISIONS,
        "blocks.csv": BLOCKS,
        "teams.csv": TEAMS,
        **{f"{name}.csv": text for name, text in files.items()},
    }
    return KeptTexts(place="here", texts={name: one.encode() for name, one in texts.items()})


def refused(kept: KeptTexts, change: Callable[[], None]) -> WholeballError:
    """Return why a change is refused; nothing was written by it."""
    before = dict(kept.texts)
    with pytest.raises(WholeballError) as told:
        change()
    assert kept.texts == before
    return told.value


def changed(kept: KeptTexts, before: KeptTexts) -> dict[str, str]:
    """Return the files that a change wrote otherwise."""
    found = {name: data.decode() for name, data in kept.texts.items()}
    return {name: one for name, one in found.items() if before.texts.get(name) != one.encode()}


def test_a_season_is_shown_as_it_was_said_with_teams_places_and_sign_ups() -> None:
    block = Block(
        block=BlockId("Mon"),
        division=DivisionId("Gold"),
        weekday="monday",
        opens=time(19),
        closes=time(22),
        places=1,
    )
    mon = BlockShown(block=block, teams=2, asked=1)
    assert show_divisions(season(sign_ups=SIGN_UPS)) == DivisionsShown(
        divisions=(
            DivisionSet(told=GOLD, teams=(TeamId("Ash"), TeamId("Birch")), blocks=(mon,)),
            DivisionSet(
                told=DivisionTold(division="Tin", league="Evening", level="B", kind="mixed"),
                teams=(),
                blocks=(),
            ),
        ),
        loose=(TeamId("Elm"),),
    )
    assert mon.too_many == 1


def test_the_first_division_of_a_season_makes_the_file() -> None:
    kept = season()
    for name in ("divisions.csv", "blocks.csv"):
        del kept.texts[name]
    kept.texts["teams.csv"] = b"team\nAsh\n"
    add_division(kept, DivisionTold(division="=Gold", level="B", kind="women"))
    assert kept.texts["divisions.csv"] == b"division,league,level,kind\n'=Gold,,B,women\n"
    add_block(
        kept,
        BlockTold(
            block="Sun",
            division="=Gold",
            weekday="sunday",
            opens=time(9, 5),
            closes=time(9, 6),
            places=99,
        ),
    )
    assert kept.texts["blocks.csv"] == (
        b"block,division,weekday,from,until,places\nSun,'=Gold,sunday,09:05,09:06,99\n"
    )


@pytest.mark.parametrize("name", ["Gold", "gOLD", " Gold "])
def test_a_name_that_there_is_already_is_refused_whatever_its_capitals(name: str) -> None:
    kept = season()
    told = refused(kept, lambda: add_division(kept, DivisionTold(division=name)))
    assert isinstance(told, InputFaults)
    assert [str(one) for one in told.faults] == [
        (
            "divisions.csv, column division: There is a division of that name: Gold."
            " Give this one another name, or change that one."
        )
    ]
    told = refused(kept, lambda: change_division(kept, "Tin", DivisionTold(division=name)))
    assert told.code == "duplicate"


def test_a_division_may_change_the_capitals_of_its_own_name() -> None:
    kept = season()
    change_division(kept, "Gold", DivisionTold(division="GOLD"))
    assert changed(kept, season()) == {
        "divisions.csv": DIVISIONS.replace("Gold", "GOLD"),
        "blocks.csv": BLOCKS.replace("Gold", "GOLD"),
        "teams.csv": TEAMS.replace("Gold", "GOLD"),
    }


def test_a_change_that_keeps_the_name_touches_no_other_file_and_no_other_row() -> None:
    kept = season()
    change_division(kept, "Tin", DivisionTold(division="Tin", league="", kind="men"))
    assert changed(kept, season()) == {
        "divisions.csv": "division,league,level,kind\nGold,,,open\nTin,,,men\n"
    }


def test_a_name_is_changed_back_to_the_byte() -> None:
    kept = season()
    change_division(kept, "Gold", DivisionTold(division="First"))
    change_division(kept, "First", GOLD)
    assert changed(kept, season()) == {}


BRACKET: Final = "seed,team,bracket\n1,Ash,Gold\n2,Birch,Gold\n"
TIMETABLE: Final = (
    "game,round,date,start,field,home,away,stage\n"
    "P1,1,2026-09-15,19:00,F,seed 1 of Gold,seed 2 of Gold,play_off\n"
)


@pytest.mark.parametrize(
    ("files", "why", "fix"),
    [
        (
            {"bracket": BRACKET},
            "its bracket is drawn",
            "Take the draw back first: Season, Changes.",
        ),
        (
            {"timetable": TIMETABLE},
            "games of the timetable are for its bracket",
            "Let those games have other sides first.",
        ),
    ],
)
def test_a_division_with_a_bracket_keeps_its_name_and_all_else_is_changed(
    files: dict[str, str], why: str, fix: str
) -> None:
    kept = season(**files)
    told = refused(kept, lambda: change_division(kept, "Gold", DivisionTold(division="First")))
    assert (told.says, told.fix) == (
        f"Division Gold keeps its name: {why}.",
        f"Nothing was changed. {fix}",
    )
    change_division(kept, "Gold", DivisionTold(division="Gold", level="A"))
    assert changed(kept, season(**files)) == {
        "divisions.csv": DIVISIONS.replace("Gold,,,", "Gold,,A,")
    }
    change_division(kept, "Tin", DivisionTold(division="Lead"))
    assert "Lead,,,open" in kept.texts["divisions.csv"].decode()


def test_a_division_goes_once_nothing_is_in_it_and_not_before() -> None:
    kept = season()
    told = refused(kept, lambda: drop_division(kept, "Gold"))
    assert str(told) == (
        "Division Gold has 2 teams (Ash and Birch) and 1 block (Mon). Nothing was changed."
        " Put its teams into another division under Teams and pools first."
        " Take its blocks out first."
    )
    kept.texts["teams.csv"] = b"team\nAsh\n"
    told = refused(kept, lambda: drop_division(kept, "Gold"))
    assert str(told) == (
        "Division Gold has 1 block (Mon). Nothing was changed. Take its blocks out first."
    )
    drop_block(kept, "Mon")
    drop_division(kept, "Gold")
    assert kept.texts["divisions.csv"].decode() == DIVISIONS.replace("Gold,,,open\n", "")
    assert str(refused(kept, lambda: drop_division(kept, "Gold"))) == (
        "This division is not there any more. Nothing was changed. Look at what is there now."
    )


def test_a_block_is_called_otherwise_in_every_file_that_names_it() -> None:
    files = {"sign_ups": SIGN_UPS, "alone": ALONE}
    kept = season(**files)
    change_block(
        kept,
        "Mon",
        BlockTold(
            block="Late, Monday",
            division="Gold",
            weekday="monday",
            opens=time(20),
            closes=time(23, 59),
            places=2,
        ),
    )
    assert changed(kept, season(**files)) == {
        "blocks.csv": BLOCKS.replace(
            "Mon,Gold,monday,19:00,22:00,1", '"Late, Monday",Gold,monday,20:00,23:59,2'
        ),
        "teams.csv": TEAMS.replace("Mon", '"Late, Monday"'),
        "sign_ups.csv": SIGN_UPS.replace("Mon", '"Late, Monday"'),
        "alone.csv": ALONE.replace("Mon", '"Late, Monday"'),
    }


def test_a_block_of_teams_of_another_division_is_refused_by_the_reader() -> None:
    kept = season()
    told = refused(kept, lambda: change_block(kept, "Mon", replaced(division="Tin")))
    assert "block Mon is of division Tin, the team of Gold." in str(told)


def replaced(**told: str) -> BlockTold:
    """Return the block with something said otherwise."""
    return BlockTold(
        block=told.get("block", MON.block),
        division=told.get("division", MON.division),
        weekday=MON.weekday,
        opens=MON.opens,
        closes=MON.closes,
        places=MON.places,
    )


def test_a_block_whose_name_there_is_already_is_refused() -> None:
    kept = season()
    told = refused(kept, lambda: add_block(kept, replaced(block="mON")))
    assert "There is a block of that name: Mon." in str(told)
    add_block(kept, replaced(block="Monday"))
    told = refused(kept, lambda: change_block(kept, "Monday", MON))
    assert told.code == "duplicate"


@pytest.mark.parametrize(
    ("files", "says"),
    [
        (
            {},
            (
                "Block Mon has 2 teams (Ash and Birch). Nothing was changed."
                " Give its teams another block under Teams and pools first."
            ),
        ),
        (
            {"teams": "team\nAsh\n", "sign_ups": SIGN_UPS, "alone": ALONE},
            (
                "Block Mon has 1 sign-up and 1 player without a team. Nothing was changed."
                " Give whoever asks for it another block under Sign-ups, or take them out."
            ),
        ),
    ],
)
def test_a_block_that_somebody_plays_in_or_asked_for_stays(
    files: dict[str, str], says: str
) -> None:
    kept = season(**files)
    assert str(refused(kept, lambda: drop_block(kept, "Mon"))) == says


def test_a_refusal_names_five_teams_and_counts_the_others() -> None:
    rows = "".join(f"T{number},Gold\n" for number in range(1, 8))
    kept = season(teams=f"team,division\n{rows}")
    told = refused(kept, lambda: drop_division(kept, "Gold"))
    assert "7 teams (T1, T2, T3, T4, T5 and 2 more)" in told.says
