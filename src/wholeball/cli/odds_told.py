"""Prints odds: a table and notes for people, values for programs."""

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

from rich.console import Console
from rich.table import Table

from wholeball.cli.output import print_json, print_lines, print_remarks
from wholeball.kernel.identity import TeamId
from wholeball.kernel.text import visible
from wholeball.reports.odds_words import (
    STATUS,
    no_odds_text,
    notes,
    percent_text,
    share_text,
)
from wholeball.season.race import NoRace
from wholeball.season.shares import Drawing, NoOdds, Odds, Share, TeamOdds
from wholeball.usecases.show_odds import OddsShown, show_odds


def tell_odds(folder: Path, drawing: Drawing, *, as_json: bool) -> None:
    """Print the odds of a season folder.

    Raises:
        WholeballError: the folder is refused.
    """
    shown = show_odds(folder, drawing)
    print_remarks(shown.remarks)
    if as_json:
        print_json(_values(shown))
    elif isinstance(shown.odds, NoOdds):
        print_lines([no_odds_text(shown.odds)])
    else:
        _print(shown, shown.odds)
    if shown.of_drawn is not None and not as_json:
        print_lines(_of_drawn(shown.of_drawn))


def _print(shown: OddsShown, found: Odds) -> None:
    print_lines([f"{shown.season.league.name}, odds of the play-offs", ""])
    console = Console(highlight=False, markup=False)
    console.print(_table(shown, found))
    print_lines(["", *notes(found, shown.season.rulebook, shown.proven)])


def _table(shown: OddsShown, found: Odds) -> Table:
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


def _status(shown: OddsShown, one: TeamOdds) -> str:
    if isinstance(shown.proven, NoRace):
        return ""
    return STATUS[shown.proven[one.team]]


def _of_drawn(chances: dict[TeamId, float]) -> Iterator[str]:
    yield ""
    yield "The drawn bracket is won by:"
    for team, chance in sorted(chances.items(), key=lambda one: -one[1]):
        yield f"  {team}: {percent_text(chance)}"


def _values(shown: OddsShown) -> dict[str, object]:
    proven = shown.proven
    values: dict[str, object] = {
        "league": shown.season.league.name,
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
