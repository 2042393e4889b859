"""Reads a whole season at one version, so that what is computed from it fits together."""

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from threading import Lock
from typing import Final, TypeAlias

from django.db import connection

from wholeball.league.texts import LastingTexts, Made
from wholeball.store.contents import content
from wholeball.store.kinds import Kind, game_of, kind_of
from wholeball.store.logs import Logs, logs_of
from wholeball.store.models import Season, SeasonFile
from wholeball.store.writing import held

_TRIES: Final = 3
MOST: Final = 4
"""Seasons that a process keeps as they were last read."""
_State: TypeAlias = tuple[int, str, str, str]
_KEPT: "Final[OrderedDict[tuple[str, int], tuple[_State, Snapshot]]]" = OrderedDict()
_KEEPING: Final = Lock()


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot(LastingTexts):
    """The texts of a season at one version, but for timetables that were replaced."""

    season: Season
    logs: Logs


def snapshot_of(season: Season) -> Snapshot:
    """Return a season at its newest version, with what others made of its texts.

    1 query where this process has read that version; else 5, and 1 for each table that it has.
    Where others write all the while, they wait for it at last.
    """
    for _ in range(_TRIES):
        before = Season.objects.select_related("organisation").get(pk=season.pk)
        kept = _kept(before)
        if kept is not None:
            return kept
        seen = _read(before)
        if Season.objects.filter(pk=season.pk, version=before.version).exists():
            return _keep(seen)
    with held(season) as now:
        return _keep(_read(now))


def drop_kept() -> None:
    """Drop what this process keeps of every season; it is read again when it is asked for."""
    with _KEEPING:
        _KEPT.clear()


def _kept(season: Season) -> Snapshot | None:
    """Return what is kept of a season where it is as it was then."""
    place = _place(season)
    with _KEEPING:
        state, seen = _KEPT.get(place, (None, None))
        if seen is None or state != _state(season):
            return None
        _KEPT.move_to_end(place)
    return replace(seen, place=season.name, season=season)


def _keep(seen: Snapshot) -> Snapshot:
    """Keep how a season stands in the place of how it stood."""
    place = _place(seen.season)
    with _KEEPING:
        _KEPT[place] = (_state(seen.season), seen)
        _KEPT.move_to_end(place)
        while len(_KEPT) > MOST:
            _KEPT.popitem(last=False)
    return seen


def _place(season: Season) -> tuple[str, int]:
    return str(connection.settings_dict["NAME"]), season.pk


def _state(season: Season) -> _State:
    """Return what is another one after each change; a write that was rolled back leaves none."""
    return season.version, season.head, season.log_head, season.name


def _read(season: Season) -> Snapshot:
    """Read a season as it is, beginning with what is kept of how it was."""
    with _KEEPING:
        _, before = _KEPT.get(_place(season), (None, None))
    logs = logs_of(season) if before is None else logs_of(season, before.logs)
    return Snapshot(
        place=season.name,
        season=season,
        logs=logs,
        texts=_texts(season, logs.by_game),
        made=Made() if before is None else before.made.next(),
    )


def _texts(season: Season, logs: Mapping[str, bytes]) -> dict[str, bytes]:
    return {
        file.name: (
            logs.get(game_of(file.name), b"")
            if kind_of(file.name) is Kind.LOG
            else content(file)
        )
        for file in SeasonFile.objects.filter(season=season)
        if kind_of(file.name) is not Kind.REPLACED
    }
