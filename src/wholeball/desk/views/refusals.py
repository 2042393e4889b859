"""Puts what a season says against a change upon the form that asked for it."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from django.forms import Form

from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.reports.spoken import spoken

MOST: Final = 20


@contextmanager
def refusals_on(form: Form) -> Iterator[None]:
    """Try a change; where it is refused, the form says why, and the page goes on after it."""
    try:
        yield
    except WholeballError as refused:
        put_on(form, refused)


def put_on(form: Form, refused: WholeballError) -> None:
    """Add each fault with its cure to a form, without the file that nobody sees there."""
    if not isinstance(refused, InputFaults):
        form.add_error(None, spoken(str(refused)))
        return
    for one in refused.faults[:MOST]:
        says = spoken(one.says)
        form.add_error(None, f"{says[:1].upper()}{says[1:]} {spoken(one.cure)}")
