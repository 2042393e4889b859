"""Lets the whole season happen, and keeps the truth about it: who won, who sat out, who owes."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from random import Random

from demo.account import Account
from demo.house import HOUSE, House
from demo.invent import Invented, invent
from demo.plot import FULL_PLOT, SMALL_PLOT, Plot
from demo.schedule import LETTERS, Pools, pools_of
from demo.simulate import Simulator
from demo.truth_people import Bans
from demo.truth_play_offs import GoesOn, sides_of, who_goes_on, winner
from demo.truth_tables import Outcome, newest, outcome
from demo.world import Listed, Size, Team, other

FOUND_AFTER = timedelta(days=2)
RESUMED_AFTER = timedelta(days=3)


@dataclass(slots=True, kw_only=True)
class Truth:
    """The season as it was. `accounts` are the games in the order of their kick-offs.

    Its games come from a timetable; until one was taken there are none. The stories of `plot` are
    then those of games by their names, and `names` has the name of each that a plot calls
    A1-2: pool A, week 1, second game of the night.
    """

    size: Size
    rules: House
    plot: Plot
    invented: Invented
    pools: Pools
    bans: Bans
    simulator: Simulator
    league: list[Listed] = field(default_factory=list)
    play_offs: list[Listed] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)
    accounts: dict[str, Account] = field(default_factory=dict)
    outcomes: list[Outcome] = field(default_factory=list)
    goes_on: GoesOn = field(default_factory=lambda: GoesOn([], [], []))

    @property
    def teams(self) -> dict[str, Team]:
        """Return the teams with a place, by name."""
        placed = {team for teams in self.pools.values() for team in teams}
        return {one.name: one for one in self.invented.teams() if one.name in placed}

    def last_round(self, pool: str) -> int:
        """Return the last round of a pool: a game that moves may come after all others."""
        return max(one.round for one in self.league if one.pool == pool)

    def known(self, on: date) -> list[Outcome]:
        """Return what the league's games count as on a day."""
        return newest(self.outcomes, on)

    @property
    def champion(self) -> str:
        """Return who won the final."""
        final = self.accounts["F1"]
        return final.team(winner(final))

    @property
    def third(self) -> str:
        """Return who won the game for third place."""
        account = self.accounts["T1"]
        return account.team(winner(account))

    @property
    def finalist(self) -> str:
        """Return who lost the final."""
        final = self.accounts["F1"]
        return final.team(other(winner(final)))


def truth_of(size: Size, seed: int) -> Truth:
    """Invent a league of a size, dealt into pools; the same seed brings the same one."""
    rng = Random(seed)
    rules = HOUSE
    invented = invent(size, rng, least=rules.roster_least)
    pools = pools_of(invented, size)
    plot = FULL_PLOT if size.name == "full" else SMALL_PLOT
    bans = Bans(rules, set())
    rude = pools[plot.rude][0] if plot.rude else ""
    lasts = frozenset(teams[-1] for teams in pools.values())
    return Truth(
        size=size,
        rules=rules,
        plot=plot,
        invented=invented,
        pools=pools,
        bans=bans,
        simulator=Simulator(rules, seed, bans, rude=rude, lasts=lasts),
    )


def take(truth: Truth, games: Sequence[Listed]) -> None:
    """Take the games of the first timetable: their crews, their stories, who plays how well."""
    officials = truth.invented.officials
    crewed = [replace(one, crew=_crew(officials, at)) for at, one in enumerate(games)]
    _list(truth, crewed)
    truth.names = {label: one.game for label, one in _labels(truth)}
    truth.names |= {one.game: one.game for one in truth.play_offs}
    plot = truth.plot
    truth.plot = replace(
        plot,
        kinds={truth.names.get(label, label): kind for label, kind in plot.kinds.items()},
        held=frozenset(truth.names.get(label, label) for label in plot.held),
    )
    truth.bans.held |= truth.plot.held
    if plot.rude:
        truth.teams[truth.pools[plot.rude][0]].strength = 2.2
    _add_late(truth)


def take_again(truth: Truth, games: Sequence[Listed]) -> None:
    """Take a timetable that was mended: each game keeps its crew and its story."""
    crews = {one.game: one.crew for one in (*truth.league, *truth.play_offs)}
    _list(truth, [replace(one, crew=crews[one.game]) for one in games])


def _list(truth: Truth, games: Sequence[Listed]) -> None:
    truth.league = [one for one in games if one.stage == "league"]
    truth.play_offs = [one for one in games if one.stage == "play_off"]


def _crew(officials: list[str], game: int) -> tuple[str, str]:
    """Return the next two officials of the list, over and over."""
    first = 2 * game % len(officials)
    return officials[first], officials[first + 1]


def _labels(truth: Truth) -> list[tuple[str, Listed]]:
    """Call the games by pool, week and place; first the one of the pool's last team."""
    found = []
    for letter, (pool, teams) in zip(LETTERS, truth.pools.items(), strict=False):
        for week in range(1, truth.size.rounds + 1):
            mine = [one for one in truth.league if (one.pool, one.round) == (pool, week)]
            mine.sort(key=lambda one: teams[-1] not in one.sides())
            found += [(f"{letter}{week}-{slot}", one) for slot, one in enumerate(mine, start=1)]
    return found


def _add_late(truth: Truth) -> None:
    """Let one player of the story's team come onto its roster a day after the game."""
    for listed in truth.league:
        if truth.plot.kind(listed.game) == "ineligible":
            team = truth.teams[listed.away]
            team.late = [team.players.pop()]


def play(truth: Truth, *, before: date = date.max) -> None:
    """Let the games before a day happen that have not yet, or all to the final.

    Raises:
        ValueError: the season would need lots.
    """
    for listed in truth.league:
        if listed.day < before and listed.game not in truth.accounts:
            _league_game(truth, listed)
    if before < date.max:
        return
    last = max(one.since for one in truth.outcomes)
    truth.goes_on = who_goes_on(truth.pools, truth.known(last), truth.rules)
    for listed in truth.play_offs:
        home, away = sides_of(listed, truth.goes_on.seeds, truth.accounts)
        kind = truth.plot.kind(listed.game)
        account = truth.simulator.play(listed, truth.teams[home], truth.teams[away], kind)
        truth.accounts[listed.game] = account


def _league_game(truth: Truth, listed: Listed) -> None:
    kind = truth.plot.kind(listed.game)
    if kind == "never":
        return
    home, away = truth.teams[listed.home], truth.teams[listed.away]
    account = truth.simulator.play(listed, home, away, kind)
    truth.accounts[listed.game] = account
    since = listed.day + RESUMED_AFTER if kind == "thunder" else listed.day
    truth.outcomes.append(outcome(account, since=since))
    if kind == "ineligible":
        ruled = listed.day + FOUND_AFTER
        truth.outcomes.append(outcome(account, since=ruled, by="away"))
        away.players += away.late
