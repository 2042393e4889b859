"""Is a person who signs in; what they may do stands in their memberships."""

from typing import Any, ClassVar

from django.contrib.auth.models import AbstractBaseUser, BaseUserManager, PermissionsMixin
from django.db import models


class Accounts(BaseUserManager["Account"]):
    """Makes accounts, each named by an address of e-mail."""

    def create_user(self, email: str, password: str | None = None, **more: Any) -> "Account":
        """Return a new account; without a password it is reached by a link only."""
        account = self.model(email=self.normalize_email(email).lower(), **more)
        account.set_password(password)
        account.save(using=self._db)
        return account


class Account(AbstractBaseUser, PermissionsMixin):
    """A person who signs in."""

    email = models.EmailField(unique=True)
    name = models.CharField(max_length=120, blank=True)
    is_active = models.BooleanField(default=True)

    USERNAME_FIELD = "email"
    REQUIRED_FIELDS: ClassVar[list[str]] = []
    objects: ClassVar[Accounts] = Accounts()

    class Meta:
        app_label = "store"

    def __str__(self) -> str:
        """Return what the person is called, or else where they are reached."""
        return self.name or self.email
