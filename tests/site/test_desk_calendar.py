"""The board: a draft that nobody else sees, rules in words before it is kept, and publishing."""

from datetime import timedelta

import pytest
from django.core import mail
from django.test import Client
from pytest_django.fixtures import Settings

from cases.board_season import tonight
from cases.desk_season import at, member
from cases.stored import written_by
from wholeball.store.models import Draft, Message, Season
from wholeball.store.snapshot import snapshot_of

pytestmark = pytest.mark.django_db
FIRST = tonight().date()
LATER = FIRST + timedelta(days=7)
CAPTAINS = ("Ash", "Birch", "Cedar", "Dogwood", "Elm", "Fir")


def place(field: str, start: str = "20:00", week: int = 0) -> str:
    return f"{FIRST + timedelta(days=7 * week)}|{start}|{field}"


def timetable(season: Season) -> str:
    now = Season.objects.get(pk=season.pk)
    return snapshot_of(now).texts["timetable.csv"].decode()


def move(client: Client, game: str, to: str, step: int = 0, **more: str) -> None:
    answer = client.post(at("move"), {"game": game, "place": to, "step": step, **more})
    assert answer.status_code == 302


def publish(client: Client, step: int) -> str:
    answer = client.post(at("publish"), {"step": step}, follow=True)
    return answer.content.decode()


def says(page: str, words: str) -> bool:
    return words in " ".join(page.split())


def test_a_move_is_judged_in_words_and_changes_nothing(kim: Client, season: Season) -> None:
    before = timetable(season)
    page = kim.get(at("calendar"), {"game": "1", "place": place("North 1", week=1)})
    broken = page.context["proposal"].broken
    assert [one.says for one in broken] == [
        f"{team} has 2 games on {LATER:%A} {LATER.day} {LATER:%B}; 1 at most."
        for team in ("Ash", "Birch")
    ]
    assert (timetable(season), Draft.objects.count()) == (before, 0)


def test_a_move_that_breaks_nothing_says_so(kim: Client) -> None:
    page = kim.get(at("calendar"), {"game": "1", "place": place("North 1")})
    assert page.context["proposal"].broken == ()
    assert says(page.content.decode(), "No must is broken by it")


def test_a_place_that_is_taken_offers_to_change_places(kim: Client) -> None:
    to = place("South 1", "19:00")
    page = kim.get(at("calendar"), {"game": "1", "place": to})
    assert says(page.content.decode(), "Change places with game <bdi>2</bdi>")
    move(kim, "1", to, swap="yes")
    text = Draft.objects.get().text
    assert f"1,1,{FIRST},19:00,South 1,Ash,Birch" in text
    assert f"2,1,{FIRST},19:00,North 1,Cedar,Dogwood" in text


def test_a_draft_is_kept_apart_undone_by_steps_and_thrown_away(
    kim: Client, season: Season
) -> None:
    before = timetable(season)
    move(kim, "1", place("North 1"))
    first = Draft.objects.get().text
    move(kim, "2", place("South 1"), step=1)
    assert timetable(season) == before
    kim.post(at("step_back"), {"step": 2})
    assert Draft.objects.get().text == first
    kim.post(at("step_back"), {"step": 3})
    assert Draft.objects.count() == 0
    move(kim, "1", place("North 1"))
    kim.post(at("throw_away"), {"step": 1})
    assert (Draft.objects.count(), timetable(season)) == (0, before)


def test_a_step_made_in_another_window_is_told_and_nothing_is_lost(kim: Client) -> None:
    move(kim, "1", place("North 1"))
    first = Draft.objects.get().text
    answer = kim.post(
        at("move"), {"game": "2", "place": place("South 1"), "step": 0}, follow=True
    )
    assert says(answer.content.decode(), "Your draft was changed in another window meanwhile.")
    assert Draft.objects.get().text == first


def test_whoever_is_concerned_is_shown_with_the_message_and_nobody_else(
    kim: Client, season: Season
) -> None:
    for team in CAPTAINS:
        member(season, "captain", team=team, person=team)
    member(season, "official", person="Ada Quill")
    member(season, "official", person="Bo Tarn")
    move(kim, "1", place("North 1"))
    page = kim.get(at("publish"))
    assert [one.who for one in page.context["letters"]] == [
        "Captain of Ash",
        "Captain of Birch",
        "An official: Ada Quill",
    ]
    ash = page.context["letters"][0].body
    day = f"{FIRST:%A} {FIRST.day} {FIRST:%B}"
    assert f"Game 1 against Birch moves from {day} at 19:00, North 1" in ash
    assert f"to {day} at 20:00, North 1." in ash
    assert (mail.outbox, Message.objects.count()) == ([], 0)


