"""Takes back a change that was made to a season, as a change of its own that is kept as well."""

from wholeball.files.folder import read_folder
from wholeball.store.changes import told
from wholeball.store.models import Change
from wholeball.store.record import DatabaseRecord
from wholeball.store.taking_back import text_without


def take_back(record: DatabaseRecord, change: Change) -> str:
    """Take a change back, and return in words what it was.

    Raises:
        InputFaults: everything that would be wrong with the season without it.
        WholeballError: what it wrote was changed since, or it cannot be kept.
    """
    with record.held():
        data = text_without(change)
        read_folder(record, instead={change.name: data})
        record.write({change.name: data})
    return told(change)
