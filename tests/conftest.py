"""Lets a test type commands as a person does, and takes no slow machine for a fault."""

import pytest
from hypothesis import settings

from cases.command_line import Run, Told
from cases.spared import spare
from wholeball.cli.main import main

settings.register_profile("side by side", deadline=None)
settings.load_profile("side by side")


def pytest_collection_finish() -> None:
    """Begin the tests with a collector that has less to do."""
    spare()


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Return what types a command and tells what came of it."""

    def typed(*words: object) -> Told:
        monkeypatch.setattr("sys.argv", ["wholeball", *map(str, words)])
        status = 0
        try:
            main()
        except SystemExit as ended:
            status = int(ended.code or 0)
        told = capsys.readouterr()
        return Told(status, told.out, told.err)

    return typed
