"""A scorecard is entered into a game's log, entered again, and taken back."""

from decimal import Decimal
from pathlib import Path

import pytest

from cases.paper_cards import ordinary
from cases.paper_season import MONDAY, author, write_season
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append, read_game
from wholeball.game.codec import events
from wholeball.game.envelope import Draft, Entry, heads, seal
from wholeball.game.event import Moment
from wholeball.game.happenings import Certified, Goal, Happening, PlayRestarted, Retracted
from wholeball.game.paper import PaperCard, PaperGoal, PaperRating, PaperRed, PaperYellow
from wholeball.game.state import Score
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.reports.entered import both_changes, changes
from wholeball.usecases.enter_game import (
    Entered,
    GameToEnter,
    enter_card,
    game_to_enter,
    redo,
    undo,
)
from wholeball.usecases.seal_entries import author_name

M1 = GameId("M1")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_season(tmp_path / "meadow")


def _enter(folder: Path, card: PaperCard, batch: int = 1) -> Entered:
    return enter_card(game_to_enter(FolderRecord(folder), M1), card, by=author(batch))


def _undo(folder: Path, batch: int) -> Entered:
    return undo(game_to_enter(FolderRecord(folder), M1), by=author(batch))


def _redo(folder: Path, batch: int) -> Entered:
    return redo(game_to_enter(FolderRecord(folder), M1), by=author(batch))


def _with(second_half: tuple[int, int]) -> PaperCard:
    return ordinary().model_copy(update={"periods": (Score(1, 1), Score(*second_half))})


def _log(folder: Path) -> bytes:
    return (folder / "games" / "M1.jsonl").read_bytes()


def test_an_entered_card_is_one_chain_of_the_paper_with_its_author_name(folder: Path) -> None:
    entered = _enter(folder, ordinary())
    log = read_game(FolderRecord(folder), M1)
    assert log.findings == ()
    assert {(one.said.dev, one.said.who, one.said.role) for one in log.entries} == {
        ("paper", "Kim", "recorder")
    }
    assert [one.said.seq for one in log.entries] == list(range(1, 17))
    assert {one.said.wall for one in log.entries} == {MONDAY + 3_600_000}
    assert events(log.report.standing) == entered.new
    assert (entered.after.state.result, entered.is_first) == (Score(3, 2), True)


def test_the_same_card_again_leaves_the_log_as_it_was(folder: Path) -> None:
    _enter(folder, ordinary())
    before = _log(folder)
    entered = _enter(folder, ordinary(), 2)
    assert (entered.gone, entered.new, _log(folder)) == ((), (), before)


def test_a_goal_more_adds_one_entry_and_is_said_in_words(folder: Path) -> None:
    _enter(folder, ordinary())
    entered = _enter(folder, _with((3, 1)), 2)
    assert changes(entered.before, entered.gone) == ()
    assert changes(entered.after, entered.new) == ("Second half: goal of Ash.",)
    assert (entered.after.state.score, entered.is_first) == (Score(4, 2), False)


def test_two_goals_less_are_two_entries_taken_back_and_said_in_one_line(folder: Path) -> None:
    _enter(folder, ordinary())
    entered = _enter(folder, _with((0, 1)), 2)
    assert changes(entered.before, entered.gone) == ("Second half: goal of Ash. (2 times)",)
    assert [one.what for one in events(read_game(FolderRecord(folder), M1).entries)[16:]] == [
        Retracted(target=one.id) for one in entered.gone
    ]
    assert entered.after.state.score == Score(1, 2)


def test_undo_of_the_first_card_leaves_a_game_that_has_not_begun(folder: Path) -> None:
    _enter(folder, ordinary())
    undone = _undo(folder, 2)
    assert (len(undone.gone), undone.new, undone.after.state.phase) == (16, (), "before")


