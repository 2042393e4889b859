"""A scorecard is typed in at the desk: what it asks, what stands, and what is open before certifying."""

from datetime import datetime, tzinfo
from pathlib import Path

import pytest
from django.test import Client

from cases.desk_season import DeskSeason, a_desk, at
from wholeball.kernel.identity import GameId

pytestmark = pytest.mark.django_db
GAME = GameId("A2")
SHEET = {
    "period_1": "1-1",
    "period_2": "0-0",
    "rating_official_home": "4",
    "rating_official_away": "5",
    "signed": "hao",
}
TO_COME = "It starts only on Thursday 17 September 2026 at 19:00."


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


class TheDayBefore(datetime):
    """A clock that stands still at noon, on the day before game A2."""

    @classmethod
    def now(cls, tz: tzinfo | None = None) -> "TheDayBefore":
        return cls(2026, 9, 16, 12, tzinfo=tz)


@pytest.fixture
def _ahead(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("wholeball.desk.views.access.datetime", TheDayBefore)


def words(client: Client, name: str, *args: object) -> str:
    return " ".join(client.get(at(name, *args)).content.decode().split())


def kept(client: Client, **answers: str) -> str:
    """Type the scorecard of A2 over what it has, and return the page of the game."""
    fields = client.get(at("scorecard", GAME)).context
    typed = {
        one["asked"].name: one["value"] for part in fields["parts"].values() for one in part
    }
    sent = {**typed, **SHEET, **answers, "entries": str(fields["entries"])}
    answer = client.post(at("scorecard", GAME), sent)
    assert answer.status_code == 302, answer.content.decode()
    return words(client, "game", GAME)


def test_a_minute_typed_behind_a_number_stands_as_a_minute(kim: Client) -> None:
    page = kept(kim, yellow="h4 31 reckless tackle")
    assert "minute 31: <bdi>reckless tackle</bdi>" in page
    assert "h4 31 reckless tackle" in words(kim, "scorecard", GAME)


def test_what_few_scorecards_hold_is_folded_until_it_holds_something(kim: Client) -> None:
    fold = '<details class="half"><summary><span>More on this scorecard'
    assert fold in words(kim, "scorecard", GAME)
    kept(kim, scorers_1="h4")
    assert fold not in words(kim, "scorecard", GAME)


def test_an_injury_is_pointed_to_the_report_and_named_nothing(kim: Client) -> None:
    page = words(kim, "scorecard", GAME)
    assert "what was seen and when; not what it may have been" in page
    assert "does not come back that day; the local policy says when later." in page


def test_a_protest_comes_in_at_the_desk_and_waits_on_today_for_a_ruling(kim: Client) -> None:
    page = kept(kim, protest_away="eligibility", protest_minute_away="40")
    assert "protests against a player" in page
    assert "minute 40" in page
    assert "waits for a ruling" in words(kim, "today")
    assert "disputed" in words(kim, "certify", GAME)
    assert "Protests" not in kept(kim, protest_away="", protest_minute_away="")


def test_a_fight_of_both_is_nobodys_win_and_the_coordinator_rules(kim: Client) -> None:
    page = kept(kim, ended="b", by="b", why="disorder", minutes_left="5")
    assert "It was broken off by both sides, and the coordinator decides" in page
    assert "waits for the coordinator" in words(kim, "today")


def test_disorder_with_nobody_to_blame_asks_what_stands(kim: Client) -> None:
    page = kept(kim, ended="b", by="", why="disorder", minutes_left="5")
    assert "nobody wrote down that a side is to blame. Say whether" in page
    asked = kim.get(at("questions", GAME)).context["questions"]
    [question] = [one.question for one in asked]
    assert (question.code, question.counts) == ("disorder", True)
    kim.post(
        at("answer", GAME),
        {
            "event": question.event,
            "code": question.code,
            "answer": "does_not_count",
            "reason": "Both captains say so.",
        },
    )
    assert "It was broken off, and the coordinator decides" in words(kim, "game", GAME)


def test_full_time_stands_as_typed_beyond_the_mercy_lead_and_is_asked_about(
    kim: Client,
) -> None:
    page = kept(kim, period_1="11-0", period_2="2-0")
    assert "It ended at full time" in page
    assert "It ended by the mercy rule" not in page
    assert (
        "By <bdi>the mercy rule</bdi> it would have ended <bdi>in the second half, about minute 37</bdi>"
        in page
    )
    mended = kept(kim, period_1="11-0", period_2="2-0", ended="m")
    assert "It ended by the mercy rule" in mended
    assert "open question" not in mended


@pytest.mark.usefixtures("_ahead")
def test_a_game_to_come_says_so_before_it_is_kept_and_before_it_is_certified(
    kim: Client,
) -> None:
    assert TO_COME in words(kim, "scorecard", GAME)
    assert TO_COME not in words(kim, "game", GAME)
    assert TO_COME in kept(kim)
    page = words(kim, "certify", GAME)
    assert (TO_COME in page, "nothing open" in page) == (True, False)


def test_a_game_that_was_played_says_nothing_of_its_start(kim: Client) -> None:
    assert "It starts only" not in words(kim, "scorecard", GAME)
    assert "It starts only" not in kept(kim)
    page = words(kim, "certify", GAME)
    assert ("It starts only" in page, "nothing open" in page) == (False, True)


def test_certifying_is_the_main_button_once_nothing_else_is_open(kim: Client) -> None:
    certify, mend = at("certify", GAME), at("scorecard", GAME)
    ready = kept(kim)
    assert f'<a class="button main" href="{certify}">Certify the result</a>' in ready
    assert f'<a class="button plain" href="{mend}">Mend the scorecard</a>' in ready
    for answers in (
        {"protest_home": "eligibility"},
        {"refused": "a Not our goal.", "signed": "ho"},
    ):
        page = kept(kim, **{"protest_home": "", "refused": "", **answers})
        assert f'<a class="button main" href="{mend}">Mend the scorecard</a>' in page
        assert f'<a class="button" href="{certify}">Certify the result</a>' in page


@pytest.mark.usefixtures("_ahead")
def test_a_night_to_come_counts_its_games_and_one_gone_by_what_is_not_certified(
    kim: Client,
) -> None:
    to_come, gone = (
        kim.get(at("night", day)).context["shown"] for day in ("2026-09-17", "2026-09-15")
    )
    assert (to_come.head, to_come.head_label) == (2, "games")
    assert (gone.head, gone.head_label) == (1, "not certified")


@pytest.mark.parametrize(
    ("answers", "told"),
    [
        ({"period_2": ""}, "Fill in the goals of the second half, 0-0 where there were none"),
        ({"ended": "b", "why": "lights"}, "Fill it in: the game ended before its time."),
        ({"ended": "d", "by": "b", "in_time": "y"}, "Choose the one side that defaults"),
    ],
)
def test_slips_are_told_in_words_of_the_sheet_at_its_fields(
    kim: Client, answers: dict[str, str], told: str
) -> None:
    answer = kim.post(at("scorecard", GAME), {"entries": "0", **SHEET, **answers})
    page = answer.content.decode()
    assert (answer.status_code, told in page) == (422, True)
    for word in (
        "[broken_off]",
        "[forfeit]",
        "minutes_left is",
        "periods has",
        "Give h for home",
    ):
        assert word not in page


def test_a_refusal_to_sign_is_quoted_to_the_desk_and_not_to_the_public(
    desk: DeskSeason, kim: Client
) -> None:
    desk.season.is_public = True
    desk.season.save()
    page = kept(kim, signed="ho", refused="a Not our goal.")
    assert (
        "The away captain</bdi> refused to sign the scorecard: <bdi>Not our goal</bdi>." in page
    )
    public = Client().get(f"/harrow-fen/autumn/games/{GAME}/").content.decode()
    assert "The result is not official yet" in public
    for word in (
        "Not our goal",
        "Answer each question",
        "Until somebody answers",
        "counts as it is",
    ):
        assert word not in public


def test_a_score_is_one_piece_wherever_a_sentence_has_it(kim: Client) -> None:
    page = kept(kim)
    assert 'Counts <bdi><span class="score">1\u20131</span></bdi>, as played.' in page
