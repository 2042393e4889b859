"""Lets the whole season happen, and keeps the truth about it: who won, who sat out, who owes."""

from dataclasses import dataclass, field
from datetime import date, timedelta
from random import Random

from demo.account import Account
from demo.house import HOUSE, House
from demo.invent import Invented, invent
from demo.plot import FULL_PLOT, SMALL_PLOT, Plot
from demo.schedule import Pools, league_games, play_off_games, pools_of
from demo.simulate import Simulator
from demo.truth_people import Bans
from demo.truth_play_offs import GoesOn, sides_of, who_goes_on, winner
from demo.truth_tables import Outcome, newest, outcome
from demo.world import Listed, Size, Team, other

FOUND_AFTER = timedelta(days=2)
RESUMED_AFTER = timedelta(days=3)


@dataclass(slots=True, kw_only=True)
class Truth:
    """The season as it was. `accounts` are the games in the order of their kick-offs."""

    size: Size
    rules: House
    plot: Plot
    invented: Invented
    pools: Pools
    league: list[Listed]
    play_offs: list[Listed]
    bans: Bans
    accounts: dict[str, Account] = field(default_factory=dict)
    outcomes: list[Outcome] = field(default_factory=list)
    goes_on: GoesOn = field(default_factory=lambda: GoesOn([], [], []))

    @property
    def teams(self) -> dict[str, Team]:
        """Return the teams with a place, by name."""
        placed = {team for teams in self.pools.values() for team in teams}
        return {one.name: one for one in self.invented.teams() if one.name in placed}

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
    """Let a season of a size happen; the same seed brings the same season.

    Raises:
        ValueError: the season of that seed would need lots.
    """
    rng = Random(seed)
    rules = HOUSE
    invented = invent(size, rng, least=rules.roster_least)
    pools = pools_of(invented, size)
    plot = FULL_PLOT if size.name == "full" else SMALL_PLOT
    truth = Truth(
        size=size,
        rules=rules,
        plot=plot,
        invented=invented,
        pools=pools,
        league=league_games(pools, size, invented.officials),
        play_offs=play_off_games(size, invented.officials),
        bans=Bans(rules, plot.held),
    )
    _be_rude(truth)
    _add_late(truth)
    _play(truth, rng)
    return truth


def _be_rude(truth: Truth) -> None:
    """Let the first team of one pool play so well that only its manners keep it out."""
    if truth.plot.rude:
        truth.teams[truth.pools[truth.plot.rude][0]].strength = 2.2


def _add_late(truth: Truth) -> None:
    """Let one player of the story's team come onto its roster a day after the game."""
    for listed in truth.league:
        if truth.plot.kind(listed.game) == "ineligible":
            team = truth.teams[listed.away]
            team.late = [team.players.pop()]


def _play(truth: Truth, rng: Random) -> None:
    rude = truth.pools[truth.plot.rude][0] if truth.plot.rude else ""
    simulator = Simulator(truth.rules, rng, truth.bans, rude)
    for listed in truth.league:
        _league_game(truth, simulator, listed)
    last = max(one.since for one in truth.outcomes)
    truth.goes_on = who_goes_on(truth.pools, truth.known(last), truth.rules)
    for listed in truth.play_offs:
        home, away = sides_of(listed, truth.goes_on.seeds, truth.accounts)
        kind = truth.plot.kind(listed.game)
        account = simulator.play(listed, truth.teams[home], truth.teams[away], kind)
        truth.accounts[listed.game] = account


def _league_game(truth: Truth, simulator: Simulator, listed: Listed) -> None:
    kind = truth.plot.kind(listed.game)
    if kind == "never":
        return
    home, away = truth.teams[listed.home], truth.teams[listed.away]
    account = simulator.play(listed, home, away, kind)
    truth.accounts[listed.game] = account
    since = listed.day + RESUMED_AFTER if kind == "thunder" else listed.day
    truth.outcomes.append(outcome(account, since=since))
    if kind == "ineligible":
        ruled = listed.day + FOUND_AFTER
        truth.outcomes.append(outcome(account, since=ruled, by="away"))
        away.players += away.late
