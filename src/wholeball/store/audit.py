"""Notes who did what, or saw something private; each row is chained to the one before."""

from datetime import UTC, datetime

from django.db import transaction

from wholeball.kernel.canonical import digest
from wholeball.store.models import Account, AuditRow, Organisation


def note(
    organisation: Organisation, *, did: str, what: str, by: Account | None, at: datetime
) -> AuditRow:
    """Add a row; `what` names things, and never holds what is in them. 3 queries."""
    with transaction.atomic():
        Organisation.objects.select_for_update().get(pk=organisation.pk)
        last = AuditRow.objects.filter(organisation=organisation).order_by("-number").first()
        row = AuditRow(
            organisation=organisation,
            number=1 if last is None else last.number + 1,
            at=at,
            account=by,
            did=did,
            what=what[:300],
            before="" if last is None else last.hash,
        )
        row.hash = _hash(row)
        row.save(force_insert=True)
    return row


def first_broken(organisation: Organisation) -> int | None:
    """Return the number of the first row that is not as it was noted, or None. 1 query.

    A row that was taken out is told by the number that is missing; rows taken off the end are
    told only by whoever kept the last hash.
    """
    before = ""
    rows = AuditRow.objects.filter(organisation=organisation).order_by("number")
    for number, row in enumerate(rows.iterator(), start=1):
        if row.number != number or row.before != before or row.hash != _hash(row):
            return number
        before = row.hash
    return None


def _hash(row: AuditRow) -> str:
    return digest(
        {
            "organisation": row.organisation_id,
            "number": row.number,
            "at": row.at.astimezone(UTC).isoformat(timespec="microseconds"),
            "account": row.account_id,
            "did": row.did,
            "what": row.what,
            "before": row.before,
        }
    )
