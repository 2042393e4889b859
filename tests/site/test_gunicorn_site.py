"""What gunicorn is told: several processes, no socket in the home folder, no word in its logs."""

import io
import logging
from collections.abc import Iterator

import pytest

gunicorn_site = pytest.importorskip("wholeball.site.gunicorn_site")
WORD = "q7Zt-_x0"


@pytest.fixture(autouse=True)
def _loggers_as_before() -> Iterator[None]:
    every = [logging.getLogger(name) for name in gunicorn_site.LOGGERS]
    before = [(one, one.filters[:], one.handlers[:], one.propagate) for one in every]
    yield
    for one, filters, handlers, propagate in before:
        one.filters[:], one.handlers[:], one.propagate = filters, handlers, propagate


def test_no_control_socket_is_opened_and_requests_are_not_logged() -> None:
    told = gunicorn_site.site_at("127.0.0.1", 8000).cfg
    assert (told.control_socket_disable, told.workers, told.threads) == (True, 2, 4)
    assert told.accesslog is None


def test_gunicorns_own_loggers_hide_the_words_of_links() -> None:
    site = gunicorn_site.site_at("127.0.0.1", 8000)
    logger = site.cfg.logger_class(site.cfg)
    heard = io.StringIO()
    for handler in logger.error_log.handlers:
        handler.setStream(heard)
    logger.error("Error handling request %s", f"/invitation/{WORD}/")
    logger.error("Error handling request %s", f"/feeds/{WORD}.ics")
    assert WORD not in heard.getvalue()
    assert heard.getvalue().count("[hidden]") == 2
