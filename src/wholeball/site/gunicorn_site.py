"""Serves the site from several processes, on PostgreSQL."""

from typing import Any, Final

from gunicorn.app.base import BaseApplication

PROCESSES: Final = 2
THREADS: Final = 4


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
        }
        for name, value in told.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        from wholeball.site.wsgi import application  # noqa: PLC0415 - each process has its own

        return application


def run(host: str, port: int) -> None:
    """Serve until stopped."""
    _Site(f"{host}:{port}").run()
