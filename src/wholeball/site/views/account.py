"""Shows a person their account, and what can be changed about it."""

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe


@require_safe
@login_required
def account(request: HttpRequest) -> HttpResponse:
    """Return the page of the account that is signed in."""
    return render(request, "site/account.html")
