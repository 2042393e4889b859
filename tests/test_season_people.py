"""Suspensions and eligibility from a season folder, as its games were written down.

No outside source: the stories are of an invented league with its own rules.
"""

import json
from datetime import date
from pathlib import Path

import pytest

from cases import logged
from cases.command_line import Run
from cases.people_season import NOBODY_CAME, RULES, card, enter, ineligible, write_people
from wholeball.cli.scorecard_dialogue import Dialogue
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.codec import events
from wholeball.game.event import Moment
from wholeball.game.happenings import (
    BrokenOff,
    Cautioned,
    CheckedIn,
    Goal,
    PeriodEnded,
    PeriodStarted,
    Resumed,
    SentOff,
)
from wholeball.game.paper import (
    PaperCard,
    PaperForfeit,
    PaperPlayer,
    PaperRating,
    PaperRed,
    PaperYellow,
)
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.game.state import Score
from wholeball.kernel.identity import GameId
from wholeball.reports.entered import both_changes
from wholeball.reports.person_words import CAPTAIN_SEES, captain_words
from wholeball.season.eligibility import Eligibility
from wholeball.usecases.enter_game import card_so_far, game_to_enter
from wholeball.usecases.season_people import discipline_of, known_of

THURSDAY = date(2026, 9, 17)
LATER = date(2026, 11, 1)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_people(tmp_path / "meadow")


RED = card(
    home_players=(PaperPlayer(4), PaperPlayer(7)),
    red=(PaperRed(side="home", number=4, reason="violent conduct"),),
)


def barred(folder: Path, on: date) -> dict[str, list[tuple[str, str]]]:
    found = discipline_of(read_folder(FolderRecord(folder)), on)
    return {
        game: [(one.person, one.team) for one in people]
        for game, people in found.barred.items()
    }


def served(folder: Path, on: date = LATER) -> list[tuple[str, str, list[str]]]:
    found = discipline_of(read_folder(FolderRecord(folder)), on)
    return [
        (one.person, one.cause, [game.game for game in one.served]) for one in found.suspensions
    ]


def test_a_red_and_a_forfeit_that_serves_nothing_bar_everywhere_and_captains_read_no_reason(
    folder: Path,
) -> None:
    """One person under two spellings and one code is one person, in two leagues."""
    enter(folder, "A1", RED)
    enter(folder, "C1", NOBODY_CAME)
    assert barred(folder, THURSDAY) == {
        "A2": [("k-noor", "Ash")],
        "C2": [("k-noor", "Cedar")],
        "A3": [("k-noor", "Ash")],
    }
    read = read_folder(FolderRecord(folder))
    [game] = [one for one in read.timetable if one.game == "C2"]
    [line] = Eligibility(known_of(read, THURSDAY)).gate_list(game, "away")
    assert ([one.code for one in line.reasons], line.for_captain) == (["suspended"], ())
    assert [captain_words(one) for one in line.reasons] == [CAPTAIN_SEES]


def test_the_other_league_s_game_serves_once_it_is_played(folder: Path) -> None:
    enter(folder, "A1", RED)
    enter(folder, "C1", card())
    assert served(folder) == [("k-noor", "red", ["C1"])]
    assert barred(folder, THURSDAY) == {}


def test_what_is_entered_again_without_the_red_suspends_nobody(folder: Path) -> None:
    enter(folder, "A1", RED)
    enter(folder, "A1", RED.model_copy(update={"red": ()}), batch=2)
    assert served(folder) == []


def test_a_shirtless_team_needs_a_shirt_from_the_gate_for_its_red_to_find_a_person(
    folder: Path, run: Run
) -> None:
    red = (PaperRed(side="away", number=9),)
    enter(folder, "C1", card(red=red))
    assert served(folder) == []
    told = run("suspensions", folder, "--on", "2026-09-17")
    assert (
        "games/C1.jsonl: number 9 of Dogwood was shown red, and the roster has no such number. "
        "Compare with the scorecard, or add the player to rosters.csv."
    ) in told.out
    again = card(red=red, away_players=(PaperPlayer(9, "Pavol Vasconde"),))
    assert enter(folder, "C1", again, batch=2).remarks == ()
    assert served(folder) == [("Dogwood: Pavol Vasconde", "red", [])]


