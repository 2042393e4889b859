"""A game that is stopped and goes on another night is one game, and each night has its day.

No outside source: the stories are of an invented league with its own rules. That suspensions run
from the night on which red was shown is common practice, no source.
"""

import csv
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from cases import logged
from cases.command_line import Run
from cases.people_season import LATER, enter, write_people
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.paper_card import read_card
from wholeball.files.paper_template import template
from wholeball.game.codec import events
from wholeball.game.event import Moment
from wholeball.game.happenings import (
    BrokenOff,
    Cautioned,
    CheckedIn,
    Goal,
    PeriodEnded,
    PeriodStarted,
    Rated,
    Resumed,
    SentOff,
)
from wholeball.game.paper import PaperCard, PaperPlayer, PaperRed, PaperResumed, PaperYellow
from wholeball.game.paper_checks import misfits
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.game.state import Score
from wholeball.kernel.identity import GameId
from wholeball.season.raters import rated_in
from wholeball.usecases.check_season import check_season
from wholeball.usecases.enter_game import card_so_far, game_to_enter
from wholeball.usecases.season_people import discipline_of

FIRST, BETWEEN, SUNDAY = date(2026, 9, 15), date(2026, 9, 17), date(2026, 9, 20)
STOPPED = 460
"""14:20 left of a second half of 22 minutes."""
ON_TUESDAY: Final[list[logged.Timed]] = [
    (0, 0, CheckedIn(side="home", number=4)),
    (0, 0, CheckedIn(side="home", number=7)),
    (1, 0, PeriodStarted(kick_off="home")),
    (1, 100, Goal(side="home", number=7)),
    (1, 200, Goal(side="away")),
    (1, 300, Cautioned(side="home", number=7)),
    (1, 1320, PeriodEnded()),
    (2, 0, PeriodStarted(kick_off="away")),
    (2, 60, Goal(side="home", number=7)),
    (2, 400, SentOff(side="home", number=4)),
    (2, STOPPED, BrokenOff(why="weather")),
]
"""What was recorded of A1 until it was stopped at 2-1, with number 4 of Ash sent off."""


def season(folder: Path, **files: str) -> Path:
    written = write_people(folder, **files)
    book = written / "rulebook.toml"
    book.write_text(
        book.read_text().replace(
            'resumption.complete_after = "half"',
            'resumption = { complete_after = "three_quarters", before_that = "resumed" }',
        )
    )
    return written


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return season(tmp_path / "meadow")


def both_nights(folder: Path, *, on: str | None, sent_off_at: int = 800) -> None:
    """Write the game A1 of Tuesday, with number 7 of Ash sent off after it was resumed."""
    book = read_folder(FolderRecord(folder)).season.rulebook.digest
    log = logged.log(folder, "A1", ON_TUESDAY, book=book)
    second: list[logged.Timed] = [
        (2, STOPPED, Resumed(on=on)),
        (2, sent_off_at, SentOff(side="home", number=7)),
        (2, 1320, PeriodEnded()),
        (2, 1320, Rated(side="home", by="official", hundredths=300, reason="")),
    ]
    logged.go_on(folder, "A1", log, second, book=book, dev="tablet")
    umaru = (PaperPlayer(7),)
    enter(folder, "A2", PaperCard(periods=(Score(0, 0), Score(0, 1)), away_players=umaru))


def suspended(read: SeasonFolder, on: date) -> list[tuple[str, date, list[str]]]:
    found = discipline_of(read, on).suspensions
    return [(one.person, one.day, [game.game for game in one.served]) for one in found]


def breaches(read: SeasonFolder, on: date) -> list[tuple[str, str]]:
    return [(one.game, one.person) for one in discipline_of(read, on).breaches]


def doubts(folder: Path, codes: Iterable[str]) -> list[tuple[str, str]]:
    found = check_season(FolderRecord(folder), on=date(2026, 9, 21)).remarks
    return [(one.code, one.says) for one in found if one.code in codes]


