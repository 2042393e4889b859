"""A folder with every file is read into one value, or the faults of every file are told at once."""

from datetime import date, time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.identity import BlockId, DivisionId, GameId, PersonId, SiteId, TeamId
from wholeball.league.crew import Official, OnCrew
from wholeball.league.division import Block, Division
from wholeball.league.person import NotCleared, Person
from wholeball.league.place import Field, Site

WHOLE = {
    "season.toml": 'schema = 1\nname = "Lantern Hill"\ntimezone = "Europe/London"\n'
    "first_day = 2026-09-01\nlast_day = 2026-12-01\n",
    "rulebook.toml": 'base = "laws-2025-26"\n[forfeit.fee]\namount = 40\ncaptain_waits = true\n',
    "divisions.csv": "division,kind\nGold,open\n",
    "blocks.csv": "block,division,weekday,from,until,places\nTue,Gold,tuesday,19:00,22:00,4\n",
    "teams.csv": "team,pool,division,block\nReds,A,Gold,Tue\nBlues,A,Gold,Tue\n",
    "results.csv": "game,round,home,away,home_goals,away_goals,how,by\n"
    "1,1,Reds,Blues,2,1,,\n2,2,Blues,Reds,,,forfeit,away\n",
    "timetable.csv": "game,round,date,start,field,home,away,stage\n"
    "1,1,2026-10-13,19:00,F1,Reds,Blues,\nP1,3,2026-10-27,19:00,F1,seed 1,seed 2,play_off\n"
    "P2,4,2026-11-03,19:00,F1,loser of P1,winner of P1,play_off\n",
    "bracket.csv": "seed,team\n1,Blues\n2,Reds\n",
    "rosters.csv": "team,name,person\nReds,Ana,ana-1\nBlues,Bo,\n",
    "rulings.csv": "ruling,game,ruled,ref,why\n1,1,stands,H,x\n",
    "published.csv": "team,place\nReds,1\n",
    "sign_ups.csv": "team,block,at\nReds,Tue,2026-08-20 09:00\n",
    "alone.csv": "person,name,block,at\nann-3,Ann,Tue,2026-08-20 09:00\n",
    "people.csv": "person,gender\nana-1,woman\nBlues: Bo,man\nann-3,\nada-4,\n",
    "not_cleared.csv": "person,since\nana-1,2026-10-01\n",
    "sites.csv": "site\nPark\n",
    "fields.csv": "field,site\nF1,Park\n",
    "officials.csv": "official,person\nAda,ada-4\n",
    "crews.csv": "game,role,official\nP2,referee,Ada\n2,referee,Ada\n",
    "discipline.csv": "ruling,date,person,game,ruled,games,ref,why\n"
    "1,2026-10-14,ana-1,1,games,1,H 12.1,x\n",
    "fees.csv": "date,team,game,what,amount\n2026-10-21,Reds,2,paid,40\n",
}
NEW = (
    "divisions.csv",
    "blocks.csv",
    "bracket.csv",
    "sign_ups.csv",
    "alone.csv",
    "people.csv",
    "not_cleared.csv",
    "sites.csv",
    "fields.csv",
    "officials.csv",
    "crews.csv",
    "discipline.csv",
    "fees.csv",
)


def written(at: Path, changed: dict[str, str]) -> Path:
    for name, text in {**WHOLE, **changed}.items():
        (at / name).write_text(text, encoding="utf-8")
    return at


