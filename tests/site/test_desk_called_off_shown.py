"""Today, the night and its packet say which games are off, and which of them are still on."""

import pytest
from django.test import Client

from cases.board_season import tonight
from cases.desk_season import at, member
from cases.nights import page_texts
from cases.stored import written_by
from wholeball.store.models import Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.night_papers import packet
from wholeball.usecases.print_booklet import Paper

pytestmark = pytest.mark.django_db
FIRST = tonight().date()
NOTICES = "date,site,field,state,next_word,says\n"
OFF = f"{NOTICES}{FIRST},North Lea,,off,,\n"
LATER = f"{OFF}{FIRST},,South 1,later,16:30,\n"
RESULTS = "game,round,date,home,away,home_goals,away_goals\n"


def say(season: Season, text: str, results: str = RESULTS) -> None:
    files = {"notices.csv": text, "results.csv": results}
    written_by(season).write({name: data.encode() for name, data in files.items()})


def words(page: str) -> str:
    return " ".join(page.split())


def of_today(client: Client) -> tuple[list[tuple[str, str, str]], str]:
    page = client.get(at("today"))
    games = page.context["today"].games
    return [(one.game, one.state, one.word) for one in games], words(page.content.decode())


def test_today_says_which_games_are_off_and_how_many_are_on(
    kim: Client, season: Season
) -> None:
    assert [word for _, _, word in of_today(kim)[0]] == ["scorekeeper missing"] * 3
    say(season, OFF)
    games, page = of_today(kim)
    assert games[0] == ("1", "off", "off")
    assert [word for _, _, word in games[1:]] == ["scorekeeper missing"] * 2
    assert "3 games from 19:00 on North 1, South 1 and West 1: 2 games on; 1 game off." in page


def test_today_asks_for_nothing_that_a_game_which_is_off_would_need(
    kim: Client, season: Season
) -> None:
    def asked() -> set[str]:
        return {one.of for one in kim.get(at("today")).context["today"].to_settle}

    assert {"1", "Ash", "Birch"} < asked()
    say(season, OFF)
    assert asked() == {"2", "3", "Cedar", "Dogwood", "Elm", "Fir"}


def test_today_tells_of_a_word_to_come_and_of_a_game_with_a_result(
    kim: Client, season: Season
) -> None:
    say(season, LATER, f"{RESULTS}3,1,{FIRST},Elm,Fir,2,1\n")
    games, page = of_today(kim)
    assert games == [
        ("1", "off", "off"),
        ("2", "on", "next word at 16:30"),
        ("3", "over", "certified"),
    ]
    counts = "1 game off; 1 game: next word at 16:30; 1 game with a result."
    assert counts in page


def test_a_night_without_a_word_counts_nothing_apart(kim: Client) -> None:
    assert kim.get(at("today")).context["today"].counts == ""
    assert kim.get(at("night", f"{FIRST}")).context["shown"].counts == ""


def test_the_night_says_which_games_are_off_and_takes_no_result_of_them(
    kim: Client, season: Season
) -> None:
    say(season, OFF)
    page = kim.get(at("night", f"{FIRST}"))
    shown, text = page.context["shown"], words(page.content.decode())
    assert [(one.game, one.state, one.word) for one in shown.games] == [
        ("1", "off", "off"),
        ("2", "before", "no result yet"),
        ("3", "before", "no result yet"),
    ]
    assert "3 games from 19:00: 2 games on; 1 game off." in text
    assert at("scorecard", "2") in text
    assert at("scorecard", "1") not in text
    assert shown.left == 2


def test_a_scorekeeper_reads_that_the_own_game_is_off(season: Season) -> None:
    crews = "game,role,official\n1,scorekeeper,Bo Tarn\n"
    written_by(season).write({"crews.csv": crews.encode()})
    say(season, OFF)
    page = member(season, "scorekeeper").get(at("night", f"{FIRST}"))
    text = words(page.content.decode())
    assert [(one.game, one.word) for one in page.context["shown"].games] == [("1", "off")]
    assert "1 game from 19:00: 1 game off." in text
    assert at("scorecard", "1") not in text


def test_a_game_that_waits_for_the_next_word_has_no_result_to_certify(
    kim: Client, season: Season
) -> None:
    say(season, LATER)
    page = kim.get(at("night", f"{FIRST}"))
    assert page.context["shown"].games[1].score == ""
    assert at("certify", "2") not in page.content.decode()
    assert at("scorecard", "2") in page.content.decode()


def pages_of(season: Season) -> list[str]:
    record = snapshot_of(Season.objects.get(pk=season.pk))
    return page_texts(packet(record, FIRST, paper=Paper("a4"), printed=tonight()))


def test_the_packet_says_which_game_is_off_and_leaves_its_papers_out(season: Season) -> None:
    before = pages_of(season)
    assert before[0].count("Called off") == 0
    assert sum("Ash" in one for one in before) == 3, "night sheet, gate list, scorecard"
    say(season, OFF)
    after = pages_of(season)
    assert "3 games, 2 on and 1 off, starts 19:00." in after[0]
    assert after[0].count("Called off: no scorecard and no gate list is in here.") == 1
    assert sum("Ash" in one for one in after) == 1
    assert sum("Elm" in one for one in after) == 3


def test_the_packet_is_a_night_sheet_where_every_game_is_off(season: Season) -> None:
    say(season, f"{NOTICES}{FIRST},,,off,,\n")
    pages = pages_of(season)
    assert "3 games, 0 on and 3 off" in pages[0]
    assert sum("Elm" in one for one in pages) == 1
