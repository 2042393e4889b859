"""Draws lots for a season: promised before everybody, held once, kept with all that checks it."""

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.files.draws import DRAW, MOST_BYTES, draw_texts, read_commitment, read_draw
from wholeball.files.folder import read_folder
from wholeball.files.season_edit import with_lots
from wholeball.files.season_toml import FILE as SEASON
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.record import LeagueRecord
from wholeball.league.within import Within
from wholeball.season.draw import Commitment, Draw, draw
from wholeball.usecases.draw_lots import commit_to_draw

FOLDER: Final = "draws"
MOST_LABEL: Final = 80
"""Characters of what a draw is about, as season.toml holds it."""
_PLAIN: Final = 40
_DIGEST: Final = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonDraw:
    """A draw of a season by its name; `drawn` is None until it was held."""

    name: str
    commitment: Commitment
    drawn: Draw | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LotsShown:
    """The teams that lots can be drawn between, and the draws of the season."""

    teams: tuple[str, ...]
    draws: tuple[SeasonDraw, ...]


def show_lots(record: LeagueRecord) -> LotsShown:
    """Return what a page of lots shows.

    Raises:
        InputFaults: the season does not fit together.
        WholeballError: a draw does not hold what it should.
    """
    teams = read_folder(record).season.league.teams
    return LotsShown(teams=tuple(f"{one.team}" for one in teams), draws=season_draws(record))


def season_draws(record: LeagueRecord) -> tuple[SeasonDraw, ...]:
    """Return the draws of a season by their names.

    Raises:
        WholeballError: one does not hold what it should.
    """
    return tuple(_read(record, name) for name in record.names(FOLDER))


def promise_draw(
    record: LeagueRecord, *, label: str, teams: Sequence[str], secret: str
) -> SeasonDraw:
    """Promise a draw between teams: who draws, what about, and the mark of a secret.

    Raises:
        InputFaults: the season has no use for lots; nothing was written.
        WholeballError: the words or the teams do not do, or there is a draw about it already.
    """
    _refuse_label(label)
    name = _name_of(label)
    with record.held():
        read = read_folder(record)
        known = {f"{one.team}" for one in read.season.league.teams}
        for team in teams:
            if team not in known:
                raise WholeballError(
                    f"{team} is no team of the season.",
                    fix=did_you_mean(team, known),
                    code="unknown_team",
                )
        if name in record.names(FOLDER):
            raise WholeballError(
                f"There is a draw about {label} already.",
                fix="Give this one other words; both are kept.",
                code="path",
            )
        read_folder(record, instead={SEASON: _with(record, label, sorted(teams))})
        commit_to_draw(
            Within(record, f"{FOLDER}/{name}"), label=label, participants=teams, secret=secret
        )
    return _read(record, name)


def hold_draw(record: LeagueRecord, name: str, *, public: str) -> SeasonDraw:
    """Draw by what everybody saw; the order counts in the season from then on.

    Raises:
        InputFaults: the season would not be read with the order; nothing was written.
        WholeballError: there is no such draw, it was held already, or nothing was seen.
    """
    with record.held():
        if name not in record.names(FOLDER):
            raise WholeballError(
                f"There is no draw {name}.", fix="Promise it first.", code="missing_file"
            )
        inside = Within(record, f"{FOLDER}/{name}")
        if inside.has(DRAW):
            raise WholeballError(
                "This draw was held already, and lots are drawn once.",
                fix="Another needs other words; both are kept.",
                code="path",
            )
        commitment, secret = read_commitment(inside)
        drawn = draw(commitment, secret=secret, public=public)
        season = _with(record, commitment.label, drawn.order)
        read_folder(record, instead={SEASON: season})
        texts = draw_texts(commitment, drawn)
        record.write(
            {SEASON: season, **{inside.inside(one): data for one, data in texts.items()}}
        )
    return _read(record, name)


def _read(record: LeagueRecord, name: str) -> SeasonDraw:
    inside = Within(record, f"{FOLDER}/{name}")
    if inside.has(DRAW):
        commitment, drawn, _ = read_draw(inside, DRAW)
        return SeasonDraw(name=name, commitment=commitment, drawn=drawn)
    commitment, _ = read_commitment(inside)
    return SeasonDraw(name=name, commitment=commitment, drawn=None)


def _with(record: LeagueRecord, label: str, order: Sequence[str]) -> bytes:
    return with_lots(record.read(SEASON, MOST_BYTES), label=label, order=order)


def _name_of(label: str) -> str:
    """Return the name of a draw: letters and digits of its words, and what tells it from others."""
    plain = re.sub(r"[^a-z0-9]+", "-", label.casefold(), flags=re.ASCII)[:_PLAIN].strip("-")
    digest = hashlib.sha256(label.encode()).hexdigest()[:_DIGEST]
    return f"{plain}-{digest}".strip("-")


def _refuse_label(label: str) -> None:
    if not label.strip() or len(label) > MOST_LABEL or label.splitlines() != [label]:
        raise WholeballError(
            "What the draw is about is empty, too long or of several lines.",
            fix=f'Write 1 to {MOST_LABEL} characters, such as "pool A, places 2 and 3".',
            code="label",
        )