def test_every_file_of_a_folder_is_read(tmp_path: Path) -> None:
    read = read_folder(FolderRecord(written(tmp_path, {})))
    assert read.remarks == ()
    league = read.season.league
    assert league.divisions == (Division(division=DivisionId("Gold"), league="Lantern Hill"),)
    assert league.blocks == (
        Block(
            block=BlockId("Tue"),
            division=DivisionId("Gold"),
            weekday="tuesday",
            opens=time(19),
            closes=time(22),
            places=4,
        ),
    )
    assert [one.team for one in read.sign_ups] == ["Reds"]
    assert [one.person for one in read.alone] == ["ann-3"]
    assert read.people[:2] == (
        Person(person=PersonId("ana-1"), gender="woman"),
        Person(person=PersonId("Blues: Bo"), gender="man"),
    )
    assert read.not_cleared == (NotCleared(person=PersonId("ana-1"), since=date(2026, 10, 1)),)
    assert read.sites == (Site(site=SiteId("Park")),)
    assert read.fields == (Field(field="F1", site=SiteId("Park")),)
    assert read.officials == (Official(official="Ada", person=PersonId("ada-4")),)
    assert read.crews[0] == OnCrew(game=GameId("P2"), role="referee", official="Ada")
    assert [one.person for one in read.decisions] == ["ana-1"]
    assert [one.team for one in read.fees] == ["Reds"]
    assert read.bracket == (TeamId("Blues"), TeamId("Reds"))
    assert [one.game for one in read.timetable] == ["1", "P1"]
    assert [one.game for one in read.open_fixtures] == ["P2"]


WRONG = {
    "divisions.csv": "division,kind\nGold,open\nGold,open\n",
    "blocks.csv": "block,division,weekday,from,until,places\nTue,Gold,noday,19:00,22:00,4\n",
    "teams.csv": "team,pool,division,block\nReds,A,Gold,Tue\nReds,A,Gold,Tue\nBlues,A,,\n",
    "bracket.csv": "seed,team\n1,Blue\n2,Reds\n",
    "sign_ups.csv": "team,block,at\nReds,Tue,soon\n",
    "alone.csv": "person,name,block,at\n90210,Ann,Tue,2026-08-20 09:00\n",
    "people.csv": "person,gender\nana-1,girl\n",
    "not_cleared.csv": "person,since,reason\nana-1,2026-10-01,x\n",
    "sites.csv": "site\n=Park\n",
    "fields.csv": "site\nPark\n",
    "officials.csv": "official,person\n,ada-4\n",
    "crews.csv": "game,role,official\n1,goalkeeper,Ada\n",
    "discipline.csv": "ruling,date,person,ruled,games,ref,why\n1,2026-10-14,ana-1,games,,H,x\n",
    "fees.csv": "date,team,game,what,amount\n2026-10-21,Reds,2,paid,0\n",
}


def test_the_faults_of_every_file_are_told_at_once(tmp_path: Path) -> None:
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(written(tmp_path, WRONG)))
    found = [(one.place.file, one.code) for one in refused.value.faults]
    assert found == [
        ("divisions.csv", "duplicate"),
        ("blocks.csv", "unknown_value"),
        ("teams.csv", "duplicate"),
        ("bracket.csv", "unknown_team"),
        ("sites.csv", "formula"),
        ("fields.csv", "missing_column"),
        ("sign_ups.csv", "date"),
        ("alone.csv", "private"),
        ("officials.csv", "missing"),
        ("people.csv", "unknown_value"),
        ("not_cleared.csv", "private"),
        ("crews.csv", "unknown_role"),
        ("discipline.csv", "missing"),
        ("fees.csv", "range"),
    ]
    assert {file for file, _ in found} == set(WRONG)


CROSS = {
    "blocks.csv": "block,division,weekday,from,until,places\nTue,Glod,tuesday,19:00,22:00,4\n",
    "timetable.csv": "game,round,date,start,field,home,away,stage\n"
    "1,1,2026-10-13,19:00,F2,Reds,Blues,\n",
    "fields.csv": "field,site\nF1,Perk\n",
    "crews.csv": "game,role,official\n1,referee,Abe\n",
    "fees.csv": "date,team,game,what,amount\n2026-10-21,Rads,2,paid,40\n",
}


