"""Suspensions at the desk: what is left and the games it bars agree; a meeting needs no article."""

from datetime import date
from pathlib import Path

import pytest

from cases.desk_season import DeskSeason, at, member, put_season
from cases.people_season import RED, RULES, enter, write_people
from cases.stored import a_season
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.store.models import Season
from wholeball.usecases.show_people import suspensions_of

pytestmark = pytest.mark.django_db
WAITS = RULES.replace("until_meeting = false", "until_meeting = true")
DAY = date(2026, 9, 16)
"""The day after the red of game A1."""


def barred(tmp_path: Path, rules: str) -> tuple[str, tuple[str, ...]]:
    """Return what is left of a suspension for a red, and the words on the games that it bars."""
    folder = write_people(tmp_path / "season", rules=rules)
    enter(folder, "A1", RED)
    [line] = suspensions_of(read_folder(FolderRecord(folder)), DAY).lines
    return line.still, line.barred


def test_one_game_left_bars_one_game_and_the_rest_only_if_that_serves_nothing(
    tmp_path: Path,
) -> None:
    assert barred(tmp_path, RULES) == (
        "1 game left",
        (
            "May not play: game C1, Wednesday 16 September.",
            (
                "Unless C1 serves what is left, may not play either: game A2, Thursday 17 September; "
                "game C2, Thursday 17 September; game A3, Tuesday 22 September."
            ),
        ),
    )


def test_two_games_left_bar_two_games(tmp_path: Path) -> None:
    assert barred(tmp_path, RULES.replace("\ngames = 1\n", "\ngames = 2\n")) == (
        "2 games left",
        (
            "May not play: game C1, Wednesday 16 September; game A2, Thursday 17 September.",
            (
                "Unless C1 and A2 serve what is left, may not play either: game C2, Thursday 17 "
                "September; game A3, Tuesday 22 September."
            ),
        ),
    )


def test_who_waits_for_a_meeting_is_barred_until_it_is_held(tmp_path: Path) -> None:
    assert barred(tmp_path, WAITS) == (
        "1 game left and waits for a meeting",
        (
            (
                "Until the meeting is held, may not play: game C1, Wednesday 16 September; game A2, "
                "Thursday 17 September; game C2, Thursday 17 September; game A3, Tuesday 22 September."
            ),
        ),
    )


def waiting(tmp_path: Path) -> DeskSeason:
    """Return a season in which Noor Zephirou waits for a meeting after a red."""
    season = a_season()
    folder = write_people(tmp_path / "season", rules=WAITS)
    enter(folder, "A1", RED)
    put_season(season, folder)
    return DeskSeason(season=season, people={"coordinator": member(season, "coordinator")})


def told(desk: DeskSeason, **more: str) -> dict[str, str]:
    version = str(Season.objects.get(pk=desk.season.pk).version)
    held = {"person": "k-noor", "ruled": "meeting_held", "ref": "", "why": "We met."}
    return {**held, "version": version, **more}


def test_the_page_of_who_waits_begins_with_the_meeting_and_its_article(tmp_path: Path) -> None:
    kim = waiting(tmp_path).people["coordinator"]
    form = kim.get(at("decide"), {"person": "k-noor"}).context["form"]
    assert form.initial == {"person": "k-noor", "ruled": "meeting_held", "ref": "H 11.4"}
    other = kim.get(at("decide"), {"person": "k-umaru"}).context["form"]
    assert other.initial == {"person": "k-umaru"}


def test_a_meeting_is_written_with_the_article_that_asks_for_it(tmp_path: Path) -> None:
    desk = waiting(tmp_path)
    kim = desk.people["coordinator"]
    looked = kim.post(at("decide"), told(desk))
    assert (looked.status_code, looked.context["found"].after[0].waits) == (200, False)
    assert kim.post(at("decide"), told(desk, sure="yes")).status_code == 302
    [row] = desk.texts()["discipline.csv"].decode().splitlines()[1:]
    assert ("meeting_held" in row, "H 11.4" in row) == (True, True)


@pytest.mark.parametrize(
    "more",
    [
        {"ruled": "games", "games": "2"},
        {"ruled": "lifted"},
        {"person": "k-umaru"},
    ],
    ids=["games", "lifted", "nobody waits"],
)
def test_every_other_decision_names_its_article(tmp_path: Path, more: dict[str, str]) -> None:
    desk = waiting(tmp_path)
    page = desk.people["coordinator"].post(at("decide"), told(desk, **more))
    assert (page.status_code, [*page.context["form"].errors]) == (422, ["ref"])


def test_an_article_that_was_typed_is_kept(tmp_path: Path) -> None:
    desk = waiting(tmp_path)
    desk.people["coordinator"].post(at("decide"), told(desk, ref="H 11.5", sure="yes"))
    assert b"H 11.5" in desk.texts()["discipline.csv"]
