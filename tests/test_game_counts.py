"""A game says what it counts as by the last word about it, and how it came to that."""

from collections.abc import Callable
from json import loads
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.paper_cards import ordinary
from cases.paper_season import author, write_season
from wholeball.files.folder_record import FolderRecord
from wholeball.game.paper import PaperBrokenOff, PaperCard, PaperForfeit
from wholeball.game.state import Score
from wholeball.kernel.identity import GameId
from wholeball.usecases.certify_game import certify_game
from wholeball.usecases.enter_game import Entered, enter_card, game_to_enter

TO = "\N{EN DASH}"
HEAD = "ruling,date,game,ruled,by,home_goals,away_goals,ref,why\n"
AWARDED = '1,2026-09-16,M1,awarded,,0,4,H 11.2,"A player who was barred, played."\n'
COUNTS = (
    f"Counts 0{TO}4, awarded by ruling 1 (H 11.2): A player who was barred, played. "
    f"Played 2{TO}2."
)
LEVEL = ordinary().model_copy(update={"periods": (Score(1, 1), Score(1, 1)), "ratings": ()})
AHEAD = LEVEL.model_copy(update={"periods": (Score(1, 1), Score(2, 1))})
Rule = Callable[[str], None]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    league = write_season(tmp_path / "meadow")
    book = league / "rulebook.toml"
    text = book.read_text()
    text = text.replace("forfeit.score", 'forfeit.ref = "H 11.1"\nforfeit.score')
    text = text.replace(
        'resumption.complete_after = "half"',
        'resumption = { complete_after = "half", before_that = "resumed", ref = "H 14.2" }',
    )
    book.write_text(text)
    return league


@pytest.fixture
def rule(folder: Path) -> Rule:
    def ruled(rows: str) -> None:
        (folder / "rulings.csv").write_text(HEAD + rows)

    return ruled


def _enter(folder: Path, card: PaperCard, batch: int = 1) -> Entered:
    return enter_card(game_to_enter(FolderRecord(folder), GameId("M1")), card, by=author(batch))


def _stands(run: Run, folder: Path, game: str = "M1") -> str:
    told = run("game", folder, game)
    assert told.status == 0
    return told.out.splitlines()[1]


def test_a_ruling_is_what_a_game_counts_as_in_words(run: Run, folder: Path, rule: Rule) -> None:
    _enter(folder, LEVEL)
    rule(AWARDED)
    assert _stands(run, folder) == (
        "The game is over. It ended at full time, at the end of the second half: game, The game. "
        f"Birch wins. {COUNTS}"
    )


def test_a_ruling_is_what_a_game_counts_as_in_json(run: Run, folder: Path, rule: Rule) -> None:
    _enter(folder, LEVEL)
    rule(AWARDED)
    told = loads(run("game", folder, "M1", "--json").out)
    assert (told["result"], told["winner"], told["played"]) == ([0, 4], "away", [2, 2])
    assert told["counts_as"] == {
        "score": [0, 4],
        "played": [2, 2],
        "winner": "away",
        "says": COUNTS,
        "row": None,
        "ruling": {
            "number": 1,
            "ruled": "awarded",
            "article": "H 11.2",
            "why": "A player who was barred, played.",
        },
    }


def test_a_ruling_is_the_number_of_a_games_page(
    run: Run, folder: Path, rule: Rule, tmp_path: Path
) -> None:
    _enter(folder, LEVEL)
    rule(AWARDED)
    page = tmp_path / "out" / "m1.html"
    run("game", folder, "M1", "--html", page)
    text = page.read_text()
    assert f">0{TO}4</b> <span>counts, by ruling 1</span>" in text
    assert f"Counts 0{TO}4 by ruling 1</text>" in text


def test_certifying_tells_the_ruling_too(run: Run, folder: Path, rule: Rule) -> None:
    _enter(folder, LEVEL)
    rule(AWARDED)
    told = run("certify", folder, "M1", "--by", "Sam")
    assert (told.status, COUNTS in told.out) == (0, True)


def test_the_last_ruling_holds(run: Run, folder: Path, rule: Rule) -> None:
    _enter(folder, LEVEL)
    rule(f"{AWARDED}2,2026-09-17,M1,stands,,,,H 12,The other captain was wrong\n")
    assert _stands(run, folder).endswith(
        f"Counts 2{TO}2, as played; it stands by ruling 2 (H 12): The other captain was wrong."
    )
    rule(f"{AWARDED}2,2026-09-17,M1,annulled,,,,H 12,Nobody was there.\n")
    assert _stands(run, folder).endswith(
        f"Counts for nothing, annulled by ruling 2 (H 12): Nobody was there. Played 2{TO}2."
    )
    rule(f"{AWARDED}2,2026-09-17,M1,forfeit,home,,,H 12,They left.\n")
    assert _stands(run, folder).endswith(
        f"Birch wins. Counts 0{TO}4, forfeited by Ash, by ruling 2 (H 12): They left. "
        f"Played 2{TO}2."
    )


