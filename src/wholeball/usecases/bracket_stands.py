"""Tells how each bracket of a season stands: the drawn one, or the one it would be now."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import TeamId
from wholeball.season.bracket import MOST, Seeding, bracket, kept_apart
from wholeball.season.bracket_names import Listed, named_as_listed
from wholeball.season.bracket_parts import Part, parted
from wholeball.season.bracket_run import Change, Line, changes, run
from wholeball.season.gate_open import gates
from wholeball.season.qualified import Qualified, qualified
from wholeball.season.season import Season
from wholeball.season.to_come import ToCome, to_come


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketStands:
    """Who goes on as it stands, and the bracket: the drawn one, or else the one it would be.

    `bracket` is its name, empty where the season has a single one. `seeding` are the seeds
    computed now, after teams of one pool were kept apart. `changes` are what a new draw would
    change of the drawn one, which stands.
    """

    bracket: str
    coming: ToCome
    qualified: Qualified
    seeding: Seeding
    drawn: tuple[TeamId, ...]
    changes: tuple[Change, ...]
    lines: tuple[Line, ...]

    @property
    def season(self) -> Season:
        """The season as far as the teams of this bracket played each other."""
        return self.coming.season

    @property
    def left(self) -> int:
        """How many games of the league have no result yet."""
        return len(self.coming.left)

    @property
    def teams(self) -> tuple[TeamId, ...]:
        """The teams by seed, best first, as they were drawn or would be."""
        return self.drawn or self.seeding.teams

    @property
    def can_be_drawn(self) -> bool:
        """Whether a draw made now would be taken."""
        return not self.qualified.undecided and 2 <= len(self.seeding.teams) <= MOST


def brackets_stand(read: SeasonFolder) -> tuple[BracketStands, ...]:
    """Return how each bracket stands, in the order of the divisions that play for them."""
    return tuple(_stands(part, read) for part in parted(read.season))


def _stands(part: Part, read: SeasonFolder) -> BracketStands:
    coming = to_come(part.season, part.of(read.timetable))
    found = qualified(coming.season, failing=gates(coming.season, coming.left).below)
    seeding = _seeding(part.season, found)
    drawn = read.brackets.get(part.bracket, ())
    return BracketStands(
        bracket=part.bracket,
        coming=coming,
        qualified=found,
        seeding=seeding,
        drawn=drawn,
        changes=changes(drawn, seeding.teams) if drawn else (),
        lines=named_as_listed(
            _lines(part, drawn or seeding.teams), _play_offs(read), bracket=part.bracket
        ),
    )


def _play_offs(read: SeasonFolder) -> Iterator[Listed]:
    """Yield the play-off games that have a name: those of the plan, then of the timetable."""
    if read.planning.said is not None:
        yield from read.planning.said.play_offs
    yield from read.open_fixtures
    yield from (one for one in read.timetable if one.stage == "play_off")


def _seeding(season: Season, found: Qualified) -> Seeding:
    rules = season.rulebook.play_offs
    if rules.same_pool == "not_asked" or not 2 <= len(found.teams) <= MOST:
        return Seeding(teams=found.teams)
    pools = {one.team: one.pool for one in season.league.teams}
    return kept_apart(found.teams, pools)


def _lines(part: Part, teams: Sequence[TeamId]) -> tuple[Line, ...]:
    """Return the games of a bracket; none of one that cannot be made."""
    if not 2 <= len(teams) <= MOST:
        return ()
    third = part.season.rulebook.play_offs.third_place
    games = bracket(len(teams), third_place=third, prefix=part.prefix)
    return run(games, dict(enumerate(teams, start=1)), part.season.play_offs)
