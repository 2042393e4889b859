"""Tests that no word that opens something stands in what is logged or noted."""

import io
import logging
import logging.config
from collections.abc import Iterator
from typing import Any

import pytest
from django.conf import settings
from django.test import Client

from wholeball.site.masking import HIDDEN, masked

WORD = "q7Zt-_x0"
ADDRESSES = (
    f"/invitation/{WORD}/",
    f"/feeds/{WORD}.ics",
    f"/accounts/password/reset/key/1-{WORD}/",
    f"/accounts/login/?next=/invitation/{WORD}/",
    f"/accounts/login/?next=%2Finvitation%2F{WORD}%2F",
    f"https://league.example/invitation/{WORD}",
)


@pytest.mark.parametrize("address", ADDRESSES)
def test_no_address_that_lets_somebody_in_stays_readable(address: str) -> None:
    told = masked(f'"GET {address} HTTP/1.1" 404')
    assert WORD not in told
    assert HIDDEN in told
    assert told.endswith(' HTTP/1.1" 404')


@pytest.mark.parametrize("address", ["/invitation/", "/harrow-fen/autumn/teams/Ash/", "/feeds"])
def test_other_addresses_stay_as_they_are(address: str) -> None:
    assert masked(f"GET {address} 200") == f"GET {address} 200"


@pytest.fixture
def heard() -> Iterator[io.StringIO]:
    """What the site's own handler writes, whichever logger it comes from."""
    stream = io.StringIO()
    told: dict[str, Any] = settings.LOGGING
    console = {**told["handlers"]["console"], "stream": stream}
    before = logging.getLogger().handlers[:]
    logging.config.dictConfig({**told, "handlers": {"console": console}})
    yield stream
    logging.config.dictConfig(told)
    logging.getLogger().handlers[:] = before


@pytest.mark.parametrize(
    "name", ["waitress", "waitress.queue", "django.request", "django.server", "wholeball.site"]
)
def test_every_logger_of_the_site_hides_words_in_message_parts_and_traceback(
    heard: io.StringIO, name: str
) -> None:
    log = logging.getLogger(name)
    log.error("in the message: /feeds/%s.ics", WORD)
    log.error("in a part: %s", f"/invitation/{WORD}/")
    log.error("in a mapping: %(path)s", {"path": f"/invitation/{WORD}/"})
    gone = f"/feeds/{WORD}.ics"
    log.error("in a traceback", exc_info=RuntimeError(gone))
    told = heard.getvalue()
    assert told.count(HIDDEN) == 4
    assert WORD not in told


@pytest.mark.django_db
def test_a_page_that_fails_logs_where_without_the_word(
    heard: io.StringIO, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(_: str) -> None:
        message = "broken"
        raise RuntimeError(message)

    monkeypatch.setattr("wholeball.noticeboard.views.feeds.serve_feed", fails)
    client = Client(raise_request_exception=False)
    assert client.get(f"/feeds/{WORD}.ics").status_code == 500
    assert "RuntimeError: broken" in heard.getvalue()
    assert f"/feeds/{HIDDEN}" in heard.getvalue()
    assert WORD not in heard.getvalue()
