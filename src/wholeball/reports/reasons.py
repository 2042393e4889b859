"""Says in sentences why one team stands above the next; pages and terminal use the same."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import TeamId
from wholeball.reports.figures import REASONS, figure_text, question_name
from wholeball.rulebook.criteria import LastResort
from wholeball.rulebook.sentence import Sentence, listed, say
from wholeball.season.column import Quantity
from wholeball.season.reasons import Absence, Asked, Separation

Names: TypeAlias = Mapping[TeamId, str]
"""Names of teams that are not shown by their identity."""

AS_LISTED: Final[Names] = MappingProxyType({})
Kind: TypeAlias = Literal["parts", "level", "absent", "not_asked"]

RESORTS: Final[dict[LastResort, str]] = {
    "lots": "They share the place until lots are drawn.",
    "play_off_match": "They share the place until a play-off game between them parts them.",
    "outside_ranking": "They share the place until a ranking from outside parts them.",
    "conduct": "They share the place until conduct over the season parts them.",
    "coordinator": "They share the place until the coordinator decides.",
    "shared": "They share the place; the rules ask nothing more.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """One test between two neighbours, as a sentence; names and figures are its values."""

    kind: Kind
    says: Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """Why one team stands above the next: the question, its tests in order, what is left.

    `ends` is empty where a test parts them.
    """

    asks: Sentence
    tests: tuple[Test, ...]
    ends: str


def reason(
    separation: Separation,
    names: Names = AS_LISTED,
    would_show: Sequence[Asked] = (),
) -> tuple[str, ...]:
    """Return why a team stands above the next, one sentence a line.

    Args:
        separation: the two teams and what was asked of them.
        names: names of teams that are not shown by their identity.
        would_show: what the questions not asked would have shown; else they are only named.
    """
    found = why(separation, names, would_show)
    ends = (found.ends,) if found.ends else ()
    return (str(found.asks), *(str(test.says) for test in found.tests), *ends)


def why(
    separation: Separation, names: Names = AS_LISTED, would_show: Sequence[Asked] = ()
) -> Why:
    """Return the same in parts, so that a page can mark names and the deciding test."""
    above, below = _name(separation.above, names), _name(separation.below, names)
    return Why(
        asks=_asks(separation, above, below),
        tests=(
            *_by_being_out(separation, below),
            *(_put(asked, separation, names) for asked in separation.asked),
            *_not_asked(separation, above, below, would_show),
        ),
        ends=_ends(separation),
    )


def _by_being_out(separation: Separation, below: str) -> Iterator[Test]:
    if separation.below_is_out:
        says = say(
            "{below} is out of the league and stands last. This parts them.", below=below
        )
        yield Test(kind="parts", says=says)


def _ends(separation: Separation) -> str:
    if separation.by or separation.below_is_out:
        return ""
    return f"Nothing parts them. {RESORTS[separation.last_resort]}"


def is_level_on_first(separation: Separation) -> bool:
    """Tell whether the first criterion does not part the two, so that a reason is wanted."""
    return not separation.asked or separation.asked[0].verdict != "parts"


def absence(found: Absence, names: Names = AS_LISTED) -> Sentence:
    """Return the sentence that says which question could not be asked of whom, and why."""
    teams = listed(tuple(f"{{t{number}}}" for number in range(len(found.teams))))
    values = {f"t{number}": _name(team, names) for number, team in enumerate(found.teams)}
    again = f", mini-table {found.round}" if found.round > 1 else ""
    return say(
        f"{question_name(found.question)}{again}: not asked of {teams}, since "
        f"{REASONS[found.reason]}.",
        **values,
    )


def _asks(separation: Separation, above: str, below: str) -> Sentence:
    if separation.by is None and not separation.below_is_out:
        return say(
            _level_on(separation) + "Why do {above} and {below} share a place?",
            above=above,
            below=below,
        )
    return say(
        _level_on(separation) + "Why is {above} above {below}?", above=above, below=below
    )


def _level_on(separation: Separation) -> str:
    if not is_level_on_first(separation) or not separation.asked:
        return ""
    first = separation.asked[0]
    name = question_name(first.question)
    if first.verdict == "absent":
        return f"{name}: not known. "
    words = f"{name[0].lower()}{name[1:]}"
    if first.above == 1:
        words = re.sub(r"^(point|game|goal)s", r"\1", words)
    return f"Level on {figure_text(first.above, first.question)} {words}. "


def _put(asked: Asked, separation: Separation, names: Names) -> Test:
    lead = question_name(asked.question)
    if asked.round > 1:
        lead += f" (made again for those still level, {asked.round})"
    if asked.verdict == "absent":
        because = REASONS[asked.reason or "not_recorded"]
        return Test(kind="absent", says=say(f"{lead}: could not be asked, since {because}."))
    ends = " This parts them." if asked.verdict == "parts" else " Level."
    drawn = " Draw {draw}." if asked.draw else ""
    figures, values = _figures(asked, separation, names)
    return Test(
        kind=asked.verdict,
        says=say(f"{lead}: {figures}.{drawn}{ends}", draw=asked.draw, **values),
    )


def _figures(
    asked: Asked, separation: Separation, names: Names
) -> tuple[str, dict[str, object]]:
    """Return a template of every team's figure, and its values."""
    two = ((separation.above, asked.above), (separation.below, asked.below))
    shown = sorted(asked.table, key=_best_first) if asked.table else two
    pairs = [(_name(team, names), figure_text(one, asked.question)) for team, one in shown]
    values: dict[str, object] = {}
    for number, (team, figure) in enumerate(pairs):
        values |= {f"t{number}": team, f"f{number}": figure}
    return ", ".join(f"{{t{number}}} {{f{number}}}" for number in range(len(pairs))), values


def _best_first(member: tuple[TeamId, Quantity | None]) -> Fraction:
    figure = member[1]
    return -Fraction(figure) if isinstance(figure, int | Fraction) else Fraction()


def _not_asked(
    separation: Separation, above: str, below: str, would_show: Sequence[Asked]
) -> Iterator[Test]:
    if not would_show:
        for question in separation.not_asked:
            yield Test(kind="not_asked", says=say(f"{question_name(question)}: not asked."))
    for asked in would_show:
        yield Test(kind="not_asked", says=_supposed(asked, above, below))


def _supposed(asked: Asked, above: str, below: str) -> Sentence:
    lead = f"{question_name(asked.question)}: not asked."
    if asked.verdict == "absent":
        because = REASONS[asked.reason or "not_recorded"]
        return say(f"{lead} (It could not have been: {because}.)")
    return say(
        lead + " ({above} {a}, {below} {b}.)",
        above=above,
        below=below,
        a=figure_text(asked.above, asked.question),
        b=figure_text(asked.below, asked.question),
    )


def _name(team: TeamId, names: Names) -> str:
    return names.get(team, team)
