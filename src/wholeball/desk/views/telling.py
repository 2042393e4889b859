"""Keeps what is told at a desk, and has it sent once it is kept."""

from collections.abc import Callable, Iterable

from django.db import transaction

from wholeball.desk.tasks import send_mail
from wholeball.desk.views.access import Desk
from wholeball.store.mail import ToSend, addresses_of, note_occasion
from wholeball.store.models import Occasion
from wholeball.store.writing import alone
from wholeball.usecases.letters import Letter, Reached


def reached(desk: Desk) -> Reached:
    """Return where the season's captains and officials are reached."""
    found = addresses_of(desk.season)
    return Reached(
        addresses={
            ("captain" if role == "captain" else "official", name): several
            for (role, name), several in found.items()
        }
    )


def told_on(occasion: Occasion) -> tuple[Letter, ...]:
    """Return the messages of an occasion as they were written."""
    return tuple(
        Letter(who=one.who, address=one.address, subject=one.subject, body=one.body)
        for one in occasion.messages.all()
    )


def by_mail(letters: Iterable[Letter]) -> tuple[int, int]:
    """Return how many messages go out by mail, and how many somebody has to tell by hand."""
    has_address = [bool(one.address) for one in letters]
    return sum(has_address), len(has_address) - sum(has_address)


def said(desk: Desk, kind: str, says: str) -> Occasion:
    """Return an occasion on which people are told something, not kept yet."""
    return Occasion(
        season=desk.season, account=desk.account, kind=kind, says=says[:300], at=desk.at
    )


def write_and_tell(
    occasion: Occasion, writes: Callable[[], None], letters: Iterable[Letter]
) -> Occasion:
    """Write, and keep the messages with it: both or neither; then have them sent.

    Raises:
        WholeballError: it cannot be written; nobody is told.
    """
    with alone():
        writes()
        note_occasion(occasion, map(_to_send, letters))
        transaction.on_commit(lambda: send_mail.enqueue(occasion.pk))
    return occasion


def _to_send(letter: Letter) -> ToSend:
    return ToSend(
        who=letter.who, address=letter.address, subject=letter.subject, body=letter.body
    )
