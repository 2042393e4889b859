"""Play-offs of a plan: the bracket's games taken at once, and single ones added, changed, dropped."""

import tomllib
from pathlib import Path
from typing import Any, Final

import pytest

from cases.planned_season import (
    GAMES,
    PLANNING,
    RESULTS,
    SLOTS,
    TABLE,
)
from cases.play_off_season import APART, LEVELS, rulebook, six_teams
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.usecases.set_play_offs import (
    PlayOffTold,
    add_play_off,
    change_play_off,
    drop_play_off,
    play_offs_of,
    take_bracket,
)

P1: Final = PlayOffTold(game="P1", round=6, home="seed 4", away="seed 5")
OF_SIX: Final = (
    P1,
    PlayOffTold(game="P2", round=6, home="seed 3", away="seed 6"),
    PlayOffTold(game="P3", round=7, home="seed 1", away="winner of P1"),
    PlayOffTold(game="P4", round=7, home="seed 2", away="winner of P2"),
    PlayOffTold(game="P5", round=8, home="winner of P3", away="winner of P4"),
)
"""The bracket of six, as docs/howto/plan-the-timetable.md shows a part of it."""
ROUNDS: Final = (6, 7, 8)


@pytest.fixture
def record(tmp_path: Path) -> FolderRecord:
    return six_teams(tmp_path / "season")


def held(record: FolderRecord) -> tuple[PlayOffTold, ...]:
    return play_offs_of(read_folder(record))


def text(record: FolderRecord) -> str:
    return (record.path / "planning.toml").read_text(encoding="utf-8")


def faults(refused: pytest.ExceptionInfo[InputFaults]) -> list[tuple[str, str | None, str]]:
    return [(one.code, one.place.column, one.says) for one in refused.value.faults]


def test_the_games_of_the_bracket_come_into_the_plan_and_all_else_stays(
    record: FolderRecord,
) -> None:
    assert take_bracket(record, ROUNDS) == 5
    assert held(record) == OF_SIX
    assert text(record).startswith(f"{PLANNING}\n[[play_offs]]\n")
    before = text(record)
    assert take_bracket(record, ROUNDS) == 5
    assert text(record) == before


def test_the_rulebook_says_whether_third_place_is_played_for(record: FolderRecord) -> None:
    six_teams(record.path, rulebook_toml=rulebook("overall", places=4, third="true"))
    take_bracket(record, (6, 8))
    assert held(record) == (
        PlayOffTold(game="P1", round=6, home="seed 1", away="seed 4"),
        PlayOffTold(game="P2", round=6, home="seed 2", away="seed 3"),
        PlayOffTold(game="P3", round=8, home="loser of P1", away="loser of P2"),
        PlayOffTold(game="P4", round=8, home="winner of P1", away="winner of P2"),
    )


def test_where_divisions_play_off_apart_each_has_its_games_and_seeds(
    record: FolderRecord,
) -> None:
    six_teams(record.path, teams_csv=APART, divisions_csv=LEVELS)
    assert take_bracket(record, (4, 5)) == 4
    assert held(record) == (
        PlayOffTold(game="P1.1", round=4, home="seed 2 of Open", away="seed 3 of Open"),
        PlayOffTold(game="P1.2", round=5, home="seed 1 of Open", away="winner of P1.1"),
        PlayOffTold(game="P2.1", round=4, home="seed 2 of Mixed", away="seed 3 of Mixed"),
        PlayOffTold(game="P2.2", round=5, home="seed 1 of Mixed", away="winner of P2.1"),
    )


def test_games_that_were_there_go_change_or_stay_with_their_comments(
    record: FolderRecord,
) -> None:
    own = (
        '\n# the first round\n[[play_offs]]\ngame = "P1"  # on the near field\nround = 9\n'
        'home = "seed 4"\naway = "seed 5"\n\n[[play_offs]]\ngame = "Show"\nround = 9\n'
        'home = "loser of P1"\naway = "seed 3"\n'
    )
    six_teams(record.path, planning_toml=PLANNING + own)
    take_bracket(record, ROUNDS)
    assert held(record) == OF_SIX
    assert (
        '# the first round\n[[play_offs]]\ngame = "P1"  # on the near field\nround = 6\n'
        in (text(record))
    )


@pytest.mark.parametrize("rounds", [(6, 7), (6, 7, 8, 9), ()])
def test_a_bracket_of_another_depth_than_was_looked_at_is_not_taken(
    record: FolderRecord, rounds: tuple[int, ...]
) -> None:
    with pytest.raises(WholeballError, match="The bracket is not what it was any more"):
        take_bracket(record, rounds)
    assert text(record) == PLANNING


def test_where_nobody_plays_off_there_is_no_bracket_to_take(record: FolderRecord) -> None:
    six_teams(record.path, rulebook_toml=rulebook("none"))
    with pytest.raises(WholeballError, match="The bracket is not what it was any more"):
        take_bracket(record, ())
    assert text(record) == PLANNING


