"""Estimates what a typical official would have given each team; for the coordinator alone.

The model: value = mean of the group + team + official + error, teams and officials random, so
that an estimate is drawn towards the mean the more, the less is known. It never feeds the
average that counts, nor puts teams or officials in an order.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from statistics import NormalDist, fmean
from typing import Final, Literal, TypeAlias

import numpy as np

from wholeball.kernel.identity import TeamId
from wholeball.season.comparable import groups
from wholeball.season.mixed import Fitted, NoFit, Reals, fit, widened
from wholeball.season.ratings import Rated

COVERAGE: Final = 0.9
"""Of so many intervals this share should hold the truth."""
OFFICIALS_LEAST: Final = 8
GAMES_LEAST: Final = 4
"""So many officials with so many games each, before anything is said of an official: our own
rule of thumb, no source."""
SAME_LEAST: Final = 8
"""From so many shared ratings on, all of them the same, a crew is taken to rate as one: our own
rule of thumb, no source."""
Untold: TypeAlias = Literal["nobody", "too_few", "one_value", "nothing_left"]
"""No rating has an official's name; no more ratings than groups; all are the same; the teams or
the officials account for all there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A figure in points of the scale, with its interval."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamEstimate:
    """What a typical official of its group would have given a team; None where teams do not differ.

    `group` counts from 1; figures of different groups are not comparable. `plain` is the mean
    of what officials gave it.
    """

    team: TeamId
    group: int
    ratings: int
    plain: float
    typical: Estimate | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OfficialEstimate:
    """How much higher (lower where below 0) an official rates than a typical one of the group.

    `rates` is None where officials do not differ or too few worked enough. `always` is the one
    value that the official gave in all of enough games.
    """

    official: str
    group: int
    games: int
    ratings: int
    rates: Estimate | None
    always: float | None

    @property
    def stands_out(self) -> bool:
        """Whether the interval leaves out 0."""
        return self.rates is not None and (self.rates.low > 0 or self.rates.high < 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Severity:
    """What the model says; a variance of 0 means that no difference can be told.

    `same` of the `shared` ratings, those of two officials for one side, are equal; where `as_one`, the
    two were taken as one rating of both. Officials are in the order of the alphabet.
    """

    teams: tuple[TeamEstimate, ...]
    officials: tuple[OfficialEstimate, ...]
    groups: int
    team_variance: float
    official_variance: float
    residual: float
    enough_officials: bool
    shared: int
    same: int
    as_one: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    team: TeamId
    officials: tuple[str, ...]
    value: float


def severity(opinions: Sequence[Rated], teams: Sequence[TeamId]) -> Severity | Untold:
    """Return what the ratings of named officials say, teams in the order of `teams`.

    `opinions` are ratings that no rule gave. Two officials of a crew are taken as two ratings,
    unless they never differ.
    """
    named = [(one, one.official) for one in opinions if one.official is not None]
    if not named:
        return "nobody"
    found = groups(teams, [(one.team, official) for one, official in named])
    pairs = [[*same] for same in _by_side(named) if len(same) > 1]
    same = sum(len({one.value for one, _ in pair}) == 1 for pair in pairs)
    as_one = same == len(pairs) >= SAME_LEAST
    rows = list(_as_one(named) if as_one else _each(named))
    values = np.array([row.value for row in rows])
    if len(rows) <= len(found):
        return "too_few"
    if len(set(values.tolist())) == 1:
        return "one_value"
    design = _Design(rows, found, teams)
    random = [design.teams, design.officials]
    try:
        fitted = fit(values, design.groups, random)
    except NoFit:
        return "nothing_left"
    fitted = replace(fitted, covariance=widened(values, design.groups, random, fitted))
    enough = sum(_games(named, one) >= GAMES_LEAST for one in design.official_names)
    return Severity(
        teams=tuple(_team(design, fitted, named, one) for one in design.team_names),
        officials=tuple(
            _official(design, fitted, named, one, is_enough=enough >= OFFICIALS_LEAST)
            for one in design.official_names
        ),
        groups=len(found),
        team_variance=fitted.variances[0],
        official_variance=fitted.variances[1],
        residual=fitted.residual,
        enough_officials=enough >= OFFICIALS_LEAST,
        shared=len(pairs),
        same=same,
        as_one=as_one,
    )


_Named: TypeAlias = Sequence[tuple[Rated, str]]


def _by_side(named: _Named) -> Iterator[_Named]:
    """Yield the ratings of one side of one game together."""
    in_order = sorted(named, key=lambda one: (one[0].game, one[0].team, one[1]))
    for _, same in groupby(in_order, key=lambda one: (one[0].game, one[0].team)):
        yield list(same)


def _each(named: _Named) -> Iterator[_Row]:
    for one, official in named:
        yield _Row(team=one.team, officials=(official,), value=float(one.value))


def _as_one(named: _Named) -> Iterator[_Row]:
    for same in _by_side(named):
        first = same[0][0]
        yield _Row(
            team=first.team,
            officials=tuple(official for _, official in same),
            value=float(first.value),
        )


class _Design:
    """Holds who rated whom as matrices, a row a rating; a crew of two counts half each."""

    def __init__(
        self,
        rows: Sequence[_Row],
        found: Sequence[tuple[tuple[TeamId, ...], frozenset[str]]],
        teams: Sequence[TeamId],
    ) -> None:
        self.official_names = tuple(
            sorted({one for _, officials in found for one in officials})
        )
        self.group_of_team = {team: at for at, (some, _) in enumerate(found) for team in some}
        self.group_of_official = {one: at for at, (_, all_) in enumerate(found) for one in all_}
        self.team_names = tuple(one for one in teams if one in self.group_of_team)
        self.groups = np.zeros((len(rows), len(found)))
        self.teams = np.zeros((len(rows), len(self.team_names)))
        self.officials = np.zeros((len(rows), len(self.official_names)))
        team_at = {team: at for at, team in enumerate(self.team_names)}
        official_at = {one: at for at, one in enumerate(self.official_names)}
        for at, row in enumerate(rows):
            self.groups[at, self.group_of_team[row.team]] = 1
            self.teams[at, team_at[row.team]] = 1
            for official in row.officials:
                self.officials[at, official_at[official]] += 1 / len(row.officials)


def _team(design: _Design, fitted: Fitted, named: _Named, team: TeamId) -> TeamEstimate:
    given = [float(one.value) for one, _ in named if one.team == team]
    group, at = design.group_of_team[team], design.team_names.index(team)
    typical = None
    if fitted.variances[0] > 0:
        picks = np.zeros(len(fitted.covariance))
        picks[[group, len(fitted.fixed) + at]] = 1
        value = float(fitted.fixed[group] + fitted.random[0][at])
        typical = _estimate(value, picks, fitted.covariance)
    return TeamEstimate(
        team=team, group=group + 1, ratings=len(given), plain=fmean(given), typical=typical
    )


def _official(
    design: _Design, fitted: Fitted, named: _Named, official: str, *, is_enough: bool
) -> OfficialEstimate:
    given = [float(one.value) for one, by in named if by == official]
    games, at = _games(named, official), design.official_names.index(official)
    rates = None
    if fitted.variances[1] > 0 and is_enough and games >= GAMES_LEAST:
        picks = np.zeros(len(fitted.covariance))
        picks[len(fitted.fixed) + len(fitted.random[0]) + at] = 1
        rates = _estimate(float(fitted.random[1][at]), picks, fitted.covariance)
    is_one = games >= GAMES_LEAST and len(set(given)) == 1
    return OfficialEstimate(
        official=official,
        group=design.group_of_official[official] + 1,
        games=games,
        ratings=len(given),
        rates=rates,
        always=given[0] if is_one else None,
    )


def _games(named: _Named, official: str) -> int:
    return len({one.game for one, by in named if by == official})


def _estimate(value: float, picks: Reals, covariance: Reals) -> Estimate:
    reach = NormalDist().inv_cdf((1 + COVERAGE) / 2) * float(
        np.sqrt(picks @ covariance @ picks)
    )
    return Estimate(value=value, low=value - reach, high=value + reach)
