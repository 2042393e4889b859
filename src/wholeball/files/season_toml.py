"""Reads season.toml: what the season is called, where and when it is, and its rulings."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError
from pydantic_core import PydanticCustomError

from wholeball.files.own_toml import read_own_toml
from wholeball.files.zones import zones
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.nearest import did_you_mean
from wholeball.kernel.refusals import (
    Schema,
    Source,
    toml_text,
    value_faults,
)
from wholeball.kernel.toml import frozen

FILE: Final = "season.toml"
SCHEMA: Final = 1


def _each_once(order: tuple[str, ...]) -> tuple[str, ...]:
    twice = next((team for index, team in enumerate(order) if team in order[:index]), None)
    if twice is not None:
        raise PydanticCustomError("duplicate", "{team} is listed twice", {"team": twice})
    return order


_Order = Annotated[tuple[str, ...], AfterValidator(_each_once)]
_Total = Annotated[int, Field(ge=-9_999, le=9_999)]


class _Entry(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class DeductionEntry(_Entry):
    """Points taken off a team by a ruling."""

    team: str = Field(min_length=1, max_length=80)
    points: int = Field(ge=-99, le=99)
    why: str = Field(min_length=1, max_length=400)
    ref: str = Field(min_length=1, max_length=40)
    round: int = Field(ge=1, le=99)


class LotsEntry(_Entry):
    """The order in which lots were drawn."""

    label: str = Field(min_length=1, max_length=80)
    order: _Order = Field(min_length=2, max_length=64)


class SeasonEntry(_Entry):
    """The keys of season.toml."""

    schema_version: int = Field(alias="schema")
    name: str = Field(min_length=1, max_length=120)
    timezone: str = Field(min_length=1, max_length=64)
    source: str = Field(default="", max_length=400)
    first_day: date
    last_day: date
    brackets: Literal["each_division", "one"] = "each_division"
    deductions: tuple[DeductionEntry, ...] = Field(default=(), max_length=200)
    lots: tuple[LotsEntry, ...] = Field(default=(), max_length=200)
    outside_ranking: _Order = Field(default=(), max_length=5_000)
    discipline_points: dict[str, _Total] = Field(default={}, max_length=5_000)


SCHEMA_OF_SEASON: Final = Schema(
    root=SeasonEntry,
    top_keys=(
        "schema",
        "name",
        "timezone",
        "source",
        "first_day",
        "last_day",
        "brackets",
        "deductions",
        "lots",
        "outside_ranking",
        "discipline_points",
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonToml:
    """What season.toml says, and the line on which it says each thing."""

    entry: SeasonEntry
    source: Source


def read_season_toml(data: bytes) -> SeasonToml:
    """Return what season.toml says; names are composed (NFC) as those of the tables are.

    Raises:
        InputFaults: one fault of the file as such, or all faults of its values.
    """
    said, source, faults = read_own_toml(data, file=FILE, reads=SCHEMA, schema=SCHEMA_OF_SEASON)
    try:
        entry = SeasonEntry.model_validate(frozen(said))
    except ValidationError as error:
        refused = error.errors(include_url=False)
        faults += value_faults(refused, source, SCHEMA_OF_SEASON)
        raise InputFaults(faults) from error
    faults += [*_name_faults(entry, source), *_calendar_faults(entry, source)]
    if faults:
        raise InputFaults(faults)
    return SeasonToml(entry=entry, source=source)


def _name_faults(entry: SeasonEntry, source: Source) -> list[Fault]:
    """Refuse a name of several lines: it stands in the subject of every mail."""
    if "\n" not in entry.name and "\t" not in entry.name:
        return []
    return [
        Fault(
            code="control_char",
            place=source.place(("name",)),
            says=f"name is {toml_text(entry.name)}.",
            value=entry.name,
            allowed="one line",
            cure="Write it on one line.",
        )
    ]


def _calendar_faults(entry: SeasonEntry, source: Source) -> list[Fault]:
    faults = []
    if entry.timezone not in zones():
        fault = Fault(
            code="unknown_value",
            place=source.place(("timezone",)),
            says=f'timezone is "{entry.timezone}".',
            value=entry.timezone,
            allowed="a name of the IANA time zone database",
            cure=did_you_mean(entry.timezone, _COMMON_ZONES),
        )
        faults.append(fault)
    if entry.last_day < entry.first_day:
        fault = Fault(
            code="contradiction",
            place=source.place(("last_day",)),
            says=f"last_day {entry.last_day} is before first_day {entry.first_day}.",
            cure="Change one of the two.",
        )
        faults.append(fault)
    return faults


_COMMON_ZONES: Final = (
    "America/New_York",
    "America/Chicago",
    "America/Denver",
    "America/Los_Angeles",
    "America/Toronto",
    "Europe/London",
    "Europe/Berlin",
    "Australia/Sydney",
)
