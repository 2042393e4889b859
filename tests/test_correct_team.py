"""A team's name is corrected in every file that has it, or in none; a team that is not named goes."""

from collections.abc import Callable
from typing import Final

import pytest

from cases.kept_texts import KeptTexts
from wholeball.files.folder import read_folder
from wholeball.files.team_names import FILES, naming
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.league.player import person_called
from wholeball.league.within import Within
from wholeball.usecases.correct_team import correct_team, drop_team
from wholeball.usecases.draw_lots import commit_to_draw

OLD: Final = "Zyxel Owls"
"""A name that stands in the texts below for the team alone."""
TEXTS: Final = {
    "season.toml": f"""schema = 1 # as it is
name = "Meadow"
timezone = "America/Chicago"
first_day = 2026-09-14
last_day = 2026-12-04
outside_ranking = ["Ash", "{OLD}"]
brackets = "one"

[[deductions]]
team = "{OLD}"
points = 1
round = 1
why = "late"
ref = "H 1"

[discipline_points]
"{OLD}" = 3
""",
    "rulebook.toml": 'base = "laws-2025-26"\n',
    "planning.toml": f"""schema = 1
[[rules]]
rule = "apart"
kind = "absent"
strength = "must"
teams = ["{OLD}"]
weekdays = ["monday"]
""",
    "teams.csv": f"team,pool\nAsh,A\n{OLD},A\n",
    "timetable.csv": "game,round,date,start,field,home,away,stage\n"
    f"1,1,2026-09-15,19:00,F,{OLD},Ash,\n2,2,2026-09-16,19:00,F,Ash,{OLD},\n"
    "P1,1,2026-10-16,19:00,F,seed 1,seed 2,play_off\n",
    "results.csv": f"game,round,home,away,home_goals,away_goals,how,by\n1,1,{OLD},Ash,,,forfeit,home\n",
    "rosters.csv": f"team,number,name,person\n{OLD},1,Ana Rey,\nAsh,2,Bo Tarn,k-bo\n",
    "sign_ups.csv": f"team,block,at\n{OLD.upper()},Mon,2026-08-21 09:00\n",
    "divisions.csv": "division\nGold\n",
    "blocks.csv": "block,division,weekday,from,until,places\nMon,Gold,monday,19:00,22:00,1\n",
    "bracket.csv": f"seed,team\n1,Ash\n2,{OLD}\n",
    "fees.csv": f"date,team,game,what,amount,why\n2026-09-17,{OLD},1,paid,10,\n",
    "absences.csv": f"team,weekday\n{OLD},friday\n",
    "published.csv": f"team,place\nAsh,1\n{OLD},2\n",
    "people.csv": f"person,shown\n{OLD.lower()}: ana rey,full\nk-bo,full\n",
    "not_cleared.csv": f"person,since\n{OLD}: Ana Rey,2026-09-14\n",
    "discipline.csv": "ruling,date,person,game,ruled,games,until,ref,why\n"
    f"1,2026-09-17,{OLD}: Ana Rey,,games,1,,H 1,late\n",
    "officials.csv": f"official,person\nAna Rey,{OLD}: Ana Rey\n",
}
PRIVATE: Final = {"people.csv", "not_cleared.csv", "discipline.csv"}


def season(**files: str) -> KeptTexts:
    texts = {**TEXTS, **files}
    return KeptTexts(place="here", texts={name: one.encode() for name, one in texts.items()})


def refused(kept: KeptTexts, change: Callable[[], None]) -> WholeballError:
    before = dict(kept.texts)
    with pytest.raises(WholeballError) as told:
        change()
    assert kept.texts == before
    return told.value


def test_the_new_name_stands_wherever_the_old_one_did_and_nothing_else_is_other() -> None:
    kept = season()
    assert set(FILES) <= set(kept.texts)
    before = read_folder(kept)
    correct_team(kept, OLD, " Owls, \u00c5 'n' co. ")
    new = "Owls, \u00c5 'n' co."
    for name, text in TEXTS.items():
        told = kept.texts[name].decode().replace(f'"{new}"', new)
        expected = text.replace(f'"{OLD}"', OLD).replace(OLD, new)
        for cased in (OLD.upper(), OLD.lower()):
            expected = expected.replace(cased, new)
        if name == "people.csv":
            told = told.replace(f'"{new}: ana rey"', f"{new}: ana rey")
        assert told.replace('"', "") == expected.replace('"', ""), name
    after = read_folder(kept)
    assert [one.team for one in after.season.league.teams] == ["Ash", new]
    assert len(after.remarks) == len(before.remarks)
    assert kept.private == PRIVATE


