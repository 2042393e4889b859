"""A night at the desk: a scorecard is typed in, certified, reopened and ruled on; all is kept."""

from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from pypdf import PdfReader

from cases.desk_season import DeskSeason, a_desk, at, member
from cases.nights import page_texts
from wholeball.game.paper import PaperCard
from wholeball.store.models import AuditRow
from wholeball.usecases import typed_scorecard

pytestmark = pytest.mark.django_db
COUNTS = 'Counts <span class="score">1\u20130</span>, as played.'
SHEET = {
    "period_1": "1-0",
    "period_2": "0-0",
    "yellow": "h7 dissent",
    "rating_official_home": "4",
    "rating_official_away": "5",
    "signed": "hao",
}


def posted(client: Client, name: str, *args: str, **sent: str) -> tuple[int, str]:
    """Send a form, and return the status and the page that it leads to."""
    answer = client.post(at(name, *args), sent)
    if answer.status_code != 302:
        return answer.status_code, answer.content.decode()
    return 302, client.get(answer.headers["Location"]).content.decode()


def certified(client: Client, game: str) -> tuple[int, str]:
    """Look at a game, and certify what was seen."""
    seen = client.get(at("certify", game)).context["entries"]
    return posted(client, "certify", game, reason="", entries=f"{seen}")


def entries(client: Client) -> str:
    """Return how many entries game A2 has, as its page says."""
    return str(client.get(at("game", "A2")).context["entries"])


