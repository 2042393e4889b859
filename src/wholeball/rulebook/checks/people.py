"""Looks for contradictions about who plays: sides, rosters, substitutes, yellow and red."""

from collections.abc import Iterator
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import (
    Contradiction,
    above,
    both,
    laws_of,
    named,
    reads,
    stated,
    value_at,
)
from wholeball.rulebook.tables.people import Mixed

_LISTS: Final = (
    "equipment.required",
    "equipment.forbidden",
    "eligibility.who",
    "roster.club_players.counted",
    "game.stoppages.clock_stops_for",
    "protests.about",
)


@reads("sides")
def _more_needed_than_play(book: Rulebook) -> Iterator[Contradiction]:
    yield from above(book, "sides.minimum_to_start", "sides.on_field")
    if book.sides.minimum_to_continue > book.sides.on_field:
        yield from above(book, "sides.minimum_to_continue", "sides.on_field")
    else:
        yield from above(book, "sides.minimum_to_continue", "sides.minimum_to_start")


@reads("sides", "sides.mixed")
def _mixed_more_than_play(book: Rulebook) -> Iterator[Contradiction]:
    mixed = book.sides.mixed
    if mixed.women_least + mixed.men_least > _counted(book):
        yield _mixed_clash(
            book,
            "sides.on_field",
            f"{stated(book, 'sides.on_field')} and {_counted(book)} of them count",
            cure="Lower one of the two, or let more play.",
        )


@reads("sides", "sides.mixed")
def _mixed_more_than_start(book: Rulebook) -> Iterator[Contradiction]:
    mixed, fewest = book.sides.mixed, book.sides.minimum_to_start
    needed = mixed.women_least + mixed.men_least
    if mixed.short == "forfeits" and fewest < needed <= _counted(book):
        yield _mixed_clash(
            book,
            "sides.minimum_to_start",
            f"{stated(book, 'sides.minimum_to_start')}: a side so small lacks a gender and "
            "forfeits",
            cure='Raise minimum_to_start, or let a side that is short play: short = "plays_short".',
        )


@reads("sides", "sides.mixed")
def _even_genders_of_an_odd_side(book: Rulebook) -> Iterator[Contradiction]:
    may_be_either = (
        book.sides.goalkeeper == "optional" and not book.sides.mixed.goalkeeper_counts
    )
    if book.sides.mixed.difference_most == 0 and _counted(book) % 2 and not may_be_either:
        yield Contradiction(
            code="contradiction",
            keys=("sides.mixed.difference_most", "sides.on_field"),
            says=f"{stated(book, 'sides.mixed.difference_most')}, but "
            f"{stated(book, 'sides.on_field')} and {_counted(book)} of them count: "
            "a full side can never be even.",
            cure="Let difference_most be 1, or an even number play.",
        )


@reads("sides", "sides.mixed")
def _more_of_one_gender_than_may_be(book: Rulebook) -> Iterator[Contradiction]:
    mixed, most = book.sides.mixed, book.sides.mixed.difference_most
    if most == "no_limit" or mixed.women_least + mixed.men_least > _counted(book):
        return
    for name in ("women_least", "men_least"):
        key = f"sides.mixed.{name}"
        apart = 2 * value_at(book, key) - _counted(book)
        if apart > most:
            yield Contradiction(
                code="contradiction",
                keys=(key, "sides.mixed.difference_most", "sides.on_field"),
                says=f"{stated(book, key)}, but {stated(book, 'sides.mixed.difference_most')}, "
                f"{stated(book, 'sides.on_field')} and {_counted(book)} of them count: "
                f"a full side would differ by {apart} or more.",
                cure=f"Lower {name}, or let difference_most be {apart}.",
            )


@reads("sides.mixed", "kicks.takers")
def _genders_alternate_where_none_is_asked(book: Rulebook) -> Iterator[Contradiction]:
    if book.kicks.takers.order == "genders_alternate" and not is_mixed(book.sides.mixed):
        yield Contradiction(
            code="suspicious",
            keys=("kicks.takers.order", "sides.mixed.women_least"),
            says=f"{stated(book, 'kicks.takers.order')}, but [sides.mixed] asks for no gender: "
            f"{stated(book, 'sides.mixed.women_least')}.",
            cure='Write order = "free", or confirm = true in [kicks.takers].',
        )


@reads("sides", "roster")
def _roster_smaller_than_side(book: Rulebook) -> Iterator[Contradiction]:
    most = book.roster.maximum
    if isinstance(most, int) and most < book.sides.on_field:
        yield both(
            book,
            "roster.maximum",
            "sides.on_field",
            cure=f"Allow {book.sides.on_field} players or more on a roster.",
        )


