"""A result is certified from the desk, what comes late is a case, and it is opened again."""

from hashlib import sha256
from json import dumps, loads
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.paper_cards import ordinary
from cases.paper_season import author, write_season
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import GameLog, read_game
from wholeball.game.codec import event
from wholeball.game.envelope import heads
from wholeball.game.happenings import Certified, Reopened
from wholeball.game.paper import PaperCard, PaperYellow
from wholeball.game.plain import plain
from wholeball.game.state import Score
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.certify_game import Decided, certify_game, reopen_game
from wholeball.usecases.enter_game import enter_card, game_to_enter

M1 = GameId("M1")
TO = "\N{EN DASH}"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_season(tmp_path / "meadow")


def _enter(folder: Path, card: PaperCard, batch: int = 1) -> tuple[str, ...]:
    entered = enter_card(game_to_enter(FolderRecord(folder), M1), card, by=author(batch))
    return tuple(f"{one.says} {one.cure}" for one in entered.remarks)


def _level() -> PaperCard:
    return ordinary().model_copy(update={"periods": (Score(1, 1), Score(2, 2))})


def _certify(folder: Path, batch: int = 2, *, reason: str = "") -> Decided:
    return certify_game(FolderRecord(folder), M1, by=author(batch, name="Sam"), reason=reason)


def _reopen(folder: Path, batch: int = 4) -> Decided:
    by = author(batch, name="Sam")
    return reopen_game(FolderRecord(folder), M1, by=by, reason="A goal was left out.")


def _last(log: GameLog) -> Certified | Reopened:
    what = event(log.entries[-1]).what
    assert isinstance(what, Certified | Reopened)
    return what


def _remarks(folder: Path) -> list[tuple[str, str, str, str]]:
    return [
        (one.place.file, one.code, one.says, one.cure)
        for one in read_folder(FolderRecord(folder)).remarks
    ]


def _asking() -> PaperCard:
    """Return a card that asks one question: a yellow for somebody already sent off."""
    yellow = tuple(
        PaperYellow(side="home", number=7, reason="trip", period=1, minute=minute)
        for minute in (3, 9, 12)
    )
    return ordinary().model_copy(update={"yellow": yellow, "ratings": ()})


def test_a_certification_has_the_heads_of_all_devices_and_the_digest_of_the_state(
    folder: Path,
) -> None:
    _enter(folder, ordinary())
    before = read_game(FolderRecord(folder), M1)
    decided = _certify(folder)
    log = read_game(FolderRecord(folder), M1)
    [(dev, (last, head))] = heads(before.entries).items()
    state = dumps(
        plain(decided.told.state), sort_keys=True, separators=(",", ":"), ensure_ascii=False
    )
    assert (log.entries[-1].said.dev, log.entries[-1].said.role) == ("desk", "supervisor")
    assert _last(log) == Certified(
        by="Sam", state=sha256(state.encode()).hexdigest(), frontier=((dev, last, head),)
    )
    assert (dev, last, log.findings, decided.remarks) == ("paper", 16, (), ())
    assert _remarks(folder) == []


def test_a_late_goal_is_a_case_that_says_what_it_would_change(folder: Path) -> None:
    _enter(folder, ordinary())
    _certify(folder)
    [doubt] = _enter(folder, _level(), 3)
    assert doubt == (
        "the result was certified before, and what is entered now does not change it. "
        f"If it should: wholeball reopen {folder} M1 --by NAME --reason TEXT"
    )
    assert _remarks(folder) == [
        (
            "games/M1.jsonl",
            "late",
            (
                "1 entry came after the certification and would change the score: 3-2 would become "
                "3-3; the official result is unchanged."
            ),
            f"If they should count: wholeball reopen {folder} M1 --by NAME --reason TEXT",
        )
    ]
    [result] = [
        one for one in read_folder(FolderRecord(folder)).season.results if one.game == M1
    ]
    assert (result.home_goals, result.away_goals) == (3, 2)


def test_a_reopened_game_counts_all_and_can_be_certified_anew(folder: Path) -> None:
    _enter(folder, ordinary())
    _certify(folder)
    _enter(folder, _level(), 3)
    assert _reopen(folder).told.state.score == Score(3, 3)
    assert _last(read_game(FolderRecord(folder), M1)) == Reopened(
        by="Sam", reason="A goal was left out."
    )
    assert [code for _, code, _, _ in _remarks(folder)] == ["not_certified"]
    _certify(folder, 5)
    assert _remarks(folder) == []
    [result] = [
        one for one in read_folder(FolderRecord(folder)).season.results if one.game == M1
    ]
    assert (result.home_goals, result.away_goals) == (3, 3)


def test_a_game_that_has_not_ended_is_not_certified(folder: Path) -> None:
    with pytest.raises(WholeballError) as refused:
        _certify(folder, reason="Everybody went home.")
    assert refused.value.says == "Game M1 has not ended by what is recorded of it."
    assert refused.value.fix == (f"Enter the rest first: wholeball enter {folder} M1 --by NAME")
    assert not (folder / "games").exists()


def test_an_open_question_wants_a_reason(folder: Path) -> None:
    _enter(folder, _asking())
    before = (folder / "games" / "M1.jsonl").read_bytes()
    with pytest.raises(WholeballError) as refused:
        _certify(folder)
    assert (refused.value.code, refused.value.says) == (
        "open_questions",
        "Game M1 has 1 question that nobody has answered.",
    )
    assert refused.value.fix == (
        f"Look at it: wholeball game {folder} M1 --officials. Answer: wholeball answer {folder} M1 "
        "--by NAME. Or certify it all the same, with the reason why."
    )
    assert (folder / "games" / "M1.jsonl").read_bytes() == before
    _certify(folder, reason="Both captains agree.")
    what = _last(read_game(FolderRecord(folder), M1))
    assert what.reason == "Both captains agree."


