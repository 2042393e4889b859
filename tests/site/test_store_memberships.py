"""Tests that the store keeps a role once, in one season as in every one."""

import pytest
from django.db import IntegrityError, transaction

from wholeball.store.models import Account, Membership, Organisation, Season


@pytest.mark.django_db
@pytest.mark.parametrize("in_every", [False, True])
def test_a_role_is_had_once_whether_in_one_season_or_in_every_one(*, in_every: bool) -> None:
    league = Organisation.objects.create(name="Meadow leagues", slug="meadow")
    season = Season.objects.create(organisation=league, slug="autumn", name="Autumn")
    kim, noor = (
        Account.objects.create_user(f"{one}@meadow.invalid") for one in ("kim", "noor")
    )
    role = {
        "organisation": league,
        "role": "supervisor",
        "season": None if in_every else season,
    }
    Membership.objects.create(account=kim, **role)
    Membership.objects.create(account=noor, **role)
    with pytest.raises(IntegrityError, match="store_membership"), transaction.atomic():
        Membership.objects.create(account=kim, **role)
    assert Membership.objects.filter(**role).count() == 2
