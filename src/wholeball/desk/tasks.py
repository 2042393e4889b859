"""Does behind the scenes what takes longer than a page may: mail, and searches."""

from datetime import UTC, datetime
from smtplib import SMTPException

from django.core.mail import EmailMessage
from django_tasks import task

from wholeball.store.mail import note_tried, waiting_of
from wholeball.usecases.run_search import run_search


@task()
def send_mail(occasion: int) -> int:
    """Send the messages of an occasion that wait, and return how many were sent."""
    sent = 0
    for message in waiting_of(occasion):
        fault = _send(message.subject, message.body, message.address)
        note_tried(message, at=_clock(), fault=fault)
        sent += not fault
    return sent


def _send(subject: str, body: str, address: str) -> str:
    """Send one message, and return why it could not be sent, or nothing."""
    try:
        EmailMessage(subject=subject, body=body, to=[address]).send()
    except (OSError, SMTPException) as error:
        return f"{type(error).__name__}: {error}"
    return ""


@task()
def search(number: int) -> None:
    """Run a search for a timetable."""
    run_search(number, _clock)


def _clock() -> datetime:
    return datetime.now(UTC)  # noqa: TID251 - a place where people work reads the clock