def test_a_game_stopped_at_2_1_with_one_sent_off_goes_on_on_sunday_with_a_new_crew(
    tmp_path: Path,
) -> None:
    """Stopped at 14:20 left; one result, the cards of both nights, and only the time left."""
    crews = "game,role,official,day\nA1,referee,Ada,\nA1,referee,Ben,2026-09-20\n"
    officials = "official,person\nAda,\nBen,\n"
    folder = season(tmp_path / "two", crews=crews, officials=officials)
    both_nights(folder, on="2026-09-20")
    read = read_folder(FolderRecord(folder))
    sheet = next(one for one in read.sheets if one.fixture.game == "A1")
    assert sheet.result is not None
    assert (sheet.result.home_goals, sheet.result.away_goals, sheet.result.how) == (
        2,
        1,
        "played",
    )
    assert (sheet.fixture.day, sheet.resumed_on) == (FIRST, (SUNDAY,))
    assert [one.person for one in sheet.appeared] == ["k-noor", "k-umaru"]
    assert [(one.person, one.colour, one.at, one.night) for one in sheet.cards] == [
        ("k-umaru", "yellow", Moment(1, 300), 1),
        ("k-noor", "red", Moment(2, 400), 1),
        ("k-umaru", "red", Moment(2, 800), 2),
    ]
    assert suspended(read, LATER) == [("k-noor", FIRST, ["A2"]), ("k-umaru", SUNDAY, [])]
    roles = read.season.rulebook.crew.roles
    assert [one.official for one in rated_in([sheet], read.crews, roles)] == ["Ben"]


def test_a_game_stopped_and_resumed_by_a_new_crew_is_one_game(folder: Path) -> None:
    """Stopped at 2-1 with one sent off; resumed on Sunday for only the time that was left."""
    book = read_folder(FolderRecord(folder)).season.rulebook
    log = logged.log(folder, "A1", ON_TUESDAY, book=book.digest)
    stopped = read_folder(FolderRecord(folder))
    assert [one.has_ended for one in stopped.sheets] == [False]
    assert [one.games for one in discipline_of(stopped, date(2026, 9, 16)).open] == [1]
    sunday: list[logged.Timed] = [
        (2, STOPPED, Resumed()),
        *((2, 500 + 60 * number, Goal(side="home", number=7)) for number in range(5)),
    ]
    log = logged.go_on(folder, "A1", log, sunday, book=book.digest, dev="tablet")
    state = play(events(log), game_rules(book))
    assert state.now == Moment(2, 740)
    [over] = [state.at(Moment(2, 1140))]
    assert over.ending is not None
    assert (over.ending.how, over.ending.at, over.score) == (
        "mercy",
        Moment(2, 1140),
        Score(7, 1),
    )
    logged.go_on(folder, "A1", log, [(2, 1140, PeriodEnded())], book=book.digest, dev="tablet")
    read = read_folder(FolderRecord(folder))
    [sheet] = read.sheets
    assert sheet.result is not None
    assert (sheet.result.home_goals, sheet.result.away_goals, sheet.result.how) == (
        7,
        1,
        "played",
    )
    assert [one.person for one in sheet.appeared] == ["k-noor", "k-umaru"]
    assert [(one.person, one.colour) for one in sheet.cards] == [
        ("k-umaru", "yellow"),
        ("k-noor", "red"),
    ]
    assert [one.person for one in discipline_of(read, BETWEEN).barred[GameId("A2")]] == [
        "k-noor"
    ]


def test_whoever_is_shown_red_on_the_second_night_was_free_to_play_between(
    folder: Path,
) -> None:
    both_nights(folder, on="2026-09-20")
    read = read_folder(FolderRecord(folder))
    assert breaches(read, LATER) == []
    assert check_season(FolderRecord(folder), on=date(2026, 9, 21)).ineligible == ()
    barred = discipline_of(read, date(2026, 9, 21)).barred
    assert [one.person for one in barred[GameId("A3")]] == ["k-umaru"]
    assert doubts(folder, ["resumed_when", "ineligible"]) == []


@pytest.mark.parametrize(("clock", "is_breach"), [(STOPPED, True), (STOPPED + 1, False)])
def test_red_at_the_moment_of_the_stop_belongs_to_the_first_night(
    folder: Path, clock: int, *, is_breach: bool
) -> None:
    both_nights(folder, on="2026-09-20", sent_off_at=clock)
    found = [("A2", "k-umaru")] if is_breach else []
    assert breaches(read_folder(FolderRecord(folder)), LATER) == found


@pytest.mark.parametrize(("on", "is_breach"), [("2026-09-16", True), ("2026-09-17", False)])
def test_red_bars_from_the_day_after_the_resumption_on(
    folder: Path, on: str, *, is_breach: bool
) -> None:
    both_nights(folder, on=on)
    found = [("A2", "k-umaru")] if is_breach else []
    assert breaches(read_folder(FolderRecord(folder)), LATER) == found


def test_without_the_day_no_breach_is_claimed_and_the_day_is_asked_for(folder: Path) -> None:
    both_nights(folder, on=None)
    read = read_folder(FolderRecord(folder))
    assert breaches(read, LATER) == []
    assert [one.left for one in discipline_of(read, LATER).open] == [1]
    assert doubts(folder, ["resumed_when", "ineligible"]) == [
        (
            "resumed_when",
            (
                "the game was resumed, and the day of the resumption is not written down; "
                "from when what was shown that night suspends anybody cannot be told."
            ),
        )
    ]


