"""Asks what somebody has read, as the audit noted it."""

from wholeball.store.models import Account, AuditRow, Season


def seen_in(season: Season, account: Account, *, part: str) -> tuple[str, ...]:
    """Return what the audit noted that an account saw in a season, as far as it names a part.

    1 query; each text once, without the season before it.
    """
    start = f"{season.slug}: "
    rows = AuditRow.objects.filter(
        organisation=season.organisation_id,
        account=account,
        did="saw",
        what__startswith=start,
        what__contains=part,
    )
    found = rows.order_by("what").values_list("what", flat=True).distinct()
    return tuple(one.removeprefix(start) for one in found)
