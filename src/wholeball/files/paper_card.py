"""Reads a paper scorecard that was typed into a file, cards/GAME.toml, and writes its template."""

from collections.abc import Callable, Iterable
from pathlib import PurePosixPath
from typing import Final

from pydantic import ValidationError

from wholeball.files.game_log import log_name
from wholeball.files.own_toml import read_own_toml
from wholeball.game.paper import PaperCard
from wholeball.game.paper_checks import Misfit, misfits
from wholeball.game.rules import GameRules
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.lines import Loc
from wholeball.kernel.refusals import (
    Schema,
    value_faults,
)
from wholeball.kernel.toml import MOST_BYTES, decode, frozen
from wholeball.league.record import LeagueRecord

FOLDER: Final = "cards"
SCHEMA: Final = 1
SCHEMA_OF_CARD: Final = Schema(
    root=PaperCard,
    top_keys=tuple(field.alias or name for name, field in PaperCard.model_fields.items()),
    often_meant={
        "abandoned": "[broken_off]",
        "referee": "official",
        "coach": "team_official",
    },
)


def card_name(game: GameId) -> str:
    """Return where in a season folder the typed-in scorecard of a game is.

    Raises:
        WholeballError: no file can be called so everywhere.
    """
    return f"{FOLDER}/{PurePosixPath(log_name(game)).stem}.toml"


def read_card(record: LeagueRecord, game: GameId, rules: GameRules) -> PaperCard:
    """Return what a game's file says.

    Raises:
        InputFaults: everything that is wrong with the file.
        WholeballError: there is no such file.
    """
    name = card_name(game)
    try:
        data = record.read(name, MOST_BYTES)
    except OSError as error:
        raise WholeballError(
            f"{record.called(name)} cannot be read: {error.strerror}.",
            fix=f"Write one with: wholeball enter {record.place} {game} --template",
            code="missing_file",
        ) from error
    return card_of(data, file=name, rules=rules)


def card_of(data: bytes, *, file: str, rules: GameRules) -> PaperCard:
    """Return the scorecard that a TOML file states.

    Raises:
        InputFaults: one fault of the file as such, or all faults of its values.
    """
    if not decode(data, file=file).strip():
        raise InputFaults([_empty(file)])
    said, source, faults = read_own_toml(data, file=file, reads=SCHEMA, schema=SCHEMA_OF_CARD)
    try:
        card = PaperCard.model_validate(frozen(said))
    except ValidationError as error:
        refused = error.errors(include_url=False)
        raise InputFaults(faults + value_faults(refused, source, SCHEMA_OF_CARD)) from error
    faults += misfit_faults(misfits(card, rules), source.place)
    if faults:
        raise InputFaults(sorted(faults, key=lambda fault: fault.place.line or 0))
    return card


def _empty(file: str) -> Fault:
    return Fault(
        code="empty",
        place=Place(file=file),
        says="the file is empty.",
        cure="Take it out, and write one to fill in with: wholeball enter DIR GAME --template",
    )


def misfit_faults(found: Iterable[Misfit], place: Callable[[Loc], Place]) -> list[Fault]:
    """Return what a card cannot mean as faults, each at its place."""
    return [
        Fault(
            code=one.code,
            place=place(one.loc),
            says=one.says,
            value=one.value,
            allowed=one.allowed,
            cure=one.cure,
        )
        for one in found
    ]


def new_template(record: LeagueRecord, game: GameId) -> str:
    """Return the name under which a game's template belongs.

    Raises:
        WholeballError: something is there already.
    """
    name = card_name(game)
    if record.has(name):
        raise WholeballError(
            f"{record.called(name)} is there already.",
            fix="Nothing was written. Change it, and run: "
            f"wholeball enter {record.place} {game} --file",
            code="path",
        )
    return name