def test_a_game_that_stands_as_played_is_not_listed_as_not_as_played(
    run: Run, folder: Path, rule: Rule
) -> None:
    _enter(folder, LEVEL)
    rule("1,2026-09-17,M1,stands,,,,H 12,No protest came in time.\n")
    assert "ruling 1" not in run("standings", folder).out
    rule("1,2026-09-17,M1,awarded,,2,2,H 12,No protest came in time.\n")
    assert "ruling 1" in run("standings", folder).out


def test_a_game_of_results_csv_tells_its_row_and_its_ruling(
    run: Run, folder: Path, rule: Rule
) -> None:
    assert _stands(run, folder, "M3") == (
        f"Its result stands in the list of results, row 2. Ash wins. Counts 1{TO}0, as played."
    )
    rule("1,2026-09-17,M3,awarded,,0,4,H 11.2,Barred.\n")
    assert _stands(run, folder, "M3") == (
        f"Its result stands in the list of results, row 2. Cedar wins. Counts 0{TO}4, awarded by ruling 1 "
        f"(H 11.2): Barred. Played 1{TO}0."
    )


def test_a_game_of_results_csv_that_was_forfeited_tells_the_note(
    run: Run, folder: Path
) -> None:
    (folder / "results.csv").write_text(
        "game,round,home,away,how,by,note\nM3,1,Ash,Cedar,forfeit,away,Not ready.\n"
    )
    assert _stands(run, folder, "M3") == (
        "Its result stands in the list of results, row 2. Ash wins. "
        f"Not played; counts 4{TO}0 (forfeit of Cedar: Not ready; H 11.1)."
    )


def test_a_game_with_neither_says_that_nothing_is_recorded(run: Run, folder: Path) -> None:
    assert _stands(run, folder) == "Nothing is recorded yet."


def test_a_late_card_is_told_beside_the_official_result(run: Run, folder: Path) -> None:
    _enter(folder, LEVEL)
    certify_game(FolderRecord(folder), GameId("M1"), by=author(2, name="Sam"))
    entered = _enter(folder, AHEAD, 3)
    late = f"Official: 2{TO}2, unchanged; with the late entries it would be 3{TO}2."
    assert entered.after.state.score == Score(2, 2)
    assert entered.is_first is False
    assert late in _stands(run, folder)


def test_an_entry_taken_back_too_late_is_named(run: Run, folder: Path) -> None:
    _enter(folder, AHEAD)
    certify_game(FolderRecord(folder), GameId("M1"), by=author(2, name="Sam"))
    _enter(folder, LEVEL.model_copy(update={"yellow": (), "signed": ("official",)}), 3)
    told = run("game", folder, "M1", "--json").out
    assert loads(told)["official"]["late"]["says"] == [
        "Taken back: Goal of Ash, in the second half, minute not written down.",
        "Taken back: Yellow of number 7 of Ash, minute not written down.",
        "Taken back: Yellow of number 10 of Birch, minute not written down.",
        "Taken back: The home captain signs the scorecard (at the end of the second half).",
        "Taken back: The away captain signs the scorecard (at the end of the second half).",
    ]


def test_mercy_that_the_ladder_does_not_give_is_told_against_it(run: Run, folder: Path) -> None:
    _enter(folder, PaperCard(periods=(Score(3, 0), Score(2, 1)), ended="mercy", minutes_left=5))
    out = run("game", folder, "M1").out
    assert "full time" not in out.lower()
    assert (
        "The game is over. It ended in the second half at 17:00, minute 40, before time was up: "
        f"see its questions. Ash wins. Counts 5{TO}1, as played."
    ) in out
    assert (
        "The second half ended with 5:00 left, before its time was up, at a lead of 4 goals; the "
        "mercy rule asks for 9 goals with 8:00 left or 6 goals with 3:00 left."
    ) in out
    assert f"The game ends 5{TO}1, before time was up." in out


def test_mercy_that_the_ladder_gives_is_told_as_mercy(run: Run, folder: Path) -> None:
    _enter(folder, PaperCard(periods=(Score(3, 0), Score(4, 1)), ended="mercy", minutes_left=3))
    assert "It ended by the mercy rule" in _stands(run, folder)


