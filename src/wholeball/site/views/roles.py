"""Shows coordinators who has which role, ends one, and gives back what was ended just now."""

from datetime import UTC, datetime
from http import HTTPStatus
from typing import Final

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from wholeball.kernel.faults import WholeballError
from wholeball.site.inviting import office_of, waiting
from wholeball.site.roles import RolesShown, end_role, give_back, show_roles
from wholeball.store.models import Account, Membership

ENDED: Final = "ended_roles"
"""Where a session keeps what its reader ended, by number, so that it can be given back."""
_MOST_KEPT: Final = 20


class SoughtForm(forms.Form):
    """Whom to look for."""

    sought = forms.CharField(
        label="Look for",
        max_length=80,
        required=False,
        help_text="A name, an address, a role or a team.",
    )


@never_cache
@require_safe
@login_required
def roles(request: HttpRequest) -> HttpResponse:
    """Return who has which role."""
    account = _account(request)
    office = office_of(account)
    if office is None:
        raise Http404
    form = SoughtForm(request.GET if "sought" in request.GET else None)
    is_refused = form.is_bound and not form.is_valid()
    sought = form.cleaned_data["sought"] if form.is_bound and not is_refused else ""
    shown = RolesShown(held=(), more=0) if is_refused else show_roles(office, sought)
    context = {
        "form": form,
        "sought": sought,
        "shown": shown,
        "ended": [(key, kept["told"]) for key, kept in request.session.get(ENDED, {}).items()],
    }
    status = HTTPStatus.UNPROCESSABLE_ENTITY if is_refused else HTTPStatus.OK
    return render(request, "site/roles.html", context, status=status)


@require_POST
@login_required
def end(request: HttpRequest, number: int) -> HttpResponseBase:
    """End a role."""
    account = _account(request)
    held = Membership.objects.filter(pk=number).select_related("account", "season").first()
    try:
        kept = end_role(account, number, datetime.now(UTC))
    except WholeballError as refused:
        messages.error(request, str(refused))
        return redirect("roles")
    if kept is None or held is None:
        raise Http404
    before = list(request.session.get(ENDED, {}).items())[1 - _MOST_KEPT :]
    request.session[ENDED] = {**dict(before), f"{number}": {**kept, "told": _told(held)}}
    messages.success(request, f"Ended: {_told(held)}. It opens nothing any more.")
    if held.role == "coordinator":
        _tell_links(request, account)
    return redirect("roles")


@require_POST
@login_required
def back(request: HttpRequest, number: int) -> HttpResponseBase:
    """Give back a role that was ended in this sitting."""
    account = _account(request)
    ended = request.session.get(ENDED, {})
    kept = ended.get(f"{number}")
    if kept is None:
        raise Http404
    given = give_back(account, kept, datetime.now(UTC))
    request.session[ENDED] = {key: one for key, one in ended.items() if key != f"{number}"}
    if given is None:
        messages.error(request, "It cannot be given back any more. Cure: invite them again.")
    else:
        messages.success(request, f"Given back: {kept['told']}.")
    return redirect("roles")


def _tell_links(request: HttpRequest, account: Account) -> None:
    """Tell of links that wait: whoever was coordinator may have made one for themselves."""
    office = office_of(account)
    links = 0 if office is None else len(waiting(office, datetime.now(UTC)))
    if links:
        they = "link that waits opens" if links == 1 else "links that wait open"
        messages.warning(
            request,
            f"{links} {they} a role to whoever has it, also to who made it. Look under"
            " Invitations, and close what you do not know.",
        )


def _told(held: Membership) -> str:
    """Return whose role it is, in words; of a team nobody reads the codes of its people."""
    of = f" of {held.team}" if held.team else ""
    known_as = f", {held.person}" if held.person and not held.team else ""
    season = held.season.name if held.season is not None else "every season"
    return f"{held.account}, {held.role}{of}{known_as}, {season}"


def _account(request: HttpRequest) -> Account:
    """Return who is signed in.

    Raises:
        Http404: nobody with an account.
    """
    if not isinstance(request.user, Account):
        raise Http404
    return request.user
