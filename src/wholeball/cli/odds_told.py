"""Prints odds: a table and notes for people, values for programs."""

from collections.abc import Iterator
from dataclasses import asdict

from rich.console import Console
from rich.table import Table

from wholeball.cli.output import print_json, print_lines, print_remarks
from wholeball.kernel.text import visible
from wholeball.league.record import LeagueRecord
from wholeball.reports.odds_words import (
    STATUS,
    no_odds_text,
    notes,
    percent_text,
    share_text,
)
from wholeball.season.race import NoRace
from wholeball.season.season import Season
from wholeball.season.shares import Drawing, NoOdds, Odds, Share, TeamOdds
from wholeball.usecases.show_odds import BracketOdds, OddsShown, show_odds


def tell_odds(record: LeagueRecord, drawing: Drawing, *, as_json: bool) -> None:
    """Print the odds of a season folder.

    Raises:
        WholeballError: the folder is refused.
    """
    shown = show_odds(record, drawing)
    print_remarks(shown.remarks)
    if as_json:
        print_json(_shown_values(shown))
        return
    for number, one in enumerate(shown.brackets):
        if number:
            print_lines([""])
        _tell(shown.season, one)


def _tell(season: Season, one: BracketOdds) -> None:
    if isinstance(one.odds, NoOdds):
        of = f"{one.bracket}: " if one.bracket else ""
        print_lines([f"{of}{no_odds_text(one.odds)}"])
    else:
        _print(season, one, one.odds)
    if one.of_drawn is not None:
        print_lines(_of_drawn(one))


def _print(season: Season, shown: BracketOdds, found: Odds) -> None:
    of = f", {shown.bracket}" if shown.bracket else ""
    print_lines([f"{season.league.name}{of}, odds of the play-offs", ""])
    console = Console(highlight=False, markup=False)
    console.print(_table(shown, found))
    print_lines(["", *notes(found, season.rulebook, shown.proven)])


def _table(shown: BracketOdds, found: Odds) -> Table:
    table = Table(box=None, pad_edge=False)
    table.add_column("Team", overflow="fold")
    for heading in ("Pool", "Goes on", "", "Wins the bracket"):
        table.add_column(heading)
    for one in sorted(found.teams, key=lambda team: (-_order(team.goes_on), team.team)):
        table.add_row(
            visible(one.team),
            visible(one.pool),
            share_text(one.goes_on),
            _status(shown, one),
            "" if one.wins is None or shown.of_drawn is not None else share_text(one.wins),
        )
    return table


def _order(share: Share) -> float:
    return {"always": 2.0, "never": -1.0, None: share.chance}[share.proven]


def _status(shown: BracketOdds, one: TeamOdds) -> str:
    if isinstance(shown.proven, NoRace):
        return ""
    return STATUS[shown.proven[one.team]]


def _of_drawn(shown: BracketOdds) -> Iterator[str]:
    of = f" of {shown.bracket}" if shown.bracket else ""
    yield ""
    yield f"The drawn bracket{of} is won by:"
    for team, chance in sorted((shown.of_drawn or {}).items(), key=lambda one: -one[1]):
        yield f"  {team}: {percent_text(chance)}"


def _shown_values(shown: OddsShown) -> dict[str, object]:
    """Return what is shown; several brackets stand in a list, each with its name."""
    league = {"league": shown.season.league.name}
    if len(shown.brackets) > 1:
        told = [{"bracket": one.bracket, **_values(one)} for one in shown.brackets]
        return {**league, "brackets": told}
    (one,) = shown.brackets
    return {**league, **_values(one)}


def _values(shown: BracketOdds) -> dict[str, object]:
    proven = shown.proven
    values: dict[str, object] = {
        "not_proven": proven.why if isinstance(proven, NoRace) else None,
        "drawn_bracket": shown.of_drawn,
    }
    if isinstance(shown.odds, NoOdds):
        return {**values, "no_odds": shown.odds.why}
    told = asdict(shown.odds)
    told["teams"] = [
        {
            "team": one.team,
            "pool": one.pool,
            "status": None if isinstance(proven, NoRace) else proven[one.team],
            "goes_on": _share_values(one.goes_on),
            "wins": None if one.wins is None else _share_values(one.wins),
            "places": list(one.places),
        }
        for one in shown.odds.teams
    ]
    return {**values, **told}


def _share_values(share: Share) -> dict[str, object]:
    return {
        "hits": share.hits,
        "chance": share.chance,
        "error": share.error,
        "proven": share.proven,
        "says": share_text(share),
    }