@reads("roster")
def _roster_bounds(book: Rulebook) -> Iterator[Contradiction]:
    yield from above(book, "roster.minimum", "roster.maximum")


@reads("roster.club_players")
def _club_players(book: Rulebook) -> Iterator[Contradiction]:
    yield from above(book, "roster.club_players.on_field_most", "roster.club_players.most")
    if not book.roster.club_players.counted and book.roster.club_players.most != "no_limit":
        yield both(
            book,
            "roster.club_players.counted",
            "roster.club_players.most",
            cure='Say who counts, such as counted = ["club"], or most = "no_limit".',
        )


@reads("equipment", "eligibility", "roster.club_players", "game.stoppages", "protests")
def _listed_twice(book: Rulebook) -> Iterator[Contradiction]:
    for key in _LISTS:
        items = value_at(book, key)
        for index, item in enumerate(items):
            first = items.index(item)
            if first != index:
                yield Contradiction(
                    code="duplicate",
                    keys=(f"{key}.{index}", f"{key}.{first}"),
                    says=f"{stated(book, f'{key}.{index}')}, as is item {first + 1}.",
                    cure="Delete one of them.",
                )


@reads("sides", "goal_kick")
def _goalkeeper_throws_where_there_is_none(book: Rulebook) -> Iterator[Contradiction]:
    if book.sides.goalkeeper == "none" and book.goal_kick.taken == "thrown_by_goalkeeper":
        yield both(
            book,
            "goal_kick.taken",
            "sides.goalkeeper",
            cure='Write taken = "kicked", or let a side have a goalkeeper.',
        )


@reads("sides", "equipment")
def _goalkeeper_colours_where_there_is_none(book: Rulebook) -> Iterator[Contradiction]:
    required = book.equipment.required
    is_own = set(required) != set(laws_of(book).equipment.required)
    if book.sides.goalkeeper == "none" and is_own and "goalkeeper_colours" in required:
        yield both(
            book,
            f"equipment.required.{required.index('goalkeeper_colours')}",
            "sides.goalkeeper",
            cure="Delete it, or let a side have a goalkeeper.",
        )


@reads("check_in", "game")
def _late_until_half_time(book: Rulebook) -> Iterator[Contradiction]:
    if book.check_in.late == "until_half_time" and book.game.periods == 1:
        yield both(
            book,
            "check_in.late",
            "game.periods",
            cure="A game of one period has no half-time: choose another time for check-in.",
        )


@reads("substitution")
def _signal_for_flying_substitutes(book: Rulebook) -> Iterator[Contradiction]:
    if book.substitution.when == "flying" and book.substitution.signal:
        yield both(
            book,
            "substitution.signal",
            "substitution.when",
            code="suspicious",
            cure="Flying substitutes wait for nobody: write signal = false.",
        )


@reads("substitution")
def _back_though_nobody_leaves(book: Rulebook) -> Iterator[Contradiction]:
    if book.substitution.most == 0 and book.substitution.again:
        yield both(
            book,
            "substitution.again",
            "substitution.most",
            cure="Nobody is replaced, so nobody comes back: write again = false.",
        )


@reads("substitution.leaving")
def _too_slow_without_a_limit(book: Rulebook) -> Iterator[Contradiction]:
    leaving = book.substitution.leaving
    if leaving.seconds == "no_limit" and leaving.too_slow_waits_seconds:
        yield both(
            book,
            "substitution.leaving.too_slow_waits_seconds",
            "substitution.leaving.seconds",
            cure="Say in how many seconds a player must leave, or write 0 for no wait.",
        )


@reads("injury")
def _stays_and_stays_off(book: Rulebook) -> Iterator[Contradiction]:
    if book.injury.leaves == "may_stay" and book.injury.off_after_restart_seconds:
        yield both(
            book,
            "injury.off_after_restart_seconds",
            "injury.leaves",
            code="suspicious",
            cure="A player who may stay is not kept off: write 0.",
        )


def is_mixed(mixed: Mixed) -> bool:
    """Tell whether a side's genders are asked for at all."""
    return bool(mixed.women_least or mixed.men_least) or mixed.difference_most != "no_limit"


def _counted(book: Rulebook) -> int:
    is_left_out = book.sides.goalkeeper == "required" and not book.sides.mixed.goalkeeper_counts
    return book.sides.on_field - is_left_out


def _mixed_clash(book: Rulebook, other: str, but: str, *, cure: str) -> Contradiction:
    keys = ("sides.mixed.women_least", "sides.mixed.men_least", other)
    women, men = (value_at(book, key) for key in keys[:2])
    return Contradiction(
        code="contradiction",
        keys=keys,
        says=f"{named(keys[0])} is {women} and {named(keys[1])} is {men}, "
        f"{women + men} in all, but {but}.",
        cure=cure,
    )