def test_two_changes_are_undone_in_turn_and_brought_back_in_turn(folder: Path) -> None:
    halves = [(2, 1), (2, 2), (3, 2)]
    for batch, half in enumerate(halves, start=1):
        _enter(folder, _with(half), batch)
    found = [_undo(folder, 4), _undo(folder, 5)]
    assert [one.after.state.by_period[1] for one in found] == [Score(2, 2), Score(2, 1)]
    assert [(one.may_undo, one.may_redo) for one in found] == [(True, True), (True, True)]
    found = [_redo(folder, 6), _redo(folder, 7)]
    assert [one.after.state.by_period[1] for one in found] == [Score(2, 2), Score(3, 2)]
    assert [(one.may_undo, one.may_redo) for one in found] == [(True, True), (True, False)]
    assert _enter(folder, _with((3, 2)), 8).new == ()


def test_what_is_entered_after_an_undo_leaves_nothing_to_bring_back(folder: Path) -> None:
    _enter(folder, ordinary())
    _enter(folder, _with((2, 2)), 2)
    _undo(folder, 3)
    _enter(folder, _with((4, 2)), 4)
    with pytest.raises(WholeballError, match="Nothing of game M1 has been taken back"):
        _redo(folder, 5)
    assert _undo(folder, 6).after.state.by_period == (Score(1, 1), Score(2, 1))


def test_what_reads_the_same_taken_back_and_new_is_left_out(folder: Path) -> None:
    _enter(folder, ordinary())
    scorer = PaperGoal(side="home", period=2, number=9)
    entered = _enter(folder, ordinary().model_copy(update={"goals": (scorer,)}), 2)
    undone = _undo(folder, 3)
    assert both_changes(undone.before, undone.gone, undone.after, undone.new) == (
        ("Second half: goal of number 9 of Ash.",),
        ("Second half: goal of Ash.",),
    )
    moved = _enter(folder, ordinary().model_copy(update={"note": "Cold."}), 4)
    assert both_changes(moved.before, entered.gone, moved.after, entered.gone) == ((), ())


def test_undo_with_nothing_entered_says_so(folder: Path) -> None:
    with pytest.raises(WholeballError, match="No scorecard of game M1 has been entered"):
        _undo(folder, 1)


def test_a_rating_off_the_scale_writes_nothing(folder: Path) -> None:
    card = ordinary().model_copy(
        update={"ratings": (PaperRating(side="home", value=Decimal("4.5")),)}
    )
    with pytest.raises(InputFaults) as refused:
        _enter(folder, card)
    assert [str(one) for one in refused.value.faults] == [
        "the scorecard: the rating 4.5 is no value of the scale. Give 1 to 5 in steps of 1."
    ]
    assert not (folder / "games").exists()


@pytest.mark.parametrize("name", ["", "   ", "K" * 65, "Kim\u202e", "Ki\udce9"])
def test_a_recorder_needs_a_name_that_people_can_read(name: str) -> None:
    with pytest.raises(WholeballError, match="does not do"):
        author_name(name)


def test_a_recorder_of_64_letters_is_taken_without_the_spaces_around() -> None:
    assert author_name(f" {'K' * 64} ") == "K" * 64


def test_an_unknown_game_offers_the_nearest(folder: Path) -> None:
    with pytest.raises(WholeballError) as refused:
        game_to_enter(FolderRecord(folder), GameId("m11"))
    assert (refused.value.code, refused.value.fix) == ("unknown_game", "Did you mean M1?")


def test_a_game_whose_result_is_in_results_csv_is_not_entered_beside_it(folder: Path) -> None:
    with pytest.raises(WholeballError) as refused:
        game_to_enter(FolderRecord(folder), GameId("M3"))
    assert (refused.value.code, refused.value.says) == (
        "duplicate",
        "results.csv row 2 has a result of game M3, and a result stands once.",
    )


def test_a_damaged_chain_is_not_written_after(folder: Path) -> None:
    _enter(folder, ordinary())
    path = folder / "games" / "M1.jsonl"
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join(lines[:4] + lines[5:]))
    with pytest.raises(WholeballError) as refused:
        game_to_enter(FolderRecord(folder), M1)
    assert refused.value.code == "gap"


def test_a_card_beside_what_a_phone_recorded_is_doubted(folder: Path) -> None:
    _phone(game_to_enter(FolderRecord(folder), M1))
    entered = _enter(folder, ordinary())
    doubts = [one for one in entered.remarks if one.code == "two_sources"]
    assert [one.says for one in doubts] == [
        "phone recorded this game too, and its goals count beside the scorecard's."
    ]
    assert read_game(FolderRecord(folder), M1).entries[1].said.seen == heads(
        read_game(FolderRecord(folder), M1).entries[:1]
    )


