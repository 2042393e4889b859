"""A game that has a result is not called off, and who was told of it before reads that it stays."""

import pytest
from django.core import mail
from django.test import Client
from pytest_django.fixtures import Settings

from cases.board_season import tonight
from cases.desk_officials import version
from cases.desk_season import at, member
from cases.stored import written_by
from wholeball.desk.tasks import send_mail
from wholeball.store.models import Occasion, Season

pytestmark = pytest.mark.django_db
NIGHT = tonight().date()
OFF = {
    "night": f"{NIGHT}",
    "place": "site:North Lea",
    "state": "off",
    "next_word": "",
    "says": "Standing water on the pitch.",
}


@pytest.fixture(autouse=True)
def _mail_goes_out(settings: Settings) -> None:
    settings.SENDS_MAIL = True


@pytest.fixture
def season(season: Season) -> Season:
    for team in ("Ash", "Birch", "Elm"):
        member(season, "captain", team=team, person=team)
    return season


def told() -> list[str]:
    return sorted(one.to[0].partition("@")[0] for one in mail.outbox)


ROWS = "game,round,date,home,away,home_goals,away_goals\n"
ASH_V_BIRCH = f"{ROWS}1,1,{NIGHT},Ash,Birch,2,1\n"


def test_a_game_that_has_a_result_is_not_called_off_and_nobody_is_told_of_it(
    kim: Client, season: Season
) -> None:
    written_by(season).write({"results.csv": ASH_V_BIRCH.encode()})
    word = kim.post(at("call_off"), {**OFF, "place": "all"}).context["word"]
    assert [one.game for one in word.games] == ["2", "3"]
    assert not any("Ash" in one.body or "Ash" in one.who for one in word.letters)
    assert word.public == "Tonight: 2 games off; 1 game with a result."
    page = kim.post(at("call_off"), OFF)
    assert (page.context["word"].games, page.context["word"].letters) == ((), ())
    assert "No game is still to be played there on that night." in page.content.decode()


def test_who_was_told_of_a_game_that_has_a_result_since_reads_that_this_stays(
    kim: Client, season: Season
) -> None:
    sure = {**OFF, "place": "all", "version": version(), "sure": "yes"}
    assert kim.post(at("call_off"), sure).status_code == 302
    occasion = Occasion.objects.get()
    send_mail.func(occasion.pk)
    before = told()
    assert before == ["captain.ash", "captain.birch", "captain.elm"]
    mail.outbox.clear()
    written_by(season).write({"results.csv": ASH_V_BIRCH.encode()})
    page = kim.get(at("take_back", occasion.pk))
    assert page.context["mails"] == len(before)
    kim.post(at("take_back", occasion.pk))
    send_mail.func(Occasion.objects.get(kind="correction").pk)
    assert told() == before
    by_who = {one.to[0].partition("@")[0]: one.body for one in mail.outbox}
    assert "has another place or has a result by now" in by_who["captain.ash"]
    assert "is on again" not in by_who["captain.ash"]
    assert "is on again" in by_who["captain.elm"]
