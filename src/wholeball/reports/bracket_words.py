"""Says in words who goes on and why, what a bracket's games are, and what stands in their way."""

from collections.abc import Iterator, Sequence
from typing import Final

from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import From, OpenSide, Seeded
from wholeball.reports.figures import figure_text, question_name, score
from wholeball.season.bracket import Moved, Seeding
from wholeball.season.bracket_conflicts import Conflict
from wholeball.season.bracket_run import Change, Line
from wholeball.season.qualified import LeftOut, Qualified, Seed, Why
from wholeball.season.record import Record
from wholeball.season.result import Result

_WHY: Final[dict[Why, str]] = {
    "places": "no place was left",
    "rating": "its average rating is below what play-offs need",
    "out": "it was taken out of the league",
}


def bracket_title(name: str) -> str:
    """Return what a bracket is called: "The bracket", "The bracket of Open"."""
    return f"The bracket of {name}" if name else "The bracket"


def seed_line(one: Seed) -> str:
    """Return a team's seed and where it comes from: "1. Herons, 1st of Pool A"."""
    return f"{one.seed}. {one.team}, {ordinal(one.place)} of {one.pool}"


def parted_line(one: Seed, below: Seed, record: Record) -> str:
    """Return why a seed stands before the next one."""
    start = f"{one.team} before {below.team}"
    match one.parted:
        case "pool_place":
            return f"{start}: the better place in its pool."
        case "lots":
            return f"{start}: by lots."
        case "record":
            return f"{start}: {_figures(one, record)}."
        case "nothing" | "last":
            return f"{start}: nothing parts them yet."


def _figures(one: Seed, record: Record) -> str:
    separation = one.separation
    if separation is None or separation.by is None:
        raise ValueError(f"nothing parts {one.team} from the next by the record")
    asked = separation.asked[-1]
    a_game = " a game" if record.per_game and asked.question.figure is None else ""
    above, below = (figure_text(f, asked.question) for f in (asked.above, asked.below))
    return f"{question_name(asked.question).lower()}{a_game} {above} to {below}"


def left_out_line(one: LeftOut) -> str:
    """Return why a team does not go on."""
    return f"{one.team}, {ordinal(one.place)} of {one.pool}: {_WHY[one.why]}."


def compared_lines(found: Qualified) -> Iterator[str]:
    """Yield how teams of unequal pools were compared, and which games were dropped for it."""
    record = found.record
    if record.per_game:
        yield (
            f"Teams have played {record.least} to {record.most} games that count between pools: "
            "they are compared by the game."
        )
    for one in record.dropped:
        listed = ", ".join(one.games) if one.games else "none played"
        yield (
            f"Between pools the games against {one.team}, last of the larger {one.pool}, "
            f"do not count: {listed}."
        )


def undecided_line(teams: Sequence[TeamId]) -> str:
    """Return which level teams are still to be parted."""
    return f"Nothing parts {_listed(teams)} yet."


def moved_line(one: Moved) -> str:
    """Return whose seed changed to keep teams of one pool apart."""
    return (
        f"{one.team} is seed {one.now} instead of {one.was}: "
        "teams of one pool do not meet in the first round."
    )


def meet_lines(seeding: Seeding) -> Iterator[str]:
    """Yield who of one pool meet in the first round all the same."""
    for home, away in seeding.meet:
        yield f"{home} and {away} are of one pool and meet: no exchange keeps all apart."


def change_line(one: Change) -> str:
    """Return what drawing anew would change for a team."""
    if one.now is None:
        return f"{one.team}, seed {one.drawn}, would be left out."
    if one.drawn is None:
        return f"{one.team} would be in, as seed {one.now}."
    return f"{one.team} would be seed {one.now} instead of {one.drawn}."


def game_line(line: Line, *, rounds: int) -> str:
    """Return a game with its sides, and its result if there is one."""
    home, away = side_text(line.game.home, line.home), side_text(line.game.away, line.away)
    name = f"{line.game.game}, {round_name(line, rounds)}"
    if line.state == "walkover":
        return f"{name}: {line.winner} without a game."
    if line.state == "nobody":
        return f"{name}: nobody goes on."
    if line.result is None:
        return f"{name}: {home} against {away}."
    won = f"; {line.winner} won" if line.winner else "; level, still to be decided"
    return f"{name}: {line.result.home} {result_text(line.result)} {line.result.away}{won}."


def result_text(result: Result) -> str:
    """Return a score as it stands, with the kicks that decided it, or how it was given up."""
    if result.how in ("forfeit", "default", "double_forfeit"):
        return f"({result.how.replace('_', ' ')})"
    text = score(result.home_goals, result.away_goals)
    return text if result.kicks is None else f"{text} (kicks {score(*result.kicks)})"


def round_name(line: Line, rounds: int) -> str:
    """Return what a round is called, from the number of rounds."""
    if line.game.for_third:
        return "for third place"
    match rounds - line.game.round:
        case 0:
            return "final"
        case 1:
            return "semi-final"
        case 2:
            return "quarter-final"
        case _:
            return f"round {line.game.round}"


def side_text(side: TeamId | OpenSide, team: TeamId | None) -> str:
    """Return a side: the team, or what will bring it."""
    if team is not None:
        return str(team)
    match side:
        case Seeded(seed=seed):
            return f"seed {seed}"
        case From(game=game, takes=takes):
            return f"{takes} of {game}"
        case _:
            return str(side)


def conflict_line(one: Conflict) -> str:
    """Return who could not do what a game would ask; codes of persons stay off the page."""
    teams, where = _listed(one.teams), " and ".join(one.games)
    sure = "" if one.is_certain else " if it comes to that"
    match one.kind:
        case "own_team":
            return f"{where}: {one.official} is on the crew and on the roster of {teams}{sure}."
        case "both_sides":
            return f"{where}: somebody is on the rosters of {teams}, who would meet{sure}."
        case "same_start":
            return (
                f"{where} start at once: somebody is on the rosters of {teams}, "
                f"and would have to play both{sure}."
            )


def ordinal(number: int) -> str:
    """Return "1st", "2nd", "11th"."""
    last = 0 if number % 100 in (11, 12, 13) else number % 10
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(last, 'th') }"


def _listed(teams: Sequence[TeamId]) -> str:
    *most, last = sorted(teams)
    return f"{', '.join(most)} and {last}" if most else last
