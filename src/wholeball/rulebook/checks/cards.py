"""Looks for contradictions about what players may not do, and about yellow and red."""

from collections.abc import Iterator
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import (
    Contradiction,
    above,
    both,
    laws_of,
    reads,
    stated,
    value_at,
)

_PENALTIES: Final = (
    "slide_tackle.then",
    "goalkeeper.hold.then",
    "goalkeeper.hands_outside.then",
    "goalkeeper.return_pass.then",
    "goalkeeper.return_throw.then",
    "goalkeeper.distribution.then",
)

_RESTARTS: Final = (*_PENALTIES, "goal_kick.not_leaving", "extra_persons.interference")


@reads("goalkeeper.hold")
def _shown_longer_than_held(book: Rulebook) -> Iterator[Contradiction]:
    yield from above(book, "goalkeeper.hold.shown_seconds", "goalkeeper.hold.seconds")


@reads("penalty", *(key.removesuffix(".then") for key in _PENALTIES))
def _penalty_where_none_is_taken(book: Rulebook) -> Iterator[Contradiction]:
    for key in _PENALTIES:
        if not book.penalty.played and value_at(book, key) == "penalty_kick":
            yield both(book, key, "penalty.played", cure="Choose another restart.")


@reads("free_kick", *dict.fromkeys(key.rpartition(".")[0] for key in _RESTARTS))
def _direct_where_all_are_indirect(book: Rulebook) -> Iterator[Contradiction]:
    if book.free_kick.kinds != "all_indirect":
        return
    for key in _RESTARTS:
        is_direct = value_at(book, key) == "direct_free_kick"
        if is_direct and value_at(laws_of(book), key) != "direct_free_kick":
            yield both(
                book,
                key,
                "free_kick.kinds",
                cure='Write "indirect_free_kick", or let free kicks be direct too.',
            )


@reads("goalkeeper.return_pass", "field.areas")
def _return_pass_without_goal_area(book: Rulebook) -> Iterator[Contradiction]:
    has_none = not book.field.areas.goal_area.first.amount
    if has_none and book.goalkeeper.return_pass.spot == "goal_area_line":
        yield both(
            book,
            "goalkeeper.return_pass.spot",
            "field.areas.goal_area",
            cure='There is no goal area: choose another spot, such as "penalty_area_line".',
        )


@reads("cards.cautioned")
def _off_for_minutes(book: Rulebook) -> Iterator[Contradiction]:
    cautioned = book.cards.cautioned
    keys = ("cards.cautioned.minutes", "cards.cautioned.comes_off")
    if cautioned.comes_off == "for_minutes" and cautioned.minutes == 0:
        yield both(book, *keys, cure="Say for how many minutes the player comes off.")
    if cautioned.comes_off != "for_minutes" and cautioned.minutes > 0:
        yield both(
            book,
            *keys,
            code="suspicious",
            cure='Write minutes = 0, or comes_off = "for_minutes".',
        )


@reads("cards.cautioned")
def _off_until_nobody_comes(book: Rulebook) -> Iterator[Contradiction]:
    cautioned = book.cards.cautioned
    if cautioned.comes_off == "until_replaced" and not cautioned.may_be_replaced:
        yield both(
            book,
            "cards.cautioned.may_be_replaced",
            "cards.cautioned.comes_off",
            code="suspicious",
            cure="Write may_be_replaced = true.",
        )


@reads("cards.cautioned", "substitution")
def _off_until_a_substitute_who_may_not_come(book: Rulebook) -> Iterator[Contradiction]:
    if book.cards.cautioned.comes_off == "until_replaced" and book.substitution.most == 0:
        yield both(
            book,
            "cards.cautioned.comes_off",
            "substitution.most",
            cure='Let a side substitute, or write comes_off = "for_minutes".',
        )


@reads("cards", "cards.cautioned")
def _first_yellow_is_red(book: Rulebook) -> Iterator[Contradiction]:
    if book.cards.cautions_for_red == 1 and book.cards.cautioned.comes_off != "no":
        yield Contradiction(
            code="unreachable",
            keys=("cards.cautioned.comes_off", "cards.cautions_for_red"),
            says=f"{stated(book, 'cards.cautioned.comes_off')}, but "
            f"{stated(book, 'cards.cautions_for_red')}: every yellow is a red at once.",
            cure='Write comes_off = "no", or let more yellows make a red.',
        )


@reads("cards.sent_off")
def _minutes_before_nobody(book: Rulebook) -> Iterator[Contradiction]:
    sent_off = book.cards.sent_off
    if sent_off.after_minutes and not sent_off.may_be_replaced:
        yield both(
            book,
            "cards.sent_off.after_minutes",
            "cards.sent_off.may_be_replaced",
            cure="Write after_minutes = 0, or may_be_replaced = true.",
        )


@reads("cards.sent_off", "cards.cautioned", "game")
def _longer_than_the_game(book: Rulebook) -> Iterator[Contradiction]:
    whole = book.game.periods * book.game.minutes
    for key in ("cards.sent_off.after_minutes", "cards.cautioned.minutes"):
        if value_at(book, key) >= whole:
            yield Contradiction(
                code="unreachable",
                keys=(key, "game.minutes"),
                says=f"{stated(book, key)}, but {stated(book, 'game.minutes')} and "
                f"the whole game lasts {whole}.",
                cure=f"Give fewer than {whole}.",
            )
