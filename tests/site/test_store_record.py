"""Tests that a season in the database keeps what a folder keeps, and nothing by halves."""

from pathlib import Path

import pytest
from pytest_django import DjangoAssertNumQueries

from cases.stored import NOW, a_season, an_account, texts_of, written_by
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.store.models import AuditRow, Change, Edition, LogEntry, Season
from wholeball.store.models.league_rows import TeamRow
from wholeball.store.record import DatabaseRecord

pytestmark = pytest.mark.django_db
MOST = 20_000_000
LANTERN_HILL = Path("examples/lantern-hill")
TEAMS = b"team,pool\nReds,A\nBlues,A\n"


def test_a_folder_that_is_written_is_read_back_byte_for_byte() -> None:
    texts = texts_of(LANTERN_HILL)
    record = written_by(a_season())
    record.write(texts)
    assert {name: record.read(name, MOST) for name in texts} == texts
    assert record.names("") == tuple(sorted({name.split("/")[0] for name in texts}))
    assert record.names("games") == ("P1.jsonl",)


def test_what_is_not_there_is_told_as_by_a_folder() -> None:
    record = written_by(a_season())
    with pytest.raises(WholeballError, match="has no facts yet"):
        record.refuse_missing()
    record.write({"cards/P1.toml": b"a = 1\n"})
    record.refuse_missing()
    assert [record.has(name) for name in ("cards/P1.toml", "cards", "card", "", "../x")] == [
        True,
        True,
        False,
        False,
        False,
    ]
    with pytest.raises(FileNotFoundError):
        record.read("teams.csv", MOST)
    with pytest.raises(IsADirectoryError):
        record.read("cards", MOST)
    assert record.names("games") == ()
    assert record.read("cards/P1.toml", 3) == b"a = "


def test_another_form_of_a_table_keeps_its_cells_their_columns_and_their_row_numbers() -> None:
    record = written_by(a_season())
    record.write(
        {"teams.csv": b'\xef\xbb\xbf\r\nPool; Team\r\n\r\nA;"Reds; old"\r\n;Blues\r\n'}
    )
    assert record.read("teams.csv", MOST) == b"\npool,team\n\nA,Reds; old\n,Blues\n"
    assert list(TeamRow.objects.values_list("position", "team", "pool", "colours")) == [
        (4, "Reds; old", "A", ""),
        (5, "Blues", "", ""),
    ]


@pytest.mark.parametrize(
    ("name", "data", "code"),
    [
        ("teams.csv", b"team,coach\nReds,Ana\n", "unknown_column"),
        ("teams.csv", b"team,team\nReds,Reds\n", "duplicate_column"),
        ("teams.csv", b"team,pool\nReds\n", "row_width"),
        ("teams.csv", b"", "empty"),
        ("teams.csv", b"team\n\xff\n", "encoding"),
        ("teams.csv", b'team\n"Reds\n', "syntax"),
        ("teams.csv", b"team\nReds\nreds\n", "duplicate"),
        ("teams.csv", b"team,pool\n,A\n", "duplicate"),
        ("season.toml", b"\xff", "encoding"),
        ("season.toml", b"\0", "control_char"),
        ("../season.toml", b"", "path"),
        ("a\nb", b"", "path"),
        ("n" * 201, b"", "path"),
    ],
)
def test_what_cannot_be_kept_is_refused_and_nothing_is_written(
    name: str, data: bytes, code: str
) -> None:
    season = a_season()
    record = written_by(season)
    with pytest.raises(WholeballError) as refused:
        record.write({"planning.toml": b"schema = 1\n", name: data})
    assert refused.value.code == code
    assert record.names("") == ()
    assert Season.objects.get(pk=season.pk).version == 0
    assert not Change.objects.exists()


def test_a_write_touches_only_the_rows_that_change() -> None:
    record = written_by(a_season())
    record.write({"teams.csv": b"team\nReds\nBlues\nGreens\n"})
    before = dict(TeamRow.objects.values_list("team", "pk"))
    record.write({"teams.csv": b"team\nReds\nGolds\nGreens\n"})
    after = dict(TeamRow.objects.values_list("team", "pk"))
    assert (after["Reds"], after["Greens"]) == (before["Reds"], before["Greens"])
    assert record.read("teams.csv", MOST) == b"team\nReds\nGolds\nGreens\n"
    record.write({"season.toml": b""}, gone=["teams.csv"])
    assert (record.names(""), TeamRow.objects.count()) == (("season.toml",), 0)


