"""Works off the tasks of the database's queue, in a thread beside the pages."""

import logging
import threading
from datetime import datetime, timedelta
from typing import Final

from django.db import DatabaseError, close_old_connections, connection
from django_tasks.base import TaskResultStatus
from django_tasks_db.management.commands.db_worker import Worker
from django_tasks_db.models import DBTaskResult

LOG: Final = logging.getLogger(__name__)
PAUSE: Final = 1.0
"""Seconds between looks into an empty queue."""
LONGEST: Final = timedelta(hours=2)
"""What has run for longer was left behind by a worker that is gone."""
LEFT: Final = "wholeball.site.worker.LeftBehind"


def give_up_left_tasks(now: datetime, *, is_only_worker: bool) -> int:
    """Mark as failed what a worker that is gone left running, and return how many. 1 query.

    Where this is the only worker, that is all that runs: it has not begun yet. They are not run
    again by themselves, because a person may have gone on without them.
    """
    left = DBTaskResult.objects.running()
    if not is_only_worker:
        left = left.filter(started_at__lt=now - LONGEST)
    return left.update(
        status=TaskResultStatus.FAILED,
        finished_at=now,
        exception_class_path=LEFT,
        traceback="The site stopped while this ran. Start it again.",
    )


def start_worker() -> threading.Thread:
    """Start working off tasks in a thread that ends with the process."""
    thread = threading.Thread(target=_work, name="wholeball-tasks", daemon=True)
    thread.start()
    return thread


def _work() -> None:
    """Work off tasks for ever; where the database fails, log it and begin again."""
    while True:
        try:
            _worker().run()
        except DatabaseError:
            LOG.exception("The worker of tasks broke off, and starts again.")
            close_old_connections()
            threading.Event().wait(PAUSE)
        finally:
            connection.close()


def _worker() -> Worker:
    return Worker(
        queue_names=["*"],
        excluded_queue_names=[],
        interval=PAUSE,
        batch=False,
        backend_name="default",
        startup_delay=False,
        max_tasks=None,
        worker_id=f"site-{threading.get_ident()}",
    )
