"""Third-placed teams of different groups, ranked by their figures alone."""

import pytest

from external.cases import Case, by_id, cases
from external.tables import Record, hold_the_unresolved_to_account
from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import Criterion, DisciplinePoints
from wholeball.season.standings import Given, Regulation, Standings, rank_figures
from wholeball.season.tally import OutsideFigures

THIRDS = cases("third_placed.json")
FEWEST = DisciplinePoints(discipline_points="fewest")
CODES: dict[str, Criterion] = {
    "pts": "points",
    "points": "points",
    "ppg": "points_per_game",
    "gd": "difference",
    "difference": "difference",
    "gf": "goals",
    "goals": "goals",
    "wins": "wins",
    "w": "wins",
    "goal_average": "goal_average",
    "conduct": FEWEST,
    "fair_play": FEWEST,
    "discipline_points": FEWEST,
    "discipline": FEWEST,
    "ranking": "outside_ranking",
    "outside_ranking": "outside_ranking",
}


def _table(row: Case) -> Standings:
    given = [
        Given(
            team=TeamId(one["team"]),
            played=one["P"],
            won=one["W"],
            drawn=one["D"],
            lost=one["L"],
            goals_for=one["GF"],
            goals_against=one["GA"],
            points=one["pts"],
        )
        for one in row["rows"]
    ]
    codes = [code for code in row["criteria"] if code not in ("lots", "draw")]
    regulation = Regulation(criteria=tuple(CODES[code] for code in codes), last_resort="shared")
    return rank_figures(given, regulation, outside=_outside(row))


def _outside(row: Case) -> OutsideFigures:
    """Conduct and fair play are below nought; discipline points are above."""
    points = _column(row, "discipline_points", "discipline")
    conduct = _column(row, "conduct", "fair_play")
    return OutsideFigures(
        discipline_points=points or {team: -value for team, value in conduct.items()},
        ranking=_column(row, "ranking", "outside_ranking"),
    )


def _column(row: Case, *keys: str) -> dict[TeamId, int]:
    return {
        TeamId(one["team"]): one[key]
        for one in row["rows"]
        for key in keys
        if one.get(key) is not None
    }


@pytest.mark.parametrize("row", by_id(THIRDS))
def test_the_official_third_placed_teams_go_on(row: Case, record_property: Record) -> None:
    found = _table(row)
    record_property("unresolved", len(found.unresolved))
    record_property("absences", len(found.absences))
    hold_the_unresolved_to_account(found)
    place = {str(one.team): one.place for one in found.rows}
    on = set(row["official"]["advancing"])
    assert len(on) == row["places"]
    out = [place[team] for team in place if team not in on]
    assert max(place[team] for team in on) <= min(out, default=len(place))
    order = row["official"].get("order") or []
    assert [place[team] for team in order] == sorted(place[team] for team in order)


def test_a_criterion_that_no_one_knows_is_refused() -> None:
    with pytest.raises(KeyError, match="corner_kicks"):
        _table(THIRDS[0] | {"criteria": ["pts", "corner_kicks"]})