def test_a_name_is_corrected_back_to_what_everything_was() -> None:
    kept = season(**{"sign_ups.csv": f"team,block,at\n{OLD},Mon,2026-08-21 09:00\n"})
    kept.texts["people.csv"] = f"person,shown\n{OLD}: ana rey,full\nk-bo,full\n".encode()
    before = read_folder(kept)
    texts = dict(kept.texts)
    correct_team(kept, OLD, "Owls")
    correct_team(kept, "Owls", OLD)
    assert read_folder(kept).season == before.season
    tables = {name: text for name, text in texts.items() if name.endswith(".csv")}
    assert {name: kept.texts[name] for name in tables} == tables


@pytest.mark.parametrize("name", ["Ash", "aSH", "Ash "])
def test_a_name_that_another_team_has_is_refused(name: str) -> None:
    kept = season()
    told = refused(kept, lambda: correct_team(kept, OLD, name))
    assert isinstance(told, InputFaults)
    assert [(one.place.column, one.says) for one in told.faults] == [
        ("team", "There is a team of that name: Ash.")
    ]


def test_a_team_may_change_the_capitals_of_its_own_name() -> None:
    kept = season()
    correct_team(kept, OLD, OLD.upper())
    assert [one.team for one in read_folder(kept).season.league.teams] == ["Ash", OLD.upper()]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("seed 3", "reads like a side of a play-off game"),
        ("a" * 81, "Shorten it: at most 80 characters."),
        ("", "the cell is empty."),
        ("two\nlines", "Write it on one line."),
    ],
)
def test_a_name_that_no_team_can_have_is_refused_by_the_reader(name: str, says: str) -> None:
    kept = season()
    assert says in str(refused(kept, lambda: correct_team(kept, OLD, name)))


def test_the_longest_name_is_taken() -> None:
    kept = season()
    correct_team(kept, "Ash", "a" * 80)
    assert read_folder(kept).season.league.teams[0].team == "a" * 80


def test_a_team_that_is_drawn_for_keeps_its_name() -> None:
    kept = season()
    drawn = {"label": "places 1 and 2", "secret": "of a test"}
    commit_to_draw(Within(kept, "draws/one"), participants=["Ash", OLD], **drawn)
    told = refused(kept, lambda: correct_team(kept, OLD, "Owls"))
    assert str(told) == (
        f"{OLD} has what is sealed: the draw places 1 and 2. Nothing was changed. What was"
        " recorded and drawn stays as it was told, so the team keeps its name here: give it the"
        " right one in the next season."
    )


def test_who_is_not_there_is_told() -> None:
    kept = season()
    for change in (lambda: correct_team(kept, "Elm", "Owls"), lambda: drop_team(kept, "Elm")):
        assert refused(kept, change).says == "This team is not there any more."


def test_a_team_goes_once_the_last_file_that_names_it_does_not_and_not_before() -> None:
    kept = season()
    told = refused(kept, lambda: drop_team(kept, OLD))
    assert told.says.startswith(f"{OLD} is named in absences.csv, bracket.csv, ")
    assert told.fix == "Nothing was changed. Take it out there first, or let it stay."
    for name in FILES:
        if name not in ("season.toml", "teams.csv", "absences.csv"):
            kept.texts.pop(name, None)
    kept.texts["results.csv"] = b"game,round,home,away,home_goals,away_goals\n"
    kept.texts["season.toml"] = b"\n".join(kept.texts["season.toml"].splitlines()[:5])
    assert naming({one: kept.texts[one] for one in FILES if one in kept.texts}, OLD) == (
        "absences.csv",
    )
    told = refused(kept, lambda: drop_team(kept, OLD))
    assert told.says == f"{OLD} is named in absences.csv."
    kept.texts["absences.csv"] = b"team,weekday\nAsh,friday\n"
    drop_team(kept, OLD)
    assert kept.texts["teams.csv"] == b"team,pool\nAsh,A\n"


@pytest.mark.parametrize(
    ("person", "called"),
    [
        ("Ash: Ana", "Elm: Ana"),
        ("aSH: Ana: Bo", "Elm: Ana: Bo"),
        ("Ashes: Ana", "Ashes: Ana"),
        ("Ash:Ana", "Ash:Ana"),
        ("k-bo", "k-bo"),
        ("", ""),
    ],
)
def test_who_is_known_on_a_roster_alone_follows_the_team(person: str, called: str) -> None:
    assert person_called(person, "Ash", "Elm") == called
