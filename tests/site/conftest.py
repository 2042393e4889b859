"""Has each test begin on one machine, and leave an empty database behind; seats Kim at a desk."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from django.db import connection
from django.test import Client
from pytest_django.fixtures import Settings

from cases.board_season import a_board
from cases.desk_season import member, put_season
from cases.stored import a_season
from wholeball.store import triggers
from wholeball.store.models import Season


@pytest.fixture(autouse=True)
def _on_one_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hide from pages which database the tests run on: PostgreSQL alone is no network."""
    monkeypatch.delenv("DATABASE_URL", raising=False)


@pytest.fixture(autouse=True)
def _in_turn(settings: Settings) -> None:
    """Let searches work beside other tests, which leave no machine idle."""
    settings.SEARCHES = "shared"


@pytest.fixture(autouse=True)
def _files_when_asked(settings: Settings) -> None:
    """Look for a static file when it is asked for: no browser of a test goes through all of them."""
    settings.WHITENOISE_AUTOREFRESH = True


@pytest.fixture(autouse=True)
def _with_a_folder_of_its_own(settings: Settings, tmp_path: Path) -> None:
    """Keep what a site writes beside its database apart from the folder that tests run in."""
    settings.DATA_FOLDER = tmp_path / "data"


@pytest.fixture(autouse=True)
def _quickly_hashed(settings: Settings) -> None:
    """Hash passwords in no time: those of tests guard nothing. A site that is served hashes well."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(autouse=True)
def _emptied(request: pytest.FixtureRequest) -> Iterator[None]:
    """Take the triggers away before the tables are emptied; Django sets them up again after."""
    marked = request.node.get_closest_marker("django_db")
    if marked is None or not marked.kwargs.get("transaction"):
        yield
        return
    request.getfixturevalue("transactional_db")
    yield
    with connection.cursor() as cursor:
        for name, table in triggers.names(connection).items():
            on = "" if connection.vendor == "sqlite" else f" ON {table}"
            cursor.execute(f"DROP TRIGGER IF EXISTS {name}{on}")


@pytest.fixture
def season(tmp_path: Path) -> Season:
    """Return a season of three sites with games tonight and in a week; of Kim's, unless told."""
    made = a_season()
    put_season(made, a_board(tmp_path / "season"))
    return made


@pytest.fixture
def kim(season: Season) -> Client:
    """Return the browser of the coordinator of the season."""
    return member(season, "coordinator", person="Kim")
