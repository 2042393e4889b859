"""Tests that the site starts when it may, says why when not, and that a backup comes back."""

import signal
import stat
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path
from typing import Final

import pytest
from django.db import connection
from django.test import Client
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cases.in_site import in_site
from cases.read_only import read_only
from cases.served_site import Served, begun, served, typed
from cases.site_people import put_season
from wholeball.kernel.faults import WholeballError
from wholeball.site import bounds
from wholeball.site.backup_file import Head, data_of, read_head, write_file
from wholeball.site.checks import (
    BEHIND,
    clock_findings,
    database_findings,
    secret_findings,
    share_findings,
)
from wholeball.site.data_folder import make_data_folder
from wholeball.site.environment import Environment, environment

EXAMPLE: Final = Path(__file__).resolve().parents[2] / "examples/lantern-hill"
GUESSED: Final = "abcdefgh" * 4
NOW: Final = datetime(2026, 11, 26, 12, tzinfo=UTC)
HEAD: Final = Head(program="0.1.0", made="2026-11-26", kind="rows", schema={}, results={})


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    with served(tmp_path_factory.mktemp("site") / "data") as running:
        in_site(running.data, put_season, folder=str(EXAMPLE), slug="hill")
        yield running


def here(folder: Path, **given: str) -> Environment:
    return environment({"WHOLEBALL_DATA": str(folder), **given})


def status(address: str) -> int:
    try:
        with urllib.request.urlopen(address) as answer:  # noqa: S310 - our own site
            return int(answer.status)
    except urllib.error.HTTPError as refused:
        return refused.code


def test_help_of_the_command_line_reads_no_django() -> None:
    asks = (
        "import sys\nsys.argv = ['wholeball', '--help']\n"
        "from wholeball.site.main import main\n"
        "try:\n    main()\nfinally:\n    print('django' in sys.modules, file=sys.stderr)"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", asks], capture_output=True, text=True, check=False
    )
    assert done.stderr == "False\n"
    assert "serve" in done.stdout


@pytest.mark.parametrize(
    ("secret", "says"),
    [
        ("", "WHOLEBALL_SECRET_KEY is missing."),
        ("django-insecure-" + GUESSED, "WHOLEBALL_SECRET_KEY is a default that others know."),
        (GUESSED[:31], "WHOLEBALL_SECRET_KEY can be guessed."),
        ("abcdefg" * 8, "WHOLEBALL_SECRET_KEY can be guessed."),
    ],
)
def test_a_secret_that_is_none_stops_the_start(tmp_path: Path, secret: str, says: str) -> None:
    (found,) = secret_findings(here(tmp_path, WHOLEBALL_SECRET_KEY=secret))
    assert (found.code, found.level, found.says) == ("config", "refuse", says)


def test_a_secret_of_32_signs_of_which_8_differ_is_enough(tmp_path: Path) -> None:
    assert secret_findings(here(tmp_path, WHOLEBALL_SECRET_KEY=GUESSED)) == []


def test_the_first_start_makes_a_secret_that_its_account_alone_can_read(tmp_path: Path) -> None:
    data = tmp_path / "data"
    make_data_folder(here(data))
    made = (data / "secret").read_text()
    assert stat.S_IMODE((data / "secret").stat().st_mode) == 0o600
    assert stat.S_IMODE(data.stat().st_mode) == 0o700
    make_data_folder(here(data))
    assert (data / "secret").read_text() == made
    assert secret_findings(here(data)) == []


@pytest.mark.parametrize(
    "given", [{"WHOLEBALL_HTTPS": "1"}, {"DATABASE_URL": "postgresql://a:b@db.invalid/league"}]
)
def test_in_production_no_secret_is_made_up(tmp_path: Path, given: dict[str, str]) -> None:
    make_data_folder(here(tmp_path, **given))
    assert list(tmp_path.iterdir()) == []


def test_a_secret_that_others_can_read_stops_the_start(tmp_path: Path) -> None:
    make_data_folder(here(tmp_path))
    (tmp_path / "secret").chmod(0o640)
    with pytest.raises(WholeballError, match="other accounts") as refused:
        make_data_folder(here(tmp_path))
    assert refused.value.code == "config"


@pytest.mark.django_db
def test_a_database_that_takes_a_table_is_fit_and_keeps_none() -> None:
    assert database_findings(connection) == []
    assert "wholeball_can_write" not in connection.introspection.table_names()