def test_a_name_that_no_roster_has_is_doubted_when_it_is_entered(folder: Path) -> None:
    entered = enter(folder, "C1", card(away_players=(PaperPlayer(9, "Pavel Vascond"),)))
    assert [(one.code, one.says) for one in entered.remarks] == [
        (
            "unknown_player",
            "Dogwood has nobody called Pavel Vascond; it is kept as the scorecard has it.",
        )
    ]


def test_three_yellows_in_three_games_serve_in_the_fourth(folder: Path) -> None:
    yellow = (PaperYellow(side="home", number=4), PaperYellow(side="away", number=4))
    for game in ("A1", "A3"):
        enter(folder, game, card(yellow=yellow[:1]))
    enter(folder, "A2", card(yellow=yellow[1:]))
    assert served(folder) == [("k-noor", "yellows", [])]


def test_a_player_bound_to_another_team_is_found_with_what_the_rulebook_proposes(
    folder: Path, run: Run
) -> None:
    ineligible(folder)
    told = run("check", folder, "--on", "2026-09-28")
    assert (
        "games/A4.jsonl: Ondine Havenko appeared for Elder, and is bound to Birch. The rulebook "
        f"proposes a forfeit by Elder: wholeball award {folder} A4 --to away "
        '--ref "H 3.5" --why TEXT'
    ) in told.out
    late = run("check", folder, "--on", "2026-09-29")
    assert (
        "The result stands (H 3.5); it could be found until Monday 28 September 2026."
        in late.out
    )


def test_whoever_plays_while_suspended_is_told_with_the_article(folder: Path, run: Run) -> None:
    enter(folder, "A1", RED)
    enter(folder, "A2", card(away_players=(PaperPlayer(4),)))
    told = run("suspensions", folder, "--on", "2026-09-18")
    assert "A2: Noor Zephirou for Ash (H 11.5); wholeball check says what follows" in told.out
    assert served(folder) == [("k-noor", "red", [])]
    found = json.loads(run("check", folder, "--on", "2026-09-18", "--json").out)
    assert [one["code"] for one in found["remarks"] if one["value"] == "A2"] == ["ineligible"]


DECISIONS = "ruling,date,person,game,ruled,games,until,ref,why\n"


@pytest.mark.parametrize(
    ("person", "cure"),
    [
        ("n. zefirou", "Write the code that rosters.csv has for that name: k-noor."),
        (
            "Ondine Havenko",
            "Write the code that rosters.csv has for that name: k-ondine.",
        ),
        ("k-nour", "Did you mean k-noor?"),
        ("Somebody Else", "Copy the code from rosters.csv."),
    ],
)
def test_a_name_in_place_of_a_code_is_answered_with_the_code(
    tmp_path: Path, run: Run, person: str, cure: str
) -> None:
    rows = f"{DECISIONS}1,2026-09-16,{person},,games,1,,H 11.4,Fought\n"
    folder = write_people(tmp_path / "named", discipline=rows)
    assert f'"{person}" is no person of rosters.csv. {cure}\n' in run("check", folder).out


@pytest.mark.parametrize("person", ["k-noor", "Ash: Noor Zephirou", "ash: noor zephirou"])
def test_a_decision_names_a_person_by_code_or_by_team_and_name(
    tmp_path: Path, run: Run, person: str
) -> None:
    rows = f"{DECISIONS}1,2026-09-16,{person},,games,1,,H 11.4,Fought\n"
    folder = write_people(tmp_path / "named", discipline=rows)
    assert run("check", folder).out == "Nothing is wrong.\n"
    assert [(who, cause) for who, cause, _ in served(folder)] == [("k-noor", "ruling")]


@pytest.mark.parametrize(("person", "told_of"), [("k-noor", 0), ("k-nour", 1)])
def test_a_decision_about_nobody_is_named_with_the_suspensions(
    tmp_path: Path, run: Run, person: str, told_of: int
) -> None:
    rows = f"{DECISIONS}1,2026-09-16,{person},,meeting_held,,,H 11.4,Met\n"
    folder = write_people(tmp_path / "met", discipline=rows)
    told = run("suspensions", folder, "--on", "2026-09-17").out
    says = (
        'Decisions to look at\n  discipline.csv row 2, column person: "k-nour" is no person of '
        "rosters.csv. Did you mean k-noor?\n"
    )
    assert (told.count(says), told.count("Decisions to look at")) == (told_of, told_of)
    said = json.loads(run("suspensions", folder, "--on", "2026-09-17", "--json").out)
    assert [one["code"] for one in said["remarks"]] == ["unknown_person"] * told_of


