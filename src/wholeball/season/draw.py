"""Draws lots so that anyone can check them: commit first, reveal later, compute the rest.

Before the event the organiser publishes a `Commitment`: the label, the participants and the
SHA-256 of a secret. At the event everyone sees a public text that nobody controls, such as
the numbers two captains call out. The secret is then revealed. The seed is the SHA-256 of the
secret, "|public:" and the public text, in UTF-8; number i is the HMAC-SHA256, keyed with
the seed's bytes, of the label, "|" and i in decimal (from 0), read as a big-endian number.
The participants, sorted, are shuffled from the last place down (Fisher-Yates), numbers that
would favour some places being passed over.

A draw that is made again needs another label; both are kept.
"""

import hashlib
import hmac
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import count

from wholeball.kernel.canonical import Plain
from wholeball.kernel.faults import WholeballError

SPAN = 2**256
"""How many numbers an HMAC-SHA256 can be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Commitment:
    """What is published before the event. Participants are sorted; `commit` is hexadecimal."""

    label: str
    participants: tuple[str, ...]
    commit: str

    @property
    def participants_hash(self) -> str:
        """SHA-256 of the participants: UTF-8, sorted, one a line, no newline at the end."""
        return _sha256("\n".join(self.participants))


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """What is published after it. `order` holds the participants, first drawn first."""

    label: str
    participants: tuple[str, ...]
    secret: str
    public: str
    seed: str
    order: tuple[str, ...]


def commit(label: str, participants: Iterable[str], secret: str) -> Commitment:
    """Return what to publish before the event.

    Raises:
        WholeballError: the label or the secret is empty, or the participants are fewer than
            two, not all different, empty or on more than one line.
    """
    names = sorted(participants)
    _refuse(label, names, secret)
    return Commitment(label=label, participants=tuple(names), commit=_sha256(secret))


def draw(commitment: Commitment, *, secret: str, public: str) -> Draw:
    """Return the draw; the same texts always give the same order.

    Raises:
        WholeballError: the secret is not the one committed to, or the public text is empty.
    """
    if _sha256(secret) != commitment.commit:
        raise WholeballError(
            f"The secret is not the one that draw {commitment.label} was committed to.",
            fix="Use the secret whose SHA-256 was published.",
            code="wrong_secret",
        )
    if not public or not _is_text(public):
        raise WholeballError(
            f"Draw {commitment.label} has no public text in UTF-8.",
            fix="Give the text that everyone saw, such as the numbers the captains called.",
            code="no_public_text",
        )
    names = commitment.participants
    seed = _sha256(_seed_text(secret, public))
    places = permutation(bytes.fromhex(seed), commitment.label, len(names))
    return Draw(
        label=commitment.label,
        participants=names,
        secret=secret,
        public=public,
        seed=seed,
        order=tuple(names[place] for place in places),
    )


def verify(
    commitment: Commitment, drawn: Draw, *, participants_hash: str | None = None
) -> tuple[str, ...]:
    """Return everything that is wrong with a draw, in words; empty is a pass.

    `participants_hash` is the one that was published; None where only a Commitment is at hand.
    """
    names = commitment.participants
    checks = (
        (drawn.label == commitment.label, "The label is not the one committed to."),
        (list(names) == sorted(set(names)), "The participants are not sorted and different."),
        (drawn.participants == names, "The participants are not those committed to."),
        (
            participants_hash in (None, commitment.participants_hash),
            "The participants are not those of participants_hash.",
        ),
        (_sha256(drawn.secret) == commitment.commit, "The secret does not match the commit."),
        (
            drawn.seed == _sha256(_seed_text(drawn.secret, drawn.public)),
            "The seed is not that of secret and public text.",
        ),
        (drawn.order == _recomputed(drawn), "The order is not the one the seed gives."),
    )
    return tuple(says for holds, says in checks if not holds)


def published(commitment: Commitment, drawn: Draw) -> Plain:
    """Return what a captain's verifier reads, to be written as JSON."""
    return {
        "commitment": {
            "label": commitment.label,
            "participants": list(commitment.participants),
            "participants_hash": commitment.participants_hash,
            "commit": commitment.commit,
        },
        "draw": {
            "label": drawn.label,
            "participants": list(drawn.participants),
            "secret": drawn.secret,
            "public": drawn.public,
            "seed": drawn.seed,
            "order": list(drawn.order),
        },
    }


def permutation(seed: bytes, label: str, n: int) -> tuple[int, ...]:
    """Return 0 to n - 1 in the order drawn."""
    numbers = _numbers(seed, label)
    places = list(range(n))
    for last in range(n - 1, 0, -1):
        chosen = below(numbers, last + 1)
        places[last], places[chosen] = places[chosen], places[last]
    return tuple(places)


def below(numbers: Iterator[int], n: int) -> int:
    """Return the next number from 0 to n - 1, each as likely as any other.

    Numbers past the last whole multiple of n are passed over, so that no remainder is favoured.
    """
    fair = SPAN - SPAN % n
    return next(number for number in numbers if number < fair) % n


def _numbers(seed: bytes, label: str) -> Iterator[int]:
    for counter in count():
        message = f"{label}|{counter}".encode()
        yield int.from_bytes(hmac.digest(seed, message, "sha256"), "big")


def _recomputed(drawn: Draw) -> tuple[str, ...]:
    seed = _sha256(_seed_text(drawn.secret, drawn.public))
    places = permutation(bytes.fromhex(seed), drawn.label, len(drawn.participants))
    return tuple(drawn.participants[place] for place in places)


def _seed_text(secret: str, public: str) -> str:
    return f"{secret}|public:{public}"


def _sha256(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _is_text(text: str) -> bool:
    """Tell whether a text can be written; an argument in another encoding cannot."""
    return not any("\ud800" <= character <= "\udfff" for character in text)


def _refuse(label: str, names: list[str], secret: str) -> None:
    for text, what in ((label, "label"), (secret, "secret")):
        if not text:
            raise WholeballError(
                f"The draw has no {what}.", fix=f"Give a {what}.", code=f"no_{what}"
            )
    if len(set(names)) != len(names) or len(names) < 2:
        raise WholeballError(
            f"Draw {label} is among {len(names)} names, not all different or too few.",
            fix="Give two or more different participants.",
            code="bad_participants",
        )
    if not all(_is_text(text) for text in (label, secret, *names)):
        raise WholeballError(
            f"Draw {label} is given something that is no text in UTF-8.",
            fix="Type it again in a terminal that is set to UTF-8.",
            code="encoding",
        )
    odd = [name for name in names if name.splitlines() != [name]]
    if odd:
        raise WholeballError(
            f"Draw {label}: {odd[0]!r} is not one line of text.",
            fix="Give every participant a name on one line.",
            code="bad_participants",
        )
