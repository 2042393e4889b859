"""Reads a whole season at one version, so that what is computed from it fits together."""

from collections.abc import Collection, Mapping
from collections.abc import Set as AbstractSet
from contextlib import AbstractContextManager
from dataclasses import dataclass
from errno import EISDIR, ENOENT
from os import strerror
from typing import Final, NoReturn

from wholeball.kernel.faults import WholeballError
from wholeball.store.contents import content
from wholeball.store.kinds import Kind, game_of, kind_of
from wholeball.store.logs import logs_in
from wholeball.store.models import Season, SeasonFile
from wholeball.store.writing import held

_TRIES: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot:
    """The texts of a season at one version: a `LeagueRecord` that can only be read."""

    season: Season
    texts: Mapping[str, bytes]

    @property
    def place(self) -> str:
        """The name of the season."""
        return self.season.name

    def called(self, name: str) -> str:
        """Return the name and the season's."""
        return f"{name} of {self.season.name}"

    def refuse_missing(self) -> None:
        """Refuse a season of which nothing is known yet.

        Raises:
            WholeballError: nothing stands in it.
        """
        if not self.texts:
            raise WholeballError(
                f"{self.place} has no facts yet.",
                fix="Import a season folder, or start from a preset.",
                code="path",
            )

    def has(self, name: str) -> bool:
        """Tell whether something stands under a name, or in a folder of that name."""
        return name in self.texts or bool(name and self.names(name))

    def names(self, inside: str) -> tuple[str, ...]:
        """Return the names of what stands inside a folder, in order."""
        start = f"{inside}/" if inside else ""
        under = (name.removeprefix(start) for name in self.texts if name.startswith(start))
        return tuple(sorted({name.partition("/")[0] for name in under}))

    def read(self, name: str, most: int) -> bytes:
        """Return what stands under a name, at most one byte more than `most`.

        Raises:
            FileNotFoundError: nothing stands there.
            IsADirectoryError: it is a folder.
        """
        if name not in self.texts:
            number = EISDIR if self.has(name) else ENOENT
            raise OSError(number, strerror(number), self.called(name))
        return self.texts[name][: most + 1]

    def held(self) -> AbstractContextManager[None]:
        """Refuse: nobody writes a season as it was."""
        return self._refuse()

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        """Refuse: nobody writes a season as it was."""
        del contents, private, gone
        self._refuse()

    def append(self, name: str, lines: bytes) -> None:
        """Refuse: nobody writes a season as it was."""
        del name, lines
        self._refuse()

    def _refuse(self) -> NoReturn:
        message = f"{self.season.name} at version {self.season.version} can only be read"
        raise ValueError(message)


def snapshot_of(season: Season) -> Snapshot:
    """Return a season at its newest version. 4 queries and 1 for each table that it has.

    Where others write all the while, they wait for it at last.
    """
    for _ in range(_TRIES):
        before = Season.objects.select_related("organisation").get(pk=season.pk)
        texts = _texts(before)
        if Season.objects.filter(pk=season.pk, version=before.version).exists():
            return Snapshot(season=before, texts=texts)
    with held(season) as now:
        return Snapshot(season=now, texts=_texts(now))


def _texts(season: Season) -> dict[str, bytes]:
    logs = logs_in(season.pk)
    return {
        file.name: (
            logs.get(game_of(file.name), b"")
            if kind_of(file.name) is Kind.LOG
            else content(file)
        )
        for file in SeasonFile.objects.filter(season=season)
        if kind_of(file.name) is not Kind.REPLACED
    }
