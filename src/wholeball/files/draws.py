"""Reads and writes the files of a draw of lots: the commitment, the secret, what is revealed."""

import json
from importlib.resources import files
from typing import Final, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from wholeball.files.new_record import write_new
from wholeball.kernel.canonical import Plain
from wholeball.kernel.faults import WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.season.draw import Commitment, Draw, published

COMMITMENT: Final = "commitment.json"
KEPT: Final = "secret.txt"
DRAW: Final = "draw.json"
VERIFIER: Final = "verify.py"
MOST_BYTES: Final = 2_000_000
_Kind = TypeVar("_Kind", bound=BaseModel)


class CommitmentEntry(BaseModel):
    """What commitment.json holds."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    label: str
    participants: tuple[str, ...]
    participants_hash: str
    commit: str


class DrawEntry(BaseModel):
    """The part of draw.json that was revealed."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    label: str
    participants: tuple[str, ...]
    secret: str
    public: str
    seed: str
    order: tuple[str, ...]


class PublishedEntry(BaseModel):
    """What draw.json holds."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    commitment: CommitmentEntry
    draw: DrawEntry


def write_commitment(record: LeagueRecord, commitment: Commitment, secret: str) -> None:
    """Write what is published before the event, and the secret that is kept till then.

    Raises:
        WholeballError: the folder is there already, or the disk refuses.
    """
    told: Plain = {
        "label": commitment.label,
        "participants": list(commitment.participants),
        "participants_hash": commitment.participants_hash,
        "commit": commitment.commit,
    }
    contents = {COMMITMENT: _json(told), KEPT: f"{secret}\n".encode()}
    write_new(record, contents, private={KEPT})


def read_commitment(record: LeagueRecord) -> tuple[Commitment, str]:
    """Return the commitment of a folder, and its secret.

    Raises:
        WholeballError: a file is missing or does not hold what it should, or the participants
            are not those of their hash.
    """
    entry = _entry(record, COMMITMENT, CommitmentEntry)
    commitment = Commitment(
        label=entry.label, participants=entry.participants, commit=entry.commit
    )
    if entry.participants_hash != commitment.participants_hash:
        raise WholeballError(
            f"{record.called(COMMITMENT)}: the participants are not those of participants_hash.",
            fix="Use the file as wholeball draw wrote it.",
            code="changed",
        )
    return commitment, _text(record, KEPT).removesuffix("\n")


def write_draw(record: LeagueRecord, commitment: Commitment, drawn: Draw) -> None:
    """Write what is published after the event, with a verifier that needs nothing but Python.

    Raises:
        WholeballError: the folder's draw was made before, or the disk refuses.
    """
    if record.has(DRAW):
        raise WholeballError(
            f"{record.called(DRAW)} is there already.",
            fix="A draw is made once; another needs another label and folder; both are kept.",
            code="path",
        )
    record.write(draw_texts(commitment, drawn))


def draw_texts(commitment: Commitment, drawn: Draw) -> dict[str, bytes]:
    """Return the texts that are published after the event, by their names."""
    verifier = files("wholeball.season").joinpath("verifier.py").read_bytes()
    return {DRAW: _json(published(commitment, drawn)), VERIFIER: verifier}


def read_draw(record: LeagueRecord, file: str) -> tuple[Commitment, Draw, str]:
    """Return what a file like draw.json publishes, and the participants' hash it states.

    Raises:
        WholeballError: the file is missing or does not hold what it should.
    """
    entry = _entry(record, file, PublishedEntry)
    before, after = entry.commitment, entry.draw
    commitment = Commitment(
        label=before.label, participants=before.participants, commit=before.commit
    )
    return commitment, Draw(**after.model_dump()), before.participants_hash


def _entry(record: LeagueRecord, name: str, kind: type[_Kind]) -> _Kind:
    try:
        return kind.model_validate_json(_text(record, name))
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        where = ".".join(str(part) for part in first["loc"]) or "the file"
        raise WholeballError(
            f"{name}: {where}: {first['msg']}.",
            fix="Use the file as wholeball draw wrote it.",
            code="type",
        ) from error


def _text(record: LeagueRecord, name: str) -> str:
    try:
        data = record.read(name, MOST_BYTES)
        text = data.decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise WholeballError(
            f"{record.called(name)} cannot be read.",
            fix="Start with: wholeball draw commit.",
            code="missing_file",
        ) from error
    if len(data) > MOST_BYTES:
        raise WholeballError(
            f"{record.called(name)} has more than {MOST_BYTES:,} bytes.",
            fix="Use the file as wholeball draw wrote it.",
            code="limits",
        )
    return text


def _json(value: Plain) -> bytes:
    return (json.dumps(value, indent=2, ensure_ascii=False) + "\n").encode()