def test_publishing_writes_the_timetable_keeps_who_is_told(kim: Client, season: Season) -> None:
    member(season, "captain", team="Ash", person="Ash")
    move(kim, "1", place("North 1"))
    page = publish(kim, 1)
    assert says(page, "The timetable is published: 1 game moved.")
    assert f"1,1,{FIRST},20:00,North 1,Ash,Birch" in timetable(season)
    assert Draft.objects.count() == 0
    told = {(one.who, one.state) for one in Message.objects.all()}
    assert told == {
        ("Captain of Ash", "waiting"),
        ("Captain of Birch", "no_address"),
        ("An official: Ada Quill", "no_address"),
    }


def test_what_breaks_a_rule_is_not_published(kim: Client, season: Season) -> None:
    before = timetable(season)
    move(kim, "1", place("North 1", week=1))
    page = publish(kim, 1)
    day = f"{LATER:%A} {LATER.day} {LATER:%B}"
    assert says(
        page,
        "Nothing was published: the draft breaks 2 rules."
        f" Ash has 2 games on {day}; 1 at most. Birch has 2 games on {day}; 1 at most.",
    )
    assert (timetable(season), Draft.objects.count()) == (before, 1)


def test_a_draft_that_breaks_a_must_shows_which_and_has_no_button_to_publish(
    kim: Client,
) -> None:
    move(kim, "1", place("North 1", week=1))
    page = kim.get(at("publish"))
    day = f"{LATER:%A} {LATER.day} {LATER:%B}"
    assert [one.says for one in page.context["broken"]] == [
        f"{team} has 2 games on {day}; 1 at most." for team in ("Ash", "Birch")
    ]
    assert not says(page.content.decode(), '<button class="button main">Publish')
    assert says(page.content.decode(), "It cannot be published yet.")
    assert (page.context["number"], page.context["label"]) == (2, "rules broken")


def test_the_circle_counts_the_musts_that_are_shown_as_broken(kim: Client) -> None:
    assert kim.get(at("calendar")).context["breaks"] == ""
    judged = kim.get(at("calendar"), {"game": "1", "place": place("North 1", week=1)})
    assert judged.context["breaks"] == 2
    fine = kim.get(at("calendar"), {"game": "1", "place": place("North 1")})
    assert fine.context["breaks"] == 0
    move(kim, "1", place("North 1", week=1))
    assert kim.get(at("calendar")).context["breaks"] == 2
    mended = kim.get(at("calendar"), {"game": "1", "place": place("North 1")})
    assert mended.context["breaks"] == 0


def test_a_published_timetable_that_breaks_a_must_says_so_and_how_to_mend_it(
    kim: Client, season: Season
) -> None:
    row = f"field,site,date\nNorth 1,,{FIRST}\n"
    written_by(season).write({"closures.csv": row.encode()})
    page = kim.get(at("calendar"))
    assert [one.says for one in page.context["standing"]] == [
        f"North 1 on {FIRST:%A} {FIRST.day} {FIRST:%B} at 19:00 cannot be used."
    ]
    assert page.context["breaks"] == 1
    assert page.context["search"] == f"kind=repair&night={FIRST}&field=North+1"


def test_where_a_must_breaks_the_main_button_is_the_nearest_place_that_mends_it(
    kim: Client,
) -> None:
    clash = kim.get(at("calendar"), {"game": "1", "place": place("North 1", week=1)})
    text = " ".join(clash.content.decode().split())
    cure = clash.context["cure"]
    assert cure.night in (FIRST, LATER + timedelta(days=7))
    assert f'<button class="button main">Look at {cure.says}' in text
    assert '<button class="button">Keep it in your draft</button>' in text
    look = kim.get(at("calendar"), {"game": "1", "place": cure.key})
    assert look.context["proposal"].broken == ()


