"""Turns a row of check data into a table, and holds the table to what is official."""

import json
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from pydantic import TypeAdapter

from external.cases import Case
from wholeball.kernel.identity import GameId, TeamId
from wholeball.rulebook.criteria import Criteria
from wholeball.season.count import Counting, Deduction, Points
from wholeball.season.result import CardCounts, Result
from wholeball.season.standings import Regulation, Row, Standings, standings
from wholeball.season.tally import OutsideFigures

Record = Callable[[str, object], None]
Regulations = Mapping[str, Any]


def regulation(row: Case, regulations: Regulations) -> Regulation:
    """Return the row's regulation; a key that regulations.json lacks is a failure."""
    entry = regulations[row["regulation"]]
    criteria = TypeAdapter(Criteria).validate_json(json.dumps(entry["criteria"]))
    return Regulation(
        criteria=criteria,
        last_resort=entry["last_resort"],
        counting=Counting(points=Points(**row["points"])),
    )


def table(row: Case, regulations: Regulations) -> Standings:
    teams = names(row)
    return standings(
        _results(row, teams),
        regulation(row, regulations),
        teams=teams,
        deductions=_deductions(row, teams),
        outside=_outside(row, teams),
    )


def names(row: Case) -> list[TeamId]:
    """Return identities by index that keep two teams of one name apart."""
    return [TeamId(f"{index:02} {name}") for index, name in enumerate(row["teams"])]


def check(row: Case, found: Standings, record: Record) -> None:
    """Hold the table to the row's official ranking and figures, and record what was absent."""
    record("unresolved", len(found.unresolved))
    record("absences", len(found.absences))
    teams = names(row)
    rows = {teams.index(one.team): one for one in found.rows}
    ranking: list[int] = row["official"]["ranking"]
    places = [rows[index].place for index in ranking]
    assert places == sorted(places), _told(found)
    rest = [one.place for index, one in rows.items() if index not in ranking]
    assert min(rest, default=places[-1]) >= places[-1], _told(found)
    assert row["official"].get("partial") or not rest
    for index, figures in row["official"].get("table", {}).items():
        assert _figures(rows[int(index)]) == figures
    hold_the_unresolved_to_account(found)


def hold_the_unresolved_to_account(found: Standings) -> None:
    """Where nothing parts two teams, every question was put and was level or lacked data."""
    for separation, (above, below) in zip(found.neighbours, pairwise(found.rows), strict=True):
        assert (separation.by is None) == (above.place == below.place)
        if separation.by is None:
            put = {asked.question for asked in separation.asked}
            assert put == set(found.history.questions)
            for asked in separation.asked:
                absent = asked.verdict == "absent" and asked.reason is not None
                assert absent or (asked.verdict == "level" and asked.above == asked.below)


def _figures(row: Row) -> list[int]:
    return [
        row.played,
        row.won,
        row.drawn,
        row.lost,
        row.goals_for,
        row.goals_against,
        row.points,
    ]


def _told(found: Standings) -> str:
    order = [(row.place, row.team, row.points) for row in found.rows]
    return f"{order}\n" + "\n".join(str(one) for one in found.neighbours)


def _results(row: Case, teams: Sequence[TeamId]) -> list[Result]:
    awarded = {tuple(one[:4]): one[4] for one in row.get("awarded", [])}
    games = [tuple(one) for one in row["matches"]]
    assert set(awarded) <= set(games)
    return [
        _result(f"game {number}", game, teams, awarded.get(game), game in awarded)
        for number, game in enumerate(games)
    ]


def _result(
    name: str,
    game: Sequence[int],
    teams: Sequence[TeamId],
    played: Sequence[int] | None = None,
    awarded: bool = False,  # noqa: FBT001, FBT002  two kinds of game, told apart by the caller
) -> Result:
    home, away, home_goals, away_goals = game[:4]
    return Result(
        game=GameId(name),
        round=1,
        home=teams[home],
        away=teams[away],
        home_goals=home_goals,
        away_goals=away_goals,
        how="awarded" if awarded else "played",
        played_score=None if played is None else (played[0], played[1]),
    )


def _deductions(row: Case, teams: Sequence[TeamId]) -> list[Deduction]:
    return [
        Deduction(team=teams[int(index)], points=-points, why="adjustment", ref="check data")
        for index, points in row.get("adjustments", {}).items()
    ]


def _outside(row: Case, teams: Sequence[TeamId]) -> OutsideFigures:
    return OutsideFigures(
        discipline_points=_by_team(row.get("discipline_points"), teams, int),
        cards=_by_team(row.get("cards"), teams, _cards),
        play_offs=[
            _result(f"play-off {number}", game, teams)
            for number, game in enumerate(row.get("playoffs", []))
        ],
    )


def _by_team(
    given: Any, teams: Sequence[TeamId], read: Callable[[Any], Any]
) -> dict[TeamId, Any]:
    return {teams[int(index)]: read(value) for index, value in (given or {}).items()}


def _cards(counts: Sequence[int]) -> CardCounts:
    yellow, second_yellow, straight_red, both = counts
    return CardCounts(
        yellow=yellow,
        second_yellow=second_yellow,
        straight_red=straight_red,
        yellow_and_straight_red=both,
    )
