"""A season folder is read whole, or every fault of every file in it is named at once."""

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.presets import PRESETS, preset, starting_folder
from wholeball.files.write import write_files
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.rulebook.load import load
from wholeball.season.tally import Lots

SEASON = """schema = 1
name = "Lantern Hill"
timezone = "Europe/London"
first_day = 2026-09-01
last_day = 2026-12-01
"""
FOLDER = {
    "season.toml": SEASON,
    "rulebook.toml": 'base = "laws-2025-26"\nstandings.last_resort = "lots"\n',
    "teams.csv": "team,pool\nReds,A\nBlues,A\nZo\u00eb,B\n",
    "results.csv": (
        "game,round,home,away,home_goals,away_goals\n1,1,Reds,Blues,2,1\n2,2,Blues,Reds,0,0\n"
    ),
}
DEDUCTION = '[[deductions]]\nteam = "Reds"\npoints = 1\nround = 1\nwhy = "x"\nref = "H 9"\n'
TEAMS = "Reds, Blues, Zo\u00eb"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return written(tmp_path, {})


def written(at: Path, changed: dict[str, str | bytes | None]) -> Path:
    files = {**FOLDER, **changed}
    for name, data in files.items():
        if data is not None:
            (at / name).write_bytes(data.encode() if isinstance(data, str) else data)
    return at


def faults_of(at: Path, changed: dict[str, str | bytes | None]) -> tuple[Fault, ...]:
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(written(at, changed)))
    return refused.value.faults


def season(more: str) -> dict[str, str | bytes | None]:
    return {"season.toml": SEASON + more}


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
        ["one game a night"],
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


@pytest.mark.parametrize(
    ("more", "code", "line", "says"),
    [
        (
            '[[lots]]\nlabel = "x"\norder = ["Reds", "Reds"]\n',
            "duplicate",
            8,
            'lots item 1.order is ["Reds", "Reds"]: Reds is listed twice.',
        ),
        (
            '[[lots]]\nlabel = "x"\norder = ["Reds"]\n',
            "range",
            8,
            "lots item 1.order has 1 items.",
        ),
        (
            'outside_ranking = ["Reds", "Blues", "Reds"]\n',
            "duplicate",
            6,
            'outside_ranking is ["Reds", "Blues", "Reds"]: Reds is listed twice.',
        ),
        (
            "[discipline_points]\nReds = 10_000\n",
            "range",
            7,
            "discipline_points.Reds is 10000.",
        ),
        ("[discipline_points]\nReds = true\n", "type", 7, "discipline_points.Reds is true."),
        (
            DEDUCTION.replace("points = 1", "points = 100"),
            "range",
            8,
            "deductions item 1.points is 100.",
        ),
        (
            DEDUCTION.replace('"x"', '""'),
            "range",
            10,
            "deductions item 1.why has 0 characters.",
        ),
        ("nmae = 1\n", "unknown_key", 6, "nmae is no table or key of this file."),
        (
            "schema_version = 1\n",
            "unknown_key",
            6,
            "schema_version is no table or key of this file.",
        ),
        ("name = 1\n", "duplicate_key", 6, "'name = 1' gives again what is given already."),
    ],
)
def test_each_mistake_in_season_toml_gets_one_fault(
    tmp_path: Path, more: str, code: str, line: int, says: str
) -> None:
    (only,) = faults_of(tmp_path, season(more))
    assert (only.code, only.place.line, only.says) == (code, line, says)


