"""Asks what the queue of tasks is at."""

from django_tasks_db.models import DBTaskResult


def tasks_under_way() -> int:
    """Return how many tasks run or wait for their turn. 2 queries."""
    every = DBTaskResult.objects.all()
    return every.running().count() + every.ready().count()
