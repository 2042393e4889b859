"""Tells a season's ratings in words and figures, for the coordinator alone."""

from dataclasses import dataclass

from wholeball.league.record import LeagueRecord
from wholeball.reports.ratings_words import (
    NO_OFFICIAL_DIFFERS,
    NO_TEAM_DIFFERS,
    NOBODY,
    UNTOLD,
    average_text,
    by_rule,
    estimate_text,
    gate_text,
    group_lines,
    notes,
    rates_text,
    review_line,
    rules_line,
)
from wholeball.season.severity import COVERAGE, Severity
from wholeball.usecases.show_ratings import show_ratings


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingsTold:
    """A season's ratings: rows of cells, and lines of words.

    `teams` are name, games rated, average, and what that is for the play-offs; `typical` are
    name, ratings, mean, estimate and interval; `officials` name, games, how they rate, interval,
    and what that shows.
    """

    league: str
    rules: str
    nobody: str
    teams: tuple[tuple[str, ...], ...]
    by_rule: tuple[str, ...]
    review: tuple[str, ...]
    typical: tuple[tuple[str, ...], ...]
    officials: tuple[tuple[str, ...], ...]
    says: tuple[str, ...]
    interval: str = f"{COVERAGE:.0%} interval"


def tell_ratings(record: LeagueRecord) -> RatingsTold:
    """Return a season's ratings, and what the model says of teams and officials.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    shown = show_ratings(record, staff=True)
    found, told = shown.ratings, shown.severity
    typical, officials, says = _severity(told) if isinstance(told, Severity) else ((), (), ())
    if told is not None and not isinstance(told, Severity):
        says = (UNTOLD[told],)
    return RatingsTold(
        league=shown.league,
        rules=rules_line(found.rules),
        nobody=NOBODY if found.rules.by == "nobody" else "",
        teams=tuple(
            (one.team, str(one.count), average_text(one), gate_text(one.gate, found.rules))
            for one in found.teams
        ),
        by_rule=tuple(by_rule(found)),
        review=tuple(review_line(one, found.rules) for one in found.review),
        typical=typical,
        officials=officials,
        says=says,
    )


_Rows = tuple[tuple[str, ...], ...]


def _severity(found: Severity) -> tuple[_Rows, _Rows, tuple[str, ...]]:
    teams: _Rows = ()
    officials: _Rows = ()
    says: list[str] = []
    if found.team_variance > 0:
        teams = tuple(
            (one.team, str(one.ratings), f"{one.plain:.2f}", *estimate_text(one.typical))
            for one in found.teams
        )
    else:
        says.append(NO_TEAM_DIFFERS)
    if found.official_variance == 0:
        says.append(NO_OFFICIAL_DIFFERS)
    elif found.enough_officials:
        officials = tuple(
            (one.official, str(one.games), *rates_text(one)) for one in found.officials
        )
    return teams, officials, (*says, *group_lines(found), *notes(found))
