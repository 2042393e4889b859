"""Finds who appeared though not eligible, and what the rulebook proposes; nothing is applied."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final, Literal, TypeAlias

from wholeball.kernel.identity import GameId, PersonId, Side, TeamId
from wholeball.season.appearances import GameSheet
from wholeball.season.eligibility import Eligibility, Known
from wholeball.season.reason_not import Code, Reason
from wholeball.season.suspension import Breach

Then: TypeAlias = Literal["forfeit", "result_stands", "coordinator"]
_FOUND_LATER: Final[frozenset[Code]] = frozenset(
    (
        "not_on_roster",
        "not_yet_on_roster",
        "other_team",
        "club_players",
        "added_late",
        "added_too_near",
        "not_cleared",
        "too_few_games",
    )
)
"""Reasons that hold for a game that is over; an ID, a fee and a waiver are for the gate alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ineligible:
    """Somebody who appeared in a game though not eligible.

    `then` is what the rulebook says, by which `article`, if it was found by `last_day`; after
    that the result stands. `ruling` is the last ruling about the game, None while nobody has
    ruled. Yellow and red shown in the game stand whatever becomes of it.
    """

    game: GameId
    day: date
    team: TeamId
    side: Side
    person: PersonId
    reasons: tuple[Reason, ...]
    then: Then
    article: str
    last_day: date
    ruling: int | None = None

    @property
    def forfeits(self) -> Side | None:
        """The side that a ruling would let forfeit, where the rulebook proposes that."""
        return self.side if self.then == "forfeit" and self.ruling is None else None


def found_ineligible(known: Known, on: date) -> tuple[Ineligible, ...]:
    """Return everybody who appeared though not eligible, by game in order; empty is a pass.

    Where both sides had somebody, or a side gave the game up already, no forfeit can be proposed
    and the coordinator decides (common practice, no source). So it is on the first day of a
    block, which may have been written after the game.
    """
    asked = Eligibility(known)
    breaches = {(one.game, one.person): one for one in known.discipline.breaches}
    found: list[Ineligible] = []
    for sheet in sorted(known.sheets, key=lambda one: (one.fixture.day, one.fixture.start)):
        if sheet.is_played and not _is_annulled(sheet):
            found += _both(list(_of_game(known, asked, sheet, breaches, on)))
    return tuple(found)


def _of_game(
    known: Known,
    asked: Eligibility,
    sheet: GameSheet,
    breaches: dict[tuple[GameId, PersonId], Breach],
    on: date,
) -> Iterator[Ineligible]:
    book, fixture = known.book, sheet.fixture
    last_day = fixture.day + timedelta(book.eligibility.found_later.discovered_within_days)
    for one in sheet.appeared:
        if one.person is None:
            continue
        breach = breaches.get((fixture.game, one.person))
        reasons = [
            _as_known(known, reason, one.person, fixture.day)
            for reason in asked.reasons(one.person, fixture, one.side)
            if reason.code in _FOUND_LATER
        ]
        then: Then = book.eligibility.found_later.then
        article = "eligibility.found_later"
        if breach is not None:
            reasons = [*_suspended(breach), *reasons]
            then, article = book.discipline.serving.breach, "discipline.serving"
        is_doubtful = all(reason.code == "blocked_that_day" for reason in reasons)
        if then == "forfeit" and (_is_given_up(sheet) or is_doubtful):
            then = "coordinator"
        if reasons:
            yield Ineligible(
                game=fixture.game,
                day=fixture.day,
                team=one.team,
                side=one.side,
                person=one.person,
                reasons=tuple(reasons),
                then=then if on <= last_day else "result_stands",
                article=article if on <= last_day else "eligibility.found_later",
                last_day=last_day,
                ruling=None if sheet.result is None else sheet.result.ruling,
            )


def _as_known(known: Known, reason: Reason, person: PersonId, on: date) -> Reason:
    """Return a reason as far as days tell it: nobody keeps at which hour a block began."""
    if reason.code != "not_cleared":
        return reason
    blocks = [one for one in known.not_cleared if one.person == person and one.holds_on(on)]
    if any(one.since < on for one in blocks):
        return reason
    return replace(reason, code="blocked_that_day")


def _suspended(breach: Breach) -> Iterator[Reason]:
    for one in breach.suspensions:
        yield Reason(code="suspended", article=one.article, day=one.until, count=one.left)


def _both(found: list[Ineligible]) -> Iterator[Ineligible]:
    sides = {one.side for one in found if one.then == "forfeit"}
    for one in found:
        is_open = len(sides) > 1 and one.then == "forfeit"
        yield replace(one, then="coordinator") if is_open else one


def _is_given_up(sheet: GameSheet) -> bool:
    how = None if sheet.result is None else sheet.result.how
    return how in ("forfeit", "default", "double_forfeit")


def _is_annulled(sheet: GameSheet) -> bool:
    return sheet.result is not None and sheet.result.how == "annulled"
