"""Keeps count of yellows, reds and the games they cost, person by person, as the season goes on."""

from collections import Counter
from dataclasses import dataclass, field
from datetime import date, timedelta

from demo.account import Account
from demo.house import House
from demo.world import SIDES, Person, Side


@dataclass(slots=True, kw_only=True)
class Ban:
    """One suspension: how many games it is, which served it, and whether a meeting is due.

    `meeting` is the day on which it was held, if it was.
    """

    person: Person
    team: str
    cause: str
    game: str
    day: date
    games: int
    needs_meeting: bool = False
    meeting: date | None = None
    served: list[str] = field(default_factory=list)

    @property
    def left(self) -> int:
        """Return the games that are still to be sat out."""
        return self.games - len(self.served)

    def waits(self, on: date) -> bool:
        """Tell whether the meeting is still to be held on a day."""
        return self.needs_meeting and (self.meeting is None or on < self.meeting)


@dataclass(slots=True)
class Bans:
    """All suspensions, brought up to date game by game in the order of their kick-offs.

    `held` are the games after whose red a meeting was held the day after.
    """

    rules: House
    held: set[str]
    bans: list[Ban] = field(default_factory=list)
    games: Counter[str] = field(default_factory=Counter)
    _yellows: Counter[tuple[str, bool]] = field(default_factory=Counter)
    _reds: Counter[str] = field(default_factory=Counter)

    def may_play(self, person: Person, on: date) -> bool:
        """Tell whether a person may play on a day."""
        mine = [one for one in self.bans if one.person.student == person.student]
        return not any(one.left > 0 or one.waits(on) for one in mine)

    def take(self, account: Account) -> None:
        """Let a game serve what it serves, then bring what it brings."""
        if not account.was_played:
            return
        for side in SIDES:
            there = {one.student for one in account.present[side]}
            self._serve(account, account.team(side), there)
            self.games.update(there)
        for side in SIDES:
            for person in account.present[side]:
                self._brought(account, side, person)

    def _serve(self, account: Account, team: str, there: set[str]) -> None:
        """Let those of a team who sat out serve one game, of their oldest suspension."""
        done: set[str] = set()
        for ban in self.bans:
            student = ban.person.student
            if ban.team == team and student not in there | done and ban.left > 0:
                ban.served.append(account.listed.game)
                done.add(student)

    def _brought(self, account: Account, side: Side, person: Person) -> None:
        mine = [one for one in account.shown if one.to.student == person.student]
        red = any(one.colour == "red" for one in mine)
        if not any(one.second for one in mine):
            apart = account.listed.stage == "play_off"
            key = (person.student, apart)
            self._yellows[key] += sum(one.colour == "yellow" for one in mine)
            if self._yellows[key] >= self.rules.yellows:
                self._yellows[key] -= self.rules.yellows
                self._ban(account, side, person, "yellows", self.rules.games_for_yellows)
        if red:
            self._reds[person.student] += 1
            if self._reds[person.student] > 1:
                raise ValueError(f"{person.name}: the story has no second red of one person")
            self._ban(account, side, person, "red", self.rules.games_for_red)

    def _ban(
        self, account: Account, side: Side, person: Person, cause: str, games: int
    ) -> None:
        listed = account.listed
        is_held = listed.game in self.held
        self.bans.append(
            Ban(
                person=person,
                team=account.team(side),
                cause=cause,
                game=listed.game,
                day=listed.day,
                games=games,
                needs_meeting=cause == "red",
                meeting=listed.day + timedelta(days=1) if is_held else None,
            )
        )