@pytest.mark.django_db
def test_a_database_that_can_only_be_read_stops_the_start() -> None:
    if connection.vendor != "sqlite":
        pytest.skip("the pragma that forbids writing is SQLite's own")
    with read_only():
        (found,) = database_findings(connection)
    assert (found.code, found.level) == ("storage", "refuse")
    assert "attempt to write a readonly database" in found.says


def test_a_database_on_a_share_stops_the_start_and_one_on_a_disk_does_not() -> None:
    mounts = "/dev/sda1 / ext4 rw 0 0\nhost:/x /home/a\\040b nfs4 rw 0 0\n"
    assert share_findings(Path("/home/a"), mounts) == []
    (found,) = share_findings(Path("/home/a b/data"), mounts)
    assert (found.code, found.level) == ("storage", "refuse")
    assert "(nfs4)" in found.says


def test_a_clock_half_a_day_behind_the_newest_entry_is_told_and_starts_all_the_same() -> None:
    assert clock_findings(None, NOW) == []
    assert clock_findings(NOW + BEHIND - timedelta(seconds=1), NOW) == []
    (found,) = clock_findings(NOW + timedelta(days=1), NOW)
    assert (found.code, found.level) == ("clock", "warn")
    assert found.says == (
        "The clock says 2026-11-26 12:00, but the newest entry is of 2026-11-27 12:00 (UTC)."
    )


@pytest.mark.django_db
def test_a_promise_of_the_largest_body_is_read_and_one_byte_more_is_not(client: Client) -> None:
    login = "/accounts/login/"
    most = client.get(login, CONTENT_LENGTH=str(bounds.MOST_BYTES))
    more = client.get(login, CONTENT_LENGTH=str(bounds.MOST_BYTES + 1))
    packed = client.post("/accounts/login/", {}, headers={"content-encoding": "gzip"})
    assert most.status_code == 200
    assert (more.status_code, packed.status_code) == (413, 413)


def test_a_new_site_prints_its_address_and_one_link_for_the_administrator(site: Served) -> None:
    lines = site.said.splitlines()
    at = site.address.replace("127.0.0.1", "localhost")
    assert lines[0] == f"Wholeball is served at {at}/ (Ctrl-C stops it)."
    assert lines[1].startswith("Nobody runs it yet. Open this link once to begin: ")
    assert status(f"{site.address}/accounts/login/") == 200
    assert status(f"{site.address}/static/site/site.css") == 200


def test_no_other_account_can_read_what_the_site_keeps_in_a_folder_open_to_all(
    tmp_path: Path,
) -> None:
    data = tmp_path / "data"
    data.mkdir()
    data.chmod(0o755)
    with served(data):
        kept = [one for one in data.rglob("*") if one.is_file() and "static" not in one.parts]
        assert data / "wholeball.sqlite3" in kept
        assert [one.name for one in kept if one.stat().st_mode & 0o077] == []


def test_a_port_that_is_taken_is_named_with_the_cure(site: Served, tmp_path: Path) -> None:
    port = site.address.rpartition(":")[2]
    told = typed(begun(tmp_path / "other"), "serve", "--port", port)
    assert told.returncode == 1
    assert told.stderr == (
        f"127.0.0.1:{port} cannot be served: Address already in use."
        " Name another by --port or --host.\n"
    )


def test_in_production_serve_refuses_without_a_secret_and_makes_no_database(
    tmp_path: Path,
) -> None:
    told = typed(tmp_path / "data", "serve", WHOLEBALL_HTTPS="1")
    assert told.returncode == 1
    assert "WHOLEBALL_SECRET_KEY is missing." in told.stderr
    assert "Traceback" not in told.stderr


@pytest.mark.parametrize("words", [[], ["--rows"]], ids=["copy", "rows"])
def test_a_backup_comes_back_into_an_empty_place_and_into_no_other(
    site: Served, tmp_path: Path, words: list[str]
) -> None:
    file, before, after = (tmp_path / name for name in ("site", "before", "after"))
    assert typed(site.data, "backup", file, *words).returncode == 0
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    again = typed(site.data, "restore", file)
    assert (again.returncode, "there are data already" in again.stderr) == (1, True)
    told = typed(tmp_path / "place", "restore", file)
    assert (told.returncode, told.stderr) == (0, "")
    typed(site.data, "backup", before, "--rows")
    typed(tmp_path / "place", "backup", after, "--rows")
    assert rows_of(before)
    assert rows_of(after) == rows_of(before)


