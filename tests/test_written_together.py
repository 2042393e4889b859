"""Two people who write about one game at once follow one another; its log never forks."""

import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from threading import Barrier, Event

import pytest

from cases.paper_cards import ordinary
from cases.paper_season import author, write_season
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import read_game
from wholeball.game.paper import PaperCard
from wholeball.game.state import Score
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.certify_game import certify_game
from wholeball.usecases.enter_game import enter_card, game_to_enter, undo
from wholeball.usecases.seal_entries import Author

M1 = GameId("M1")
MEANWHILE = 0.3
"""Seconds that somebody who comes second is given to get through, if nothing holds them."""
CARD = 'schema = 1\nperiods = ["1-0", "0-1"]\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_season(tmp_path / "meadow")


def _with(second_half: tuple[int, int]) -> PaperCard:
    return ordinary().model_copy(update={"periods": (Score(1, 1), Score(*second_half))})


class _Slow:
    """An author who is in the middle of writing until another has tried to."""

    def __init__(self, by: Author) -> None:
        self.writes, self.other_is_done = Event(), Event()
        self.author = replace(by, ids=self._ids(by.ids))

    def _ids(self, ids: Iterator[str]) -> Iterator[str]:
        for name in ids:
            self.writes.set()
            self.other_is_done.wait(MEANWHILE)
            self.other_is_done.set()
            yield name


def test_a_card_entered_in_the_middle_of_another_follows_it(folder: Path) -> None:
    slow = _Slow(author(1))
    with ThreadPoolExecutor(1) as pool:
        first = pool.submit(
            enter_card, game_to_enter(FolderRecord(folder), M1), ordinary(), by=slow.author
        )
        slow.writes.wait()
        second = enter_card(
            game_to_enter(FolderRecord(folder), M1), _with((3, 1)), by=author(2, name="Lee")
        )
        slow.other_is_done.set()
    log = read_game(FolderRecord(folder), M1)
    assert (log.findings, len(log.entries)) == ((), 17)
    assert (len(first.result().new), len(second.new)) == (16, 1)
    assert second.after.state.score == Score(4, 2)


def test_what_is_taken_back_in_the_middle_of_a_card_is_that_card(folder: Path) -> None:
    enter_card(game_to_enter(FolderRecord(folder), M1), ordinary(), by=author(1))
    slow = _Slow(author(2))
    with ThreadPoolExecutor(1) as pool:
        pool.submit(
            enter_card, game_to_enter(FolderRecord(folder), M1), _with((3, 1)), by=slow.author
        )
        slow.writes.wait()
        undone = undo(game_to_enter(FolderRecord(folder), M1), by=author(3, name="Lee"))
        slow.other_is_done.set()
    assert (len(undone.gone), undone.after.state.score) == (1, Score(3, 2))
    assert read_game(FolderRecord(folder), M1).findings == ()


def test_of_two_who_certify_at_once_the_second_is_told_so(folder: Path) -> None:
    enter_card(game_to_enter(FolderRecord(folder), M1), ordinary(), by=author(1))
    slow = _Slow(author(2, name="Sam"))
    with ThreadPoolExecutor(1) as pool:
        first = pool.submit(certify_game, FolderRecord(folder), M1, by=slow.author)
        slow.writes.wait()
        with pytest.raises(WholeballError, match="certified already, by Sam"):
            certify_game(FolderRecord(folder), M1, by=author(3, name="Lee"))
        slow.other_is_done.set()
    assert first.result().told.state.score == Score(3, 2)
    log = read_game(FolderRecord(folder), M1)
    assert (log.findings, len(log.entries)) == ((), 17)


def test_eight_who_enter_at_the_same_moment_make_one_chain(folder: Path) -> None:
    barrier = Barrier(8)

    def enter(number: int) -> None:
        to = game_to_enter(FolderRecord(folder), M1)
        barrier.wait()
        enter_card(to, _with((number, 1)), by=author(number))

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(enter, range(1, 9)))
    log = read_game(FolderRecord(folder), M1)
    assert log.findings == ()
    assert [one.said.seq for one in log.entries] == list(range(1, len(log.entries) + 1))


def test_two_commands_started_together_make_one_chain(folder: Path) -> None:
    (folder / "cards").mkdir()
    (folder / "cards" / "M1.toml").write_text(CARD)
    commands = [
        subprocess.Popen(  # noqa: S603 - this program itself
            [sys.executable, "-m", "wholeball", "enter", folder, "M1", "--file", "--by", who],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for who in ("Kim", "Lee")
    ]
    told = [(one.communicate(timeout=60), one.returncode) for one in commands]
    assert [status for _, status in told] == [0, 0], told
    log = read_game(FolderRecord(folder), M1)
    assert log.findings == ()
    assert sum("nothing was written" in out for (out, _), _ in told) == 1
