"""Has the command about sportsmanship ratings: what counts, and what the coordinator may know."""

from collections.abc import Iterator
from dataclasses import asdict
from typing import Annotated

import typer
from rich.console import Console
from rich.table import Table

from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.reports.ratings_words import (
    NO_OFFICIAL_DIFFERS,
    NO_TEAM_DIFFERS,
    NOBODY,
    NOTHING_TO_REVIEW,
    PRIVATE,
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
from wholeball.season.ratings import SeasonRatings, TeamRatings, ToReview
from wholeball.season.severity import COVERAGE, Severity, Untold
from wholeball.usecases.show_ratings import RatingsShown, show_ratings


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(ratings)


def ratings(
    folder: Folder,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
    staff: Annotated[
        bool,
        typer.Option(
            "--staff", help="With estimates of teams and officials; for the coordinator alone."
        ),
    ] = False,
) -> None:
    """Show the sportsmanship averages that count, and the ratings to look at."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json):
        shown = show_ratings(record, staff=staff)
    print_remarks(shown.remarks)
    if as_json:
        print_json(_values(shown))
    elif shown.ratings.rules.by == "nobody":
        print_lines([NOBODY])
    else:
        _print(shown)


def _print(shown: RatingsShown) -> None:
    found = shown.ratings
    print_lines([f"{shown.league}, sportsmanship ratings", rules_line(found.rules), ""])
    console = Console(highlight=False, markup=False)
    console.print(_averages(found))
    print_lines(_counted(found))
    if shown.severity is not None:
        print_lines(["", PRIVATE])
        _print_severity(console, shown.severity)


def _averages(found: SeasonRatings) -> Table:
    table = _table("Team", "Games rated", "Average", "For the play-offs")
    for team in found.teams:
        gate = gate_text(team.gate, found.rules)
        table.add_row(team.team, str(team.count), average_text(team), gate)
    return table


def _counted(found: SeasonRatings) -> Iterator[str]:
    rules = [*by_rule(found)]
    if rules:
        yield from ("", "Counted by rule:", *(f"  {line}" for line in rules))
    yield ""
    if not found.review:
        yield NOTHING_TO_REVIEW
        return
    yield f"To look at, {len(found.review)}; nothing follows by itself:"
    yield from (f"  {review_line(one, found.rules)}" for one in found.review)


def _print_severity(console: Console, found: Severity | Untold) -> None:
    if not isinstance(found, Severity):
        print_lines([UNTOLD[found]])
        return
    interval = f"{COVERAGE:.0%} interval"
    if found.team_variance > 0:
        teams = _table("Team", "Ratings", "Plain mean", "By a typical official", interval)
        for team in found.teams:
            teams.add_row(
                team.team, str(team.ratings), f"{team.plain:.2f}", *estimate_text(team.typical)
            )
        console.print(teams)
    else:
        print_lines([NO_TEAM_DIFFERS])
    print_lines([""])
    if found.official_variance == 0:
        print_lines([NO_OFFICIAL_DIFFERS])
    elif found.enough_officials:
        officials = _table("Official", "Games", "Rates", interval, "")
        for one in found.officials:
            officials.add_row(one.official, str(one.games), *rates_text(one))
        console.print(officials)
    print_lines([*group_lines(found), *notes(found)])


def _table(*headings: str) -> Table:
    table = Table(box=None, pad_edge=False)
    for at, heading in enumerate(headings):
        table.add_column(heading, overflow="fold", justify="left" if at in (0, 4) else "right")
    return table


def _values(shown: RatingsShown) -> dict[str, object]:
    found = shown.ratings
    rules = found.rules
    values: dict[str, object] = {
        "league": shown.league,
        "rated_by": rules.by,
        "counts_from": rules.minimum_count,
        "play_offs_need": str(rules.play_off_minimum),
        "teams": [_team_values(one) for one in found.teams],
        "review": [_review_values(one, found) for one in found.review],
    }
    if shown.severity is not None:
        values["staff"] = _severity_values(shown.severity)
    return values


def _team_values(team: TeamRatings) -> dict[str, object]:
    return {
        "team": team.team,
        "pool": team.pool,
        "count": team.count,
        "average": None if team.average is None else average_text(team),
        "exact": None if team.average is None else str(team.average),
        "gate": team.gate,
        "games": [
            {
                "game": one.game,
                "round": one.round,
                "counts": str(one.counts),
                "source": one.source,
                "was": None if one.was is None else str(one.was),
            }
            for one in team.games
        ],
    }


def _review_values(one: ToReview, found: SeasonRatings) -> dict[str, object]:
    rated = one.rated
    return {
        "team": rated.team,
        "game": rated.game,
        "round": rated.round,
        "value": str(rated.value),
        "by": rated.by,
        "official": rated.official,
        "reason": rated.reason,
        "why": one.why,
        "says": review_line(one, found.rules),
    }


def _severity_values(found: Severity | Untold) -> dict[str, object]:
    if not isinstance(found, Severity):
        return {"untold": found, "says": UNTOLD[found]}
    return {"untold": None, "coverage": COVERAGE, **asdict(found), "notes": [*notes(found)]}
