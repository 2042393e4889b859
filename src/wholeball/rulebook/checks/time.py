"""Looks for contradictions about the clock, mercy, level games, overtime and kicks."""

from collections.abc import Iterator
from typing import Final, get_args

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import Contradiction, above, both, reads, stated, value_at
from wholeball.rulebook.tables.time import MercyStep, Stops

_TIES: Final = ("ties.league", "ties.play_off")
_WITH_OVERTIME: Final = ("overtime", "overtime_then_kicks")
_WITH_KICKS: Final = ("kicks", "overtime_then_kicks")
_STOPS_OF_PLAY: Final = frozenset(get_args(Stops)) - {"hold"}


@reads("game.period_end")
def _chance_played_out(book: Rulebook) -> Iterator[Contradiction]:
    end = book.game.period_end
    if (end.at == "chance_played_out") == (end.chance == "none"):
        yield both(
            book,
            "game.period_end.chance",
            "game.period_end.at",
            cure='Say which chance is played out, or write at = "time" and chance = "none".',
        )


@reads("game", "game.stoppages")
def _clock_that_never_stops(book: Rulebook) -> Iterator[Contradiction]:
    if book.game.clock == "stopped" and not book.game.stoppages.clock_stops_for:
        yield both(
            book,
            "game.stoppages.clock_stops_for",
            "game.clock",
            code="suspicious",
            cure='Say what stops the clock, or write clock = "running".',
        )


@reads("game", "game.stoppages")
def _clock_that_always_stops(book: Rulebook) -> Iterator[Contradiction]:
    is_running = book.game.clock == "running"
    if is_running and set(book.game.stoppages.clock_stops_for) >= _STOPS_OF_PLAY:
        yield Contradiction(
            code="suspicious",
            keys=("game.stoppages.clock_stops_for", "game.clock"),
            says=f"{stated(book, 'game.clock')}, but [game.stoppages] clock_stops_for lists "
            "all that stops play.",
            cure='Write clock = "stopped", or confirm = true in [game.stoppages].',
        )


@reads("game", "game.stoppages")
def _lost_time_of_a_stopped_clock(book: Rulebook) -> Iterator[Contradiction]:
    if book.game.clock == "stopped" and book.game.stoppages.lost_time == "added":
        yield both(
            book,
            "game.stoppages.lost_time",
            "game.clock",
            code="suspicious",
            cure='A stopped clock loses no time: write lost_time = "not_added".',
        )


@reads("game.breaks")
def _breaks(book: Rulebook) -> Iterator[Contradiction]:
    yield from above(
        book, "game.breaks.cooling_seconds_least", "game.breaks.cooling_seconds_most"
    )


@reads("mercy")
def _rungs(book: Rulebook) -> Iterator[Contradiction]:
    for index, rung in enumerate(book.mercy.ladder):
        earlier = (
            book.mercy.ladder[:index].index(rung) if rung in book.mercy.ladder[:index] else None
        )
        if earlier is not None:
            yield _same_rung(book, index, earlier)
            continue
        sooner = [
            at for at, other in enumerate(book.mercy.ladder) if _comes_sooner(other, rung)
        ]
        if sooner:
            yield _idle_rung(book, index, sooner[0])


@reads("mercy", "game")
def _rungs_longer_than_the_game(book: Rulebook) -> Iterator[Contradiction]:
    whole = book.game.periods * book.game.minutes
    for index, rung in enumerate(book.mercy.ladder):
        if rung.minutes_left > whole:
            key = f"mercy.ladder.{index}.minutes_left"
            yield Contradiction(
                code="unreachable",
                keys=(key, "game.minutes"),
                says=f"{stated(book, key)}, but a game has only {whole}: "
                f"{stated(book, 'game.periods')} and {stated(book, 'game.minutes')}.",
                cure=f"Give {whole} or fewer.",
            )


@reads("ties", "overtime")
def _overtime_of_no_time(book: Rulebook) -> Iterator[Contradiction]:
    for key in _TIES:
        for empty in ("overtime.periods", "overtime.minutes"):
            if value_at(book, key) in _WITH_OVERTIME and value_at(book, empty) == 0:
                yield both(
                    book,
                    key,
                    empty,
                    cure="Say how long overtime is, or decide games otherwise.",
                )


