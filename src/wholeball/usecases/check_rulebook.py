"""Checks a rulebook in every respect, its field of play included."""

from dataclasses import replace
from pathlib import Path

from wholeball.files.rulebook_file import read_rulebook
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.lines import Loc, lines
from wholeball.kernel.refusals import Source
from wholeball.kernel.toml import decode
from wholeball.pitch.plan import SHOWN_BY, Contradiction, ImpossibleField, contradictions
from wholeball.reports.field_of_play import STATED_BY, field_plan
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import named, value_at
from wholeball.rulebook.keys import article_of
from wholeball.rulebook.load import Loaded


def check_rulebook(name: str) -> Loaded:
    """Return a rulebook that is in order in every respect, its field of play included.

    What is doubtful about the field is remarked on, save where a confirmed article states it.

    Raises:
        InputFaults: everything that is wrong with it.
        WholeballError: there is no such file.
    """
    loaded = read_rulebook(name)
    book = loaded.rulebook
    try:
        plan = field_plan(book)
    except ImpossibleField as impossible:
        source = _source(name)
        raise InputFaults(
            _fault(each, book, source) for each in impossible.contradictions
        ) from impossible
    doubts = [each for each in contradictions(plan) if _is_told(each, book)]
    if not doubts:
        return loaded
    source = _source(name)
    remarks = (*loaded.remarks, *(_fault(each, book, source) for each in doubts))
    return replace(loaded, remarks=remarks)


def _source(name: str) -> Source:
    path = Path(name)
    if not path.exists():
        return Source(name, {})
    return Source(path.name, lines(decode(path.read_bytes(), file=path.name)))


def _fault(clash: Contradiction, book: Rulebook, source: Source) -> Fault:
    keys = _keys(clash)
    locs: list[Loc] = [tuple(key.split(".")) for key in keys]
    loc = next((loc for loc in locs if source.has(loc)), locs[0])
    sizes = " and ".join(f"{named(key)} {value_at(book, key)}" for key in keys)
    return Fault(
        code="contradiction" if clash.level == "fault" else "suspicious",
        place=source.place(loc, article_of(loc)),
        says=f"{sizes} {clash.because}.",
        cure=clash.cure,
        level=clash.level,
    )


def _keys(clash: Contradiction) -> tuple[str, ...]:
    return tuple(dict.fromkeys(STATED_BY[key] for key in clash.keys))


def _is_told(clash: Contradiction, book: Rulebook) -> bool:
    """Tell whether a doubt is worth a remark: nothing in it is confirmed.

    The circle and the arc show the distances of the kick-off and the penalty kick; the
    rulebook was asked about those when it was loaded.
    """
    if set(SHOWN_BY.values()) & set(clash.keys):
        return False
    articles = (article_of(tuple(key.split("."))) for key in _keys(clash))
    return not any(book.article(path).confirm for path in articles if path is not None)