def test_a_game_that_was_played_keeps_its_place(kim: Client, season: Season) -> None:
    result = "game,round,home,away,home_goals,away_goals\n1,1,Ash,Birch,2,1\n"
    written_by(season).write({"results.csv": result.encode()})
    page = kim.get(at("calendar"), {"game": "1", "place": place("North 1")})
    text = page.content.decode()
    assert says(text, "It was played here, and keeps its place.")
    assert (page.context["proposal"], 'name="place"' in text) == (None, False)
    answer = kim.post(
        at("move"), {"game": "1", "place": place("North 1"), "step": 0}, follow=True
    )
    day = f"{FIRST:%A} {FIRST.day} {FIRST:%B}"
    assert says(answer.content.decode(), f"Game 1 was played: {day} at 19:00, North 1.")
    onto = kim.get(at("calendar"), {"game": "2", "place": place("North 1", "19:00")})
    assert says(onto.content.decode(), "It was played there, and stays.")
    assert not says(onto.content.decode(), "Change places")
    keys = [one.key for one in onto.context["places"]]
    assert place("South 1", "19:00") in keys
    assert Draft.objects.count() == 0


def test_a_place_that_is_taken_is_kept_by_a_swap_alone(kim: Client) -> None:
    to = place("South 1", "19:00")
    answer = kim.post(at("move"), {"game": "1", "place": to, "step": 0}, follow=True)
    text = answer.content.decode()
    assert says(text, "Game 2, Cedar v Dogwood, is there. Let the two change places")
    assert (Draft.objects.count(), ".csv" in text) == (0, False)


def test_the_list_of_places_names_the_game_to_change_with_and_not_the_game_itself(
    kim: Client,
) -> None:
    page = kim.get(at("calendar"), {"game": "1"})
    text = page.content.decode()
    day = f"{FIRST:%A} {FIRST.day} {FIRST:%B}"
    assert says(text, f">{day} 19:00, South 1: change places with game 2</option>")
    assert says(text, f">{day} 20:00, South 1, free</option>")
    assert place("North 1", "19:00") not in [one.key for one in page.context["places"]]


def test_messages_are_counted_by_those_that_have_an_address(
    kim: Client, season: Season, settings: Settings
) -> None:
    settings.SENDS_MAIL = True
    move(kim, "1", place("North 1"))
    assert says(kim.get(at("publish")).content.decode(), ">Publish</button>")
    member(season, "captain", team="Ash", person="Ash")
    page = kim.get(at("publish"))
    assert (page.context["mails"], page.context["by_hand"]) == (1, 2)
    assert says(page.content.decode(), ">Publish and send 1 message</button>")
    assert says(page.content.decode(), "1 goes out by mail; 2 are yours to tell.")
    assert f'href="/invitation/captains/?season={season.pk}"' in page.content.decode()


def test_the_second_of_two_sees_what_changed_and_loses_nothing(
    kim: Client, season: Season
) -> None:
    noor = member(season, "coordinator", person="Noor")
    move(kim, "1", place("North 1"))
    move(noor, "2", place("South 1"))
    publish(kim, 1)
    before = timetable(season)
    refused = publish(noor, 1)
    assert says(refused, "Another timetable was published while you worked on yours.")
    assert timetable(season) == before
    board = noor.get(at("calendar")).content.decode()
    day = f"{FIRST:%A} {FIRST.day} {FIRST:%B}"
    assert says(
        board,
        f"Game 1, Ash v Birch, moves from {day} at 19:00, North 1 to {day} at 20:00, North 1.",
    )
    noor.post(at("newest"), {"step": 1})
    assert says(publish(noor, 2), "The timetable is published: 1 game moved.")
    assert f"1,1,{FIRST},20:00,North 1,Ash,Birch" in timetable(season)
    assert f"2,1,{FIRST},20:00,South 1,Cedar,Dogwood" in timetable(season)


def test_a_game_that_both_moved_is_named(kim: Client, season: Season) -> None:
    noor = member(season, "coordinator", person="Noor")
    move(kim, "1", place("North 1"))
    move(noor, "1", place("North 1", "21:00"))
    publish(kim, 1)
    page = noor.post(at("newest"), {"step": 1}, follow=True).content.decode()
    assert says(page, "Game 1 was changed by both")
    assert f"1,1,{FIRST},21:00,North 1,Ash,Birch" in Draft.objects.get().text


@pytest.mark.parametrize("wrong", ["", "x", "2026-02-30|19:00|North 1", f"{FIRST}|25:00|N"])
def test_a_place_that_is_none_is_refused(kim: Client, wrong: str) -> None:
    assert kim.post(at("move"), {"game": "1", "place": wrong, "step": 0}).status_code == 400
