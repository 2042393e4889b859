"""Keeps the sessions of staff safe: they end when nobody uses them, and want a second factor."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Final

from allauth.mfa.utils import is_mfa_enabled
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse

from wholeball.site.environment import environment
from wholeball.store.models import Account, Membership

STAFF: Final = ("coordinator", "supervisor")
IDLE: Final = timedelta(minutes=30)
"""A coordinator who does nothing for so long signs in again."""
WRITTEN_EVERY: Final = timedelta(minutes=1)
SEEN: Final = "seen"
TOLD: Final = "second_factor_told"
OPEN: Final = ("/accounts/", "/account/", "/static/")
"""What staff reach before they have a second factor: the pages where they add one."""
ASKS: Final = "Add a second factor to your account: a passkey, or codes from an app."


def staff_sessions(
    answer: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Return what answers a request, with what holds for staff held.

    Where people reach the site by https nobody of staff gets on without a second factor;
    on one machine they are asked once a session.
    """
    is_needed = environment().is_https

    def answered(request: HttpRequest) -> HttpResponse:
        account = request.user
        if isinstance(account, Account) and is_staff(account):
            _keep_awake(request, datetime.now(UTC))
            if not request.path.startswith(OPEN) and not is_mfa_enabled(account):
                if is_needed:
                    return HttpResponseRedirect(reverse("mfa_index"))
                _ask_once(request)
        return answer(request)

    return answered


def _keep_awake(request: HttpRequest, now: datetime) -> None:
    """Let the session last from now on; it is written at most once a minute."""
    seen = datetime.fromtimestamp(request.session.get(SEEN, 0), UTC)
    if now - seen >= WRITTEN_EVERY:
        request.session[SEEN] = now.timestamp()
        request.session.set_expiry(int(IDLE.total_seconds()))


def is_staff(account: Account) -> bool:
    """Tell whether an account runs a league or a night. 1 query."""
    return Membership.objects.filter(account=account, role__in=STAFF).exists()


def _ask_once(request: HttpRequest) -> None:
    if TOLD not in request.session:
        request.session[TOLD] = True
        messages.warning(request, ASKS)
