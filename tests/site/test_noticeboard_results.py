"""The public results count and mark the games whose result nobody has certified yet."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from cases.desk_season import DeskSeason, a_desk
from cases.noticeboard_season import AROUND
from cases.stored import written_by
from wholeball.store.models import Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.kept_pages import board_of
from wholeball.usecases.noticeboard_pages import round_of

pytestmark = pytest.mark.django_db
MARK = "</svg>not certified</span>"
ROWS = "game,round,date,home,away,home_goals,away_goals\n"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    """A season of which game A1 is typed in and not certified, and nothing else is played."""
    return a_desk(tmp_path)


def page_of(season: Season, number: int | None = None) -> str:
    seen = snapshot_of(Season.objects.get(pk=season.pk))
    board = board_of(seen, AROUND, datetime(2026, 9, 16, 12, tzinfo=UTC))
    return " ".join(round_of(board, number).split())


def test_a_result_that_is_typed_in_alone_is_marked_and_counts_among_those_to_come(
    desk: DeskSeason,
) -> None:
    games = desk.texts()["timetable.csv"].decode().splitlines()[1:]
    page = page_of(desk.season)
    assert f"{len(games)} games are still to be played or certified." in page
    assert page.count(MARK) == 1


def test_a_result_that_is_certified_is_not_marked_and_counts_no_more(desk: DeskSeason) -> None:
    games = desk.texts()["timetable.csv"].decode().splitlines()[1:]
    game, round_, day, _, _, home, away = games[-1].split(",")[:7]
    row = f"{game},{round_},{day},{home},{away},2,1\n"
    written_by(desk.season).write({"results.csv": f"{ROWS}{row}".encode()})
    pages = [page_of(desk.season, number) for number in sorted({1, int(round_)})]
    assert all(
        f"{len(games) - 1} games are still to be played or certified." in page for page in pages
    )
    assert "".join(pages).count(MARK) == 1