ROSTERS = "team,number,name\nAsh,7,Mo\nAsh,9,Bo\nBirch,,Al\n"


def test_a_number_that_is_on_no_roster_is_kept_and_doubted_once(folder: Path) -> None:
    (folder / "rosters.csv").write_text(ROSTERS)
    card = PaperCard(
        periods=(Score(1, 0), Score(0, 1)),
        goals=(
            PaperGoal(side="home", period=1, number=9),
            PaperGoal(side="away", period=2, number=44, own=True),
        ),
        yellow=(
            PaperYellow(side="home", number=44),
            PaperYellow(side="home", number=7),
            PaperYellow(side="away", number=12),
        ),
    )
    entered = _enter(folder, card)
    assert [one.says for one in entered.remarks if one.code == "unknown_player"] == [
        "Ash has no number 44; it is kept as the scorecard has it."
    ]
    assert [one.number for one in entered.after.state.cards] == [44, 7, 12]


def test_a_number_of_a_team_official_is_no_players_number(folder: Path) -> None:
    (folder / "rosters.csv").write_text(ROSTERS)
    card = PaperCard(
        periods=(Score(1, 0), Score(0, 1)),
        yellow=(PaperYellow(side="home", number=44, to="team_official"),),
        red=(PaperRed(side="home", number=45, to="team_official"),),
    )
    entered = _enter(folder, card)
    assert [one.says for one in entered.remarks if one.code == "unknown_player"] == []


def test_a_card_after_the_certification_is_told_that_it_comes_late(folder: Path) -> None:
    _enter(folder, ordinary())
    _certify(game_to_enter(FolderRecord(folder), M1))
    entered = _enter(folder, _with((3, 1)), 2)
    assert [one.says for one in entered.remarks if one.code == "late"][-1] == (
        "the result was certified before, and what is entered now does not change it."
    )


def test_a_card_typed_while_another_was_entered_follows_it(folder: Path) -> None:
    slow = game_to_enter(FolderRecord(folder), M1)
    _enter(folder, ordinary())
    entered = enter_card(slow, _with((3, 1)), by=author(2))
    assert (len(entered.new), entered.after.state.score) == (1, Score(4, 2))
    assert read_game(FolderRecord(folder), M1).findings == ()


@pytest.mark.parametrize(("before", "is_refused"), [(1_984, False), (1_985, True)])
def test_entries_beyond_two_thousand_are_refused(
    folder: Path, before: int, *, is_refused: bool
) -> None:
    to = game_to_enter(FolderRecord(folder), M1)
    _append(to, *[PlayRestarted()] * before, dev="paper")
    if not is_refused:
        assert len(_enter(folder, ordinary(), 2).new) == 16
        return
    with pytest.raises(WholeballError) as refused:
        _enter(folder, ordinary(), 2)
    assert (refused.value.code, len(read_game(FolderRecord(folder), M1).entries)) == (
        "limits",
        before,
    )


def _phone(to: GameToEnter) -> None:
    _append(to, Goal(side="home"), dev="phone")


def _certify(to: GameToEnter) -> None:
    frontier = tuple((dev, *last) for dev, last in heads(to.log.entries).items())
    _append(to, Certified(by="u-2", state="", frontier=frontier), dev="desk")


def _append(to: GameToEnter, *happened: Happening, dev: str) -> None:
    entries: list[Entry] = []
    for number, what in enumerate(happened):
        wall = MONDAY + number
        draft = Draft(
            id=f"01900000-0000-7000-9000-{number:012x}",
            game=M1,
            dev=dev,
            hlc=(wall, 0),
            wall=wall,
            mono=0,
            at=Moment(1, 60),
            who="u-1",
            role="scorekeeper",
            what=what,
            seen={},
            rb=to.rules.book.digest,
        )
        entries.append(seal(draft, after=entries[-1] if entries else None))
    append(to.record, M1, entries)