def test_two_persons_of_one_name_are_left_for_people_to_tell_apart(
    tmp_path: Path, run: Run
) -> None:
    people = "team,number,name,person\nAsh,4,Noor Zephirou,k-1\nBirch,4,Noor Zephirou,k-2\n"
    rows = f"{DECISIONS}1,2026-09-16,Noor Zephirou,,games,1,,H 11.4,Fought\n"
    folder = write_people(tmp_path / "two", rosters=people, discipline=rows)
    told = run("check", folder).out
    assert "2 persons are called so: copy the right code from rosters.csv.\n" in told


def test_nothing_is_wrong_with_a_season_that_has_not_begun(tmp_path: Path, run: Run) -> None:
    people = "team,number,name\nAsh,4,Noor Zephirou\nBirch,4,Lior Zephirou\n"
    empty = write_people(tmp_path / "empty", rosters=people)
    assert run("check", empty).out == "Nothing is wrong.\n"


def test_two_spellings_without_a_code_are_doubted_within_one_league_only(
    tmp_path: Path, run: Run
) -> None:
    people = (
        "team,number,name\nAsh,4,Noor Zephirou\nBirch,5,Nour Zephiru\nCedar,6,Noor Zephirou\n"
    )
    found = write_people(tmp_path / "spelled", rosters=people)
    assert run("check", found).out == (
        "rosters.csv, column person: Noor Zephirou of Ash and Nour Zephiru of Birch may be one "
        "person. If so, give both rows the same code in the column person; if not, one each.\n"
    )


def test_a_low_rating_without_a_reason_is_told(folder: Path, run: Run) -> None:
    low = PaperRating(side="away", value=2)  # type: ignore[arg-type]
    fair = PaperRating(side="home", value=3)  # type: ignore[arg-type]
    enter(folder, "A1", card(ratings=(low, fair)))
    found = json.loads(run("check", folder, "--json").out)["remarks"]
    assert [one["says"] for one in found if one["code"] == "rating_without_reason"] == [
        "Birch is rated 2 without a reason (ratings)."
    ]


@pytest.mark.parametrize(
    ("waits", "captain"), [("true", ", and its captain may not play until then"), ("false", "")]
)
def test_check_tells_what_a_team_owes_until_it_is_settled(
    tmp_path: Path, run: Run, waits: str, captain: str
) -> None:
    fee = f'[forfeit.fee]\nref = "H 10.5"\namount = 20\ncaptain_waits = {waits}\n'
    folder = write_people(tmp_path / "meadow", rules=RULES + fee)
    enter(folder, "A1", NOBODY_CAME)
    owed = f"fees.csv: Birch owes {{}} for A1 (H 10.5){captain}."
    assert owed.format(20) in run("check", folder).out
    head = "date,team,game,what,amount,why\n2026-09-16,Birch,A1,paid,"
    (folder / "fees.csv").write_text(head + "12.5,\n")
    assert owed.format("7.5") in run("check", folder).out
    (folder / "fees.csv").write_text(head + "20,\n")
    assert "owes" not in run("check", folder).out


