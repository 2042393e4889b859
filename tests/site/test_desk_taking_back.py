"""Taking back what people were told of tells them again; editions that counted are kept."""

from datetime import timedelta

import pytest
from django.test import Client

from cases.answers import said
from cases.board_season import tonight
from cases.desk_officials import version
from cases.desk_season import at, member
from cases.stored import written_by
from wholeball.files.timetable_edit import listed_games
from wholeball.store.models import Change, Draft, Message, Occasion, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.publish_edition import publish_edition

pytestmark = pytest.mark.django_db
FIRST = tonight().date()


@pytest.fixture
def season(season: Season) -> Season:
    member(season, "captain", team="Ash", person="Ash")
    return season


def texts(season: Season) -> dict[str, bytes]:
    return dict(snapshot_of(Season.objects.get(pk=season.pk)).texts)


def latest(season: Season, name: str) -> int:
    found = Change.objects.filter(season=season, name=name).order_by("-version").first()
    assert found is not None
    return found.pk


def published(client: Client, game: str, to: str) -> None:
    client.post(at("move"), {"game": game, "place": to, "step": 0})
    client.post(at("publish"), {"step": 1})


def test_a_timetable_is_taken_back_as_a_draft_and_the_same_people_are_told(
    kim: Client, season: Season
) -> None:
    before = texts(season)["timetable.csv"]
    published(kim, "1", f"{FIRST}|20:00|North 1")
    new = texts(season)["timetable.csv"]
    page = kim.post(at("undo"), {"change": latest(season, "timetable.csv")}, follow=True)
    assert page.redirect_chain == [(at("publish"), 302)]
    assert texts(season)["timetable.csv"] == new
    assert [one.who for one in page.context["letters"] if one.address] == ["Captain of Ash"]
    day = f"{FIRST:%A} {FIRST.day} {FIRST:%B}"
    says = f"moves from {day} at 20:00, North 1 to {day} at 19:00, North 1."
    assert says in page.context["letters"][0].body
    kim.post(at("publish"), {"step": Draft.objects.get().step})
    assert listed_games(texts(season)["timetable.csv"]) == listed_games(before)
    told = Message.objects.filter(who="Captain of Ash").order_by("pk")
    assert [says in one.body for one in told] == [False, True]


def test_a_word_on_a_night_is_not_taken_back_without_a_correction(
    kim: Client, season: Season
) -> None:
    off = {"night": f"{FIRST}", "place": "all", "state": "off", "next_word": "", "says": ""}
    kim.post(at("call_off"), {**off, "version": version(), "sure": "yes"})
    before = texts(season)
    page = kim.post(at("undo"), {"change": latest(season, "notices.csv")}, follow=True)
    assert page.redirect_chain == [(at("message", Occasion.objects.get().pk), 302)]
    assert "so that everybody who was told reads a correction" in page.content.decode()
    assert texts(season) == before


def edition(season: Season) -> None:
    book = texts(season)["rulebook.toml"]
    text = book.replace(b"minutes = 20", b"minutes = 19")
    publish_edition(written_by(season), base=book, text=text)


def test_an_edition_is_taken_back_by_one_more_and_the_one_that_counted_is_kept(
    kim: Client, season: Season
) -> None:
    first = texts(season)["rulebook.toml"]
    edition(season)
    second = texts(season)["rulebook.toml"]
    kim.post(at("undo"), {"change": latest(season, "rulebook.toml")})
    now = texts(season)
    assert now["rulebook.toml"] == first
    kept = {name: text for name, text in now.items() if name.startswith("editions/")}
    assert kept == {"editions/1.toml": first, "editions/2.toml": second}


def test_an_edition_that_was_replaced_is_never_taken_out(kim: Client, season: Season) -> None:
    edition(season)
    before = texts(season)
    page = kim.post(at("undo"), {"change": latest(season, "editions/1.toml")}, follow=True)
    assert "games may have been played by it" in page.content.decode()
    assert texts(season) == before


def test_what_was_taken_out_comes_back_once_however_often_it_is_clicked(
    kim: Client, season: Season
) -> None:
    for day in (FIRST + timedelta(days=1), FIRST + timedelta(days=2)):
        kim.post(at("days_off"), {"day": f"{day}", "until": "", "why": "Break."})
    before = texts(season)["closures.csv"]
    row = {"row": "2", "version": version()}
    assert kim.post(at("drop_day_off"), row).status_code == 302
    change = latest(season, "closures.csv")
    kim.post(at("undo"), {"change": change})
    assert texts(season)["closures.csv"] == before
    assert said(kim.post(at("undo"), {"change": change})) == (
        "What was taken out of closures.csv stands there again. There is nothing to take back."
    )
    kim.post(at("drop_day_off"), {**row, "version": version()})
    kim.post(
        at("days_off"), {"day": f"{FIRST + timedelta(days=1)}", "until": "", "why": "Break."}
    )
    after = texts(season)["closures.csv"]
    kim.post(at("undo"), {"change": change})
    assert texts(season)["closures.csv"] == after
