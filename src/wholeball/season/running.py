"""Keeps one suspension while a season is gone through, with what was decided about it by a day."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, time

from wholeball.kernel.identity import GameId, PersonId
from wholeball.season.decision import Decision
from wholeball.season.suspension import Cause, Served, Suspension


@dataclass(slots=True, kw_only=True)
class Running:
    """A suspension that games serve, one after the other.

    `games` are those that the rulebook gives; a decision gives others from its day on, so that
    what it changes never reaches back to games that were played by then. `begins` is when the
    night started that brought it, None where a ruling did.
    """

    person: PersonId
    cause: Cause
    article: str
    game: GameId | None
    day: date
    league: str | None
    games: int
    begins: tuple[date, time] | None = None
    needs_meeting: bool = False
    decisions: tuple[Decision, ...] = ()
    served: list[Served] = field(default_factory=list)
    presumed: list[GameId] = field(default_factory=list)

    def left_on(self, day: date) -> int:
        """Return the games still to be served by what was decided up to a day."""
        return max(self.as_of(day).games - len(self.served), 0)

    def is_by_day_on(self, day: date) -> bool:
        """Tell whether it holds on a day because of a day that a ruling set."""
        until = self.as_of(day).until
        return until is not None and day <= until

    def holds_on(self, day: date) -> bool:
        """Tell whether it holds on a day."""
        return self.as_of(day).holds_on(day)

    def would_hold_on(self, day: date) -> bool:
        """Tell whether it holds on a day even if all games before it are played as listed."""
        found = self.as_of(day)
        if found.waits or found.lifted is not None or self.is_by_day_on(day):
            return found.holds_on(day)
        return self.left_on(day) > len(self.presumed)

    def as_of(self, day: date) -> Suspension:
        """Return the suspension by what was decided up to a day, that day included."""
        known = [one for one in self.decisions if one.day <= day]
        last = next((one for one in reversed(known) if one.ruled != "meeting_held"), None)
        games, until, lifted = self.games, None, None
        if last is not None:
            lifted = last.day if last.ruled == "lifted" else None
            given = next(
                (one for one in reversed(known) if one.ruled in ("games", "until")), None
            )
            if given is not None:
                games, until = given.games or 0, given.until
        is_held = any(one.ruled == "meeting_held" for one in known)
        return Suspension(
            person=self.person,
            cause=self.cause,
            article=self.article,
            game=self.game,
            day=self.day,
            league=self.league,
            games=games,
            served=tuple(self.served),
            until=until,
            waits=self.needs_meeting and not is_held,
            lifted=lifted,
            rulings=tuple(one.number for one in known),
        )


def about(
    decisions: Iterable[Decision], game: GameId | None, day: date
) -> tuple[Decision, ...]:
    """Return the decisions of one person that shape a suspension that began on a day.

    One that names no game is about all that holds by then if it lifts or tells of a meeting.
    """
    return tuple(
        one
        for one in decisions
        if (game is not None and one.game == game)
        or (one.game is None and one.ruled in ("lifted", "meeting_held") and one.day >= day)
    )
