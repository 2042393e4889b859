"""The day on which a stopped game went on is written down at the desk, on its scorecard."""

from datetime import date
from pathlib import Path

import pytest
from django.test import Client

from cases.desk_season import DeskSeason, a_desk, at
from cases.paper_cards import ordinary
from cases.paper_season import author
from cases.stored import written_by
from wholeball.game.paper import PaperCard, PaperResumed
from wholeball.kernel.identity import GameId
from wholeball.usecases.enter_game import card_so_far, enter_card, game_to_enter

pytestmark = pytest.mark.django_db
GAME = GameId("A2")
SCORECARD = at("scorecard", GAME)
STOPPED = PaperResumed(why="weather", period=2, minutes_left=14)


def went_on(on: date | None) -> PaperCard:
    return ordinary().model_copy(update={"resumed": STOPPED.model_copy(update={"on": on})})


def card(desk: DeskSeason) -> PaperCard:
    return card_so_far(game_to_enter(written_by(desk.season), GAME))


def sheet(client: Client) -> dict[str, str]:
    """Return what the page of the scorecard would send if nothing was typed."""
    shown = client.get(SCORECARD).context
    fields = [one for part in shown["parts"].values() for one in part]
    typed = {one["asked"].name: one["value"] for one in fields}
    return {**typed, "entries": str(shown["entries"])}


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    made = a_desk(tmp_path)
    enter_card(game_to_enter(written_by(made.season), GAME), went_on(None), by=author(1))
    return made


def test_the_day_that_a_game_went_on_is_typed_on_its_scorecard(desk: DeskSeason) -> None:
    client = desk.people["coordinator"]
    assert card(desk) == went_on(None)
    sent = {**sheet(client), "resumed_on": "2026-09-20"}
    assert client.post(SCORECARD, sent).status_code == 302
    assert card(desk) == went_on(date(2026, 9, 20))
    page = client.get(SCORECARD).content.decode()
    assert '<input type="date" id="id_resumed_on" name="resumed_on" value="2026-09-20"' in page


def test_a_day_that_is_none_is_refused_beside_its_field(desk: DeskSeason) -> None:
    client = desk.people["coordinator"]
    answer = client.post(SCORECARD, {**sheet(client), "resumed_on": "2026-09-31"})
    assert answer.status_code == 422
    cure = "Give year, month and day, such as 2026-09-20."
    assert f'<a href="#id_resumed_on">The day the game went on: {cure}</a>' in (
        answer.content.decode()
    )
    assert card(desk) == went_on(None)


def test_a_game_that_was_not_resumed_is_asked_for_no_day(tmp_path: Path) -> None:
    client = a_desk(tmp_path).people["coordinator"]
    assert "resumed_on" not in sheet(client)
