"""Shows who is surely in or out of the play-offs, and how likely the others are to go on."""

from collections.abc import Sequence
from dataclasses import dataclass

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import TeamId
from wholeball.league.record import LeagueRecord
from wholeball.season.bracket import bracket
from wholeball.season.bracket_odds import winning
from wholeball.season.bracket_parts import Part, parted
from wholeball.season.bracket_run import run
from wholeball.season.gate_open import Gates, gates
from wholeball.season.odds import odds, wins_play_off
from wholeball.season.qualified import qualified
from wholeball.season.race import NoRace, Status, races
from wholeball.season.season import Season
from wholeball.season.shares import Drawing, NoOdds, Odds
from wholeball.season.strengths import strengths
from wholeball.season.to_come import ToCome, to_come
from wholeball.solvers.clinch import verdicts


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketOdds:
    """The odds of one bracket, and what is proven of the teams that play for it.

    `bracket` is its name, empty where the season has a single one. `proven` says why not where
    nothing can be. `of_drawn` are the chances of each team of the drawn bracket to win it,
    computed and not simulated; None before the draw.
    """

    bracket: str
    odds: Odds | NoOdds
    proven: dict[TeamId, Status] | NoRace
    of_drawn: dict[TeamId, float] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OddsShown:
    """The odds of a season, bracket by bracket, and remarks on its folder."""

    season: Season
    brackets: tuple[BracketOdds, ...]
    remarks: tuple[Fault, ...]


def show_odds(record: LeagueRecord, drawing: Drawing) -> OddsShown:
    """Return the odds of a season folder; the same folder and seed give the same odds.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder.
    """
    read = read_folder(record)
    return OddsShown(
        season=read.season,
        brackets=tuple(_of_bracket(part, read, drawing) for part in parted(read.season)),
        remarks=read.remarks,
    )


def _of_bracket(part: Part, read: SeasonFolder, drawing: Drawing) -> BracketOdds:
    coming = to_come(part.season, part.of(read.timetable))
    gate = gates(coming.season, coming.left)
    proven = _proven(coming, gate)
    return BracketOdds(
        bracket=part.bracket,
        odds=odds(
            coming,
            drawing,
            failing=gate.below,
            proven={} if isinstance(proven, NoRace) else proven,
        ),
        proven=proven,
        of_drawn=_of_drawn(part, read.brackets.get(part.bracket, ())),
    )


def _proven(coming: ToCome, gate: Gates) -> dict[TeamId, Status] | NoRace:
    """Return what is proven of each team: by its table once nothing is left, else by a search."""
    found = races(coming, failing=gate.surely_below, unsure=gate.unsure)
    if isinstance(found, NoRace) and (coming.left or found.why == "no_play_offs"):
        return found
    if not isinstance(found, NoRace) and coming.left:
        return {one.team: one.status for race in found for one in verdicts(race)}
    ended = qualified(coming.season, failing=gate.below)
    proven: dict[TeamId, Status] = {one.team: "out" for one in ended.left_out}
    proven |= dict.fromkeys(ended.teams, "clinched")
    for level in ended.cut:
        proven |= dict.fromkeys(level, "depends_on_ties")
    return proven


def _of_drawn(part: Part, teams: Sequence[TeamId]) -> dict[TeamId, float] | None:
    if len(teams) < 2:
        return None
    season = part.season
    fitted = strengths(
        (*season.results, *season.play_offs), [one.team for one in season.league.teams]
    )
    games = bracket(len(teams), third_place=False)
    lines = run(games, dict(enumerate(teams, start=1)), season.play_offs)
    return winning(lines, lambda one, other: wins_play_off(fitted, one, other))
