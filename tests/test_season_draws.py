"""Lots are promised before everybody, held once, counted from then on, and never taken back.

The order is worked out again by the program that is published beside it, which imports nothing
of this project.
"""

import subprocess
import sys
from pathlib import Path

import pytest

from cases.planned_season import RULEBOOK, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.usecases.season_draws import hold_draw, promise_draw, season_draws, show_lots

SECRET = "a secret of chance"  # noqa: S105 - of a test
LABEL = "pool A, places 2 and 3"
BY_LOTS = f'{RULEBOOK}[standings]\nlast_resort = "lots"\n'


def a_season(folder: Path, **changed: str) -> FolderRecord:
    return FolderRecord(write_folder(folder, **{"rulebook_toml": BY_LOTS, **changed}))


def test_a_draw_is_promised_with_the_mark_of_its_secret_and_held_by_what_was_seen(
    tmp_path: Path,
) -> None:
    record = a_season(tmp_path)
    assert show_lots(record).draws == ()
    promised = promise_draw(record, label=LABEL, teams=["Cedar", "Ash"], secret=SECRET)
    assert promised.name.startswith("pool-a-places-2-and-3-")
    assert promised.commitment.participants == ("Ash", "Cedar")
    assert (promised.drawn, season_draws(record)) == (None, (promised,))
    held = hold_draw(record, promised.name, public="7 and 12")
    assert held.drawn is not None
    assert season_draws(record) == (held,)
    (lots,) = read_folder(record).season.outside.lots
    assert (lots.label, lots.order) == (LABEL, held.drawn.order)
    folder = tmp_path / "draws" / promised.name
    told = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, folder / "verify.py", folder / "draw.json"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (told.returncode, held.commitment.commit in told.stdout) == (0, True)


def test_a_second_draw_stands_after_the_first_and_both_are_kept(tmp_path: Path) -> None:
    record = a_season(tmp_path)
    names = [
        promise_draw(record, label=label, teams=["Ash", "Birch"], secret=SECRET).name
        for label in (LABEL, "seeds")
    ]
    for name in names:
        hold_draw(record, name, public="7 and 12")
    assert [one.label for one in read_folder(record).season.outside.lots] == [LABEL, "seeds"]
    assert len(season_draws(record)) == 2


@pytest.mark.parametrize(
    ("label", "teams", "says"),
    [
        ("", ["Ash", "Birch"], "What the draw is about is empty"),
        ("x" * 81, ["Ash", "Birch"], "What the draw is about is empty, too long"),
        ("a\nb", ["Ash", "Birch"], "of several lines"),
        (LABEL, ["Ash", "Birhc"], "Birhc is no team of the season. Did you mean Birch?"),
        (LABEL, ["Ash"], "2"),
    ],
)
def test_what_cannot_be_promised_changes_nothing(
    tmp_path: Path, label: str, teams: list[str], says: str
) -> None:
    record = a_season(tmp_path)
    with pytest.raises(WholeballError) as refused:
        promise_draw(record, label=label, teams=teams, secret=SECRET)
    assert says in str(refused.value)
    assert not (tmp_path / "draws").exists()


def test_eighty_characters_are_not_too_long(tmp_path: Path) -> None:
    record = a_season(tmp_path)
    label = "x" * 80
    promised = promise_draw(record, label=label, teams=["Ash", "Birch"], secret=SECRET)
    assert promised.commitment.label == label


def test_a_draw_of_the_same_words_or_where_no_lots_count_is_not_promised(
    tmp_path: Path,
) -> None:
    record = a_season(tmp_path)
    promise_draw(record, label=LABEL, teams=["Ash", "Birch"], secret=SECRET)
    with pytest.raises(WholeballError, match="There is a draw about pool A"):
        promise_draw(record, label=LABEL, teams=["Ash", "Cedar"], secret=SECRET)
    other = f'{RULEBOOK}[standings]\nlast_resort = "shared"\n'
    idle = a_season(tmp_path / "other", rulebook_toml=other)
    with pytest.raises(InputFaults, match="lots are given, but"):
        promise_draw(idle, label=LABEL, teams=["Ash", "Birch"], secret=SECRET)


def test_a_draw_is_held_once_and_only_where_something_was_seen(tmp_path: Path) -> None:
    record = a_season(tmp_path)
    name = promise_draw(record, label=LABEL, teams=["Ash", "Birch"], secret=SECRET).name
    with pytest.raises(WholeballError, match="no public text"):
        hold_draw(record, name, public="")
    with pytest.raises(WholeballError, match="There is no draw of-nothing"):
        hold_draw(record, "of-nothing", public="7")
    hold_draw(record, name, public="7")
    with pytest.raises(WholeballError, match="held already, and lots are drawn once"):
        hold_draw(record, name, public="8")
