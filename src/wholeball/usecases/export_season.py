"""Hands out all that a season was told, as the files of a season folder."""

from collections.abc import Mapping

from wholeball.files.new_record import write_new
from wholeball.files.refused_by_disk import told_of_disk
from wholeball.files.season_texts import gathered, packed
from wholeball.league.record import LeagueRecord
from wholeball.store.changes import is_private


def texts_of_season(record: LeagueRecord) -> Mapping[str, bytes]:
    """Return every text of a season by its name.

    Raises:
        WholeballError: there is no such season, or it cannot be read.
    """
    with told_of_disk(record.place, "read"):
        return gathered(record).texts.texts


def export_archive(record: LeagueRecord) -> bytes:
    """Return every text of a season in a ZIP archive; the same season is the same bytes.

    Raises:
        WholeballError: there is no such season, or it cannot be read.
    """
    return packed(texts_of_season(record))


def export_season(record: LeagueRecord, to: LeagueRecord) -> None:
    """Write every text of a season into a record that is new or empty, all or nothing.

    Raises:
        WholeballError: the other record is not empty, or cannot be written.
    """
    texts = texts_of_season(record)
    write_new(to, texts, private=frozenset(filter(is_private, texts)))