def test_a_forfeit_of_a_game_that_was_not_played_has_no_time(run: Run, folder: Path) -> None:
    _enter(folder, PaperCard(periods=(), forfeit=PaperForfeit(by="away", why="not_ready")))
    told = run("game", folder, "M1").out
    assert told.splitlines() == [
        "Game M1, Ash v Birch",
        f"Ash wins. Not played; counts 4{TO}0 (forfeit of Birch: not ready; H 11.1).",
        "",
        "What happened",
        "  Before the game: Birch forfeits: not ready.",
        f"  Before the game: Birch forfeits, and the game counts 4{TO}0. (H 11.1, Forfeits)",
    ]
    assert f"counts 4{TO}0. Not ready." in run("standings", folder).out


@pytest.mark.parametrize(
    ("periods", "left", "says"),
    [
        (
            (Score(1, 0),),
            1,
            (
                "It was broken off because of the lights, after 21 of 44 minutes. It is to be "
                f"resumed where it stopped: H 14.2. No result yet; so far 1{TO}0."
            ),
        ),
        (
            (Score(1, 0),),
            0,
            (
                "The game is over. It was broken off because of the lights, after 22 of 44 "
                "minutes. It is complete, since half of it had been played: H 14.2. Ash wins. "
                f"Counts 1{TO}0, as played."
            ),
        ),
        (
            (Score(1, 0), Score(0, 0)),
            5,
            (
                "The game is over. It was broken off because of the lights, after 39 of 44 "
                "minutes. It is complete, since half of it had been played: H 14.2. Ash wins. "
                f"Counts 1{TO}0, as played."
            ),
        ),
    ],
    ids=["a minute short of half", "half", "more than half"],
)
def test_a_game_broken_off_tells_what_follows(
    run: Run, folder: Path, periods: tuple[Score, ...], left: int, says: str
) -> None:
    card = PaperCard(
        periods=periods, minutes_left=left, broken_off=PaperBrokenOff(why="lights")
    )
    _enter(folder, card)
    assert _stands(run, folder) == says


def test_a_goal_without_a_minute_is_told_before_the_game_was_broken_off(
    run: Run, folder: Path
) -> None:
    broken = PaperBrokenOff(why="lights")
    _enter(folder, PaperCard(periods=(Score(1, 0),), minutes_left=2, broken_off=broken))
    told = loads(run("game", folder, "M1", "--json").out)
    assert [row["says"] for row in told["happened"]] == [
        "The period begins.",
        "Goal for Ash.",
        "The game is broken off for the day: the lights.",
        "The game was broken off and is to go on from there on another day.",
    ]


def test_a_game_is_told_with_no_remark_on_another(run: Run, folder: Path) -> None:
    _enter(folder, LEVEL)
    enter_card(game_to_enter(FolderRecord(folder), GameId("M2")), LEVEL, by=author(2))
    assert run("game", folder, "M1").err == ""
    assert game_to_enter(FolderRecord(folder), GameId("M1")).remarks == ()


def test_games_are_linked_from_the_standings_and_the_index_and_articles_to_the_rulebook(
    run: Run, folder: Path, rule: Rule, tmp_path: Path
) -> None:
    _enter(folder, LEVEL)
    rule(AWARDED)
    out = tmp_path / "out"
    assert run("pages", folder, out).status == 0
    table = (out / "standings-1-round-1.html").read_text()
    assert '<a href="game-M1.html"><bdi>Ash</bdi>' in table
    assert table.count('<a href="game-') == 1
    index = (out / "index.html").read_text()
    assert (
        '<li><span class="sides"><a href="game-M1.html"><bdi>Ash v Birch</bdi></a> '
        "<small><bdi>Tuesday 15 September 2026, 19:05</bdi></small></span> "
        f'<span class="tick">0{TO}4</span></li>'
    ) in index
    page = (out / "game-M1.html").read_text()
    assert '<a href="rulebook.html#article-game">' in page
    assert 'id="article-game"' in (out / "rulebook.html").read_text()


def test_a_timeline_of_unknown_minutes_has_no_bars(
    run: Run, folder: Path, tmp_path: Path
) -> None:
    page = tmp_path / "out" / "m1.html"
    _enter(folder, LEVEL)
    run("game", folder, "M1", "--html", page)
    bare = page.read_text()
    first = LEVEL.yellow[0].model_copy(update={"period": 1, "minute": 3})
    _enter(folder, LEVEL.model_copy(update={"yellow": (first,)}), 2)
    run("game", folder, "M1", "--html", page)
    assert ('class="axis"' in bare, 'class="axis"' in page.read_text()) == (False, True)