def test_a_resumption_before_the_game_is_doubted(folder: Path) -> None:
    both_nights(folder, on="2026-09-14")
    assert doubts(folder, ["resumed_when"]) == [
        (
            "resumed_when",
            (
                "the game was resumed on Monday 14 September 2026, and is listed on"
                " Tuesday 15 September 2026."
            ),
        )
    ]


def test_as_of_a_day_between_the_nights_the_second_is_still_to_come(folder: Path) -> None:
    both_nights(folder, on="2026-09-20")
    read = read_folder(FolderRecord(folder))
    assert suspended(read, BETWEEN) == [("k-noor", FIRST, ["A2"])]
    assert suspended(read, SUNDAY) == [("k-noor", FIRST, ["A2"]), ("k-umaru", SUNDAY, [])]


def test_a_suspension_of_the_second_night_is_served_by_the_game_after_it(
    folder: Path,
) -> None:
    both_nights(folder, on="2026-09-20")
    enter(folder, "A3", PaperCard(periods=(Score(0, 0), Score(0, 1))))
    assert suspended(read_folder(FolderRecord(folder)), LATER)[1] == ("k-umaru", SUNDAY, ["A3"])


CARD = PaperCard(
    periods=(Score(1, 1), Score(1, 0)),
    yellow=(
        PaperYellow(side="home", number=7, before_stop=True),
        PaperYellow(side="home", number=7),
    ),
    red=(PaperRed(side="home", number=4, period=2, minute=7),),
    resumed=PaperResumed(why="weather", period=2, minutes_left=14, on=SUNDAY),
)


def test_a_paper_scorecard_of_two_nights_is_kept_read_back_and_written_out(
    folder: Path, run: Run
) -> None:
    """The second yellow of a player makes red on Sunday; that of number 4 came on Tuesday."""
    enter(folder, "A1", CARD)
    game = game_to_enter(FolderRecord(folder), GameId("A1"))
    assert card_so_far(game) == CARD
    text = template(GameId("A1"), home="Ash", away="Birch", rules=game.rules, card=CARD)
    (folder / "cards").mkdir()
    (folder / "cards" / "A1.toml").write_bytes(text)
    assert read_card(FolderRecord(folder), GameId("A1"), rules=game.rules) == CARD
    read = read_folder(FolderRecord(folder))
    assert [(one.person, one.day) for one in discipline_of(read, LATER).suspensions] == [
        ("k-noor", FIRST),
        ("k-umaru", SUNDAY),
    ]
    told = run("game", folder, "A1")
    assert "goes on where it was broken off, on Sunday 20 September 2026." in told.out


def test_what_a_card_of_two_nights_cannot_mean_is_told(folder: Path) -> None:
    rules = game_rules(read_folder(FolderRecord(folder)).season.rulebook)

    def found(card: PaperCard) -> list[tuple[object, str]]:
        return [(one.loc, one.code) for one in misfits(card, rules)]

    def stopped(**keys: int) -> PaperCard:
        assert CARD.resumed is not None
        return CARD.model_copy(update={"resumed": CARD.resumed.model_copy(update=keys)})

    assert found(CARD) == []
    assert found(stopped(minutes_left=22)) == []
    assert found(stopped(minutes_left=23)) == [(("resumed", "minutes_left"), "range")]
    assert found(stopped(period=3)) == [(("resumed", "period"), "range")]
    assert found(CARD.model_copy(update={"resumed": None})) == [
        (("yellow", 0, "before_stop"), "contradiction")
    ]


def test_a_second_crew_fills_the_roles_again_on_its_day_and_no_other(tmp_path: Path) -> None:
    rows = [
        ["game", "role", "official", "day"],
        ["A1", "referee", "Ada", ""],
        ["A1", "referee", "Ada", "2026-09-20"],
        ["A1", "referee", "Ben", "2026-09-15"],
    ]
    folder = season(tmp_path / "crews", officials="official,person\nAda,\nBen,\n")
    with (folder / "crews.csv").open("w", newline="") as file:
        csv.writer(file).writerows(rows)
    with pytest.raises(Exception, match="game A1 was not resumed on 2026-09-15"):
        read_folder(FolderRecord(folder))
    with (folder / "crews.csv").open("w", newline="") as file:
        csv.writer(file).writerows(rows[:3])
    assert [one.day for one in read_folder(FolderRecord(folder)).crews] == [None, SUNDAY]
