"""Puts what a season says against a change upon the form that asked for it."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from types import MappingProxyType
from typing import Final

from django.forms import Form

from wholeball.desk.views.given import version_after
from wholeball.kernel.faults import Fault, InputFaults, WholeballError
from wholeball.reports.spoken import spoken

MOST: Final = 20


@contextmanager
def refusals_on(
    form: Form, *, file: str = "", fields: Mapping[str, str] = MappingProxyType({})
) -> Iterator[None]:
    """Try a change; where it is refused, the form says why, and the page goes on after it."""
    try:
        yield
    except WholeballError as refused:
        put_on(form, refused, file=file, fields=fields)


def refused_at(
    form: Form,
    version: int,
    write: Callable[[], object],
    *,
    now: Callable[[], int],
    file: str,
    fields: Mapping[str, str],
) -> int | None:
    """Write what a form says, if it is valid; return None once that is kept.

    Otherwise the form says why, and the version is returned with which it is sent again: the one
    that was seen, or that of `now` where the reader has been told what others changed.
    """
    if not form.is_valid():
        return version
    try:
        write()
    except WholeballError as refused:
        put_on(form, refused, file=file, fields=fields)
        return version_after(refused, version, now=now())
    return None


def faults_of(refused: WholeballError | None) -> tuple[Fault, ...]:
    """Return the faults that a refusal lists; none where it is about one matter alone."""
    return refused.faults if isinstance(refused, InputFaults) else ()


def put_on(
    form: Form,
    refused: WholeballError,
    *,
    file: str = "",
    fields: Mapping[str, str] = MappingProxyType({}),
) -> None:
    """Add each fault with its cure to a form, without the file that nobody sees there.

    `fields` names the field that holds a column of the `file`: a fault of it stands beside that
    field, all others above the form.
    """
    if not isinstance(refused, InputFaults):
        form.add_error(None, spoken(str(refused)))
        return
    told: set[tuple[str | None, str]] = set()
    for one in refused.faults[:MOST]:
        says = spoken(one.says)
        is_here = one.place.file == file and one.place.column is not None
        field = fields.get(one.place.column or "") if is_here else None
        sentence = f"{says[:1].upper()}{says[1:]} {spoken(one.cure)}"
        if (field, sentence) not in told:
            form.add_error(field, sentence)
        told.add((field, sentence))