def test_a_game_is_added_last_with_its_sides_as_files_have_them(record: FolderRecord) -> None:
    add_play_off(record, PlayOffTold(game="P1", round=6, home="Seed  4", away="SEED 5"))
    add_play_off(record, PlayOffTold(game="F", round=7, home="seed 1", away="Winner of P1"))
    final = PlayOffTold(game="F", round=7, home="seed 1", away="winner of P1")
    assert held(record) == (P1, final)


def test_without_a_file_the_first_game_begins_it(tmp_path: Path) -> None:
    record = six_teams(tmp_path / "season")
    (record.path / "planning.toml").unlink()
    add_play_off(record, P1)
    said = tomllib.loads(text(record))
    assert said == {
        "schema": 1,
        "meetings": 1,
        "play_offs": [{"game": "P1", "round": 6, "home": "seed 4", "away": "seed 5"}],
    }


@pytest.mark.parametrize(
    ("told", "found"),
    [
        ({"game": "P1"}, [("duplicate", "game", "game P1 stands twice among the play-offs.")]),
        (
            {"home": "winner of P8"},
            [
                (
                    "unknown_game",
                    "home",
                    "winner of P8 is a side of P9, and there is no such game before it.",
                )
            ],
        ),
        (
            {"away": "loser of P9"},
            [("unknown_game", "away", "P9 would bring itself a side.")],
        ),
        ({"away": "seed 4"}, [("duplicate", "away", "seed 4 plays in P1 and in P9.")]),
        (
            {"home": "seed 2", "away": "seed 2"},
            [("duplicate", "home", "seed 2 plays in P9 and in P9.")],
        ),
        (
            {"home": "seed 1 of Open"},
            [
                (
                    "unknown_bracket",
                    "home",
                    "game P9: no division plays for the bracket of seed 1 of Open.",
                )
            ],
        ),
        (
            {"game": "7"},
            [
                (
                    "duplicate",
                    "game",
                    "game 7 of the play-offs is called like a league game of timetable.csv.",
                )
            ],
        ),
        ({"game": "P/9"}, [("path", "game", "The game 'P/9' cannot name a file.")]),
    ],
)
def test_what_cannot_be_is_told_with_its_column_and_nothing_is_written(
    record: FolderRecord, told: dict[str, Any], found: list[tuple[str, str, str]]
) -> None:
    (record.path / TABLE).write_text(f"{GAMES}7,1,2027-01-04,18:00,Meadow 1,Ash,Birch\n")
    add_play_off(record, P1)
    before = text(record)
    new = {"game": "P9", "round": 9, "home": "seed 1", "away": "seed 2", **told}
    with pytest.raises(InputFaults) as refused:
        add_play_off(record, PlayOffTold(**new))
    assert faults(refused) == found
    assert text(record) == before


def test_a_seed_names_its_division_where_divisions_play_off_apart(
    record: FolderRecord,
) -> None:
    six_teams(record.path, teams_csv=APART, divisions_csv=LEVELS)
    with pytest.raises(InputFaults) as refused:
        add_play_off(record, P1)
    assert [(one.place.column, one.cure) for one in refused.value.faults] == [
        ("home", "Write the division, such as seed 4 of Open."),
        ("away", "Write the division, such as seed 5 of Open."),
    ]


def test_another_name_is_followed_by_the_games_that_wait_for_it(record: FolderRecord) -> None:
    take_bracket(record, ROUNDS)
    change_play_off(record, "P1", PlayOffTold(game="Q1", round=5, home="seed 4", away="seed 5"))
    first, second, third, *others = held(record)
    assert (first.game, first.round) == ("Q1", 5)
    assert third == PlayOffTold(game="P3", round=7, home="seed 1", away="winner of Q1")
    assert (second, *others) == (OF_SIX[1], *OF_SIX[3:])


def test_a_game_moves_behind_those_that_it_waits_for_from_now_on(record: FolderRecord) -> None:
    add_play_off(record, P1)
    add_play_off(record, OF_SIX[1])
    waits = PlayOffTold(game="P1", round=7, home="winner of P2", away="seed 5")
    change_play_off(record, "P1", waits)
    assert held(record) == (OF_SIX[1], waits)


def test_two_games_that_wait_for_each_other_are_refused(record: FolderRecord) -> None:
    take_bracket(record, ROUNDS)
    before = text(record)
    ring = PlayOffTold(game="P1", round=6, home="winner of P5", away="seed 5")
    with pytest.raises(InputFaults) as refused:
        change_play_off(record, "P1", ring)
    says = "winner of P5 is a side of P1, and P5 does not come before it."
    assert ("unknown_game", "home", says) in faults(refused)
    assert text(record) == before


