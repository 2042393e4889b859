"""Works out who goes on, with which seed, and follows the bracket to its champion."""

from collections.abc import Mapping, Sequence
from itertools import permutations
from typing import NamedTuple

from demo.account import Account
from demo.house import House
from demo.schedule import Pools
from demo.truth_tables import Counted, Figures, Outcome, average, counted, rated, table
from demo.world import Listed, Side, other


class GoesOn(NamedTuple):
    """Who goes on, best seed first before and after teams of one pool were kept apart."""

    by_record: list[str]
    seeds: list[str]
    too_rude: list[str]


def who_goes_on(pools: Pools, known: Sequence[Outcome], rules: House) -> GoesOn:
    """Return the teams of the play-offs at the end of the league.

    Raises:
        ValueError: nothing parts two teams of them; the story has no lots.
    """
    last = max(one.round for one in known)
    of_pool = {
        pool: counted([one for one in known if one.pool == pool], rules, up_to=last)
        for pool in pools
    }
    places: dict[str, int] = {}
    chosen: list[str] = []
    too_rude: list[str] = []
    for pool, teams in pools.items():
        lines = table(teams, of_pool[pool], rules)
        places |= {line.team: line.place for line in lines}
        rude = [one for one in teams if _is_too_rude(of_pool[pool], one, rules)]
        too_rude += rude
        able = [one for one in lines if one.team not in (*rude, *of_pool[pool].out)]
        if able[rules.places - 1].place == able[rules.places].place:
            raise ValueError(f"lots would decide who of {pool} goes on; take another seed")
        chosen += [line.team for line in able[: rules.places]]
    order = _by_record(chosen, places, of_pool, rules)
    pool_of = {team: pool for pool, teams in pools.items() for team in teams}
    return GoesOn(order, kept_apart(order, pool_of), too_rude)


def _is_too_rude(found: Counted, team: str, rules: House) -> bool:
    mean = average(rated(found, team, rules), rules)
    return mean is not None and mean < rules.play_off_rating


def _by_record(
    chosen: Sequence[str],
    places: Mapping[str, int],
    of_pool: Mapping[str, Counted],
    rules: House,
) -> list[str]:
    """Seed by place in the pool, then by the record, by the game where not all played alike."""
    games = [one for found in of_pool.values() for one in found.games]
    out = tuple(team for found in of_pool.values() for team in found.out)
    every = {team for one in games for team in (one.home, one.away)} - set(out)
    whole = Counted(games, out)
    played = {len(Figures(whole, rules).games(team)) for team in every}
    figures = Figures(whole, rules, per_game=len(of_pool) > 1 and len(played) > 1)
    order = []
    for place in sorted(set(places.values())):
        tier = [team for team in chosen if places[team] == place]
        for group in figures.ordered(tier, mini=False) if tier else []:
            if len(group) > 1:
                raise ValueError(f"lots would part {group}; take another seed")
            order += group
    return order


def first_round(teams: int) -> list[tuple[int, int]]:
    """Return which seeds meet first: the best the last, the second best the last but one."""
    return [(seed, teams + 1 - seed) for seed in range(1, teams // 2 + 1)]


def kept_apart(order: Sequence[str], pool_of: Mapping[str, str]) -> list[str]:
    """Try every way in which the worse seeds may change places, and take the gentlest.

    The fewest games within a pool, then the fewest places moved, then the fewest teams moved,
    then the worse seeds rather than the better ones.
    """
    half = len(order) // 2
    best = min(
        (tuple(ways) for ways in permutations(range(half, len(order)))),
        key=lambda ways: _cost(order, pool_of, ways),
    )
    return [*order[:half], *(order[one] for one in best)]


def _cost(
    order: Sequence[str], pool_of: Mapping[str, str], ways: tuple[int, ...]
) -> tuple[int, int, int, int]:
    half = len(order) // 2
    now = [*order[:half], *(order[one] for one in ways)]
    meeting = sum(
        pool_of[now[high - 1]] == pool_of[now[low - 1]] for high, low in first_round(len(order))
    )
    moved = [(was, at) for at, was in enumerate(ways, start=half) if was != at]
    return (
        meeting,
        sum(abs(was - at) for was, at in moved),
        len(moved),
        -sum(was for was, _ in moved),
    )


def sides_of(
    listed: Listed, seeds: Sequence[str], played: Mapping[str, Account]
) -> tuple[str, str]:
    """Return who the open sides of a play-off game are, once the games before it are played."""
    home, away = (_side(words, seeds, played) for words in listed.opens)
    return home, away


def _side(words: str, seeds: Sequence[str], played: Mapping[str, Account]) -> str:
    what, *_, name = words.split()
    if what == "seed":
        return seeds[int(name) - 1]
    account = played[name]
    won = winner(account)
    return account.team(won if what == "winner" else other(won))


def winner(account: Account) -> Side:
    """Return who won a play-off game.

    Raises:
        ValueError: nobody did.
    """
    home, away = account.score()
    if home != away:
        return "home" if home > away else "away"
    kicks = account.kicked()
    if kicks[0] == kicks[1]:
        raise ValueError(f"{account.listed.game} has no winner")
    return "home" if kicks[0] > kicks[1] else "away"
