"""Finds the reports of incidents that the coordinator at a desk has not read yet."""

from collections.abc import Mapping

from wholeball.desk.views.access import Desk
from wholeball.files.incident_reports import FOLDER
from wholeball.kernel.identity import GameId
from wholeball.store.queries.readings import seen_in
from wholeball.usecases.unread_reports import unread_reports


def unread(desk: Desk) -> Mapping[GameId, int]:
    """Return how many reports about each game are not read yet; none for anybody else.

    The audit is asked only where there are reports. At most 1 query more.
    """
    record = desk.read()
    if not desk.is_coordinator or not record.names(FOLDER):
        return {}
    return unread_reports(record, seen_in(desk.season, desk.account, part=" about game "))
