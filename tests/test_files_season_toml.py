"""What season.toml says is read and held to what it means, a fault for each mistake."""

from pathlib import Path

import pytest

from cases.small_folder import DEDUCTION, SEASON, faults_of, season, written
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import TeamId
from wholeball.season.tally import Lots


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
        (
            '"Lantern Hill"',
            r'"Lantern\nHill"',
            "control_char",
            2,
            r'name is "Lantern\u000aHill".',
        ),
        (
            '"Lantern Hill"',
            '"Lantern\tHill"',
            "control_char",
            2,
            r'name is "Lantern\u0009Hill".',
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