def test_a_rulebook_is_an_edition_and_older_ones_are_kept() -> None:
    record = written_by(a_season())
    for text in (b"one", b"two", b"two", b"one"):
        record.write({"rulebook.toml": text})
    assert list(Edition.objects.values_list("number", "text", "is_current")) == [
        (1, "one", False),
        (2, "two", False),
        (3, "one", True),
    ]
    assert record.read("rulebook.toml", MOST) == b"one"
    record.write({}, gone=["rulebook.toml"])
    assert (record.has("rulebook.toml"), Edition.objects.count()) == (False, 3)


def test_a_log_is_added_to_and_never_cut_changed_or_taken_out() -> None:
    lines = (LANTERN_HILL / "games/P1.jsonl").read_bytes().splitlines(keepends=True)
    season = a_season()
    record = written_by(season)
    with record.held():
        record.append("games/P1.jsonl", b"".join(lines[:3]))
    head = record.season.log_head
    record.append("games/P1.jsonl", b"".join(lines[3:5]))
    record.write({"games/P1.jsonl": b"".join(lines)})
    assert record.read("games/P1.jsonl", MOST) == b"".join(lines)
    assert record.season.log_head != head
    for data in (b"".join(lines[:-1]), b"".join(lines[1:]), b""):
        with pytest.raises(WholeballError, match="lacks entries that were recorded"):
            record.write({"games/P1.jsonl": data})
    with pytest.raises(WholeballError, match="what was recorded stays"):
        record.write({}, gone=["games/P1.jsonl"])
    with pytest.raises(WholeballError) as refused:
        record.append("games/P1.jsonl", lines[0])
    assert refused.value.code == "moved"
    with pytest.raises(InputFaults):
        record.append("games/P1.jsonl", b"{}\n")
    assert LogEntry.objects.count() == len(lines)
    again = written_by(a_season("Spring"))
    again.write({"games/P1.jsonl": b"".join(lines)})
    assert again.season.log_head == Season.objects.get(pk=season.pk).log_head


def test_a_number_that_a_device_used_twice_is_kept_twice() -> None:
    lines = (LANTERN_HILL / "games/P1.jsonl").read_bytes().splitlines(keepends=True)
    record = written_by(a_season())
    record.write({"games/P1.jsonl": lines[0] + lines[0], "games/P2.jsonl": b""})
    assert record.read("games/P1.jsonl", MOST) == lines[0] + lines[0]
    assert (record.has("games/P2.jsonl"), record.read("games/P2.jsonl", MOST)) == (True, b"")


def test_whoever_looked_at_an_older_version_is_told_what_changed_and_loses_nothing() -> None:
    season, kim = a_season(), an_account("Kim Vale")
    written_by(season).write({"teams.csv": TEAMS, "season.toml": b"schema = 1\n"})
    first = written_by(season, kim, version=1)
    second = written_by(season, an_account("Bo Lund"), version=1)
    first.write({"teams.csv": b"team,pool\nReds,A\nGolds,A\n"})
    with pytest.raises(WholeballError) as refused:
        second.write({"teams.csv": b"team,pool\nReds,B\nBlues,A\n"})
    assert (refused.value.code, refused.value.says, refused.value.fix) == (
        "conflict",
        (
            "It was changed while you worked on it. teams.csv, by Kim Vale at 2026-11-26 09:05 "
            "UTC: taken out: Blues, A; written in: Golds, A."
        ),
        "Nothing of yours was written. Look at what changed, and make your change to that.",
    )
    second.write({"season.toml": b"schema = 2\n"})
    first.write({"teams.csv": TEAMS})
    assert first.read("teams.csv", MOST) == TEAMS
    assert Season.objects.get(pk=season.pk).version == 4


def test_what_is_done_while_a_season_is_held_is_kept_whole_or_not_at_all() -> None:
    record = written_by(a_season())

    def write_and_fail() -> None:
        with record.held():
            record.write({"teams.csv": TEAMS})
            raise WholeballError("It cannot be.", fix="Do something else.")

    with pytest.raises(WholeballError, match="It cannot be"):
        write_and_fail()
    assert (record.names(""), record.season.version) == ((), 0)


def test_whoever_writes_says_who_and_each_write_is_noted() -> None:
    season, kim = a_season(), an_account()
    with pytest.raises(ValueError, match="says who writes"):
        DatabaseRecord(season).write({"teams.csv": TEAMS})
    written_by(season, kim).write({"teams.csv": TEAMS, "people.csv": b"person\nk7\n"})
    assert list(AuditRow.objects.values_list("did", "what", "account", "at")) == [
        ("wrote", "autumn: people.csv, teams.csv", kim.pk, NOW)
    ]


def test_reading_takes_as_many_queries_for_many_rows_as_for_one(
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    record = written_by(a_season())
    for rows in (1, 500):
        record.write({"teams.csv": b"team\n" + b"".join(b"T%d\n" % n for n in range(rows))})
        with django_assert_num_queries(2):
            record.read("teams.csv", MOST)
