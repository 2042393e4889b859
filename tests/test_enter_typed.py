"""A scorecard is typed in or filled in as a file, entered at the terminal, and taken back."""

from pathlib import Path

import pytest

from cases.command_line import Run, Told
from cases.paper_season import write_season
from cases.typed_answers import ORDINARY


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_season(tmp_path / "meadow")


@pytest.fixture
def run(run: Run, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Return what types a scorecard in, its answers by lines; `then` is how the input ends."""

    def typed(*words: object, lines: str = "", then: type[BaseException] = EOFError) -> Told:
        person = iter(lines.splitlines())

        def answer(_: str) -> str:
            line = next(person, None)
            if line is None:
                raise then
            return line

        monkeypatch.setattr("builtins.input", answer)
        return run("enter", *words)

    return typed


def test_a_typed_card_is_told_and_may_be_taken_back(run: Run, folder: Path) -> None:
    status, out, err = run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    assert (status, err) == (0, "")
    lines = out.splitlines()
    assert lines[2:6] == [
        "Game M1, Ash v Birch",
        (
            "The game is over. It ended at full time, at the end of the second half: "
            "game, The game. Ash wins. Counts 3\N{EN DASH}2, as played."
        ),
        "First half: 1\N{EN DASH}1",
        "Second half: 2\N{EN DASH}1",
    ]
    assert lines[-1] == (
        f"16 entries written. To go one entering back: wholeball enter {folder} M1 --undo"
    )
    status, out, _ = run(folder, "M1", "--by", "Kim", "--undo")
    assert (status, "Nothing is recorded yet." in out) == (0, True)
    assert out.splitlines()[-1] == (
        "16 entries written. To bring back what was taken back: "
        f"wholeball enter {folder} M1 --redo"
    )
    status, _, err = run(folder, "M1", "--by", "Kim", "--undo")
    assert (status, err) == (
        1,
        (
            "All that was entered of game M1 has been taken back. There is nothing to take back. "
            f"To bring it back: wholeball enter {folder} M1 --redo\n"
        ),
    )
    status, out, _ = run(folder, "M1", "--by", "Kim", "--redo")
    assert (status, "Ash wins." in out) == (0, True)


def test_one_digit_is_mended_by_typing_it_alone(run: Run, folder: Path) -> None:
    run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    status, out, _ = run(folder, "M1", "--by", "Kim", lines="\n3-1\n" + "\n" * 9)
    assert status == 0
    assert out.splitlines()[3:5] == ["New", "  Second half: goal of Ash."]
    assert out.splitlines()[1] == (
        "Enter alone takes what stands in brackets; a lone - takes an answer out."
    )
    assert out.splitlines()[-1] == (
        f"1 entry written. To go one entering back: wholeball enter {folder} M1 --undo"
    )


def test_the_name_is_asked_first_where_it_was_not_given(run: Run, folder: Path) -> None:
    status, _, _ = run(folder, "M1", lines=f"Kim\n{ORDINARY}")
    assert status == 0
    assert b'"who":"Kim"' in (folder / "games" / "M1.jsonl").read_bytes()


def test_the_same_card_again_says_that_nothing_differs(run: Run, folder: Path) -> None:
    run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    _, out, _ = run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    assert out.splitlines()[-1] == (
        "Nothing differs from what was entered before; nothing was written."
    )


@pytest.mark.parametrize(
    ("stop", "status"), [(KeyboardInterrupt, 130), (EOFError, 1)], ids=["ctrl-c", "end"]
)
def test_a_card_that_is_broken_off_writes_nothing(
    run: Run, folder: Path, stop: type[BaseException], status: int
) -> None:
    got, out, _ = run(folder, "M1", "--by", "Kim", lines="1-1\n2-1\n", then=stop)
    assert (got, out.endswith("Nothing was written.\n")) == (status, True)
    assert not (folder / "games").exists()


def test_a_template_is_filled_in_and_entered(run: Run, folder: Path) -> None:
    status, out, _ = run(folder, "M2", "--template")
    path = folder / "cards" / "M2.toml"
    assert (status, out) == (0, f"{path}\n")
    assert run(folder, "M2", "--template")[0] == 1
    status, _, err = run(folder, "M2", "--file", "--by", "Kim")
    assert (status, err.splitlines()[-1]) == (1, "Nothing was written.")
    path.write_text(path.read_text().replace('["", ""]', '["1-1", "2-1"]'))
    status, out, _ = run(folder, "M2", "--file", "--by", "Kim")
    assert (status, "Counts 3\N{EN DASH}2, as played." in out) == (0, True)


def test_a_template_of_an_entered_game_is_the_card_as_it_was_entered(
    run: Run, folder: Path
) -> None:
    run(folder, "M1", "--by", "Kim", lines=ORDINARY)
    run(folder, "M1", "--template")
    status, out, _ = run(folder, "M1", "--file", "--by", "Kim")
    assert (status, out.splitlines()[-1]) == (
        0,
        "Nothing differs from what was entered before; nothing was written.",
    )


def test_file_and_undo_do_not_go_together(run: Run, folder: Path) -> None:
    status, _, err = run(folder, "M1", "--file", "--undo")
    assert (status, err) == (
        1,
        "--file, --template, --undo and --redo do not go together. Give one of them.\n",
    )


def test_an_unknown_game_offers_the_nearest(run: Run, folder: Path) -> None:
    assert run(folder, "N1", "--by", "Kim") == (
        1,
        "",
        "There is no game N1 in timetable.csv. Use one of: M1, M2, M3.\n",
    )
