"""Mail goes by the server that the environment names, and where none is named pages say so.

The oracle of sending is a server of the test's own that speaks as RFC 5321 says, section 3.
"""

import socketserver
import subprocess
import sys
import threading
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

import pytest
from django.core.mail import EmailMessage
from django.test import Client

from cases.desk_season import HERE, a_desk
from cases.served_site import environment_of
from wholeball.kernel.faults import WholeballError
from wholeball.site.invitations import first_link
from wholeball.site.mail_server import MailServer, mail_server
from wholeball.store.models import Account

SENDS: Final = (
    "import django; django.setup()\n"
    "from django.core.mail import send_mail\n"
    "send_mail('Tonight is off', 'The field is wet.', None, ['noor@league.invalid'])\n"
)
HOST: Final = {"WHOLEBALL_MAIL_HOST": "mail.invalid", "WHOLEBALL_MAIL_FROM": "us@mail.invalid"}
STAYS: Final = "No mail server is named"


class _Heard(socketserver.StreamRequestHandler):
    """Answers one client as a mail server does, and keeps its lines."""

    def handle(self) -> None:
        heard: list[str] = self.server.heard  # type: ignore[attr-defined]
        self._says("220 ready")
        is_text = False
        for raw in self.rfile:
            line = raw.decode().rstrip("\r\n")
            heard.append(line)
            if is_text:
                is_text = line != "."
                if not is_text:
                    self._says("250 kept")
            elif line.upper() == "DATA":
                is_text = True
                self._says("354 go on")
            elif line.upper() == "QUIT":
                self._says("221 bye")
                return
            else:
                self._says("250 ok")

    def _says(self, line: str) -> None:
        self.wfile.write(f"{line}\r\n".encode())


@pytest.fixture
def server() -> Iterator[socketserver.TCPServer]:
    with socketserver.TCPServer(("127.0.0.1", 0), _Heard) as server:
        server.heard = []  # type: ignore[attr-defined]
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        yield server
        server.shutdown()


def test_a_named_server_is_given_the_message(
    tmp_path: Path, server: socketserver.TCPServer
) -> None:
    done = sent(
        tmp_path,
        WHOLEBALL_MAIL_HOST="127.0.0.1",
        WHOLEBALL_MAIL_PORT=str(server.server_address[1]),
        WHOLEBALL_MAIL_TLS="off",
        WHOLEBALL_MAIL_FROM="league@harrowfen.example",
    )
    assert done.returncode == 0, done.stderr
    heard = server.heard  # type: ignore[attr-defined]
    envelope = [line.partition(" ")[0] for line in heard[1:3]]
    assert envelope == ["mail", "rcpt"]
    assert "league@harrowfen.example" in heard[1]
    assert "noor@league.invalid" in heard[2]
    assert "Subject: Tonight is off" in heard
    assert "The field is wet." in heard
    assert not (tmp_path / "mail").exists()


def test_without_a_server_a_message_is_a_file_of_the_data_folder(tmp_path: Path) -> None:
    done = sent(tmp_path)
    assert done.returncode == 0, done.stderr
    (kept,) = (tmp_path / "mail").iterdir()
    assert "The field is wet." in kept.read_text()


def sent(data: Path, **given: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 - our own module
        [sys.executable, "-c", SENDS],
        env=environment_of(data, DJANGO_SETTINGS_MODULE="wholeball.site.settings", **given),
        capture_output=True,
        text=True,
        check=False,
    )


def test_a_server_is_taken_with_encryption_unless_that_is_switched_off() -> None:
    assert mail_server({}) is None
    named = MailServer(
        host="mail.invalid",
        port=587,
        user="",
        password="",
        tls="starttls",
        sender="us@mail.invalid",
    )
    assert mail_server(HOST) == named
    port = {name: mail_server({**HOST, "WHOLEBALL_MAIL_TLS": name}) for name in ("tls", "off")}
    assert {name: one and (one.tls, one.port) for name, one in port.items()} == {
        "tls": ("tls", 465),
        "off": ("off", 25),
    }