def stepped(client: Client, way: str, seen: str = "") -> tuple[int, str]:
    """Take an entering of game A2 back, or bring it back, on a page that has `seen` so many."""
    return posted(client, "step", "A2", way=way, entries=seen or entries(client))


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def coordinator(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def test_a_scorecard_typed_in_on_one_sheet_is_the_result(
    desk: DeskSeason, coordinator: Client
) -> None:
    status, page = posted(coordinator, "scorecard", "A2", entries="0", **SHEET)
    assert status == 302
    assert COUNTS in page
    assert "games/A2.jsonl" in desk.texts()


def test_what_cannot_be_read_is_told_beside_its_field_and_everything_typed_stays(
    desk: DeskSeason, coordinator: Client
) -> None:
    wrong = {**SHEET, "period_2": "two", "signed": "z"}
    status, page = posted(coordinator, "scorecard", "A2", entries="0", **wrong)
    assert status == 422
    assert 'href="#id_period_2">Second half: Give two numbers, home first, such as 2-1.' in page
    assert page.count('aria-invalid="true"') == 2
    assert ('value="1-0"' in page, "h7 dissent" in page) == (True, True)
    assert "games/A2.jsonl" not in desk.texts()


def test_of_two_who_type_at_once_the_second_is_told_and_loses_nothing(
    desk: DeskSeason, coordinator: Client
) -> None:
    posted(coordinator, "scorecard", "A2", entries="0", **SHEET)
    before = desk.texts()
    later = {**SHEET, "period_2": "0-3"}
    status, page = posted(coordinator, "scorecard", "A2", entries="0", **later)
    assert (status, desk.texts()) == (409, before)
    assert "Somebody else entered something of this game while you typed." in page
    assert 'value="0-3"' in page


def test_undo_takes_the_last_entering_back_and_redo_brings_it_again(
    coordinator: Client,
) -> None:
    posted(coordinator, "scorecard", "A2", entries="0", **SHEET)
    _, back = stepped(coordinator, "undo")
    _, again = stepped(coordinator, "redo")
    assert "Nothing is recorded of this game yet." in back
    offered = [f'name="way" value="{way}"' in back for way in ("undo", "redo")]
    assert offered == [False, True]
    assert COUNTS in again


def test_a_second_click_takes_no_second_entering_back(
    desk: DeskSeason, coordinator: Client
) -> None:
    posted(coordinator, "scorecard", "A2", entries="0", **SHEET)
    later = {**SHEET, "period_2": "0-3"}
    posted(coordinator, "scorecard", "A2", entries=entries(coordinator), **later)
    seen = entries(coordinator)
    _, once = stepped(coordinator, "undo", seen)
    assert (COUNTS in once, entries(coordinator) != seen) == (True, True)
    before = desk.texts()
    _, twice = stepped(coordinator, "undo", seen)
    assert "Something was entered about game A2 while you looked at it." in twice
    assert desk.texts() == before


def test_of_two_who_send_a_sheet_at_once_the_second_takes_nothing_of_the_first_back(
    desk: DeskSeason, coordinator: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    other, firsts = member(desk.season, "coordinator", person="Tess"), iter(("once",))
    first: dict[str, bytes] = {}

    def card_of(*typed: Any, **named: Any) -> PaperCard:
        """Let the other one be the first who holds the game."""
        if next(firsts, ""):
            sent = {"entries": "0", **SHEET}
            assert other.post(at("scorecard", "A2"), sent).status_code == 302
            first.update(desk.texts())
        return typed_scorecard.card_of(*typed, **named)

    monkeypatch.setattr("wholeball.desk.views.games.card_of", card_of)
    later = {**SHEET, "period_2": "0-3"}
    status, page = posted(coordinator, "scorecard", "A2", entries="0", **later)
    assert (status, 'value="0-3"' in page) == (409, True)
    assert "Somebody else entered something of this game while you typed." in page
    assert desk.texts() == first


def test_certifying_shows_who_has_not_signed_and_what_comes_later_changes_nothing(
    coordinator: Client,
) -> None:
    posted(coordinator, "scorecard", "A2", entries="0", **{**SHEET, "signed": "ho"})
    page = coordinator.get(at("certify", "A2")).content.decode()
    assert "The away captain has not signed the scorecard." in page
    assert "The home captain has not signed" not in page
    status, page = certified(coordinator, "A2")
    assert (status, "Certified by <bdi>coordinator</bdi>." in page) == (302, True)
    status, page = certified(coordinator, "A2")
    assert (status, "is certified already" in page) == (422, True)


def test_a_game_that_has_not_ended_is_not_certified(coordinator: Client) -> None:
    status, page = certified(coordinator, "A3")
    assert status == 422
    assert "has not ended by what is recorded of it." in page


def test_a_result_is_reopened_for_a_reason_only(coordinator: Client) -> None:
    certified(coordinator, "A1")
    seen = str(coordinator.get(at("reopen", "A1")).context["entries"])
    status, page = posted(coordinator, "reopen", "A1", reason=" ", entries=seen)
    assert (status, "<p>Fill it in.</p>" in page) == (422, True)
    why = "A goal was left out."
    status, page = posted(coordinator, "reopen", "A1", reason=why, entries=seen)
    assert (status, "Certify the result" in page) == (302, True)


def test_an_award_shows_both_versions_first_and_writes_when_sure(
    desk: DeskSeason, coordinator: Client
) -> None:
    before = desk.texts()
    ruling = {"to": "away", "goals": "0-3", "ref": "H 3.5", "why": "An ineligible player."}
    status, page = posted(coordinator, "award", "A1", **ruling)
    assert (status, desk.texts()) == (200, before)
    shown = page.split("What changes")[1]
    assert ("<dd>3\u20132</dd>" in shown, "<strong>0\u20133</strong>" in shown) == (True, True)
    version = str(desk.season.__class__.objects.get(pk=desk.season.pk).version)
    status, page = posted(coordinator, "award", "A1", **ruling, sure="yes", version=version)
    assert (status, "Ruling 1 (H 3.5): <bdi>An ineligible player.</bdi>" in page) == (302, True)
    assert desk.texts()["games/A1.jsonl"] == before["games/A1.jsonl"]


def test_a_ruling_upon_an_older_version_is_refused_and_says_what_changed(
    desk: DeskSeason, coordinator: Client
) -> None:
    version = str(desk.season.__class__.objects.get(pk=desk.season.pk).version)
    first = {"to": "away", "goals": "0-3", "ref": "H 3.5", "why": "One.", "sure": "yes"}
    posted(coordinator, "award", "A1", **first, version=version)
    before = desk.texts()
    status, page = posted(
        coordinator, "award", "A1", **{**first, "why": "Two."}, version=version
    )
    assert (status, desk.texts()) == (422, before)
    assert "It was changed while you worked on it." in page
    assert "Two." in page


def test_goals_that_do_not_fit_the_side_are_told_beside_the_form(coordinator: Client) -> None:
    ruling = {"to": "home", "goals": "0-3", "ref": "H 3.5", "why": "Why."}
    status, page = posted(coordinator, "award", "A1", **ruling)
    assert (status, "does not fit." in page) == (422, True)


def test_each_official_reads_only_their_own_report_and_a_captain_none(desk: DeskSeason) -> None:
    referee, keeper = desk.people["official"], desk.people["scorekeeper"]
    posted(referee, "report_incident", "A1", says="Two players fought at midfield.")
    posted(keeper, "report_incident", "A1", says="I saw a punch.\nThen another.")
    pages = {
        role: desk.people[role].get(at("game", "A1")).content.decode()
        for role in ("official", "scorekeeper", "coordinator", "captain")
    }
    assert {role: ("fought" in page, "punch" in page) for role, page in pages.items()} == {
        "official": (True, False),
        "scorekeeper": (False, True),
        "coordinator": (True, True),
        "captain": (False, False),
    }
    log = desk.texts()["games/A1.jsonl"]
    assert (b"fought" in log, b"punch" in log) == (False, False)
    noted = AuditRow.objects.filter(did="saw", what="autumn: 2 reports about game A1")
    assert noted.count() == 1


@pytest.mark.parametrize(("says", "status"), [("", 422), ("x" * 5000, 302), ("x" * 5001, 422)])
def test_a_report_has_from_one_to_5000_characters(
    desk: DeskSeason, says: str, status: int
) -> None:
    assert posted(desk.people["official"], "report_incident", "A1", says=says)[0] == status


def test_a_report_with_quotes_lines_and_other_alphabets_is_read_as_it_was_written(
    desk: DeskSeason,
) -> None:
    says = 'He said "no" \\ twice.\n\u0645\u062c\u0631\u0629 and \u00dcberholt'
    posted(desk.people["official"], "report_incident", "A1", says=says)
    page = desk.people["coordinator"].get(at("game", "A1"))
    assert [one.says for one in page.context["reports"]] == [says]


def test_the_packet_is_a_pdf_of_that_night_and_its_reading_is_noted(
    coordinator: Client,
) -> None:
    answer = coordinator.get(at("packet", "2026-09-15"))
    assert answer.headers["Content-Type"] == "application/pdf"
    text = " ".join(page_texts(answer.content))
    assert ("Ash" in text, "Cedar" in text) == (True, False)
    assert AuditRow.objects.filter(what="autumn: the packet of 2026-09-15").count() == 1


@pytest.mark.parametrize(
    ("asked", "wide"), [({}, 612), ({"paper": "us-letter"}, 612), ({"paper": "a4"}, 595)]
)
def test_papers_are_laid_out_for_letter_in_chicago_unless_another_is_asked_for(
    coordinator: Client, asked: dict[str, str], wide: int
) -> None:
    """Points: Letter is 612 wide (ANSI Y14.1, size A), A4 595 (ISO 216)."""
    made = coordinator.get(at("packet", "2026-09-15"), asked).content
    assert round(PdfReader(BytesIO(made)).pages[0].mediabox.width) == wide


def test_an_unknown_paper_is_refused(coordinator: Client) -> None:
    answer = coordinator.get(at("packet", "2026-09-15"), {"paper": "napkin"})
    assert answer.status_code == 400


def test_an_open_question_is_answered_with_a_reason(
    desk: DeskSeason, coordinator: Client
) -> None:
    lopsided = {**SHEET, "rating_official_away": "1", "reason_official_away": ""}
    posted(coordinator, "scorecard", "A2", entries="0", **lopsided)
    page = coordinator.get(at("questions", "A2"))
    [question] = page.context["questions"]
    key = {"event": question.question.event, "code": question.question.code}
    sent = {**key, "answer": question.answers[0][0]}
    status, _ = posted(coordinator, "answer", "A2", **sent, reason="")
    assert status == 422
    status, page_text = posted(
        coordinator, "answer", "A2", **sent, reason="Both captains agree."
    )
    assert (status, "No question about this game is open." in page_text) == (302, True)
    status, page_text = posted(coordinator, "answer", "A2", **sent, reason="Again.")
    assert (status, "That question is open no more." in page_text) == (302, True)
    assert b"Again." not in desk.texts()["games/A2.jsonl"]


def test_a_refusal_about_a_game_says_which_row_in_people_s_words_and_leads_back_to_the_game(
    tmp_path: Path,
) -> None:
    results = "game,round,home,away,home_goals,away_goals\nA2,2,Birch,Ash,2,1\n"
    coordinator = a_desk(tmp_path, results=results).people["coordinator"]
    page = coordinator.get(at("scorecard", "A2"))
    text = " ".join(page.content.decode().split())
    assert page.status_code == 409
    assert (
        "<p>The list of results, row 2 has a result of game A2, and a result stands once.</p>"
        "<p>Nothing was written. Take that row out, and enter the scorecard then.</p>"
    ) in text
    assert f'href="{at("game", "A2")}">To game A2</a>' in text


def test_certifying_with_an_open_question_asks_for_an_answer_or_a_reason(
    coordinator: Client,
) -> None:
    posted(
        coordinator, "scorecard", "A2", entries="0", **{**SHEET, "rating_official_home": "1"}
    )
    status, page = certified(coordinator, "A2")
    assert status == 422
    assert (
        "Game A2 has 1 question that nobody has answered. "
        "Answer first, or write here why it is certified all the same."
    ) in page


def test_a_game_of_which_nothing_is_recorded_offers_no_certifying(coordinator: Client) -> None:
    before = coordinator.get(at("game", "A2")).content.decode()
    posted(coordinator, "scorecard", "A2", entries="0", **SHEET)
    after = coordinator.get(at("game", "A2")).content.decode()
    assert [at("certify", "A2") in page for page in (before, after)] == [False, True]
