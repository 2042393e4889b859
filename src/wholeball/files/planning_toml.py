"""Reads planning.toml: how many games each team plays, how long they take, and the rules."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator
from pydantic_core import PydanticCustomError

from wholeball.files.open_sides import open_side, planned_side
from wholeball.files.own_toml import read_own_toml
from wholeball.files.planning_rules import read_rules
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import choices, did_you_mean
from wholeball.kernel.refusals import (
    Schema,
    Source,
    value_faults,
)
from wholeball.kernel.toml import frozen
from wholeball.league.fixture import From, OpenSide
from wholeball.league.league import League
from wholeball.planning.kind import Night
from wholeball.planning.problem import Pairing
from wholeball.planning.rule import Rule

FILE: Final = "planning.toml"
SCHEMA: Final = 1


class _Entry(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class Amount(_Entry):
    """How much the teams of a pool play: so many games each, or so many meetings of all."""

    games_each: int | None = Field(default=None, ge=1, le=99)
    meetings: int = Field(default=1, ge=1, le=9)


class PlayOff(_Entry):
    """A game of the play-offs, its sides as a timetable writes them: "seed 1", "winner of P1"."""

    game: str = Field(min_length=1, max_length=80)
    round: int = Field(ge=1, le=99)
    home: str = Field(min_length=1, max_length=80)
    away: str = Field(min_length=1, max_length=80)

    @field_validator("home", "away")
    @classmethod
    def _open(cls, value: str) -> str:
        if planned_side(value) is None:
            raise PydanticCustomError(
                "unknown_value",
                "seed 1, winner of P1 or loser of P1",
                {"cure": "Use one of those."},
            )
        return value


class PlanningEntry(Amount):
    """The keys of planning.toml."""

    schema_version: int = Field(alias="schema")
    byes: bool = True
    turnover_minutes: int = Field(default=10, ge=0, le=120)
    kicks_minutes: int = Field(default=10, ge=0, le=60)
    shared_players: Literal["never_at_once"] | None = None
    spare_nights: tuple[Night, ...] = Field(default=(), max_length=200)
    pools: dict[str, Amount] = Field(default={}, max_length=500)
    play_offs: tuple[PlayOff, ...] = Field(default=(), max_length=200)
    rules: tuple[dict[str, Any], ...] = Field(default=(), max_length=2_000)


SCHEMA_OF_PLANNING: Final = Schema(
    root=PlanningEntry,
    top_keys=(
        "schema",
        "games_each",
        "meetings",
        "byes",
        "turnover_minutes",
        "kicks_minutes",
        "shared_players",
        "spare_nights",
        "pools",
        "play_offs",
        "rules",
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanningToml:
    """What planning.toml says; `source` knows the line of each key, `at` the record of each rule."""

    entry: PlanningEntry
    source: Source
    rules: tuple[Rule, ...] = ()
    at: dict[str, int] = field(default_factory=dict)

    @property
    def play_offs(self) -> tuple[Pairing, ...]:
        """The games of the play-offs as they are to be placed."""
        return tuple(
            Pairing(
                game=GameId(one.game),
                home=_side(one.home),
                away=_side(one.away),
                round=one.round,
            )
            for one in self.entry.play_offs
        )


def _side(text: str) -> TeamId | OpenSide:
    return open_side(text) or TeamId(text)


def read_planning_toml(data: bytes) -> PlanningToml:
    """Return what planning.toml says, its rules read by their kinds.

    Raises:
        InputFaults: one fault of the file as such, or all faults of its values.
    """
    said, source, faults = read_own_toml(
        data, file=FILE, reads=SCHEMA, schema=SCHEMA_OF_PLANNING
    )
    try:
        entry = PlanningEntry.model_validate(frozen(said))
    except ValidationError as error:
        refused = error.errors(include_url=False)
        faults += value_faults(refused, source, SCHEMA_OF_PLANNING)
        records = said.get("rules")
        is_list = isinstance(records, list) and all(isinstance(one, dict) for one in records)
        faults += read_rules(frozen(records), source)[1] if is_list else []
        raise InputFaults(faults) from error
    rules, wrong = read_rules(entry.rules, source)
    faults += [*wrong, *_play_off_faults(entry, source)]
    if faults:
        raise InputFaults(faults)
    return PlanningToml(
        entry=entry,
        source=source,
        rules=rules,
        at={one.rule: index for index, one in enumerate(rules)},
    )


def _play_off_faults(entry: PlanningEntry, source: Source) -> Iterator[Fault]:
    """Find play-off games of one name, sides that two games have, and games that feed in a ring.

    A game comes after those that bring its sides, in the order of the file.
    """
    every = {one.game for one in entry.play_offs}
    games: dict[str, int] = {}
    sides: dict[OpenSide, str] = {}
    for index, one in enumerate(entry.play_offs):
        loc: Loc = ("play_offs", index)
        if one.game in games:
            says = f"game {one.game} stands twice among the play-offs."
            yield _fault("duplicate", source, (*loc, "game"), says, "Take one out.", one.game)
        for column in ("home", "away"):
            text = getattr(one, column)
            side = open_side(text)
            if isinstance(side, From) and side.game not in games:
                says, cure = _not_before(one.game, side, games, every)
                yield _fault("unknown_game", source, (*loc, column), says, cure, text)
            if side is not None and side in sides:
                says = f"{text} plays in {sides[side]} and in {one.game}."
                cure = "A side plays one game; mend one of them."
                yield _fault("duplicate", source, (*loc, column), says, cure, text)
            elif side is not None:
                sides[side] = one.game
        games.setdefault(one.game, index)


def _not_before(
    game: str, side: From, before: Iterable[str], every: Collection[str]
) -> tuple[str, str]:
    """Say why no game before this one brings it a side, and what helps."""
    if side.game == game:
        return f"{game} would bring itself a side.", "Name an earlier game."
    if side.game in every:
        says = f"{side} is a side of {game}, and {side.game} does not come before it."
        return says, "Earlier games come first, and no two wait for each other."
    says = f"{side} is a side of {game}, and there is no such game before it."
    return says, f"{did_you_mean(side.game, before)} Earlier games come first."


def _fault(
    code: str, source: Source, loc: Loc, says: str, cure: str, value: str | None = None
) -> Fault:
    return Fault(code=code, place=source.place(loc), says=says, value=value, cure=cure)


def planning_unknown(said: PlanningToml, league: League) -> list[Fault]:
    """Find the teams and pools that planning.toml names and teams.csv does not."""
    teams = {str(one.team): None for one in league.teams}
    pools = {str(pool): None for pool in league.pools}
    faults = []
    for index, rule in enumerate(said.rules):
        for at, team in enumerate(rule.teams):
            if team not in teams:
                loc: Loc = ("rules", index, "teams", at)
                says = f'rule "{rule.rule}" names "{team}", which is no team of teams.csv.'
                faults.append(_unknown("unknown_team", said, loc, says, team, teams))
    for pool in said.entry.pools:
        if pool not in pools:
            says = f'"{pool}" is no pool of teams.csv.'
            faults.append(_unknown("unknown_pool", said, ("pools", pool), says, pool, pools))
    return faults


def spare_outside(said: PlanningToml, league: League) -> list[Fault]:
    """Find nights kept for rain that are not of the season."""
    return [
        _fault(
            "range",
            said.source,
            ("spare_nights", index),
            f"{night} is outside the season, {league.first_day} to {league.last_day}.",
            "Mend the night, or the season's days in season.toml.",
            f"{night}",
        )
        for index, night in enumerate(said.entry.spare_nights)
        if not league.first_day <= night <= league.last_day
    ]


def unknown_games(said: PlanningToml, games: tuple[Pairing, ...]) -> list[Fault]:
    """Find the games that rules name and that are not to be placed."""
    known = {str(one.game): None for one in games}
    faults = []
    for index, rule in enumerate(said.rules):
        for key in ("name", "names"):
            named = rule.params.get(key, ())
            for game in (named,) if isinstance(named, str) else named:  # type: ignore[union-attr]
                if game not in known:
                    says = f'rule "{rule.rule}" names game {game}, which there is not.'
                    loc: Loc = ("rules", index, key)
                    faults.append(_unknown("unknown_game", said, loc, says, str(game), known))
    return faults


def _unknown(
    code: str, said: PlanningToml, loc: Loc, says: str, name: str, known: dict[str, None]
) -> Fault:
    return Fault(
        code=code,
        place=said.source.place(loc),
        says=says,
        value=name,
        allowed=choices(known),
        cure=did_you_mean(name, known),
    )


def amount_of(entry: PlanningEntry, pool: PoolId) -> Amount:
    """Return how much a pool plays: as its own table says, or as all do."""
    return entry.pools.get(pool, entry)