def test_a_side_that_an_earlier_game_takes_from_a_later_one_is_told_at_it(
    record: FolderRecord,
) -> None:
    take_bracket(record, ROUNDS)
    with pytest.raises(InputFaults) as refused:
        change_play_off(
            record, "P1", PlayOffTold(game="P1", round=6, home="seed 1", away="seed 5")
        )
    assert faults(refused) == [("duplicate", "home", "seed 1 plays in P1 and in P3.")]


def test_a_game_that_others_wait_for_stays_until_they_do_not(record: FolderRecord) -> None:
    take_bracket(record, ROUNDS)
    with pytest.raises(WholeballError) as refused:
        drop_play_off(record, "P1")
    assert str(refused.value) == (
        "P3 waits for P1. Nothing was changed. Give it another side, or take it out first."
    )
    drop_play_off(record, "P5")
    assert held(record) == OF_SIX[:4]


def test_the_last_game_leaves_no_play_offs_behind(record: FolderRecord) -> None:
    add_play_off(record, P1)
    drop_play_off(record, "P1")
    assert held(record) == ()
    assert tomllib.loads(text(record)) == tomllib.loads(PLANNING)


def test_a_game_that_is_gone_is_neither_changed_nor_dropped(record: FolderRecord) -> None:
    with pytest.raises(WholeballError, match="This game is not there any more"):
        change_play_off(record, "P1", P1)
    with pytest.raises(WholeballError, match="This game is not there any more"):
        drop_play_off(record, "P1")
    assert text(record) == PLANNING


def test_a_game_that_a_rule_names_is_not_taken_from_under_it(record: FolderRecord) -> None:
    rule = '\n[[rules]]\nrule = "early"\nkind = "not_at"\nstrength = "must"\nnames = ["P1"]\n'
    add_play_off(record, P1)
    six_teams(record.path, planning_toml=text(record) + rule)
    before = text(record)
    with pytest.raises(InputFaults, match='rule "early" names game P1, which there is not'):
        drop_play_off(record, "P1")
    assert text(record) == before


PLAYED: Final = (
    "1,1,2027-01-04,18:00,Meadow 1,Ash,Birch,\n"
    "P1,6,2027-01-11,18:00,Meadow 1,Dogwood,Elm,play_off\n"
    "P2,6,2027-01-11,18:55,Meadow 1,seed 3,seed 6,play_off\n"
)


def begun(record: FolderRecord) -> None:
    """Let a league game and P1 be played, and P2 stand in the timetable."""
    take_bracket(record, ROUNDS)
    six_teams(
        record.path,
        planning_toml=text(record).replace("schema = 1\n", "schema = 1\ngames_each = 1\n", 1),
        timetable_csv=GAMES.replace("away", "away,stage") + PLAYED,
        results_csv=RESULTS.replace("away_goals", "away_goals,stage")
        + "1,1,2027-01-04,Ash,Birch,2,0,\nP1,6,2027-01-11,Dogwood,Elm,1,0,play_off\n",
        slots_csv=SLOTS + "Meadow 3,monday,,,,18:00,21:00,,,90\n",
        fields_csv="field,site\nMeadow 1,Meadow\nMeadow 2,Meadow\nMeadow 3,Meadow\n",
    )


def test_a_game_that_was_played_neither_changes_nor_goes(record: FolderRecord) -> None:
    begun(record)
    before = text(record)
    moved = PlayOffTold(game="P1", round=9, home="seed 4", away="seed 5")
    with pytest.raises(WholeballError) as refused:
        change_play_off(record, "P1", moved)
    assert str(refused.value) == (
        "P1 has been played. Nothing was changed. What has been played stays as it is."
    )
    with pytest.raises(WholeballError, match="P1 has been played"):
        take_bracket(record, (7, 8, 9))
    assert text(record) == before
    take_bracket(record, (6, 8, 9))
    assert [one.round for one in held(record)] == [6, 6, 8, 8, 9]


def test_once_a_game_is_played_those_of_the_timetable_keep_their_sides_but_not_their_rounds(
    record: FolderRecord,
) -> None:
    begun(record)
    before = text(record)
    other = PlayOffTold(game="P2", round=6, home="seed 3", away="seed 5 ")
    with pytest.raises(InputFaults):
        change_play_off(record, "P2", other)
    other = PlayOffTold(game="P2", round=6, home="seed 3", away="seed 7")
    with pytest.raises(WholeballError) as refused:
        change_play_off(record, "P2", other)
    assert str(refused.value) == (
        "Games have been played, and game P2 is seed 3 v seed 7 of round 6 in planning.toml and "
        "seed 3 v seed 6 of round 6 in timetable.csv. Nothing was changed. Once games have been "
        "played, the play-offs that the timetable has stay as they are there."
    )
    assert text(record) == before
    change_play_off(record, "P2", PlayOffTold(game="P2", round=9, home="seed 3", away="seed 6"))
    assert held(record)[1].round == 9
