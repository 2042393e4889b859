"""Calls a season otherwise: on the site, and in its own settings."""

from wholeball.files.folder import read_folder
from wholeball.files.season_edit import with_name
from wholeball.files.season_toml import FILE
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.store.record import DatabaseRecord
from wholeball.store.season_name import call, is_called
from wholeball.usecases.named_rows import normal


def rename_season(record: DatabaseRecord, name: str) -> str:
    """Call a season otherwise wherever it is shown, and return the name as it is kept.

    Its addresses stay, and so do links to them.

    Raises:
        InputFaults: another season has the name, or it is none.
        WholeballError: the settings cannot be written, or were changed meanwhile.
    """
    new = normal(name)
    with record.held():
        if is_called(record.season, new):
            raise InputFaults([_taken(new)])
        text = with_name(record.read(FILE, MOST_BYTES), new)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})
        call(record.season, new)
    return new


def _taken(name: str) -> Fault:
    return Fault(
        code="taken",
        place=Place(file=FILE, column="name"),
        says=f"Another season is called {name}.",
        value=name,
        cure="Give this one another name.",
    )
