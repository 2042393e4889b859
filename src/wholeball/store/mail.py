"""Keeps what people were told: the occasion, and each message with what became of it; sends it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from smtplib import SMTPException
from typing import Final

from django.core.mail import EmailMessage
from django.db.models import F, Q

from wholeball.store.models import Membership, Message, Occasion, Season
from wholeball.store.writing import alone

NOT_SENT: Final = (OSError, SMTPException)
"""What a server of mail raises that does not answer, or does not take a message."""
TAKES: Final = timedelta(minutes=1)
"""What was taken so long ago and is not sent was left by a worker that is gone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToSend:
    """One message that is to be kept and sent; without an address it is kept alone."""

    who: str
    address: str
    subject: str
    body: str


def addresses_of(season: Season) -> dict[tuple[str, str], tuple[str, ...]]:
    """Return where captains, by team, and officials, by name, are reached. 1 query."""
    rows = (
        Membership.objects.filter(organisation=season.organisation_id, account__is_active=True)
        .filter(Q(season=season) | Q(season=None))
        .order_by("pk")
        .values_list("role", "team", "person", "account__email")
    )
    found: dict[tuple[str, str], list[str]] = {}
    for role, team, person, email in rows:
        name = team if role == "captain" else person
        if not name or role == "player":
            continue
        key = ("captain" if role == "captain" else "official", name)
        if email not in found.setdefault(key, []):
            found[key].append(email)
    return {key: tuple(sorted(several)) for key, several in found.items()}


def note_occasion(occasion: Occasion, letters: Iterable[ToSend]) -> Occasion:
    """Keep an occasion with its messages, none of which is sent yet. 2 queries."""
    with alone():
        occasion.save(force_insert=True)
        Message.objects.bulk_create(
            Message(
                occasion=occasion,
                who=one.who,
                address=one.address,
                subject=one.subject,
                body=one.body,
                state="waiting" if one.address else "no_address",
            )
            for one in letters
        )
    return occasion


def sent(subject: str, body: str, address: str) -> str:
    """Send one message, and return why it did not go out, or nothing."""
    try:
        EmailMessage(subject=subject, body=body, to=[address]).send()
    except NOT_SENT as error:
        return f"{type(error).__name__}: {error}"
    return ""


def waiting_of(occasion: int) -> list[Message]:
    """Return the messages of an occasion that wait to be sent. 1 query."""
    return list(Message.objects.filter(occasion=occasion, state="waiting").order_by("pk"))


def take_to_send(message: Message, *, at: datetime) -> bool:
    """Take a message that waits, and tell whether it is the caller's to send. 1 query.

    What another worker took just now is that one's; what one took that is gone is free again.
    """
    free = Q(tried_at=None) | Q(tried_at__lt=at - TAKES)
    with alone():
        found = Message.objects.filter(free, pk=message.pk, state="waiting")
        return found.update(tried_at=at, tries=F("tries") + 1) == 1


def note_tried(message: Message, *, at: datetime, fault: str = "") -> None:
    """Note that a message was sent, or why it was not. 1 query."""
    with alone():
        Message.objects.filter(pk=message.pk).update(
            state="failed" if fault else "sent", tried_at=at, fault=fault[:200]
        )


def again(occasion: Occasion) -> int:
    """Let the messages that failed wait again, and return how many. 1 query."""
    with alone():
        failed = Message.objects.filter(occasion=occasion, state="failed")
        return failed.update(state="waiting", tried_at=None)


def occasions_of(season: Season, *, most: int) -> list[Occasion]:
    """Return the latest occasions with their messages, newest first. 2 queries."""
    every = Occasion.objects.filter(season=season).select_related("account", "correction")
    return list(every.prefetch_related("messages").order_by("-pk")[:most])


def word_said_at(season: Season, at: datetime) -> Occasion | None:
    """Return the occasion on which a word on a night was said at a moment, or None. 1 query."""
    every = Occasion.objects.filter(season=season, kind="called_off", at=at)
    return every.order_by("pk").first()


def occasion_of(season: Season, number: int) -> Occasion | None:
    """Return an occasion of a season with its messages, or None. 2 queries."""
    every = Occasion.objects.filter(season=season, pk=number)
    return every.select_related("account", "correction").prefetch_related("messages").first()
