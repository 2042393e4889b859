"""The line that everybody reads first follows from what is closed and what was said."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from django.test import Client
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.noticeboard_season import (
    EXAMPLE,
    NOTICES,
    ROOT,
    board,
    change,
    public_season,
    still_to_play,
    text,
)
from wholeball.files.closures import Closure
from wholeball.kernel.identity import GameId, SiteId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.notice import Notice
from wholeball.reports.figures import score
from wholeball.reports.noticeboard_page import PlaceTold, TonightTold
from wholeball.store.models import Season
from wholeball.usecases.noticeboard_pages import field_of, night_of, team_of, week_page
from wholeball.usecases.show_noticeboard import front_of
from wholeball.usecases.tonight import Told, _told, line, tonight

pytestmark = pytest.mark.django_db
NIGHT = date(2026, 10, 13)
AFTERNOON = "2026-10-13T21:10"
"""16:10 in Chicago, on daylight saving time."""


def unplayed_season(**files: str) -> Season:
    """Return the season of which no game of the night has a result."""
    return public_season(results_csv=still_to_play(f"{NIGHT}"), **files)


def told(now: str = AFTERNOON, **files: str) -> TonightTold:
    shown = board(unplayed_season(**files), now)
    return line(tonight(shown.read, shown.local.date()), shown.local)


def test_a_night_of_which_nothing_was_said_is_on() -> None:
    assert told() == TonightTold(word="on", says="Tonight is on: 6 games, the first at 18:30.")


RESULTS = (EXAMPLE / "results.csv").read_text(encoding="utf-8")
W51 = next(row for row in RESULTS.splitlines() if row.startswith("W51,"))


def test_a_game_with_a_result_is_neither_on_nor_off_and_shows_its_score() -> None:
    notices = f"{NOTICES}2026-10-13,,,off,,Standing water.\n"
    results = f"{still_to_play(f'{NIGHT}')}{W51}\n"
    season = public_season(notices_csv=notices, results_csv=results)
    page = " ".join(front_of(board(season, AFTERNOON)).split())
    assert "<strong>Tonight: 5 games off; 1 game with a result.</strong>" in page
    games = page[page.index("Games tonight") :]
    assert (games.count(">off</span>"), games.count(">on</span>")) == (5, 0)
    line = games[games.index("Nutmeg Theory") : games.index("</li>")]
    assert "<bdi>18:30, Lower Meadow 1</bdi></small>" in line
    assert f'<span class="tick">{score(2, 2)}</span>' in line


def test_a_night_of_which_every_game_has_a_result_says_so() -> None:
    shown = board(public_season(notices_csv=f"{NOTICES}2026-10-13,,,off,,\n"), AFTERNOON)
    assert line(tonight(shown.read, NIGHT), shown.local) == TonightTold(
        word="over", says="Tonight: every game has a result."
    )
    assert ">off</span>" not in front_of(shown)


def test_a_day_without_a_game_says_so() -> None:
    assert told("2026-10-14T21:10") == TonightTold(word="none", says="No game tonight.")


def test_the_day_is_that_of_the_league_and_not_of_the_server() -> None:
    season = unplayed_season()
    late, next_day = board(season, "2026-10-14T04:59"), board(season, "2026-10-14T05:00")
    assert line(tonight(late.read, late.local.date()), late.local).word == "on"
    assert line(tonight(next_day.read, next_day.local.date()), next_day.local).word == "none"


def test_the_next_word_is_promised_until_its_minute_and_overdue_from_it_on() -> None:
    notices = f"{NOTICES}2026-10-13,,,later,16:30,The ground staff look at four.\n"
    before = told("2026-10-13T21:29", notices_csv=notices)
    assert before == TonightTold(
        word="later",
        says="Tonight: next word at 16:30.",
        more=("The ground staff look at four.",),
    )


def test_a_promise_that_has_lapsed_is_told_as_such() -> None:
    notices = f"{NOTICES}2026-10-13,,,later,16:30,\n"
    assert told("2026-10-13T21:30", notices_csv=notices).says == (
        "Tonight: next word was due at 16:30."
    )


def test_only_the_north_is_off_and_a_correction_puts_it_on_again() -> None:
    off = f"{NOTICES}2026-10-13,North,,off,,Standing water.\n"
    season = unplayed_season(notices_csv=off)
    shown = board(season, AFTERNOON)
    assert line(tonight(shown.read, NIGHT), shown.local) == TonightTold(
        word="later",
        says="Tonight: 3 games on; 3 games off.",
        places=(
            PlaceTold(place="North", word="off", says="off", more="Standing water."),
            PlaceTold(place="South", word="on", says="on"),
        ),
    )
    change(season, notices_csv=f"{off}2026-10-13,North,,on,,\n")
    shown = board(season, AFTERNOON)
    assert line(tonight(shown.read, NIGHT), shown.local).says == (
        "Tonight is on: 6 games, the first at 18:30."
    )


def test_what_is_closed_is_off_whatever_was_said() -> None:
    closed = "field,site,date,last_date,from,until,why\n,North,2026-10-13,,,,Works\n"
    says = told(closures_csv=closed, notices_csv=f"{NOTICES}2026-10-13,,,on,,\n")
    assert says.says == "Tonight: 3 games on; 3 games off."


def test_a_closure_that_ends_at_the_start_leaves_the_game_and_a_minute_later_does_not() -> None:
    closed = "field,site,date,last_date,from,until,why\nLower Meadow 1,,2026-10-13,,17:00,{},\n"
    assert told(closures_csv=closed.format("18:30")).word == "on"


def test_a_closure_that_ends_a_minute_after_the_start_takes_the_game() -> None:
    closed = (
        "field,site,date,last_date,from,until,why\nLower Meadow 1,,2026-10-13,,17:00,18:31,\n"
    )
    assert told(closures_csv=closed).says == "Tonight: 5 games on; 1 game off."


def test_the_front_page_has_the_line_the_games_and_no_word_safe() -> None:
    notices = f"{NOTICES}2026-10-13,South,,later,16:30,\n"
    page = front_of(board(unplayed_season(notices_csv=notices), AFTERNOON))
    assert "<strong>Tonight: 3 games on; 3 games: next word at 16:30.</strong>" in page
    assert "Tuesday 13 October 2026" in page
    assert "safe" not in page.lower()


def test_the_front_page_of_the_site_is_that_of_today(client: Client) -> None:
    season = public_season()
    today = datetime.now(tz=UTC).astimezone(ZoneInfo("America/Chicago")).date()
    year = text(season, "season.toml").replace("2026-12-04", f"{today + timedelta(days=30)}")
    row = f"T1,9,{today},23:59,Lower Meadow 1,Library Fines,Nutmeg Theory,\n"
    change(season, season_toml=year, timetable_csv=text(season, "timetable.csv") + row)
    first = client.get(ROOT)
    assert b"Tonight is on: 1 game, the first at 23:59." in first.content
    change(season, notices_csv=f"{NOTICES}{today},,,off,,\n")
    second = client.get(ROOT, HTTP_IF_NONE_MATCH=first.headers["ETag"])
    assert second.status_code == 200
    assert b"Tonight is off." in second.content


def test_a_game_called_off_is_off_in_every_list_until_it_has_a_result() -> None:
    rows = "T1,9,2026-12-01,19:00,Lower Meadow 1,Library Fines,Nutmeg Theory,\n"
    season = public_season()
    change(season, timetable_csv=text(season, "timetable.csv") + rows)
    change(
        season,
        notices_csv=f"{NOTICES}2026-12-01,North,,off,,\n2026-10-13,,,off,,\n",
    )
    shown = board(season, "2026-12-01T20:00")
    for page in (
        night_of(shown, date(2026, 12, 1)),
        team_of(shown, "Library Fines"),
        field_of(shown, "Lower Meadow 1"),
    ):
        assert "game <bdi>T1</bdi>, off</small>" in page
        assert page.count(", off</small>") == 1
    assert "<bdi>T1</bdi>, off</span>" in week_page(shown, None)


words = st.sampled_from(("on", "off"))
places = st.sampled_from(
    ((None, None), ("Field 1", None), ("Field 2", None), (None, "North"), (None, "South"))
)


@given(said=st.lists(st.tuples(places, words), max_size=6), is_closed=st.booleans())
@settings(deadline=None)
def test_the_last_word_about_a_field_holds_and_a_closure_beats_it(
    *, said: list[tuple[tuple[str | None, str | None], str]], is_closed: bool
) -> None:
    notices = [
        Notice(
            night=NIGHT,
            state="on" if word == "on" else "off",
            field=field,
            site=None if site is None else SiteId(site),
        )
        for (field, site), word in said
    ]
    closure = Closure(
        row=2, field=None, site="North", first=NIGHT, last=NIGHT, begins=None, ends=None, why=""
    )
    game = Fixture(
        game=GameId("1"),
        round=1,
        day=NIGHT,
        start=datetime(2026, 10, 13, 19, tzinfo=UTC).time(),
        field="Field 1",
        home=TeamId("Ash"),
        away=TeamId("Birch"),
    )
    about = [word for (field, site), word in said if field != "Field 2" and site != "South"]
    expected = "off" if is_closed else about[-1] if about else "on"
    found = _told(game, SiteId("North"), notices, [closure] if is_closed else [])
    assert found == Told(expected)  # type: ignore[arg-type] # the two words above
