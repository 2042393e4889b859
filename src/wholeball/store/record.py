"""Keeps a season in the database: each of its names is rows, entries, an edition or a text."""

from collections.abc import Collection, Iterator, Mapping
from collections.abc import Set as AbstractSet
from contextlib import contextmanager
from dataclasses import dataclass
from errno import EISDIR, ENOENT
from os import strerror

from django.db.models import QuerySet

from wholeball.kernel.faults import WholeballError
from wholeball.league.ways import Way, on_pages
from wholeball.store import audit
from wholeball.store.changes import changed
from wholeball.store.contents import Put, content, put, take_out
from wholeball.store.forgetting import forget_private
from wholeball.store.kinds import Kind, game_of, kind_of
from wholeball.store.logs import add_to_log
from wholeball.store.models import Change, Season, SeasonFile
from wholeball.store.snapshot import Snapshot, snapshot_of
from wholeball.store.writing import Meanwhile, Writer, hash_on, held, writing

_LONGEST_NAME = 200


@dataclass(slots=True)
class DatabaseRecord:
    """The rows of a season, as what keeps its facts: a `LeagueRecord`.

    Without a writer it can be read only. A writer who looked at a version is refused once
    somebody else has changed a file that they write; what they wrote themselves is no conflict.
    """

    season: Season
    writer: Writer | None = None
    own: int | None = None

    @property
    def place(self) -> str:
        """The name of the season."""
        return self.season.name

    @property
    def way(self) -> Way:
        """The pages of the site."""
        return on_pages

    def called(self, name: str) -> str:
        """Return the name and the season's."""
        return f"{name} of {self.season.name}"

    def refuse_missing(self) -> None:
        """Refuse a season of which nothing is known yet. 1 query.

        Raises:
            WholeballError: nothing stands in it.
        """
        if not self._files().exists():
            raise WholeballError(
                f"{self.place} has no facts yet.",
                fix="Import a season folder, or start from a preset.",
                code="path",
            )

    def has(self, name: str) -> bool:
        """Tell whether something stands under a name, or in a folder of that name. 2 queries."""
        if not _is_name(name):
            return False
        return self._files().filter(name=name).exists() or bool(self.names(name))

    def names(self, inside: str) -> tuple[str, ...]:
        """Return the names of what stands inside a folder, in order. 1 query."""
        if inside and not _is_name(inside):
            return ()
        start = f"{inside}/" if inside else ""
        found = self._files().filter(name__startswith=start).values_list("name", flat=True)
        under = (name.removeprefix(start) for name in found if name.startswith(start))
        return tuple(sorted({name.partition("/")[0] for name in under}))

    def read(self, name: str, most: int) -> bytes:
        """Return what stands under a name, at most one byte more than `most`. 2 queries.

        Raises:
            FileNotFoundError: nothing stands there.
            IsADirectoryError: it is a folder.
        """
        file = self._files().filter(name=name).first() if _is_name(name) else None
        if file is None:
            number = EISDIR if self.has(name) else ENOENT
            raise OSError(number, strerror(number), self.called(name))
        return content(file)[: most + 1]

    def as_it_stands(self) -> Snapshot:
        """Return the texts of the season's newest version."""
        return snapshot_of(self.season)

    @contextmanager
    def held(self) -> Iterator[None]:
        """Let one writer at a time read, judge and write; all of it is kept, or nothing."""
        try:
            with held(self.season):
                yield
        finally:
            self.season.refresh_from_db(fields=["version", "log_head", "head"])

    def write(
        self,
        contents: Mapping[str, bytes],
        *,
        private: AbstractSet[str] = frozenset(),
        gone: Collection[str] = (),
    ) -> None:
        """Write all of it or nothing, over what stands there, and take out what is `gone`.

        Raises:
            WholeballError: it cannot be kept, or somebody else changed it meanwhile, and how;
                everything is as it was.
        """
        writer, names = self._writer(), {*contents, *gone}
        version = self.own or writer.version
        with writing(self.season, version) as season:
            meanwhile = Meanwhile(season, version, names)
            files = {file.name: file for file in self._files().filter(name__in=names)}
            for name, data in contents.items():
                file = files.get(name) or _new(season, name)
                file.is_private = file.is_private or name in private
                self._note(season, name, _put(season, file, data, meanwhile), meanwhile)
                hash_on(season, name, data)
            for name in gone:
                self._note(season, name, take_out(season, files[name]), meanwhile)
                hash_on(season, name, None)
            forget_private(writer.at, season)
            self._audit(season, "wrote", sorted(names))
        self._now(season)

    def append(self, name: str, lines: bytes) -> None:
        """Add lines at the end of a log, all or none; they are on the disk when it returns.

        Raises:
            InputFaults: every line that says nothing; the log is as it was.
            WholeballError: a device's entry stands there already; the log is as it was.
            ValueError: it is no log's name.
        """
        if kind_of(name) is not Kind.LOG:
            message = f"{name} is no log, and only logs are added to"
            raise ValueError(message)
        self._writer()
        with writing(self.season) as season:
            if not self._files().filter(name=name).exists():
                _new(season, name).save()
            add_to_log(season, name, game_of(name), lines)
            hash_on(season, name, lines)
            self._audit(season, "recorded", [name])
        self._now(season)

    def _files(self) -> QuerySet[SeasonFile]:
        return SeasonFile.objects.filter(season=self.season)

    def _writer(self) -> Writer:
        if self.writer is None:
            message = "whoever writes a season says who writes, and when"
            raise ValueError(message)
        return self.writer

    def _note(self, season: Season, name: str, what: Put, meanwhile: Meanwhile) -> None:
        """Note what a write changed, so that others are told and it can be taken back.

        Raises:
            WholeballError: others changed it meanwhile.
        """
        place, gone, came = changed(what.before, what.after)
        meanwhile.refuse(name, gone, came)
        if gone or came:
            Change.objects.create(
                season=season,
                version=season.version,
                name=name,
                account=self._writer().account,
                at=self._writer().at,
                place=place,
                gone=gone,
                came=came,
            )

    def _audit(self, season: Season, did: str, names: list[str]) -> None:
        audit.note(
            season.organisation,
            did=did,
            what=f"{season.slug}: {', '.join(names)}",
            by=self._writer().account,
            at=self._writer().at,
        )

    def _now(self, season: Season) -> None:
        """Take over what this writer's own write made of the season."""
        self.season.version, self.season.log_head = season.version, season.log_head
        self.season.head = season.head
        if self._writer().version is not None:
            self.own = season.version


def _put(season: Season, file: SeasonFile, data: bytes, meanwhile: Meanwhile) -> Put:
    """Put something under a name.

    Raises:
        WholeballError: it cannot be kept, or not beside what others changed meanwhile.
    """
    try:
        return put(season, file, data)
    except WholeballError as refused:
        raise meanwhile.explained(refused) from refused


def _new(season: Season, name: str) -> SeasonFile:
    if not _is_name(name):
        raise WholeballError(
            f"{name[:80]!r} is no name of a file.",
            fix=f"Give it a plain name of at most {_LONGEST_NAME} characters.",
            code="path",
        )
    return SeasonFile(season=season, name=name)


def _is_name(name: str) -> bool:
    """Tell whether a name is one that a file of a season folder can have."""
    return (
        len(name) <= _LONGEST_NAME
        and name.isprintable()
        and all(part not in ("", ".", "..") for part in name.split("/"))
    )
