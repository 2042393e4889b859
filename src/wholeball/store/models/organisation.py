"""Is who runs seasons, a season, and who may do what in it."""

from typing import ClassVar, Final

from django.db import models
from django.db.models import Q

from wholeball.store.models.account import Account

ROLES: Final = ("coordinator", "supervisor", "official", "scorekeeper", "captain", "player")
_OF_A_SEASON: Final = ("official", "captain", "player")
RESERVED: Final = (
    "account",
    "accounts",
    "desk",
    "feeds",
    "invitation",
    "me",
    "start",
    "static",
    "study",
)
"""The first words of the site's own addresses, by which no organisation can be reached."""


class Organisation(models.Model):
    """Who runs seasons; every other row belongs to one."""

    name = models.CharField(max_length=120)
    slug = models.SlugField(max_length=60)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["name", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["slug"], name="store_organisation_slug"),
            models.CheckConstraint(condition=~Q(name=""), name="store_organisation_named"),
            models.CheckConstraint(
                condition=~Q(slug__in=RESERVED), name="store_organisation_not_reserved"
            ),
        ]

    def __str__(self) -> str:
        """Return the name."""
        return self.name


class Season(models.Model):
    """One season: its facts are rows that point here.

    `version` goes up by one with each write, and each is hashed onto `head`: of two states of a
    season that have one head, the facts are the same. `log_head` is a digest of every log entry
    in the order in which they came in: each new one is hashed onto it.
    """

    organisation = models.ForeignKey(Organisation, on_delete=models.PROTECT)
    slug = models.SlugField(max_length=60)
    name = models.CharField(max_length=120)
    version = models.PositiveBigIntegerField(default=0)
    log_head = models.CharField(max_length=64, default="", blank=True)
    head = models.CharField(max_length=64, default="", blank=True)
    is_public = models.BooleanField(default=False)

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["-pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["organisation", "slug"], name="store_season_slug"),
            models.CheckConstraint(condition=~Q(name=""), name="store_season_named"),
        ]

    def __str__(self) -> str:
        """Return the name."""
        return self.name


class Membership(models.Model):
    """A role that an account has: in all seasons of an organisation, or in one.

    `team` names the team of a captain or player as teams.csv has it; `person` is the name of an
    official as officials.csv has it, or the code of a player as rosters.csv has it.
    """

    organisation = models.ForeignKey(Organisation, on_delete=models.CASCADE)
    account = models.ForeignKey(Account, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=20, choices=[(one, one) for one in ROLES])
    season = models.ForeignKey(Season, on_delete=models.CASCADE, null=True, blank=True)
    team = models.CharField(max_length=80, blank=True, default="")
    person = models.CharField(max_length=80, blank=True, default="")

    class Meta:
        app_label = "store"
        ordering: ClassVar = ["organisation", "account", "role", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["organisation", "account", "role", "season", "team", "person"],
                name="store_membership_once_a_season",
            ),
            models.UniqueConstraint(
                fields=["organisation", "account", "role", "team", "person"],
                condition=Q(season__isnull=True),
                name="store_membership_once_in_every",
            ),
            models.CheckConstraint(
                condition=Q(role__in=ROLES), name="store_membership_known_role"
            ),
            models.CheckConstraint(
                condition=~Q(role__in=_OF_A_SEASON) | Q(season__isnull=False),
                name="store_membership_of_a_season",
            ),
            models.CheckConstraint(
                condition=~Q(role="captain") | ~Q(team=""),
                name="store_membership_captains_team",
            ),
            models.CheckConstraint(
                condition=~Q(role="official") | ~Q(person=""),
                name="store_membership_officials_name",
            ),
        ]
