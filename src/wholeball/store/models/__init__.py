"""Says which rows the database has."""

from wholeball.store.models.access import FeedToken, Invitation
from wholeball.store.models.account import Account
from wholeball.store.models.audit_row import AuditRow
from wholeball.store.models.derived import Derived
from wholeball.store.models.drafts import Draft, Search
from wholeball.store.models.log_entry import LogEntry
from wholeball.store.models.mail import Message, Occasion
from wholeball.store.models.organisation import Membership, Organisation, Season
from wholeball.store.models.row import Row
from wholeball.store.models.season_file import Change, Edition, ReplacedTimetable, SeasonFile
from wholeball.store.models.tables import TABLES

__all__ = [
    "TABLES",
    "Account",
    "AuditRow",
    "Change",
    "Derived",
    "Draft",
    "Edition",
    "FeedToken",
    "Invitation",
    "LogEntry",
    "Membership",
    "Message",
    "Occasion",
    "Organisation",
    "ReplacedTimetable",
    "Row",
    "Search",
    "Season",
    "SeasonFile",
]
