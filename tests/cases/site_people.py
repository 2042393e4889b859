"""Puts people into a site that a test serves; each is run inside it by `in_site`."""

from typing import Final

PASSWORD: Final = "a meadow in October"  # noqa: S105 - of accounts that live for one test


def put_person(email: str, role: str = "", name: str = "") -> int:
    """Make an account, with a role in the first league where one is named; return its number."""
    from wholeball.store.models import Account, Membership, Organisation  # noqa: PLC0415

    account = Account.objects.create_user(email, PASSWORD, name=name)
    if role:
        organisation = Organisation.objects.order_by("pk")[0]
        Membership.objects.create(organisation=organisation, account=account, role=role)
    return int(account.pk)
