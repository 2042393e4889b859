"""The demonstration's season stands in its site as it stood in its folder, a role for everybody."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from demo.course import Course
from demo.desk import id_key
from demo.site_rows import ACCOUNTS, fill
from demo.truth import truth_of
from demo.world import SMALL
from django.test import Client

from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.store.models import Membership, Season
from wholeball.store.record import DatabaseRecord


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    place = tmp_path_factory.mktemp("demo")
    with id_key():
        course = Course(
            truth=truth_of(SMALL, 2),
            folder=place / "season",
            sheets=place / "sheets",
            tell=lambda _: None,
        )
        course.play()
        yield course.folder


@pytest.mark.django_db
def test_the_site_has_the_season_and_lets_each_role_in(folder: Path, client: Client) -> None:
    password = fill(folder)
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
