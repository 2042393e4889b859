"""Says how allauth signs people in and up here: by invitation, and with few wrong guesses."""

from http import HTTPStatus
from typing import Any, Final

from allauth.account.adapter import DefaultAccountAdapter
from allauth.core.exceptions import ImmediateHttpResponse
from django.core.exceptions import ValidationError
from django.http import HttpRequest
from django.shortcuts import render

INVITED: Final = "invitation"
"""Where a session keeps the invitation that it was opened with."""


class AccountAdapter(DefaultAccountAdapter):  # type: ignore[misc]  # allauth ships no types
    """Signs people in and up by this site's rules."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        """Return whether this session came by an invitation."""
        return INVITED in request.session

    def pre_authenticate(self, request: HttpRequest, **credentials: Any) -> None:
        """Let nobody guess on: after some wrong passwords each further one is refused unread."""
        try:
            super().pre_authenticate(request, **credentials)
        except ValidationError as slowed:
            raise ImmediateHttpResponse(
                render(request, "429.html", status=HTTPStatus.TOO_MANY_REQUESTS)
            ) from slowed

    def _get_login_attempts_cache_key(self, request: HttpRequest, **credentials: Any) -> str:
        """Return what wrong passwords are counted by: the account, and the address they come from.

        By the account alone, a stranger could lock its owner out.
        """
        whose = super()._get_login_attempts_cache_key(request, **credentials)
        return f"{whose}:{self.get_client_ip(request)}"
