"""What is to look at about a game stands before its result is certified, and on Today."""

from datetime import date
from pathlib import Path

import pytest

from cases.desk_season import (
    CREW,
    CREWS,
    GAME,
    OFFICIALS,
    DeskSeason,
    at,
    member,
    put_season,
)
from cases.paper_cards import ordinary
from cases.paper_season import author
from cases.people_season import RED, RULES, card, enter, write_people
from cases.stored import a_season
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.paper import PaperCard, PaperPlayer, PaperRating, PaperRed
from wholeball.kernel.identity import GameId
from wholeball.usecases.answer_questions import answer_question, game_to_answer, open_questions
from wholeball.usecases.check_season import check_season
from wholeball.usecases.show_ratings import show_ratings
from wholeball.usecases.show_today import today_of

pytestmark = pytest.mark.django_db
NOTHING = "no question or protest is open"
NOOR = card(home_players=(PaperPlayer(4), PaperPlayer(7)))
BLOCK = "person,since,until\nk-noor,2026-09-10,\n"
"""Noor Zephirou, number 4 of Ash and of Cedar, is blocked before any game."""


def folder_of(tmp_path: Path, games: dict[str, PaperCard], **files: str) -> Path:
    """Write a season of which some games are typed in; Ada Quill officiates A1."""
    given = {"rules": RULES + CREW, "crews": CREWS, "officials": OFFICIALS, **files}
    folder = write_people(tmp_path / "season", **given)
    for nth, (game, played) in enumerate(games.items(), start=1):
        enter(folder, game, played, nth)
    return folder


def on_site(folder: Path) -> DeskSeason:
    season = a_season()
    put_season(season, folder)
    people = {role: member(season, role) for role in ("coordinator", "supervisor")}
    return DeskSeason(season=season, people=people)


def before(
    desk: DeskSeason, game: str = GAME, role: str = "coordinator"
) -> tuple[str, list[str]]:
    """Return the page on which a game is certified, and what it says is to look at."""
    page = desk.people[role].get(at("certify", game))
    assert page.status_code == 200
    return page.content.decode(), [one.fault.says for one, _ in page.context["doubts"]]


SIGNED = card(signed=("home_captain", "away_captain", "official"))


def test_a_game_of_which_nothing_is_doubtful_says_so(tmp_path: Path) -> None:
    text, says = before(on_site(folder_of(tmp_path, {GAME: SIGNED})))
    assert (NOTHING in text, says) == (True, [])


def test_a_blocked_player_who_appeared_stands_before_the_button(tmp_path: Path) -> None:
    desk = on_site(folder_of(tmp_path, {GAME: NOOR}, not_cleared=BLOCK))
    text, says = before(desk)
    assert says == ["Noor Zephirou appeared for Ash, and is blocked at the gate."]
    assert NOTHING not in text
    assert text.index("is blocked at the gate") < text.index("Certify the result</button>")


def test_a_suspended_player_who_appeared_stands_before_the_button(tmp_path: Path) -> None:
    again = card(home_players=(PaperPlayer(4),))
    _, says = before(on_site(folder_of(tmp_path, {GAME: RED, "C1": again})), "C1")
    assert says == [
        "N. Zefirou appeared for Cedar, and is suspended for 1 more game.",
    ]


def test_a_red_to_a_number_that_no_roster_has_stands_before_the_button(tmp_path: Path) -> None:
    shown = card(red=(PaperRed(side="away", number=99, reason="violent conduct"),))
    _, says = before(on_site(folder_of(tmp_path, {GAME: shown})))
    assert says == ["number 99 of Birch was shown red, and the roster has no such number."]


def test_what_another_game_has_is_not_told_of_this_one(tmp_path: Path) -> None:
    desk = on_site(
        folder_of(
            tmp_path,
            {GAME: card(), "C1": card(home_players=(PaperPlayer(4),))},
            not_cleared=BLOCK,
        )
    )
    assert (before(desk)[1], len(before(desk, "C1")[1])) == ([], 1)


def test_a_supervisor_reads_it_without_links_to_pages_that_are_not_theirs(
    tmp_path: Path,
) -> None:
    desk = on_site(folder_of(tmp_path, {GAME: NOOR}, not_cleared=BLOCK))
    text, says = before(desk, role="supervisor")
    assert len(says) == 1
    assert at("award", GAME) not in text


def suspended(folder: Path, day: int) -> list[tuple[str, str, str]]:
    found = today_of(read_folder(FolderRecord(folder)), date(2026, 9, day)).to_settle
    return [(str(one.says), one.where, one.of) for one in found if one.word == "suspended"]


def test_today_names_who_appeared_while_suspended_until_it_is_ruled_on_or_too_late(
    tmp_path: Path,
) -> None:
    again = card(home_players=(PaperPlayer(4),))
    folder = folder_of(tmp_path, {GAME: RED, "C1": again})
    line = (
        (
            "Wednesday 16 September, game C1, Cedar v Dogwood: N. Zefirou of Cedar appeared while "
            "suspended."
        ),
        "rule",
        "C1",
    )
    assert [suspended(folder, day) for day in (17, 20, 21)] == [[line], [line], []]
    rows = "ruling,date,game,ruled,by,home_goals,away_goals,ref,why\n"
    (folder / "rulings.csv").write_text(f"{rows}1,2026-09-18,C1,stands,,,,H 11.5,It stands.\n")
    assert suspended(folder, 20) == []
    desk = on_site(folder)
    assert desk.people["coordinator"].get(at("today"), {"day": "2026-09-20"}).status_code == 200


def without_reason(folder: Path) -> tuple[list[str], list[str]]:
    """Return which ratings are doubted for their lack of a reason, and are to be looked at."""
    record = FolderRecord(folder)
    doubts = [
        one.says
        for one in check_season(record, on=date(2026, 9, 16)).remarks
        if one.code == "rating_without_reason"
    ]
    review = show_ratings(record, staff=True).ratings.review
    return doubts, [one.rated.team for one in review if one.why == "no_reason"]


def test_a_reason_that_is_answered_is_the_reason_of_the_rating(tmp_path: Path) -> None:
    low = PaperRating(side="away", value=2)  # type: ignore[arg-type]
    folder = folder_of(tmp_path, {GAME: card(ratings=(low,))})
    assert without_reason(folder) == (
        ["Birch is rated 2 without a reason (ratings)."],
        ["Birch"],
    )
    to = game_to_answer(FolderRecord(folder), GameId(GAME))
    [one] = open_questions(to)
    assert one.question.code == "rating_reason"
    answer = one.answers[0][0]
    answer_question(to, one.question, answer, reason="Shouting.", by=author(5))
    assert without_reason(folder) == ([], [])
    [sheet] = [one for one in read_folder(FolderRecord(folder)).sheets if one.ratings]
    assert [one.reason for one in sheet.ratings] == ["Shouting."]


def test_the_reason_that_was_written_with_a_rating_is_kept(tmp_path: Path) -> None:
    low = PaperRating(side="away", value=2, reason="Spat.")  # type: ignore[arg-type]
    folder = folder_of(tmp_path, {GAME: card(ratings=(low,)), "A2": ordinary()})
    assert without_reason(folder) == ([], [])