@reads("ties", "overtime")
def _overtime_nobody_plays(book: Rulebook) -> Iterator[Contradiction]:
    is_asked = any(value_at(book, key) in _WITH_OVERTIME for key in _TIES)
    is_own = book.overtime.kind != "law"
    if is_own and book.overtime.periods and book.overtime.minutes and not is_asked:
        yield Contradiction(
            code="suspicious",
            keys=("overtime.periods", *_TIES),
            says=f"{stated(book, 'overtime.periods')}, but no level game goes to overtime: "
            f"{stated(book, _TIES[0])} and {stated(book, _TIES[1])}.",
            cure="Write periods = 0, or confirm = true in [overtime].",
        )


@reads("ties", "play_offs")
def _play_off_without_a_winner(book: Rulebook) -> Iterator[Contradiction]:
    if book.ties.play_off in ("draw", "overtime") and book.play_offs.qualify != "none":
        yield Contradiction(
            code="suspicious",
            keys=("ties.play_off", "play_offs.qualify"),
            says=f"{stated(book, 'ties.play_off')}, but {stated(book, 'play_offs.qualify')}: "
            "a play-off game may end level, and nobody would go on.",
            cure="Let kicks decide, or confirm = true in [ties].",
        )


@reads("ties", "kicks")
def _kicks_without_a_winner(book: Rulebook) -> Iterator[Contradiction]:
    if book.ties.play_off in _WITH_KICKS and not book.kicks.sudden_death:
        yield both(
            book,
            "kicks.sudden_death",
            "ties.play_off",
            cure="The kicks may end level: write sudden_death = true.",
        )


@reads("kicks", "kicks.takers", "sides")
def _more_kicks_than_takers(book: Rulebook) -> Iterator[Contradiction]:
    takers, each = book.kicks.takers, book.kicks.each
    is_once = takers.twice == "never" and takers.who == "on_field_at_end"
    if is_once and each > book.sides.on_field:
        yield Contradiction(
            code="contradiction",
            keys=("kicks.each", "kicks.takers.twice", "sides.on_field"),
            says=f"{stated(book, 'kicks.each')}, but {stated(book, 'kicks.takers.twice')} and "
            f"{stated(book, 'sides.on_field')}.",
            cure=f"Let each side take {book.sides.on_field} or fewer, or players kick twice.",
        )


@reads("kicks", "kicks.takers")
def _kicks_that_run_out(book: Rulebook) -> Iterator[Contradiction]:
    if book.kicks.sudden_death and book.kicks.takers.twice == "never":
        yield Contradiction(
            code="suspicious",
            keys=("kicks.takers.twice", "kicks.sudden_death"),
            says=f"{stated(book, 'kicks.takers.twice')}, but "
            f"{stated(book, 'kicks.sudden_death')}: both sides may run out of players.",
            cure='Write twice = "after_all_eligible", or confirm = true in [kicks.takers].',
        )


def _comes_sooner(other: MercyStep, rung: MercyStep) -> bool:
    """Tell whether another rung has always fired by the time this one is true."""
    return other != rung and other.lead <= rung.lead and other.minutes_left >= rung.minutes_left


def _same_rung(book: Rulebook, index: int, earlier: int) -> Contradiction:
    return Contradiction(
        code="duplicate",
        keys=(f"mercy.ladder.{index}", f"mercy.ladder.{earlier}"),
        says=f"{_rung(book, index)}, the same as item {earlier + 1}.",
        cure="Delete one of them.",
    )


def _idle_rung(book: Rulebook, index: int, sooner: int) -> Contradiction:
    return Contradiction(
        code="unreachable",
        keys=(f"mercy.ladder.{index}", f"mercy.ladder.{sooner}"),
        says=f"{_rung(book, index)}, but {_rung(book, sooner)} and always ends the game first.",
        cure="Delete one of them, or ask for a smaller lead where fewer minutes are left.",
    )


def _rung(book: Rulebook, index: int) -> str:
    rung = book.mercy.ladder[index]
    return (
        f"[mercy] ladder item {index + 1} is lead {rung.lead} with "
        f"{rung.minutes_left} minutes left"
    )