def test_a_damaged_log_wants_a_reason(folder: Path) -> None:
    _enter(folder, ordinary())
    path = folder / "games" / "M1.jsonl"
    lines = path.read_text().splitlines(keepends=True)
    path.write_text("".join(lines[:-2] + lines[-1:]))
    with pytest.raises(WholeballError) as refused:
        _certify(folder)
    assert (refused.value.code, refused.value.says) == (
        "damaged",
        "Game M1 has 1 entry that cannot be relied on.",
    )
    decided = _certify(folder, reason="The paper lies here.")
    assert [one.code for one in decided.remarks] == ["gap"]


def test_what_is_certified_is_not_certified_again(folder: Path) -> None:
    _enter(folder, ordinary())
    _certify(folder)
    with pytest.raises(WholeballError, match="certified already, by Sam"):
        _certify(folder, 3)


def test_what_is_not_certified_is_not_reopened(folder: Path) -> None:
    _enter(folder, ordinary())
    with pytest.raises(WholeballError, match="The result of game M1 is not certified"):
        _reopen(folder)


@pytest.mark.parametrize("reason", ["", "  ", "x" * 501, "a\x00b"])
def test_a_reason_that_says_nothing_or_too_much_is_refused(folder: Path, reason: str) -> None:
    _enter(folder, ordinary())
    _certify(folder)
    before = (folder / "games" / "M1.jsonl").read_bytes()
    with pytest.raises(WholeballError):
        reopen_game(FolderRecord(folder), M1, by=author(4), reason=reason)
    assert (folder / "games" / "M1.jsonl").read_bytes() == before


def test_several_games_that_are_not_certified_are_one_remark(folder: Path) -> None:
    _enter(folder, ordinary())
    m2 = game_to_enter(FolderRecord(folder), GameId("M2"))
    card = ordinary().model_copy(update={"ratings": ()})
    enter_card(m2, card, by=author(2))
    assert _remarks(folder) == [
        (
            "games/",
            "not_certified",
            "the results of 2 games count, and are not certified yet: M1 and M2.",
            (
                f"Look at each, then certify it: wholeball game {folder} GAME; wholeball certify "
                f"{folder} GAME --by NAME"
            ),
        )
    ]


def test_the_terminal_says_what_is_certified_and_how_to_open_it_again(
    run: Run, folder: Path
) -> None:
    _enter(folder, ordinary())
    told = run("certify", folder, "M1", "--by", " Sam ")
    assert (told.status, told.err) == (0, "")
    assert told.out.splitlines() == [
        "Game M1, Ash v Birch",
        (
            "The game is over. It ended at full time, at the end of the second half: game, The "
            f"game. Ash wins. Counts 3{TO}2, as played."
        ),
        f"First half: 1{TO}1",
        f"Second half: 2{TO}1",
        "Yellow and red",
        "  Yellow, number 7 of Ash, minute not written down: dissent.",
        "  Yellow, number 10 of Birch, minute not written down: trip.",
        "Signed",
        "  The home captain signed.",
        "  The away captain signed.",
        "  The official signed.",
        "Certified by Sam. Whatever is entered from now on does not change it.",
        f"To open it again: wholeball reopen {folder} M1 --by NAME --reason TEXT",
    ]


def test_a_game_tells_its_case_in_words_in_json_and_on_its_page(
    run: Run, folder: Path, tmp_path: Path
) -> None:
    _enter(folder, ordinary())
    _certify(folder)
    _enter(folder, _level(), 3)
    page = tmp_path / "m1.html"
    lines = run("game", folder, "M1", "--html", page).out.splitlines()
    case = (
        "The result is certified. 1 entry came after the certification and would change the "
        "score: 3-2 would become 3-3. The official result is unchanged."
    )
    assert lines[1].endswith(
        f"Ash wins. Official: 3{TO}2, unchanged; with the late entries it would be 3{TO}3. {case}"
    )
    at = lines.index("Came too late")
    assert lines[at + 1 : at + 3] == [
        "  Goal of Birch, in the second half, minute not written down.",
        "",
    ]
    assert "reopen" not in page.read_text()
    assert lines[-2] == "  Afterwards: The result is certified."
    assert "Came too late" in page.read_text()
    told = loads(run("game", folder, "M1", "--json").out)
    assert (told["score"], told["official"]["late"]) == (
        [3, 2],
        {
            "entries": 1,
            "would_change": ["score", "result", "winner"],
            "score": [3, 3],
            "says": ["Goal of Birch, in the second half, minute not written down."],
        },
    )
    officials = run("game", folder, "M1", "--officials").out
    assert f"If they should count: wholeball reopen {folder} M1 --by" in officials
    assert "Certified by Sam. 1 entry came" in officials


def test_reopening_at_the_terminal_says_what_counts_now(run: Run, folder: Path) -> None:
    _enter(folder, ordinary())
    _certify(folder)
    assert run("reopen", folder, "M1", "--by", "Sam").status == 2
    told = run("reopen", folder, "M1", "--by", "Sam", "--reason", "A goal was left out.")
    assert (told.status, told.out.splitlines()) == (
        0,
        [
            "Game M1, Ash v Birch",
            f"The result is open again. Counts 3{TO}2, as played.",
            f"To certify it: wholeball certify {folder} M1 --by NAME",
        ],
    )
