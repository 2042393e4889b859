"""A season folder is read whole, or every fault of every file in it is named at once."""

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.small_folder import DEDUCTION, FOLDER, SEASON, faults_of, season, written
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.presets import PRESETS, preset, starting_folder
from wholeball.files.write import write_files
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.rulebook.load import load

TEAMS = "Reds, Blues, Zo\u00eb"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return written(tmp_path, {})


def test_a_folder_is_read_into_a_season(folder: Path) -> None:
    read = read_folder(FolderRecord(folder))
    assert (read.remarks, read.published) == ((), ())
    assert read.season.league.name == "Lantern Hill"
    assert [str(one.team) for one in read.season.league.teams] == ["Reds", "Blues", "Zo\u00eb"]
    assert [one.game for one in read.season.results] == ["1", "2"]


@pytest.mark.parametrize("name", PRESETS)
def test_a_folder_started_from_a_preset_is_read_without_a_remark(
    tmp_path: Path, name: str
) -> None:
    days = (date(2026, 9, 1), date(2026, 11, 23))
    contents = starting_folder(
        "league",
        preset_name=name,
        timezone="Europe/London",
        first_day=days[0],
        last_day=days[1],
    )
    write_files(tmp_path, contents)
    read = read_folder(FolderRecord(tmp_path))
    planning = read.planning
    assert planning.said is not None
    assert read == SeasonFolder(season=read.season, published=(), remarks=(), planning=planning)
    assert (planning.slots, [one.rule for one in planning.said.rules]) == (
        (),
        [
            "one game a night",
            "round by round",
            "every week",
            "no gap in a night",
            "few starts",
            "late games",
            "early games",
        ],
    )
    assert read.season.rulebook == load(preset(name), file="x").rulebook
    assert (read.season.league.first_day, read.season.league.last_day) == days
    assert (read.season.league.teams, read.season.results) == ((), ())


def test_a_folder_that_is_none_is_told_how_to_make_one(tmp_path: Path) -> None:
    with pytest.raises(WholeballError) as refused:
        read_folder(FolderRecord(tmp_path / "nope"))
    assert refused.value.code == "path"
    assert refused.value.fix == f"Make one with: wholeball new {tmp_path / 'nope'}"


@pytest.mark.parametrize("name", FOLDER)
def test_a_file_that_is_missing_is_named(tmp_path: Path, name: str) -> None:
    assert faults_of(tmp_path, {name: None}) == (
        Fault(
            code="missing_file",
            place=Place(file=name),
            says="the file cannot be read: No such file or directory.",
            cure=f"Write it, or start from a preset: wholeball new {tmp_path}",
        ),
    )


@pytest.mark.parametrize("name", FOLDER)
def test_a_folder_in_place_of_a_file_is_named(tmp_path: Path, name: str) -> None:
    (tmp_path / name).mkdir()
    (only,) = faults_of(tmp_path, {**FOLDER, name: None})
    assert (only.code, only.place) == ("missing_file", Place(file=name))
    assert only.cure == (
        f"Move away what stands at {name}, and write the file there if the season needs it."
    )


def test_faults_of_all_files_come_together_each_in_its_order(tmp_path: Path) -> None:
    found = faults_of(
        tmp_path,
        {
            "season.toml": SEASON.replace("2026-12-01", "2026-08-01").replace(
                "London", "Lodon"
            ),
            "rulebook.toml": "[game]\nminutes = 0\nperiods = 9\n",
            "teams.csv": "team\nReds\nreds\n=x\n",
            "results.csv": "game,round,home,away\n1,0,,Blues\n2,x,Reds,Blues\n",
        },
    )
    assert [(str(one.place), one.code) for one in found] == [
        ("season.toml line 3", "unknown_value"),
        ("season.toml line 5", "contradiction"),
        ("rulebook.toml line 2", "range"),
        ("rulebook.toml line 3", "range"),
        ("teams.csv row 3, column team", "duplicate"),
        ("teams.csv row 4, column team", "formula"),
        ("results.csv row 2, column round", "range"),
        ("results.csv row 2, column home", "missing"),
        ("results.csv row 3, column round", "type"),
    ]


def test_faults_of_a_table_come_in_the_order_of_its_rows(tmp_path: Path) -> None:
    rows = (
        "game,round,home,away,home_goals,away_goals\n1,1,Redz,Blues,1,0\n2,0,Reds,Blues,1,0\n"
    )
    found = faults_of(tmp_path, {"results.csv": rows})
    assert [(one.place.row, one.code) for one in found] == [(2, "unknown_team"), (3, "range")]


