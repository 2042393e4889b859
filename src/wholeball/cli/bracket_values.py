"""Turns brackets into values for programs."""

from dataclasses import asdict

from wholeball.reports.bracket_words import conflict_line, side_text
from wholeball.reports.figures import question_name
from wholeball.season.bracket_run import Line
from wholeball.season.qualified import Seed
from wholeball.season.result import Result
from wholeball.usecases.bracket_stands import BracketStands
from wholeball.usecases.show_bracket import BracketsShown


def bracket_values(shown: BracketsShown) -> dict[str, object]:
    """Return what is shown; several brackets stand in a list, each with its name."""
    league = {"league": shown.season.league.name}
    around = {
        "conflicts": [
            {"games": list(one.games), "kind": one.kind, "says": conflict_line(one)}
            for one in shown.conflicts
        ],
        "written": [str(path) for path in shown.written],
    }
    if shown.are_apart:
        brackets = [{"bracket": one.bracket, **_values(one)} for one in shown.brackets]
        return {**league, "brackets": brackets, **around}
    (one,) = shown.brackets
    return {**league, **_values(one), **around}


def _values(shown: BracketStands) -> dict[str, object]:
    found = shown.qualified
    record = found.record
    return {
        "games_left": shown.left,
        "seeds": [_seed_values(one) for one in found.seeds],
        "left_out": [asdict(one) for one in found.left_out],
        "undecided": [list(teams) for teams in found.undecided],
        "compared": {
            "per_game": record.per_game,
            "games": [record.least, record.most],
            "dropped": [asdict(one) for one in record.dropped],
        },
        "moved": [asdict(one) for one in shown.seeding.moved],
        "meet": [list(pair) for pair in shown.seeding.meet],
        "drawn": list(shown.drawn),
        "changes": [asdict(one) for one in shown.changes],
        "games": [_line_values(one) for one in shown.lines],
    }


def _seed_values(one: Seed) -> dict[str, object]:
    by = None if one.separation is None else one.separation.by
    return {
        "seed": one.seed,
        "team": one.team,
        "pool": one.pool,
        "place": one.place,
        "record": {**one.row._asdict(), "difference": one.row.difference},
        "before_the_next_by": one.parted,
        "figure": None if by is None else question_name(by),
    }


def _line_values(line: Line) -> dict[str, object]:
    result = line.result
    return {
        "game": line.game.game,
        "round": line.game.round,
        "for_third": line.game.for_third,
        "home": side_text(line.game.home, line.home),
        "away": side_text(line.game.away, line.away),
        "possible_home": sorted(line.possible_home),
        "possible_away": sorted(line.possible_away),
        "state": line.state,
        "winner": line.winner,
        "played_as": None if result is None else result.game,
        "how": None if result is None else result.how,
        "score": None if result is None else _home_first(line, result, _goals(result)),
        "kicks": None if result is None else _home_first(line, result, result.kicks),
    }


def _goals(result: Result) -> tuple[int, int] | None:
    """Return the goals of a game, None where the rulebook scores one that was given up."""
    is_scored = result.how in ("played", "awarded")
    return (result.home_goals, result.away_goals) if is_scored else None


def _home_first(line: Line, result: Result, of: tuple[int, int] | None) -> list[int] | None:
    """Return figures of the game as played in the order of the bracket's sides."""
    if of is None:
        return None
    return list(of if result.home == line.home else reversed(of))
