"""Prints standings: tables and reasons for people, values for programs."""

from collections.abc import Iterator
from dataclasses import asdict

from rich.console import Console
from rich.table import Table

from wholeball.reports.figures import figure_text, question_name, signed
from wholeball.reports.not_as_played import Change, as_counted, not_as_played
from wholeball.reports.reasons import AS_LISTED, absence, is_level_on_first, reason
from wholeball.season.reasons import Absence, Asked, Separation
from wholeball.season.ruling import Ruling
from wholeball.season.season import Season, regulation, upheld_in
from wholeball.season.standings import RoundTable, Row, Standings
from wholeball.season.upheld import Upheld
from wholeball.usecases.show_standings import PoolShown, StandingsShown

_HEADINGS = ("Played", "Won", "Drawn", "Lost", "For", "Against", "Diff.", "Points")


def print_standings(shown: StandingsShown) -> None:
    """Print each pool's newest table, and why level neighbours stand as they do."""
    console = Console(highlight=False, markup=False)
    for pool in shown.pools:
        if pool.tables:
            _print_pool(console, shown, pool, pool.tables[-1])
        else:
            console.print(f"Pool {pool.pool}: no game has a result yet.")
    if not shown.pools:
        console.print("No team is listed yet. Add a row a team to teams.csv.")


def standings_values(shown: StandingsShown) -> dict[str, object]:
    """Return the same as plain values, for JSON."""
    return {
        "league": shown.season.league.name,
        "rulebook": {
            "name": shown.season.rulebook.head.name,
            "digest": shown.season.rulebook.digest,
        },
        "pools": [
            {
                "pool": pool.pool,
                "rounds": [
                    {
                        **_round_values(
                            table, upheld_in(shown.season, pool.pool, up_to=table.round)
                        ),
                        "not_as_played": [
                            _change_values(one, shown.season)
                            for one in _changes(shown, pool, table)
                        ],
                    }
                    for table in pool.tables
                ],
            }
            for pool in shown.pools
        ],
    }


def _print_pool(
    console: Console, shown: StandingsShown, pool: PoolShown, newest: RoundTable
) -> None:
    league = shown.season.league.name
    console.print(f"{league}, {pool.pool}, after round {newest.round}", style="bold")
    console.print(_table(newest.standings))
    for line in _not_as_played(shown, pool, newest):
        console.print(line, soft_wrap=True)
    for line in _reasons(newest.standings):
        console.print(line, soft_wrap=True)
    console.print()


def _changes(shown: StandingsShown, pool: PoolShown, table: RoundTable) -> tuple[Change, ...]:
    return not_as_played(
        shown.season,
        pool.pool,
        shown=table.round,
        is_newest=pool.is_newest and table is pool.tables[-1],
        names=AS_LISTED,
    )


def _not_as_played(shown: StandingsShown, pool: PoolShown, newest: RoundTable) -> Iterator[str]:
    found = _changes(shown, pool, newest)
    if found:
        yield "\nNot as played:"
        yield from (f"  {one.says} {one.why}".rstrip() for one in found)


def _table(standings: Standings) -> Table:
    table = Table(box=None, pad_edge=False)
    table.add_column("", justify="right")
    table.add_column("Team", overflow="fold")
    for heading in _HEADINGS:
        table.add_column(heading, justify="right")
    shared = {team for teams in standings.unresolved for team in teams}
    for row in standings.rows:
        place = f"{row.place}{'=' if row.team in shared else ''}"
        table.add_row(place, row.team, *_figures(row))
    return table


def _figures(row: Row) -> tuple[str, ...]:
    counts = (row.played, row.won, row.drawn, row.lost, row.goals_for, row.goals_against)
    return (*map(str, counts), signed(row.difference), str(row.points))


def _reasons(standings: Standings) -> Iterator[str]:
    for index, separation in enumerate(standings.neighbours):
        if is_level_on_first(separation):
            asks, *tests = reason(separation, would_show=standings.neighbours.would_show(index))
            yield f"\n{asks}"
            yield from (f"  {test}" for test in tests)
    absences = standings.absences
    if absences:
        yield f"\nAsked and not to be told, {len(absences)}:"
        yield from (f"  {absence(one)}" for one in absences)


def _round_values(table: RoundTable, stand: Upheld) -> dict[str, object]:
    standings = table.standings
    return {
        "round": table.round,
        "rows": [{**row._asdict(), "difference": row.difference} for row in standings.rows],
        "between": [_separation_values(one) for one in standings.neighbours],
        "unresolved": [list(teams) for teams in standings.unresolved],
        "absences": [_absence_values(one) for one in standings.absences],
        "out": [asdict(one) for one in stand.out],
    }


def _change_values(change: Change, season: Season) -> dict[str, object]:
    """Return what does not stand as played; goals are those of home and away."""
    result, ruling = change.result, change.ruling
    counting = regulation(season.rulebook).counting
    return {
        "says": str(change.says),
        "why": change.why,
        "game": None if result is None else result.game,
        "played": None if result is None else result.played_score,
        "counts": None if result is None else as_counted(result, counting),
        "ruling": None if ruling is None else _ruling_values(ruling),
    }


def _ruling_values(ruling: Ruling) -> dict[str, object]:
    return {
        "number": ruling.number,
        "date": None if ruling.day is None else ruling.day.isoformat(),
        "ruled": ruling.ruled,
        "ref": ruling.ref,
        "why": ruling.why,
    }


def _absence_values(found: Absence) -> dict[str, object]:
    return {
        "question": question_name(found.question),
        "mini_table": found.round or None,
        "teams": list(found.teams),
        "reason": found.reason,
        "says": str(absence(found)),
    }


def _separation_values(separation: Separation) -> dict[str, object]:
    return {
        "above": separation.above,
        "below": separation.below,
        "by": None if separation.by is None else question_name(separation.by),
        "asked": [_asked_values(asked) for asked in separation.asked],
        "not_asked": [question_name(question) for question in separation.not_asked],
        "last_resort": separation.last_resort,
        "below_is_out": separation.below_is_out,
    }


def _asked_values(asked: Asked) -> dict[str, object]:
    return {
        "question": question_name(asked.question),
        "above": figure_text(asked.above, asked.question),
        "below": figure_text(asked.below, asked.question),
        "verdict": asked.verdict,
        "reason": asked.reason,
        "mini_table": asked.round or None,
        "table": [
            {"team": team, "figure": figure_text(figure, asked.question)}
            for team, figure in asked.table
        ],
        "draw": asked.draw,
    }
