"""Says how allauth signs people in and up here: by invitation, few wrong guesses, own words."""

import logging
from datetime import UTC, datetime
from http import HTTPStatus
from typing import Any, Final, cast

from allauth.account.adapter import DefaultAccountAdapter
from allauth.core.exceptions import ImmediateHttpResponse
from allauth.mfa.adapter import DefaultMFAAdapter
from allauth.mfa.models import Authenticator
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db import transaction
from django.forms import BaseForm
from django.http import HttpRequest
from django.shortcuts import render

from wholeball.kernel.faults import WholeballError
from wholeball.site.invitations import INVITED, accept, is_for, open_invitation
from wholeball.site.landing import first_page
from wholeball.store.mail import NOT_SENT
from wholeball.store.models import Account

LOG: Final = logging.getLogger(__name__)


class AccountAdapter(DefaultAccountAdapter):  # type: ignore[misc]  # allauth ships no types
    """Signs people in and up by this site's rules."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        """Return whether this session came by an invitation that still works."""
        digest = request.session.get(INVITED, "")
        return open_invitation(digest, datetime.now(UTC)) is not None

    def clean_email(self, email: str) -> str:
        """Return an address, unless the invitation is for another."""
        email = super().clean_email(email)
        digest = self.request.session.get(INVITED, "")
        invited = open_invitation(digest, datetime.now(UTC)) if digest else None
        if invited is not None and not is_for(invited, email):
            raise ValidationError(
                f"The invitation is for {invited.email}. Use that address, or ask your "
                "coordinator for a link of your own."
            )
        return email

    def save_user(
        self,
        request: HttpRequest,
        user: Account,
        form: BaseForm,
        commit: bool = True,  # noqa: FBT001, FBT002 - as allauth has it
    ) -> Account:
        """Keep a new account with the role that it was invited to, or keep neither.

        Where the invitation was sent to this address, the address is known to be theirs.
        """
        digest, now = request.session[INVITED], datetime.now(UTC)
        invited = open_invitation(digest, now)
        try:
            with transaction.atomic():
                saved: Account = super().save_user(request, user, form, commit=commit)
                accept(digest, saved, now)
        except WholeballError as late:
            gone = render(request, "site/no_invitation.html", status=HTTPStatus.NOT_FOUND)
            raise ImmediateHttpResponse(gone) from late
        if invited is not None and invited.email.lower() == saved.email.lower():
            self.stash_verified_email(request, saved.email)
        del request.session[INVITED]
        return saved

    def send_mail(self, template_prefix: str, email: str, context: dict[str, Any]) -> None:
        """Send a mail about an account; where the server does not take it, say so and go on."""
        try:
            super().send_mail(template_prefix, email, context)
        except NOT_SENT as error:
            LOG.warning("A mail did not go out: %s: %s", type(error).__name__, error)
            messages.error(
                self.request, "No mail goes out at the moment. Tell whoever runs the site."
            )

    def get_signup_redirect_url(self, request: HttpRequest) -> str:
        """Return where somebody goes who has just made an account."""
        return first_page(cast("Account", request.user))

    def get_login_redirect_url(self, request: HttpRequest) -> str:
        """Return where somebody goes who signs in and asked for no page."""
        return first_page(cast("Account", request.user))

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


class PasskeyAdapter(DefaultMFAAdapter):  # type: ignore[misc]  # allauth ships no types
    """Names passkeys in this site's words."""

    def generate_authenticator_name(
        self,
        user: Account,
        type: Authenticator.Type,  # noqa: A002 - as allauth has it
    ) -> str:
        """Return the name that a new one has until its owner gives it another."""
        number = Authenticator.objects.filter(user=user, type=type).count() + 1
        return "Passkey" if number == 1 else f"Passkey {number}"
