"""Play-off games come into planning.toml, go and change, and all else stays as it stands."""

import tomllib
from codecs import BOM_UTF8
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.files.play_offs_edit import with_play_offs
from wholeball.kernel.faults import WholeballError

TEXT: Final = b"""schema = 1  # of the file
# the first round

[[play_offs]]  # on grass
game = "P1"
round = 6   # the week after the league
# seeds by the table
home = "seed 4"
away = "seed 5"

# the last round
[[play_offs]]
game = "P2"
round = 7
home = "seed 1"
away = "winner of P1"

[pools.A]
meetings = 2

# the end
"""
ONE: Final = {"game": "P1", "round": 6, "home": "seed 4", "away": "seed 5"}
TWO: Final = {"game": "P2", "round": 7, "home": "seed 1", "away": "winner of P1"}
NEW: Final = {"game": "P0", "round": 6, "home": "seed 2", "away": "seed 3"}
ADDED: Final = b'[[play_offs]]\ngame = "P0"\nround = 6\nhome = "seed 2"\naway = "seed 3"\n'


def test_games_that_stay_leave_the_file_byte_for_byte() -> None:
    assert with_play_offs(TEXT, [(0, ONE), (1, TWO)]) == TEXT


def test_a_round_is_changed_and_what_stands_beside_it_stays() -> None:
    told = with_play_offs(TEXT, [(0, {**ONE, "round": 8}), (1, TWO)])
    assert told == TEXT.replace(b"round = 6   # the week", b"round = 8   # the week")


@pytest.mark.parametrize(
    ("at", "before", "after"),
    [
        (0, b"# the first round\n\n", b"[[play_offs]]  # on grass\n"),
        (1, b'away = "seed 5"\n\n', b"\n# the last round\n"),
        (2, b'away = "winner of P1"\n\n', b"\n[pools.A]\n"),
    ],
)
def test_a_new_game_stands_where_it_is_to_be_with_the_comments_around_it(
    at: int, before: bytes, after: bytes
) -> None:
    wanted: list[Any] = [(0, ONE), (1, TWO)]
    wanted.insert(at, (None, NEW))
    told = with_play_offs(TEXT, wanted)
    added = before + ADDED + (b"\n" if at == 0 else b"") + after
    assert added in told
    assert told.replace(added, before + after if at == 0 else before[:-1] + after) == TEXT


def test_a_game_that_comes_before_all_does_not_take_their_comment() -> None:
    text = TEXT.replace(b"# the first round\n\n", b"\n# the first round\n")
    told = with_play_offs(text, [(None, NEW), (0, ONE), (1, TWO)])
    assert told == text.replace(b"# the first round\n", ADDED + b"\n# the first round\n")


def test_a_game_that_goes_takes_its_own_lines_and_one_blank_line() -> None:
    begins, ends = TEXT.index(b"[[play_offs]]  # on"), TEXT.index(b"# the last round")
    alone = {**TWO, "away": "seed 2"}
    told = with_play_offs(TEXT, [(1, alone)])
    gone = TEXT[:begins] + TEXT[ends:]
    assert told == gone.replace(b'"winner of P1"', b'"seed 2"')


def test_without_any_the_rest_of_the_file_is_left() -> None:
    assert with_play_offs(TEXT, []) == (
        b"schema = 1  # of the file\n# the first round\n\n# the last round\n\n"
        b"[pools.A]\nmeetings = 2\n\n# the end\n"
    )


def test_the_first_game_stands_at_the_end_with_the_line_ends_of_the_file() -> None:
    assert with_play_offs(b"schema = 1", [(None, NEW)]) == b"schema = 1\n\n" + ADDED
    windows = with_play_offs(b"schema = 1\r\n", [(None, NEW), (None, ONE)])
    assert windows.count(b"\n") == windows.count(b"\r\n") == 13
    assert with_play_offs(b"", [(None, NEW)]) == b"schema = 1\nmeetings = 1\n\n" + ADDED
    assert with_play_offs(b"schema = 1", []) == b"schema = 1"


def test_the_mark_with_which_some_editors_begin_a_file_stays() -> None:
    assert with_play_offs(BOM_UTF8 + TEXT, [(0, ONE), (1, TWO)]) == BOM_UTF8 + TEXT


def test_games_of_one_list_stay_in_it() -> None:
    text = b'schema = 1\nplay_offs = [{ game = "P1", round = 6, home = "seed 4", away = "seed 5" }]  # one\n'
    told = with_play_offs(text, [(None, NEW), (0, {**ONE, "round": 7})])
    assert told.endswith(b"]  # one\n")
    assert tomllib.loads(told.decode())["play_offs"] == [NEW, {**ONE, "round": 7}]
    assert with_play_offs(text, []) == b"schema = 1\nplay_offs = []  # one\n"


@pytest.mark.parametrize("text", [b"play_offs = 1\n", b"["])
def test_a_file_that_does_not_let_itself_be_changed_is_refused(text: bytes) -> None:
    with pytest.raises(WholeballError) as refused:
        with_play_offs(text, [(None, NEW)])
    assert str(refused.value) == (
        "The play-offs cannot be changed without the rest in planning.toml. "
        "Change the file, and import the season again."
    )


def _texts(games: int) -> st.SearchStrategy[bytes]:
    """Return files with so many games, and comments, blank lines and other tables between them."""
    between = st.lists(
        st.sampled_from(["# our own\n", "\n", "[pools.{}]\nmeetings = 2\n", "\n# two\n\n"]),
        max_size=3,
    )

    def put(parts: list[list[str]]) -> bytes:
        told = "schema = 1\n"
        for at, part in enumerate(parts):
            told += "".join(one.format(f"A{at}{number}") for number, one in enumerate(part))
            if at < games:
                told += f'[[play_offs]]\ngame = "G{at}"  # {at}\nround = 1\nhome = "a"\naway = "b"\n'
        return told.encode()

    return st.lists(between, min_size=games + 1, max_size=games + 1).map(put)


@given(data=st.data())
def test_whatever_comes_and_goes_no_comment_between_games_and_no_other_key_is_lost(
    data: st.DataObject,
) -> None:
    count = data.draw(st.integers(0, 4))
    text = data.draw(_texts(count))
    anywhere: st.SearchStrategy[int | None] = st.none()
    if count:
        anywhere |= st.integers(0, count - 1)
    places = data.draw(st.lists(anywhere, max_size=6))
    once = [one for at, one in enumerate(places) if one is None or one not in places[:at]]
    wanted = [
        (was, {"game": f"N{at}", "round": at + 1, "home": "x", "away": "y"})
        for at, was in enumerate(once)
    ]
    told = with_play_offs(text, wanted)
    said, before = tomllib.loads(told.decode()), tomllib.loads(text.decode())
    assert said.pop("play_offs", []) == [record for _, record in wanted]
    before.pop("play_offs", None)
    assert said == before
    own = [line for line in text.splitlines() if line.startswith(b"#")]
    assert [line for line in told.splitlines() if line.startswith(b"#")] == own
