"""Answers a form that did not come from a page of this site, and notes who sent it."""

import logging
from datetime import UTC, datetime
from http import HTTPStatus
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.cache import never_cache

from wholeball.site.masking import masked
from wholeball.store import audit
from wholeball.store.models import Account, Organisation

LOG: Final = logging.getLogger(__name__)


@never_cache
def without_token(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Say that nothing was changed and what to do; who is signed in is noted.

    A stranger is logged alone: they have no session that anybody could abuse, and could fill
    the audit.
    """
    path = masked(request.path)[:200]
    LOG.warning("A form without its token came to %s: %s", path, reason)
    if isinstance(request.user, Account):
        _note(request, request.user, path)
    return render(request, "403_csrf.html", status=HTTPStatus.FORBIDDEN)


def _note(request: HttpRequest, account: Account, path: str) -> None:
    """Note it for the organisation that the address names, where the account has a part in it."""
    own = Organisation.objects.filter(membership__account=account).distinct().order_by("pk")
    match = request.resolver_match
    named = match.kwargs.get("organisation", "") if match is not None else ""
    organisation = own.filter(slug=named).first() or own.first()
    if organisation is not None:
        audit.note(
            organisation,
            did="tried",
            what=f"a form without its token: {path}",
            by=account,
            at=datetime.now(UTC),
        )
