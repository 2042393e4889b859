"""Tests that a played season, with all its logs, goes through the database without a loss."""

from dataclasses import replace
from pathlib import Path

import pytest
from demo.desk import id_key
from demo.site_rows import ACCOUNTS, fill
from django.test import Client

from cases.demo_course import played_in
from cases.stored import a_season, facts_of, written_by
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.league.record import LeagueRecord
from wholeball.store.derived import derived, forget
from wholeball.store.models import Derived, LogEntry, Membership, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.snapshot import Snapshot
from wholeball.usecases.export_season import export_archive, export_season
from wholeball.usecases.import_season import import_archive, import_season


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("demo")
    with id_key():
        played_in(place)
    return place / "season"


def _facts(record: LeagueRecord) -> SeasonFolder:
    """Return what a record says, but for texts, and for cures, which each keeper says its own way."""
    facts = facts_of(read_folder(record))
    return replace(facts, remarks=tuple(replace(one, cure="") for one in facts.remarks))


def _results(seen: Snapshot) -> bytes:
    return repr(read_folder(seen).season.results).encode()


@pytest.mark.django_db
def test_a_played_season_comes_out_of_the_database_as_it_went_in(
    folder: Path, tmp_path: Path
) -> None:
    facts = _facts(FolderRecord(folder))
    record = written_by(a_season())
    assert import_season(FolderRecord(folder), record).left_out == ()
    logs = {path.stem: path.read_bytes() for path in (folder / "games").glob("*.jsonl")}
    assert LogEntry.objects.count() == sum(log.count(b"\n") for log in logs.values())
    assert {game: record.read(f"games/{game}.jsonl", 64_000_000) for game in logs} == logs
    assert _facts(record) == facts
    export_season(record, FolderRecord(tmp_path / "out"))
    assert _facts(FolderRecord(tmp_path / "out")) == facts
    again = written_by(a_season("Again"))
    import_archive(export_archive(record), again, file="season.zip")
    assert export_archive(again) == export_archive(record)
    assert again.season.log_head == record.season.log_head


@pytest.mark.django_db
def test_results_of_a_played_season_are_derived_again_the_same_when_all_are_deleted(
    folder: Path,
) -> None:
    record = written_by(a_season())
    import_season(FolderRecord(folder), record)
    before = derived(record.season, "results", _results)
    assert before == repr(read_folder(FolderRecord(folder)).season.results).encode()
    rows = list(Derived.objects.values_list("name", "key", "data"))
    assert forget() == 1
    assert derived(record.season, "results", _results) == before
    assert list(Derived.objects.values_list("name", "key", "data")) == rows


@pytest.mark.django_db
def test_the_site_of_the_demonstration_has_its_season_and_lets_each_role_in(
    folder: Path, client: Client
) -> None:
    password = fill({"Autumn eights": folder})
    season = Season.objects.get()
    of_site, of_folder = read_folder(DatabaseRecord(season)), read_folder(FolderRecord(folder))
    assert of_site.season.results == of_folder.season.results
    assert of_site.rosters == of_folder.rosters
    assert {one.role for one in ACCOUNTS} == set(
        Membership.objects.values_list("role", flat=True)
    )
    for one in ACCOUNTS:
        assert client.login(email=one.email, password=password), one.email
    assert client.get(f"/quillmere/{season.slug}/").status_code == 200