@pytest.mark.parametrize("end", ["-wal", "-shm", "-journal"])
def test_nothing_is_restored_beside_what_is_left_of_other_data(
    site: Served, tmp_path: Path, end: str
) -> None:
    """SQLite's own list of how to corrupt a database has a log that is not of its file."""
    file, place = tmp_path / "site.backup", tmp_path / "place"
    typed(site.data, "backup", file)
    place.mkdir()
    left = place / f"wholeball.sqlite3{end}"
    left.write_bytes(b"the end of a file that is gone")
    told = typed(place, "restore", file)
    assert (told.returncode, told.stdout) == (1, "")
    assert f"{left}: there are data already. Nothing was touched." in told.stderr
    assert left.read_bytes() == b"the end of a file that is gone"
    left.unlink()
    assert typed(place, "restore", file).returncode == 0


def test_a_drill_derives_every_result_again_and_says_what_was_compared(
    site: Served, tmp_path: Path
) -> None:
    file = tmp_path / "site.backup"
    typed(site.data, "backup", file)
    told = typed(site.data, "restore", file, "--drill")
    assert (told.returncode, told.stderr) == (0, "")
    assert told.stdout.startswith(f"Drill: {file}: restored as of ")
    assert told.stdout.endswith("; 1 season derived again, none differs.\n")


def test_a_restore_whose_results_come_to_something_else_names_the_season(
    site: Served, tmp_path: Path
) -> None:
    file, other = tmp_path / "site.backup", tmp_path / "other.backup"
    typed(site.data, "backup", file)
    head, start = read_head(file)
    assert [*head.results] == ["league/hill"]
    data = BytesIO(b"".join(data_of(file, start)))
    write_file(other, replace(head, results={"league/hill": "0" * 64}), data)
    told = typed(site.data, "restore", other, "--drill")
    assert told.returncode == 1
    assert "these seasons come to something else: league/hill" in told.stderr


def rows_of(file: Path) -> list[str]:
    """Return the rows that a backup holds, in order."""
    _, start = read_head(file)
    return sorted(b"".join(data_of(file, start)).decode().splitlines())


def test_a_backup_is_never_written_over(site: Served, tmp_path: Path) -> None:
    (tmp_path / "there").write_text("kept")
    told = typed(site.data, "backup", tmp_path / "there")
    assert told.returncode == 1
    assert (tmp_path / "there").read_text() == "kept"


def test_a_backup_of_a_newer_version_is_refused_before_anything_is_made(tmp_path: Path) -> None:
    file, place = tmp_path / "newer.backup", tmp_path / "place"
    head = replace(HEAD, program="9.0", schema={"store": ["0001_initial", "9999_later"]})
    write_file(file, head, BytesIO(b""))
    told = typed(place, "restore", file)
    assert told.returncode == 1
    assert "a newer version wrote it (9.0; here store.9999_later is unknown)" in told.stderr
    assert not (place / "wholeball.sqlite3").exists()


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300), st.data())
def test_one_flipped_byte_anywhere_is_found_and_the_file_is_named(
    tmp_path: Path, data: bytes, chosen: st.DataObject
) -> None:
    file = tmp_path / "one.backup"
    file.unlink(missing_ok=True)
    write_file(file, HEAD, BytesIO(data))
    assert b"".join(data_of(file, read_head(file)[1])) == data
    whole = bytearray(file.read_bytes())
    at = chosen.draw(st.integers(0, len(whole) - 1))
    whole[at] ^= chosen.draw(st.integers(1, 255))
    file.write_bytes(whole)
    with pytest.raises(WholeballError, match="checksum differs") as refused:
        read_head(file)
    assert refused.value.code == "checksum"
    assert str(file) in str(refused.value)


def test_a_site_that_was_killed_starts_again_with_all_that_it_had(tmp_path: Path) -> None:
    with served(begun(tmp_path)) as first:
        link = first.first_link
        first.process.send_signal(signal.SIGKILL)
        first.process.wait()
    with served(tmp_path) as second:
        assert second.first_link != link
        assert status(f"{second.address}/accounts/login/") == 200