@pytest.mark.parametrize(
    ("more", "line", "key", "team"),
    [
        (DEDUCTION.replace("Reds", "Redz"), 7, "deductions", "Redz"),
        (DEDUCTION + DEDUCTION.replace("Reds", "Redz"), 13, "deductions", "Redz"),
        ('[[lots]]\nlabel = "x"\norder = ["Blues",\n"Redz"]\n', 9, "lots", "Redz"),
        ('outside_ranking = ["Redz"]\n', 6, "outside_ranking", "Redz"),
        ("[discipline_points]\nBlues = 1\nRedz = 4\n", 8, "discipline_points", "Redz"),
    ],
)
def test_a_team_that_nobody_knows_is_named_on_its_line(
    tmp_path: Path, more: str, line: int, key: str, team: str
) -> None:
    assert faults_of(tmp_path, season(more)) == (
        Fault(
            code="unknown_team",
            place=Place(file="season.toml", line=line, article=key),
            says=f'{key} names "{team}", which is no team of teams.csv.',
            value=team,
            allowed=TEAMS,
            cure="Did you mean Reds?",
        ),
    )


def test_a_league_without_teams_has_none_to_choose_from(tmp_path: Path) -> None:
    (only,) = faults_of(
        tmp_path,
        {
            **season(DEDUCTION),
            "teams.csv": "team\n",
            "results.csv": "game,round,home,away\n",
        },
    )
    assert (only.allowed, only.cure) == ("", "There is none to choose from.")


def test_remarks_of_rulebook_and_tables_come_with_a_season_that_is_read(tmp_path: Path) -> None:
    read = read_folder(
        FolderRecord(
            written(
                tmp_path, {"rulebook.toml": "# Laws", "teams.csv": "team\nReds\nBlues\n-x\n"}
            )
        )
    )
    assert [(one.level, one.code, one.place.file) for one in read.remarks] == [
        ("note", "base_assumed", "rulebook.toml"),
        ("doubt", "formula", "teams.csv"),
    ]


def test_a_published_table_names_each_team_of_the_league_once(tmp_path: Path) -> None:
    table = "team,place\nReds,1\nReds,2\nPinks,3\n"
    assert faults_of(tmp_path, {"published.csv": table}) == (
        Fault(
            code="duplicate",
            place=Place(file="published.csv", row=3, column="team"),
            says='"Reds" stands on row 2 too.',
            value="Reds",
            cure="Take one out.",
        ),
        Fault(
            code="unknown_team",
            place=Place(file="published.csv", row=4, column="team"),
            says='"Pinks" is no team of teams.csv.',
            value="Pinks",
            cure=f"Use one of: {TEAMS}.",
        ),
    )


TYPED = st.text(st.sampled_from(list('ab1,;"=\n\r\t[]{}#-.\u202e\x00Zé')), max_size=5)


@settings(max_examples=150, deadline=None)
@given(st.sets(st.sampled_from(list(FOLDER)), min_size=1), st.data())
def test_four_files_typed_over_anywhere_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, names: set[str], data: st.DataObject
) -> None:
    changed: dict[str, str | bytes | None] = {}
    for name in sorted(names):
        text = FOLDER[name]
        start = data.draw(st.integers(0, len(text)))
        cut = data.draw(st.integers(0, 8))
        changed[name] = text[:start] + data.draw(TYPED) + text[start + cut :]
    faults, remarks = read_or_refused(written(tmp_path_factory.mktemp("folder"), changed))
    assert {one.level for one in faults} <= {"fault"}
    assert {one.level for one in remarks} <= {"doubt", "note"}


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(list(FOLDER)), st.binary(max_size=30))
def test_any_bytes_in_any_file_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, name: str, data: bytes
) -> None:
    at = written(tmp_path_factory.mktemp("folder"), {name: data})
    faults, _ = read_or_refused(at)
    assert {one.place.file for one in faults} <= {name, "results.csv"}


def read_or_refused(at: Path) -> tuple[tuple[Fault, ...], tuple[Fault, ...]]:
    """Return the faults of a folder and its remarks; one of the two is empty."""
    try:
        return (), read_folder(FolderRecord(at)).remarks
    except InputFaults as refused:
        return refused.faults, ()
