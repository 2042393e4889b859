"""Reads by which server mail is sent; where none is named, mail stays as files."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, get_args

from wholeball.kernel.faults import WholeballError

PREFIX: Final = "WHOLEBALL_MAIL_"
MOST_PORT: Final = 65_535
Tls = Literal["starttls", "tls", "off"]
PORTS: Final[Mapping[Tls, int]] = {"starttls": 587, "tls": 465, "off": 25}
"""The ports of submission (RFC 6409, RFC 8314), and of mail itself (RFC 5321)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MailServer:
    """A server, who signs in there, and whom messages are from."""

    host: str
    port: int
    user: str
    password: str = field(repr=False)
    tls: Tls
    sender: str


def mail_server(given: Mapping[str, str]) -> MailServer | None:
    """Return the server that the environment names, or None where it names none.

    Raises:
        WholeballError: something about it cannot be used; no password is told.
    """
    said = {
        name.removeprefix(PREFIX): value.strip()
        for name, value in given.items()
        if name.startswith(PREFIX) and value.strip()
    }
    if not said:
        return None
    if "HOST" not in said:
        raise _refused("HOST is missing", "Name the server, or leave out every other of them.")
    tls = _tls(said.get("TLS", "starttls"))
    server = MailServer(
        host=said["HOST"],
        port=_port(said.get("PORT", str(PORTS[tls]))),
        user=said.get("USER", ""),
        password=said.get("PASSWORD", ""),
        tls=tls,
        sender=_sender(said.get("FROM", "")),
    )
    _refuse_open_password(server)
    return server


def _tls(text: str) -> Tls:
    for one in get_args(Tls):
        if text.lower() == one:
            return one  # type: ignore[no-any-return]  # of get_args
    raise _refused(f"TLS is {text!r}", f"Write one of: {', '.join(get_args(Tls))}.")


def _port(text: str) -> int:
    if text.isascii() and text.isdecimal() and 1 <= int(text) <= MOST_PORT:
        return int(text)
    raise _refused(f"PORT is {text!r}", f"Write a number, 1 to {MOST_PORT}, or leave it out.")


def _sender(text: str) -> str:
    if "@" in text and text.isprintable():
        return text
    raise _refused(f"FROM is {text!r}", "Write the address that messages are from.")


def _refuse_open_password(server: MailServer) -> None:
    if bool(server.user) != bool(server.password):
        lacks = "PASSWORD" if server.user else "USER"
        raise _refused(f"{lacks} is missing", "Give user and password, or neither.")
    if server.password and server.tls == "off":
        raise _refused(
            "TLS is 'off', so the password could be read on the way",
            "Write starttls or tls, or leave out user and password.",
        )


def _refused(says: str, fix: str) -> WholeballError:
    return WholeballError(f"{PREFIX}{says}.", fix=fix, code="config")
