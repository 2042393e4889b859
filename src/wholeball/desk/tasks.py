"""Does behind the scenes what takes longer than a page may: mail, and searches."""

from datetime import UTC, datetime

from django_tasks import task

from wholeball.store.mail import note_tried, sent, take_to_send, waiting_of
from wholeball.usecases.run_search import run_search


@task()
def send_mail(occasion: int) -> int:
    """Send the messages of an occasion that wait, and return how many were sent.

    Asked twice, as by a second click, two workers send each message once.
    """
    went = 0
    for message in waiting_of(occasion):
        if not take_to_send(message, at=_clock()):
            continue
        fault = sent(message.subject, message.body, message.address)
        note_tried(message, at=_clock(), fault=fault)
        went += not fault
    return went


@task()
def search(number: int) -> None:
    """Run a search for a timetable."""
    run_search(number, _clock)


def _clock() -> datetime:
    return datetime.now(UTC)  # noqa: TID251 - a place where people work reads the clock
