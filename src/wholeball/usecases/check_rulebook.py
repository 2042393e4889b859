"""Checks a rulebook in every respect, its field of play included."""

from wholeball.files.rulebook_file import read_rulebook
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.pitch.plan import ImpossibleField
from wholeball.reports.field_of_play import field_plan
from wholeball.rulebook.load import Loaded


def check_rulebook(name: str) -> Loaded:
    """Return a rulebook that is in order in every respect, its field of play included.

    Raises:
        InputFaults: everything that is wrong with it.
        WholeballError: there is no such file.
    """
    loaded = read_rulebook(name)
    try:
        field_plan(loaded.rulebook)
    except ImpossibleField as impossible:
        place = Place(file=name, article="field")
        raise InputFaults(
            Fault(code="contradiction", place=place, says=each.says, cure=each.cure)
            for each in impossible.contradictions
        ) from impossible
    return loaded
