"""Plays one game: who came, who scored, who was shown what, and how it ended."""

from fractions import Fraction
from random import Random
from typing import Final

from demo.account import Account, Kicked, Scored, Shown
from demo.house import House
from demo.plot import Kind
from demo.truth_people import Bans
from demo.world import SIDES, Listed, Person, Side, Team, other

_GOALS: Final = (0, 0, 1, 1, 1, 2, 2, 3)
_KIND: Final = tuple(Fraction(half, 2) for half in (7, 8, 8, 9, 9, 10))
_RUDE: Final = tuple(Fraction(half, 2) for half in (4, 5, 5, 6))
_REASONS: Final = (
    "held an opponent back",
    "kicked the ball away",
    "talked back",
    "late tackle",
)
MERCY_GOALS: Final = ((1, 120), (1, 400), (1, 700), (1, 1010), (2, 60), (2, 420), (2, 780))
THUNDER: Final = (1, 910)
"""A moment at which no goal or yellow can come: theirs are other seconds."""


class Simulator:
    """Plays games, each with chance of its own: its score is the same on whatever night it is.

    `rude` is the team that behaves badly; `lasts` are the teams that may not come.
    """

    def __init__(
        self, rules: House, seed: int, bans: Bans, *, rude: str, lasts: frozenset[str]
    ) -> None:
        self._rules = rules
        self._seed = seed
        self._rng = self._luck = Random(seed)
        self._bans = bans
        self._rude = rude
        self._lasts = lasts

    def play(self, listed: Listed, home: Team, away: Team, kind: Kind) -> Account:
        """Return what happened in a game of that kind, and count its yellows and reds."""
        self._rng = Random(f"{self._seed}, people of {listed.game}")
        self._luck = Random(f"{self._seed}, score of {listed.game}")
        account = Account(listed=listed, home=home.name, away=away.name)
        teams: dict[Side, Team] = {"home": home, "away": away}
        if kind in ("not_ready", "forfeit", "last_forfeit", "double_forfeit", "default"):
            self._give_up(account, kind)
        else:
            self._come(account, teams, kind)
            self._run(account, teams, kind)
            self._rate(account, teams)
        self._bans.take(account)
        return account

    def _give_up(self, account: Account, kind: Kind) -> None:
        """Let a side not come; the one that quits is always the last of its pool."""
        if kind == "double_forfeit":
            account.ended = "double_forfeit"
            return
        account.ended = "default" if kind == "default" else "forfeit"
        account.by = "home" if account.home in self._lasts else "away"

    def _come(self, account: Account, teams: dict[Side, Team], kind: Kind) -> None:
        for side in SIDES:
            team = teams[side]
            may = [one for one in team.players if self._may_come(one, account.listed)]
            late = team.late if kind == "ineligible" and side == "away" else []
            first, rest = may[:3], may[3:]
            count = min(len(rest), self._rng.randrange(6, 11))
            came = [*first, *self._rng.sample(rest, count), *late]
            account.present[side] = came
            bibs = iter(self._rng.sample(range(60, 99), len(came)))
            for one in came:
                account.worn[one.student] = next(bibs) if one.number is None else one.number

    def _may_come(self, person: Person, listed: Listed) -> bool:
        """Tell whether a person may play; play-offs ask for games played before."""
        least = self._rules.games_for_play_offs if listed.stage == "play_off" else 0
        has_played = self._bans.games[person.student] >= least
        return has_played and self._bans.may_play(person, listed.day)

    def _run(self, account: Account, teams: dict[Side, Team], kind: Kind) -> None:
        self._show(account, kind)
        match kind:
            case "mercy":
                self._mercy(account)
            case "overtime" | "kicks":
                self._level(account)
                self._longer(account, kind)
            case _:
                self._usual(account, teams)
        if kind == "thunder":
            account.broken_at = THUNDER
            account.shown = [one for one in account.shown if _at(one) < THUNDER]
        account.goals.sort(key=lambda one: (one.period, one.clock))

    def _usual(self, account: Account, teams: dict[Side, Team]) -> None:
        """Score at most four goals a side, so that no lead ever is one for the mercy rule."""
        for side in SIDES:
            goals = round(self._luck.choice(_GOALS) * teams[side].strength)
            self._score(account, side, min(goals, 4))
        if account.listed.stage == "play_off" and len(set(account.score())) == 1:
            self._score(account, self._luck.choice(SIDES), 1)

    def _score(self, account: Account, side: Side, goals: int) -> None:
        free = sorted(
            (period, clock)
            for period in (1, 2)
            for clock in range(40, 60 * self._rules.half - 60, 20)
        )
        taken = {(one.period, one.clock) for one in account.goals}
        moments = self._rng.sample([one for one in free if one not in taken], goals)
        account.goals += [
            Scored(period=a, clock=b, side=side, by=self._scorer(account, side))
            for a, b in moments
        ]

    def _scorer(self, account: Account, side: Side) -> Person:
        """Return somebody on the field who is shown nothing, and so is never off it."""
        shown = {one.to.student for one in account.shown}
        return self._rng.choice(
            [one for one in account.present[side] if one.student not in shown]
        )

    def _mercy(self, account: Account) -> None:
        """Let the home side lead by seven when a rung of the ladder has become true."""
        lead, minutes = self._rules.mercy[0]
        for period, clock in MERCY_GOALS[:lead]:
            by = self._scorer(account, "home")
            account.goals.append(Scored(period=period, clock=clock, side="home", by=by))
        last = account.goals[-1]
        if last.period != 2 or 60 * self._rules.half - last.clock > 60 * minutes:
            raise ValueError("the last goal of the mercy game comes too early for its rule")
        account.ended, account.ended_at = "mercy", (last.period, last.clock)
        account.shown = [one for one in account.shown if _at(one) < account.ended_at]

    def _level(self, account: Account) -> None:
        for side in SIDES:
            self._score(account, side, 1)

    def _longer(self, account: Account, kind: Kind) -> None:
        """Play overtime, full, and then kicks where it left the sides level."""
        account.ended = "overtime" if kind == "overtime" else "kicks"
        if kind == "overtime":
            side = self._luck.choice(SIDES)
            by = self._scorer(account, side)
            account.goals.append(Scored(period=3, clock=130, side=side, by=by))
        while kind == "kicks" and winner_of_kicks(account.kicks, self._rules.kicks) is None:
            side = "home" if len(account.kicks) % 2 == 0 else "away"
            turn = len(account.kicks) // 2
            able = [one for one in account.present[side] if not _was_sent_off(account, one)]
            goal = self._luck.random() < (0.8 if side == "home" else 0.6)
            account.kicks.append(Kicked(side=side, by=able[turn % len(able)], scored=goal))

    def _show(self, account: Account, kind: Kind) -> None:
        """Show yellows, mostly to the two hot heads of a side, and the reds of the story."""
        for side in SIDES:
            hot = account.present[side][1:3]
            for one in hot:
                if self._rng.random() < 0.28:
                    self._card(account, side, one)
            if self._rng.random() < 0.3:
                self._card(account, side, self._rng.choice(account.present[side][3:]))
        if kind == "other_number" and not account.shown:
            self._card(account, "home", account.present["home"][1])
        if kind in ("red", "second_yellow"):
            self._send_off(account, kind)

    def _card(self, account: Account, side: Side, to: Person, clock: int = 0) -> None:
        account.shown.append(
            Shown(
                period=2 if clock else self._rng.choice((1, 2)),
                clock=clock or self._rng.randrange(51, 60 * self._rules.half - 90, 20),
                side=side,
                to=to,
                colour="yellow",
                reason=self._rng.choice(_REASONS),
            )
        )

    def _send_off(self, account: Account, kind: Kind) -> None:
        """Send a home player off late, who was shown nothing else."""
        to = account.present["home"][4]
        account.shown = [one for one in account.shown if one.to.student != to.student]
        is_second = kind == "second_yellow"
        if is_second:
            self._card(account, "home", to, 311)
            self._card(account, "home", to, 931)
        account.shown.append(
            Shown(
                period=2,
                clock=931,
                side="home",
                to=to,
                colour="red",
                second=is_second,
                reason="a second yellow" if is_second else "struck an opponent",
            )
        )

    def _rate(self, account: Account, teams: dict[Side, Team]) -> None:
        for side in SIDES:
            rude = teams[side].name == self._rude
            value = self._luck.choice(_RUDE if rude else _KIND)
            if any(one.side == side and one.colour == "red" for one in account.shown):
                value = min(value, self._rules.cap_after_red)
            account.ratings[side] = value
            if value <= self._rules.reason_at:
                account.why_low[side] = "argued about every decision"


def winner_of_kicks(kicks: list[Kicked], each: int) -> Side | None:
    """Return who has won, once the other cannot catch up; the home side kicks first."""
    goals = {side: sum(one.scored for one in kicks if one.side == side) for side in SIDES}
    taken = {side: sum(one.side == side for one in kicks) for side in SIDES}
    if min(taken.values()) >= each:
        if taken["home"] != taken["away"] or goals["home"] == goals["away"]:
            return None
        return "home" if goals["home"] > goals["away"] else "away"
    for side in SIDES:
        if goals[side] > goals[other(side)] + each - taken[other(side)]:
            return side
    return None


def _at(one: Shown) -> tuple[int, int]:
    return one.period, one.clock


def _was_sent_off(account: Account, person: Person) -> bool:
    return any(
        one.to.student == person.student and one.colour == "red" for one in account.shown
    )
