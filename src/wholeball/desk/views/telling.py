"""Keeps what is told at a desk, and has it sent once it is kept."""

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from django.conf import settings
from django.db import transaction

from wholeball.desk.tasks import send_mail
from wholeball.desk.views.access import Desk
from wholeball.store.mail import ToSend, addresses_of, note_occasion
from wholeball.store.models import Message, Occasion
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What became of the messages of an occasion; `by_hand` are those to be told in person."""

    mailed: int
    waiting: int
    failed: int
    by_hand: int

    @property
    def says(self) -> str:
        """The numbers in words."""
        parts = (
            (self.mailed, "by mail"),
            (self.waiting, "waiting"),
            (self.failed, "not sent"),
            (self.by_hand, "to tell yourself"),
        )
        return ", ".join(f"{number} {word}" for number, word in parts if number)


def by_mail(letters: Iterable[Letter]) -> tuple[int, int]:
    """Return how many messages go out by mail, and how many somebody has to tell by hand.

    Where no mail goes out all are told by hand.
    """
    goes = [bool(one.address) and settings.SENDS_MAIL for one in letters]
    return sum(goes), len(goes) - sum(goes)


def is_by_hand(message: Message) -> bool:
    """Tell whether a message reaches its reader only where somebody tells them."""
    return message.state == "no_address" or not settings.SENDS_MAIL


def tally(messages: Iterable[Message]) -> Tally:
    """Return what became of some messages."""
    every = list(messages)
    states = Counter(one.state for one in every if not is_by_hand(one))
    return Tally(
        mailed=states["sent"],
        waiting=states["waiting"],
        failed=states["failed"],
        by_hand=sum(map(is_by_hand, every)),
    )


def to_copy(messages: Iterable[Message]) -> str:
    """Return the messages that are told by hand as one text, each under whom it is for."""
    return "\n\n\n".join(
        f"{one.who}\n{one.subject}\n\n{one.body}" for one in messages if is_by_hand(one)
    )


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