def test_an_official_whose_own_team_plays_is_doubted_in_that_game_and_at_its_start(
    tmp_path: Path, run: Run
) -> None:
    """Noor plays for Ash and for Cedar; the league games of A1 and C1 are on two days."""
    crews = "game,role,official\nA1,{0},Noor Z.\nA4,{0},Noor Z.\nA2,{0},Kim\n"
    people = "official,person\nNoor Z.,k-noor\nKim,\n"
    folder = write_people(tmp_path / "meadow", officials=people)
    role = read_folder(FolderRecord(folder)).season.rulebook.crew.roles[0]
    (folder / "crews.csv").write_text(crews.format(role))
    own = "crews.csv: Noor Z. works game A1 and is on the roster of Ash, which plays it"
    own += " (Competition rules)."
    told = run("check", folder, "--on", "2026-09-14").out
    assert [line for line in told.splitlines() if "Noor Z." in line] == [
        f"{own} Give the game to another official."
    ]
    timetable = folder / "timetable.csv"
    moved = timetable.read_text().replace(
        "2026-09-17,21:00,Field 1", "2026-09-24,19:00,Field 2"
    )
    timetable.write_text(moved)
    told = run("check", folder, "--on", "2026-09-14").out
    also = "Noor Z. works game A4 and is on the roster of Cedar, which plays game C2 at the same start."
    assert [line.partition(": ")[2] for line in told.splitlines() if "Noor Z." in line] == [
        f"{own.partition(': ')[2]} Give the game to another official.",
        f"{also} Give the game to another official.",
    ]


def test_somebody_written_down_for_both_sides_is_doubted(tmp_path: Path, run: Run) -> None:
    rosters = "team,number,name,person\nAsh,4,Noor Zephirou,k-noor\nBirch,14,Ondine,k-noor\n"
    folder = write_people(tmp_path / "meadow", rosters=rosters)
    enter(folder, "A1", card(home_players=(PaperPlayer(4),)))
    said = "Noor Zephirou is written down for Ash and for Birch."
    assert said not in run("check", folder).out
    both = card(home_players=(PaperPlayer(4),), away_players=(PaperPlayer(14),))
    enter(folder, "A1", both, batch=2)
    assert said in run("check", folder).out


def test_check_tells_every_fault_of_the_folder_at_once(folder: Path, run: Run) -> None:
    (folder / "teams.csv").write_text("team,pool\nAsh,A\nAsh,A\n")
    (folder / "rulings.csv").write_text("ruling,game,ruled,ref,why\n0,A1,lost,H 1,x\n")
    told = run("check", folder)
    assert told.status == 1
    assert {"teams.csv row 3", "rulings.csv row 2"} <= {
        line.split(",")[0] for line in told.err.splitlines()
    }


def test_a_decision_in_discipline_csv_gives_other_games(tmp_path: Path) -> None:
    decided = (
        "ruling,date,person,game,ruled,games,until,ref,why\n"
        "1,2026-09-16,k-noor,A1,games,2,,H 11.4,Struck an opponent\n"
    )
    folder = write_people(tmp_path / "decided", discipline=decided)
    enter(folder, "A1", RED)
    enter(folder, "C1", card())
    found = discipline_of(read_folder(FolderRecord(folder)), THURSDAY)
    assert [(one.games, one.left, one.rulings) for one in found.open] == [(2, 1, (1,))]


STOPPED = 460
"""14:20 left of a second half of 22 minutes."""


