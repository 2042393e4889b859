"""Proves who is surely in and who surely out of a race for places, by an exact search.

Whether a team can still be in, where a win is worth three points, cannot be told by adding up
what it can still win: its rivals take points off one another, or bring one another points
(deciding it is NP-complete; Bernholt and others 1999, from memory). So every game left gets
one of the ways it can end, and a solver finds a course in which the team is in, or proves
that there is none.
"""

from typing import Final, Literal, TypeAlias

from ortools.sat.python import cp_model

from wholeball.season.race import Race, Verdict

Ties: TypeAlias = Literal["won", "lost"]
MOST_WORK: Final = 20.0
"""How long one question may be searched, in the solver's own measure, alike on every machine."""


def verdicts(race: Race, *, most_work: float = MOST_WORK) -> tuple[Verdict, ...]:
    """Return what is proven of each team, in the order of the race."""
    return tuple(_verdict(race, team, most_work) for team in range(len(race.teams)))


def _verdict(race: Race, team: int, most_work: float) -> Verdict:
    name = race.teams[team]
    if name in race.barred:
        return Verdict(
            team=name,
            in_ties_won=False,
            in_ties_lost=False,
            out_ties_won=True,
            out_ties_lost=True,
        )
    may_be_barred = name in race.unsure
    return Verdict(
        team=name,
        in_ties_won=_can_be_in(race, team, "won", most_work),
        in_ties_lost=_can_be_in(race, team, "lost", most_work),
        out_ties_won=may_be_barred or _can_be_out(race, team, "won", most_work),
        out_ties_lost=may_be_barred or _can_be_out(race, team, "lost", most_work),
    )


def _can_be_in(race: Race, team: int, ties: Ties, most_work: float) -> bool | None:
    """Tell whether some course leaves fewer than `places` rivals ahead; unsure ones are barred."""
    course = _Course(race)
    rivals = [one for one in _rivals(race, team) if race.teams[one] not in race.unsure]
    ahead = []
    for rival in rivals:
        is_ahead = course.model.new_bool_var(f"{rival} ahead")
        gap = course.total(rival) - course.total(team)
        course.model.add(gap <= (0 if ties == "won" else -1)).only_enforce_if(~is_ahead)
        ahead.append(is_ahead)
    course.model.add(sum(ahead) <= race.places - 1)
    return course.exists(most_work)


def _can_be_out(race: Race, team: int, ties: Ties, most_work: float) -> bool | None:
    """Tell whether some course puts `places` rivals ahead; unsure ones are not barred."""
    course = _Course(race)
    ahead = []
    for rival in _rivals(race, team):
        is_ahead = course.model.new_bool_var(f"{rival} ahead")
        gap = course.total(rival) - course.total(team)
        course.model.add(gap >= (1 if ties == "won" else 0)).only_enforce_if(is_ahead)
        ahead.append(is_ahead)
    course.model.add(sum(ahead) >= race.places)
    return course.exists(most_work)


def _rivals(race: Race, team: int) -> list[int]:
    return [
        one for one, name in enumerate(race.teams) if one != team and name not in race.barred
    ]


class _Course:
    """A model in which every game left ends in one of the ways it can."""

    def __init__(self, race: Race) -> None:
        self.model = cp_model.CpModel()
        self._race = race
        self._ways: list[list[cp_model.IntVar]] = [[] for _ in race.teams]
        self._points: list[list[int]] = [[] for _ in race.teams]
        for game in race.games:
            ways = [self.model.new_bool_var("") for _ in race.outcomes]
            self.model.add_exactly_one(ways)
            for side, team in enumerate(game):
                self._ways[team] += ways
                self._points[team] += [outcome[side] for outcome in race.outcomes]

    def total(self, team: int) -> cp_model.LinearExpr:
        worth = self._race.worth[team] if self._race.worth else 1
        won = cp_model.LinearExpr.weighted_sum(
            self._ways[team], [worth * one for one in self._points[team]]
        )
        return won + worth * self._race.points[team]

    def exists(self, most_work: float) -> bool | None:
        """Tell whether there is such a course; None where the search was cut short."""
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = most_work
        status = solver.solve(self.model)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return True
        return False if status == cp_model.INFEASIBLE else None