@pytest.mark.parametrize(
    ("old", "new", "code", "line", "says"),
    [
        (
            "schema = 1",
            "schema = 2",
            "version",
            1,
            "schema is 2; this program reads schema 1.",
        ),
        ("schema = 1\n", "", "missing", None, "schema is missing."),
        (
            '"Lantern Hill"',
            '"a\\u202eb"',
            "bidi_control",
            2,
            "name holds U+202E, which nobody can see.",
        ),
        ("Europe/London", "Europe/Lodon", "unknown_value", 3, 'timezone is "Europe/Lodon".'),
        (
            "Europe/London",
            "../etc/passwd",
            "unknown_value",
            3,
            'timezone is "../etc/passwd".',
        ),
        ("2026-09-01", '"2026-09-01"', "type", 4, 'first_day is "2026-09-01".'),
        (
            "2026-09-01",
            "2026-09-01T10:00:00",
            "type",
            4,
            "first_day is 2026-09-01 10:00:00.",
        ),
        ("2026-09-01", "2026-09-31", "syntax", 4, "Invalid date or datetime."),
        (
            "2026-12-01",
            "2026-08-31",
            "contradiction",
            5,
            "last_day 2026-08-31 is before first_day 2026-09-01.",
        ),
    ],
)
def test_each_key_of_season_toml_is_held_to_what_it_means(
    tmp_path: Path, old: str, new: str, code: str, line: int | None, says: str
) -> None:
    (only,) = faults_of(tmp_path, {"season.toml": SEASON.replace(old, new)})
    assert (only.code, only.place.line, only.says) == (code, line, says)


def test_a_season_of_one_day_and_days_at_the_ends_of_the_calendar_are_read(
    tmp_path: Path,
) -> None:
    results = "game,round,date,home,away,home_goals,away_goals\n1,1,2026-09-02,Reds,Blues,1,0\n"
    for first, last in (("2026-09-02", "2026-09-02"), ("0001-01-01", "9999-12-31")):
        days = SEASON.replace("2026-09-01", first).replace("2026-12-01", last)
        read = read_folder(
            FolderRecord(written(tmp_path, {"season.toml": days, "results.csv": results}))
        )
        assert read.remarks == ()
    early = SEASON.replace("2026-09-01", "0001-01-01").replace("2026-12-01", "0001-01-02")
    (only,) = faults_of(tmp_path, {"season.toml": early, "results.csv": results})
    assert (only.code, only.place.column) == ("range", "date")


def test_lots_where_the_rulebook_asks_for_none_contradict_it(tmp_path: Path) -> None:
    lots = '[[lots]]\nlabel = "pool A"\norder = ["Reds", "Blues"]\n'
    ordered = 'base = "laws-2025-26"\nstandings.last_resort = "coordinator"\n'
    read = read_folder(
        FolderRecord(written(tmp_path, {**season(lots), "rulebook.toml": ordered}))
    )
    assert read.season.outside.lots == (
        Lots(label="pool A", order=(TeamId("Reds"), TeamId("Blues"))),
    )
    rules = 'base = "laws-2025-26"\nstandings.last_resort = "shared"\n'
    assert faults_of(tmp_path, {**season(lots), "rulebook.toml": rules}) == (
        Fault(
            code="contradiction",
            place=Place(file="season.toml", line=6, article="lots"),
            says="lots are given, but [standings] last_resort is shared.",
            value="pool A",
            allowed="an order only where lots or the coordinator decide",
            cure='Take the lots out, or write last_resort = "lots" in rulebook.toml.',
        ),
    )


def test_what_the_games_cannot_tell_is_read_and_names_are_composed(tmp_path: Path) -> None:
    more = (
        'outside_ranking = ["Blues", "Zoe\u0308"]\n'
        '[[lots]]\nlabel = "x"\norder = ["Zoe\u0308", "Reds"]\n'
        '[discipline_points]\n"Zoe\u0308" = 4\n'
    )
    outside = read_folder(FolderRecord(written(tmp_path, season(more)))).season.outside
    assert outside.ranking == {TeamId("Blues"): 1, TeamId("Zo\u00eb"): 2}
    assert outside.lots == (Lots(label="x", order=(TeamId("Zo\u00eb"), TeamId("Reds"))),)
    assert outside.discipline_points == {TeamId("Zo\u00eb"): 4}


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
