"""Published time-relaxed timetables cost exactly what their authors found.

Instances and plans: Van Bulck, Goossens and Spieksma 2019, in the format of Van Bulck, Goossens,
Schoenberger and Guajardo, EJOR 280 (2020) 568-580; best known values of the RobinX collection.
"""

import json
from pathlib import Path

import pytest

from external.cases import folder
from external.robinx import Instance
from wholeball.planning.check import check
from wholeball.planning.kinds import KINDS

FOLDER = folder() / "timetables"
if not FOLDER.is_dir():
    pytest.skip("no timetables in the folder of check data", allow_module_level=True)
FILES = sorted((FOLDER / "if").glob("*.xml"))
STORED = sorted((FOLDER / "if" / "plans").glob("*.xml"))
SAID = json.loads((FOLDER / "best.json").read_text(encoding="utf-8"))


def instance_of(stored: Path) -> Instance:
    return Instance(FOLDER / "if" / f"{stored.name.partition('_')[0]}.xml")


def test_the_folder_holds_instances_and_plans() -> None:
    assert FILES
    assert STORED


@pytest.mark.parametrize("path", STORED, ids=[path.stem for path in STORED])
def test_a_stored_plan_breaks_nothing_and_costs_what_its_authors_found(path: Path) -> None:
    instance = instance_of(path)
    stored = instance.stored(path)
    report = check(instance.problem(), instance.placements(stored))
    assert report.broken == ()
    assert report.total == stored.objective
    assert SAID["plans"].get(instance.name, stored.objective) == stored.objective


@pytest.mark.parametrize("path", STORED, ids=[path.stem for path in STORED])
def test_a_stored_plan_with_one_game_elsewhere_is_not_what_its_authors_found(
    path: Path,
) -> None:
    instance = instance_of(path)
    stored = instance.stored(path)
    home, away, slot = stored.games[0]
    other = slot + 1 if slot + 1 < len(instance.nights) else slot - 1
    moved = stored._replace(games=((home, away, other), *stored.games[1:]))
    report = check(instance.problem(), instance.placements(moved))
    assert report.broken or report.total != stored.objective
    assert not check(instance.problem(), instance.placements(stored)).broken
    lost = check(instance.problem(), instance.placements(stored)[1:])
    assert [one.says for one in lost.broken] == [f"Game {home}-{away} has no place."]


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_every_instance_is_read_with_all_its_constraints(path: Path) -> None:
    problem = Instance(path).problem()
    teams = len(problem.teams)
    assert len(problem.pairings) == teams * (teams - 1)
    assert len(problem.starts) == (problem.last_day - problem.first_day).days + 1
    for rule in problem.rules:
        KINDS[rule.kind].read(rule)
    kinds = {rule.kind for rule in problem.rules}
    assert kinds >= {"games_a_night", "games_on", "games_in_days", "gap_between_repeats"}
