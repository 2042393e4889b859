"""A game keeps the rulebook it started with; the next one takes the new."""

from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import GameId
from wholeball.rulebook.editions import edition
from wholeball.rulebook.shelf import Change, Shelf, shelf

OLD, NEW, NEWER = (edition(key) for key in ("laws-2024-25", "laws-2025-26", "laws-2026-27"))
ONE, TWO, THREE = GameId("1"), GameId("2"), GameId("3")


def test_a_season_starts_with_one_rulebook_and_no_game() -> None:
    assert shelf(OLD) == Shelf(books={OLD.digest: OLD}, current=OLD.digest, started_with={})


def test_a_game_that_has_not_started_has_the_current_rulebook() -> None:
    assert shelf(OLD).of(ONE) is OLD
    assert shelf(OLD).change(NEW).shelf.of(ONE) is NEW


def test_a_game_keeps_the_rulebook_it_started_with() -> None:
    change = shelf(OLD).start(TWO).start(ONE).change(NEW)
    assert (change.keep, change.code) == ((ONE, TWO), "pinned")
    assert (change.shelf.of(ONE), change.shelf.of(TWO)) == (OLD, OLD)
    assert change.shelf.of(THREE) is NEW


def test_a_game_started_again_keeps_what_it_had() -> None:
    changed = shelf(OLD).start(ONE).change(NEW).shelf
    assert changed.start(ONE) == changed
    assert changed.start(TWO).of(TWO) is NEW


def test_a_change_before_any_game_keeps_none() -> None:
    assert shelf(OLD).change(NEW) == Change(
        shelf=Shelf(books={OLD.digest: OLD, NEW.digest: NEW}, current=NEW.digest), keep=()
    )
    assert shelf(OLD).change(NEW).code == "ok"


def test_a_change_to_the_same_rules_changes_nothing() -> None:
    started = shelf(OLD).start(ONE)
    assert started.change(OLD) == Change(shelf=started, keep=())


def test_a_change_back_keeps_only_games_of_the_other_rulebook() -> None:
    between = shelf(OLD).start(ONE).change(NEW).shelf.start(TWO)
    back = between.change(OLD)
    assert (back.keep, back.code) == ((TWO,), "pinned")
    assert (back.shelf.of(ONE), back.shelf.of(TWO), back.shelf.of(THREE)) == (OLD, NEW, OLD)


STEPS = st.lists(
    st.one_of(st.sampled_from([ONE, TWO, THREE]), st.sampled_from([OLD, NEW, NEWER])),
    max_size=8,
)


@given(STEPS)
def test_whatever_happens_no_game_ever_changes_its_rulebook(steps: list[object]) -> None:
    now, current, started = shelf(OLD), OLD.digest, dict[str, str]()
    for step in steps:
        if isinstance(step, str):
            now = now.start(GameId(step))
            started.setdefault(step, current)
        else:
            book = next(one for one in (OLD, NEW, NEWER) if one is step)
            now, current = now.change(book).shelf, book.digest
        assert all(now.of(GameId(game)).digest == digest for game, digest in started.items())
        assert now.of(GameId("not started")).digest == current