def test_a_game_stopped_and_resumed_by_a_new_crew_is_one_game(tmp_path: Path) -> None:
    """Stopped at 2-1 with one sent off; resumed on Sunday for only the time that was left."""
    rules = RULES + "\n"
    folder = write_people(tmp_path / "stopped", rules=rules)
    book_file = folder / "rulebook.toml"
    book_file.write_text(
        book_file.read_text().replace(
            'resumption.complete_after = "half"',
            'resumption = { complete_after = "three_quarters", before_that = "resumed" }',
        )
    )
    book = read_folder(FolderRecord(folder)).season.rulebook
    first: list[logged.Timed] = [
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
    log = logged.log(folder, "A1", first, book=book.digest)
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
    assert [one.person for one in discipline_of(read, THURSDAY).barred[GameId("A2")]] == [
        "k-noor"
    ]


def test_conduct_counts_a_person_once_by_the_worst_that_was_shown(folder: Path) -> None:
    """FIFA World Cup regulations: one deduction a player and match (from memory)."""
    shown = card(
        yellow=(
            PaperYellow(side="home", number=4),
            PaperYellow(side="home", number=4),
            PaperYellow(side="home", number=7),
        ),
    )
    enter(folder, "A1", shown)
    [result] = read_folder(FolderRecord(folder)).season.results
    assert result.home_cards is not None
    assert result.home_cards.in_order == (1, 1, 0, 0)


def test_conduct_counts_one_person_once_under_two_numbers(folder: Path) -> None:
    """Number 9 was given at the gate to the player who wears 4 on the roster."""
    shown = card(
        home_players=(PaperPlayer(9, "Noor Zephirou"), PaperPlayer(7)),
        yellow=tuple(PaperYellow(side="home", number=number) for number in (4, 9, 7)),
    )
    enter(folder, "A1", shown)
    read = read_folder(FolderRecord(folder))
    [result] = read.season.results
    assert result.home_cards is not None
    assert result.home_cards.in_order == (2, 0, 0, 0)


def test_a_suspension_by_day_speaks_of_no_games(tmp_path: Path, run: Run) -> None:
    decided = (
        "ruling,date,person,game,ruled,games,until,ref,why\n"
        "1,2026-09-16,k-noor,,until,,2026-09-20,H 11.4,Struck an opponent\n"
        "2,2026-09-16,k-umaru,,games,1,,H 11.4,Struck an opponent\n"
    )
    folder = write_people(tmp_path / "by-day", discipline=decided)
    told = run("suspensions", folder, "--on", "2026-10-20").out.splitlines()
    assert [line for line in told if "ruling" in line and line.startswith("  ")] == [
        "  until Sunday 20 September 2026. By ruling 1.",
        "  1 game; served in none yet; 1 game left. By ruling 2.",
    ]


def test_a_forfeit_annulled_later_makes_no_breach_of_a_game_played_in_good_faith(
    folder: Path,
) -> None:
    """A2 was given up and served the red of A1; annulled in October, it serves nothing."""
    book = folder / "rulebook.toml"
    book.write_text(book.read_text().replace('"played_only"', '"played_and_forfeits"'))
    enter(folder, "A1", RED)
    enter(folder, "A2", PaperCard(forfeit=PaperForfeit(by="home", why="not_ready")))
    enter(folder, "A3", card(home_players=(PaperPlayer(4),)))
    assert discipline_of(read_folder(FolderRecord(folder)), LATER).breaches == ()
    (folder / "rulings.csv").write_text(
        "ruling,date,game,ruled,ref,why\n1,2026-10-09,A2,annulled,H 1,Wrong field\n"
    )
    found = discipline_of(read_folder(FolderRecord(folder)), LATER)
    assert (found.breaches, [one.left for one in found.open]) == ((), [1])


def test_typing_a_scorecard_again_keeps_the_players_that_its_file_said(folder: Path) -> None:
    enter(folder, "A1", RED)
    to = game_to_enter(FolderRecord(folder), GameId("A1"))
    dialogue = Dialogue(
        ask=lambda _: "",
        tell=lambda _: None,
        home=to.home,
        away=to.away,
        rules=to.rules,
        was=card_so_far(to),
    )
    assert dialogue.card().home_players == RED.home_players


def test_entering_other_players_tells_who_is_new_and_who_is_taken_back(folder: Path) -> None:
    enter(
        folder, "A1", card(home_players=(PaperPlayer(4), PaperPlayer(name="Umaru Kealohana")))
    )
    again = card(home_players=(PaperPlayer(4), PaperPlayer(9, "Umaru Kealohana")))
    entered = enter(folder, "A1", again, batch=2)
    assert both_changes(entered.before, entered.gone, entered.after, entered.new) == (
        ("Before kick-off: Umaru Kealohana of Ash is checked in.",),
        ("Before kick-off: Umaru Kealohana of Ash, with number 9, is checked in.",),
    )


def test_a_shirt_from_the_gate_is_known_when_its_yellow_is_entered_later(
    tmp_path: Path,
) -> None:
    people = "team,number,name\nDogwood,3,Bodil Lindqvar\nDogwood,,Pavol Vasconde\n"
    folder = write_people(tmp_path / "shirts", rosters=people)
    players = (PaperPlayer(3), PaperPlayer(9, "Pavol Vasconde"))
    assert enter(folder, "C1", card(away_players=players)).remarks == ()
    yellow = (PaperYellow(side="away", number=9), PaperYellow(side="away", number=8))
    again = enter(folder, "C1", card(away_players=players, yellow=yellow), batch=2)
    assert [one.says for one in again.remarks] == [
        "Dogwood has no number 8; it is kept as the scorecard has it."
    ]
