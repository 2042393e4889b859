"""Serves the site from several processes, on PostgreSQL."""

import logging
from typing import Any, Final

from gunicorn.app.base import BaseApplication

from wholeball.site.masking import HideWords

PROCESSES: Final = 2
THREADS: Final = 4
LOGGERS: Final = ("gunicorn.error", "gunicorn.access")
"""They write by themselves, past the handler that hides what opens something."""


class _Site(BaseApplication):  # type: ignore[misc]  # gunicorn ships no types
    """The site, as gunicorn asks for it."""

    def __init__(self, address: str) -> None:
        self.address = address
        super().__init__()

    def load_config(self) -> None:
        told = {
            "bind": self.address,
            "workers": PROCESSES,
            "worker_class": "gthread",
            "threads": THREADS,
            "control_socket_disable": True,  # it would lie in the home folder, and is not used
        }
        for name, value in told.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        from wholeball.site.wsgi import application  # noqa: PLC0415 - each process has its own

        return application


def run(host: str, port: int) -> None:
    """Serve until stopped."""
    site_at(host, port).run()


def site_at(host: str, port: int) -> BaseApplication:
    """Return the site as gunicorn serves it; its own loggers hide what opens something."""
    for name in LOGGERS:
        logging.getLogger(name).addFilter(HideWords())
    return _Site(f"{host}:{port}")
