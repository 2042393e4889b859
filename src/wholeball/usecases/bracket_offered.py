"""Says which games the brackets of a season will have, as a plan lists them, and why one has none."""

from dataclasses import dataclass, replace

from wholeball.files.folder import SeasonFolder
from wholeball.files.planned_games import games_each
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.league.fixture import OpenSide, Seeded
from wholeball.rulebook.sentence import counted
from wholeball.season.bracket import MOST, BracketGame, byes
from wholeball.season.season import Season
from wholeball.usecases.bracket_stands import BracketStands, brackets_stand
from wholeball.usecases.play_off_lengths import weeks_of_league


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketOffered:
    """The games that a bracket will have, its rounds counted from 1, and who goes on, in words.

    `bracket` is its name, empty where the season has a single one. There is no game where it
    cannot be made; `says` tells why.
    """

    bracket: str
    games: tuple[BracketGame, ...]
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LeagueEnds:
    """The last round of the league: as the timetable has it, or as far as it may come.

    `least` is the last that it has at least.
    """

    round: int
    least: int
    is_listed: bool


def brackets_offered(read: SeasonFolder) -> tuple[BracketOffered, ...]:
    """Return each bracket as it is drawn or would be now; none where nobody plays off."""
    if read.season.rulebook.play_offs.qualify == "none" or not read.season.league.teams:
        return ()
    return tuple(map(_offered, brackets_stand(read)))


def league_ends(read: SeasonFolder) -> LeagueEnds:
    """Return the last round of the league.

    A pool has a round in each week in which it plays: before there is a timetable these are weeks
    with places for its games, and no fewer than a team has games.
    """
    listed = [one.round for one in read.timetable if one.stage != "play_off"]
    if listed:
        return LeagueEnds(round=max(listed), least=max(listed), is_listed=True)
    pools = [
        (len(teams), _each(read, pool, len(teams)))
        for pool, teams in read.season.league.pools.items()
        if len(teams) > 1
    ]
    least = max((_rounds(teams, each) for teams, each in pools), default=0)
    weeks = weeks_of_league(read, games=sum(teams * each // 2 for teams, each in pools))
    return LeagueEnds(round=max(least, weeks), least=least, is_listed=False)


def _each(read: SeasonFolder, pool: PoolId, teams: int) -> int:
    """Return how many games each team of a pool plays."""
    said = read.planning.said
    return teams - 1 if said is None else games_each(said, pool, teams)


def _rounds(teams: int, each: int) -> int:
    """Return how many rounds a pool plays: a team has a free one in each where they are odd."""
    return each if teams % 2 == 0 else -(-teams * each // (teams - 1))


def _offered(stands: BracketStands) -> BracketOffered:
    games = tuple(_named(line.game, stands.bracket) for line in stands.lines)
    return BracketOffered(bracket=stands.bracket, games=games, says=_says(stands))


def _says(stands: BracketStands) -> str:
    teams, every = len(stands.teams), len(stands.season.league.teams)
    says = f"{teams} of {counted(every, 'team')} {'goes' if teams == 1 else 'go'} on"
    room = _room(stands.season)
    if room is not None and teams < room:
        says = f"The rulebook lets {room} go on, and {says}"
    if teams < 2:
        return f"{says}: a bracket needs two."
    if teams > MOST:
        return f"{says}: a bracket holds {MOST}."
    free = byes(teams)
    if not free:
        return f"{says}."
    seeds = {1: "Seed 1 has", 2: "Seeds 1 and 2 have"}.get(free, f"Seeds 1 to {free} have")
    return f"{says}. {seeds} nobody to meet in the first round."


def _room(season: Season) -> int | None:
    """Return how many teams the rulebook lets go on; None where that is all."""
    rules = season.rulebook.play_offs
    if rules.qualify == "all":
        return None
    return rules.places * (len(season.league.pools) if rules.qualify == "per_pool" else 1)


def _named(game: BracketGame, bracket: str) -> BracketGame:
    """Return a game whose seeds say of which bracket they are."""
    return replace(game, home=_side(game.home, bracket), away=_side(game.away, bracket))


def _side(side: TeamId | OpenSide, bracket: str) -> TeamId | OpenSide:
    return replace(side, bracket=bracket) if isinstance(side, Seeded) else side