@pytest.mark.parametrize(
    ("given", "names"),
    [
        ({"WHOLEBALL_MAIL_PORT": "0"}, "WHOLEBALL_MAIL_PORT is '0'"),
        ({"WHOLEBALL_MAIL_PORT": "65536"}, "WHOLEBALL_MAIL_PORT is '65536'"),
        ({"WHOLEBALL_MAIL_PORT": "\u0661"}, "WHOLEBALL_MAIL_PORT is '\u0661'"),
        ({"WHOLEBALL_MAIL_TLS": "maybe"}, "WHOLEBALL_MAIL_TLS is 'maybe'"),
        ({"WHOLEBALL_MAIL_FROM": ""}, "WHOLEBALL_MAIL_FROM is ''"),
        ({"WHOLEBALL_MAIL_FROM": "us\nBcc: a@b"}, "WHOLEBALL_MAIL_FROM is "),
        ({"WHOLEBALL_MAIL_USER": "us"}, "WHOLEBALL_MAIL_PASSWORD is missing"),
        (
            {
                "WHOLEBALL_MAIL_USER": "us",
                "WHOLEBALL_MAIL_PASSWORD": "secret-7",
                "WHOLEBALL_MAIL_TLS": "off",
            },
            "WHOLEBALL_MAIL_TLS is 'off', so the password could be read on the way",
        ),
    ],
)
def test_what_cannot_be_used_is_refused_with_its_name_and_never_the_password(
    given: dict[str, str], names: str
) -> None:
    with pytest.raises(WholeballError) as refused:
        mail_server({**HOST, **given})
    assert names in refused.value.says
    assert refused.value.code == "config"
    assert "secret-7" not in str(refused.value)


def test_a_setting_without_a_server_is_refused_too() -> None:
    with pytest.raises(WholeballError, match="WHOLEBALL_MAIL_HOST is missing"):
        mail_server({"WHOLEBALL_MAIL_USER": "us"})


def test_the_password_of_the_server_is_in_no_text_about_it() -> None:
    given = {"WHOLEBALL_MAIL_USER": "us", "WHOLEBALL_MAIL_PASSWORD": "secret-7"}
    assert "secret-7" not in repr(mail_server({**HOST, **given}))


@pytest.mark.django_db
def test_pages_that_send_say_where_mail_stays(tmp_path: Path, settings: object) -> None:
    desk = a_desk(tmp_path)

    def said() -> tuple[bool, bool]:
        messages = desk.people["coordinator"].get(f"{HERE}messages/").content.decode()
        forgot = Client().get("/accounts/password/reset/").content.decode()
        return STAYS in messages, STAYS in forgot

    settings.SENDS_MAIL = False  # type: ignore[attr-defined]
    assert said() == (True, True)
    settings.SENDS_MAIL = True  # type: ignore[attr-defined]
    assert said() == (False, False)


@pytest.mark.django_db
def test_a_server_that_takes_no_mail_keeps_nobody_out_and_is_told(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    """The first account of a site is made before anybody can mend its mail."""

    def refused(_: EmailMessage) -> int:
        raise ConnectionRefusedError(111, "Connection refused")

    monkeypatch.setattr(EmailMessage, "send", refused)
    client = Client()
    client.post(f"/invitation/{first_link(datetime.now(UTC))}/")
    password = "a meadow in October"  # noqa: S105 - of an account that lives for one test
    typed = {"email": "ines@league.invalid", "password1": password, "password2": password}
    told = client.post("/accounts/signup/", typed, follow=True)
    assert told.status_code == 200
    assert Account.objects.filter(email="ines@league.invalid").exists()
    assert "No mail goes out at the moment." in told.content.decode()
    reset = Client().post("/accounts/password/reset/", {"email": typed["email"]}, follow=True)
    assert "No mail goes out at the moment." in reset.content.decode()
    assert "A mail did not go out: ConnectionRefusedError" in caplog.text
