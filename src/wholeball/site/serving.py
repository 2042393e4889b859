"""Starts the site: it is made ready, checked, and served until somebody stops it."""

import sys
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Final

from django.core.management import call_command
from django.db import connection, connections
from waitress import create_server

from wholeball.kernel.faults import WholeballError
from wholeball.site import checks
from wholeball.site.bounds import MOST_BYTES
from wholeball.site.environment import Environment
from wholeball.site.invitations import first_link
from wholeball.site.newest import newest_entry
from wholeball.site.worker import give_up_left_tasks, start_worker
from wholeball.store.forgetting import forget_private

THREADS: Final = 4


def make_ready(here: Environment, tell: Callable[[str], None]) -> None:
    """Bring database and static files up to date, once nothing speaks against it.

    Raises:
        WholeballError: something does; it is said before anything is changed.
    """
    refuse_to_start(here)
    call_command("migrate", verbosity=0, interactive=False)
    if not here.is_sqlite:
        call_command("createcachetable", verbosity=0)
    call_command("collectstatic", verbosity=0, interactive=False)
    checks.refuse(checks.trigger_findings(connection))
    for finding in checks.clock_findings(newest_entry(), datetime.now(UTC)):
        tell(str(finding))


def refuse_to_start(here: Environment) -> None:
    """Say all that forbids a start.

    Raises:
        WholeballError: the secret, the disk or the database is not fit.
    """
    found = [
        *checks.secret_findings(here),
        *checks.debug_findings(here),
        *checks.id_key_findings(here),
    ]
    if here.is_sqlite and checks.MOUNTS.is_file():
        found += checks.share_findings(here.data, checks.MOUNTS.read_text("utf-8"))
    checks.refuse([*found, *checks.database_findings(connection)])


def serve(here: Environment, *, host: str, port: int) -> None:
    """Serve the site until it is stopped.

    Raises:
        WholeballError: the site is not fit to start, or the address is taken.
    """
    make_ready(here, lambda told: print(told, file=sys.stderr))
    now = datetime.now(UTC)
    forget_private(now)
    give_up_left_tasks(now, is_only_worker=here.is_sqlite)
    token = first_link(now)
    connections.close_all()
    run = _one_process(here, host, port) if here.is_sqlite else _several(host, port)
    address = f"http://{_spoken(host)}:{port}"
    start_worker()
    print(f"Wholeball is served at {address}/ (Ctrl-C stops it).")
    if token is not None:
        print(
            f"Nobody runs it yet. Open this link once to begin: {address}/invitation/{token}/"
        )
    sys.stdout.flush()
    run()


def _spoken(host: str) -> str:
    """Return a host as people open it: a browser makes passkeys for a name only."""
    return "localhost" if host == "127.0.0.1" else host


def _one_process(here: Environment, host: str, port: int) -> Callable[[], None]:
    """Return what runs waitress, which has taken its address."""
    from wholeball.site.wsgi import application  # noqa: PLC0415 - reads the static files now

    try:
        server = create_server(
            application,
            host=host,
            port=port,
            threads=THREADS,
            ident=None,
            max_request_body_size=MOST_BYTES,
            clear_untrusted_proxy_headers=here.proxies == 0,
        )
    except OSError as taken:
        raise WholeballError(
            f"{host}:{port} cannot be served: {taken.strerror}.",
            fix="Name another by --port or --host.",
            code="address",
        ) from taken
    run: Callable[[], None] = server.run
    return run


def _several(host: str, port: int) -> Callable[[], None]:
    """Return what runs gunicorn with several processes, which PostgreSQL allows."""
    try:
        from wholeball.site.gunicorn_site import run  # noqa: PLC0415 - an extra
    except ModuleNotFoundError as missing:
        raise WholeballError(
            "PostgreSQL is served by gunicorn, which is not installed.",
            fix="Write: pip install 'wholeball[postgres]'",
            code="config",
        ) from missing
    return lambda: run(host, port)