def test_a_name_that_another_file_lacks_is_refused_with_the_nearest(tmp_path: Path) -> None:
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(written(tmp_path, CROSS)))
    assert [(one.place.file, one.says, one.cure) for one in refused.value.faults] == [
        ("blocks.csv", '"Glod" is no division of divisions.csv.', "Did you mean Gold?"),
        ("fields.csv", '"Perk" is no site of sites.csv.', "Did you mean Park?"),
        ("crews.csv", '"Abe" is no official of officials.csv.', "Use one of: Ada."),
        ("fees.csv", '"Rads" is no team of teams.csv.', "Did you mean Reds?"),
    ]


def test_a_field_that_fields_csv_lacks_is_refused_and_none_where_it_lists_no_field(
    tmp_path: Path,
) -> None:
    timetable = {"timetable.csv": CROSS["timetable.csv"], "crews.csv": WHOLE["crews.csv"][:19]}
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(written(tmp_path, timetable)))
    assert [(one.code, one.says, one.cure) for one in refused.value.faults][:1] == [
        ("unknown_field", '"F2" is no field of fields.csv.', "Use one of: F1.")
    ]
    (tmp_path / "crews.csv").unlink()
    (tmp_path / "fields.csv").write_text("field,site\n", encoding="utf-8")
    assert [one.field for one in read_folder(FolderRecord(tmp_path)).timetable] == ["F2"]
    (tmp_path / "fields.csv").unlink()
    assert [one.field for one in read_folder(FolderRecord(tmp_path)).timetable] == ["F2"]


def test_persons_on_no_list_are_doubts_and_none_where_nobody_keeps_a_roster(
    tmp_path: Path,
) -> None:
    people = {"people.csv": "person\nana-1\nzoe-9\n"}
    read = read_folder(FolderRecord(written(tmp_path, people)))
    assert [(one.level, one.place.file, one.code) for one in read.remarks] == [
        ("doubt", "people.csv", "unknown_person")
    ]
    (tmp_path / "rosters.csv").unlink()
    assert read_folder(FolderRecord(tmp_path)).remarks == ()


def test_a_fee_for_a_game_that_cost_nothing_is_a_doubt(tmp_path: Path) -> None:
    fees = "date,team,game,what,amount\n2026-10-21,Reds,1,paid,40\n"
    read = read_folder(FolderRecord(written(tmp_path, {"fees.csv": fees})))
    assert [(one.level, one.code, one.says) for one in read.remarks] == [
        ("doubt", "no_fee", "40 is paid by Reds for game 1, which costs it nothing.")
    ]


FEW = ("season.toml", "rulebook.toml")


@pytest.mark.parametrize(("stage", "codes"), [("play_off", []), ("", ["pools"])])
def test_teams_of_two_pools_meet_in_the_bracket_and_not_in_the_league(
    tmp_path: Path, stage: str, codes: list[str]
) -> None:
    files = {name: WHOLE[name] for name in FEW} | {
        "teams.csv": "team,pool\nReds,A\nBlues,B\n",
        "results.csv": "game,round,home,away,home_goals,away_goals,stage\n"
        f"P1,3,Blues,Reds,2,1,{stage}\n",
    }
    for name, text in files.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    found: list[str] = []
    try:
        assert [one.game for one in read_folder(FolderRecord(tmp_path)).season.play_offs] == [
            "P1"
        ]
    except InputFaults as refused:
        found = [one.code for one in refused.faults]
    assert found == codes


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(NEW), st.text(max_size=60), st.integers(0, 400))
def test_whatever_a_new_file_holds_it_is_read_or_refused_by_name(
    tmp_path_factory: pytest.TempPathFactory, name: str, junk: str, at: int
) -> None:
    text = WHOLE[name]
    cut = at % (len(text) + 1)
    folder = written(tmp_path_factory.mktemp("season"), {})
    (folder / name).write_bytes((text[:cut] + junk + text[cut:]).encode("utf-8", "replace"))
    faults: tuple[Fault, ...] = ()
    try:
        read_folder(FolderRecord(folder))
    except InputFaults as refused:
        faults = refused.faults
    assert all(one.says and one.cure and one.level == "fault" for one in faults)
