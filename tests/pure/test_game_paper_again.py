"""A scorecard that is entered again takes back and adds only what differs."""

from dataclasses import replace

from hypothesis import given

from cases.paper_cards import LEAGUE, cards, events_of, ordinary, scores
from wholeball.game import happenings as was
from wholeball.game.event import Event, Moment
from wholeball.game.paper import PaperCard, PaperGoal, PaperPlayer, PaperYellow
from wholeball.game.paper_entries import Difference, Told, difference, standing, told
from wholeball.game.play import play
from wholeball.game.state import GameState


def _entered(before: tuple[Event, ...], card: PaperCard, *, prefix: str) -> tuple[Event, ...]:
    """Enter a card after what was entered before, as the device does."""
    changed = difference(standing(before), told(card, LEAGUE))
    taken_back = tuple(Told(Moment(0, 0), was.Retracted(target=one.id)) for one in changed.gone)
    return (*before, *events_of((*taken_back, *changed.new), prefix=prefix))


def _without_names(state: GameState) -> object:
    """Return a state without identities, entries of one moment in any order."""
    nameless = lambda lines: sorted(  # noqa: E731 - used here only
        repr(replace(one, event="")) for one in lines
    )
    return (
        state.score,
        state.by_period,
        state.ending,
        state.now,
        state.kicks and replace(state.kicks, decided_by=None),
        *map(
            nameless,
            (state.goals, state.cards, state.ratings, state.signatures, state.statements),
        ),
        sorted((one.code, one.at) for one in state.questions),
    )


@given(cards(), cards())
def test_one_card_and_then_another_comes_to_what_the_other_alone_does(
    first: PaperCard, second: PaperCard
) -> None:
    after_first = _entered((), first, prefix="a")
    both = _entered(after_first, second, prefix="b")
    alone = _entered((), second, prefix="c")
    assert _without_names(play(both, LEAGUE)) == _without_names(play(alone, LEAGUE))


@given(cards())
def test_the_same_card_again_changes_nothing(card: PaperCard) -> None:
    once = _entered((), card, prefix="a")
    assert _entered(once, card, prefix="b") == once


def test_a_goal_more_leaves_every_other_entry_its_event() -> None:
    once = _entered((), ordinary(), prefix="a")
    more = ordinary().model_copy(update={"periods": scores((1, 1), (3, 1))})
    assert difference(standing(once), told(more, LEAGUE)).gone == ()
    assert difference(standing(once), told(more, LEAGUE)).new == (
        Told(Moment(2, 990), was.Goal(side="home", timed=False)),
    )


def test_another_reason_takes_one_entry_back_and_adds_one() -> None:
    once = _entered((), ordinary(), prefix="a")
    yellow = (PaperYellow(side="home", number=7, reason="delay"), ordinary().yellow[1])
    changed = difference(
        standing(once), told(ordinary().model_copy(update={"yellow": yellow}), LEAGUE)
    )
    assert [one.what for one in changed.gone] == [
        was.Cautioned(side="home", number=7, reason="dissent", timed=False)
    ]
    assert [one.what for one in changed.new] == [
        was.Cautioned(side="home", number=7, reason="delay", timed=False)
    ]


def test_an_old_entry_that_does_not_say_whether_it_is_timed_is_the_same_entry() -> None:
    say = {"side", "number", "own", "penalty", "reason", "to", "second_caution"}
    old = tuple(
        replace(one, what=type(one.what)(**one.what.model_dump(include=say)))
        if isinstance(one.what, was.Goal | was.Cautioned)
        else one
        for one in _entered((), ordinary(), prefix="a")
    )
    assert {one.what.timed for one in old if isinstance(one.what, was.Goal)} == {True}
    assert difference(standing(old), told(ordinary(), LEAGUE)) == Difference(gone=(), new=())


def test_a_minute_that_is_withdrawn_changes_its_goal_though_the_clock_is_the_same() -> None:
    timed = ordinary().model_copy(
        update={"goals": (PaperGoal(side="home", period=1, minute=12),)}
    )
    once = _entered((), timed, prefix="a")
    changed = difference(standing(once), told(ordinary(), LEAGUE))
    assert [one.what for one in changed.gone] == [was.Goal(side="home")]
    assert changed.new == (Told(Moment(1, 660), was.Goal(side="home", timed=False)),)


def test_entries_of_other_devices_are_left_alone() -> None:
    phone = Event("p", Moment(1, 60), (1, 1, "phone", 1), was.Goal(side="home"))
    assert standing((phone,)) == ()


def test_a_card_with_other_players_takes_back_and_adds_only_those() -> None:
    first = ordinary().model_copy(
        update={"home_players": (PaperPlayer(7), PaperPlayer(9, "Noor"))}
    )
    then = ordinary().model_copy(
        update={"home_players": (PaperPlayer(7), PaperPlayer(4, "Noor"))}
    )
    changed = difference(standing(events_of(told(first, LEAGUE))), told(then, LEAGUE))
    assert [one.what for one in changed.gone] == [
        was.CheckedIn(side="home", number=9, player="Noor")
    ]
    assert [one.what for one in changed.new] == [
        was.CheckedIn(side="home", number=4, player="Noor")
    ]
