"""Draws lots in two steps: commit before the event, reveal after it."""

from collections.abc import Sequence

from wholeball.files.draws import read_commitment, read_draw, write_commitment, write_draw
from wholeball.league.record import LeagueRecord
from wholeball.season.draw import Commitment, Draw, commit, draw, verify


def commit_to_draw(
    record: LeagueRecord, *, label: str, participants: Sequence[str], secret: str
) -> Commitment:
    """Write the files of a new draw into a new folder and return what to publish.

    Raises:
        WholeballError: the names do not do, or the folder is there already.
    """
    commitment = commit(label, participants, secret)
    write_commitment(record, commitment, secret)
    return commitment


def reveal_draw(record: LeagueRecord, *, public: str) -> Draw:
    """Draw, write what anyone can check, and return the order.

    Raises:
        WholeballError: the folder holds no draw, or its secret is not the one committed to.
    """
    commitment, secret = read_commitment(record)
    drawn = draw(commitment, secret=secret, public=public)
    write_draw(record, commitment, drawn)
    return drawn


def check_draw(record: LeagueRecord, file: str) -> tuple[str, ...]:
    """Return everything wrong with a published draw; empty is a pass.

    Raises:
        WholeballError: the file is missing or does not hold what it should.
    """
    commitment, drawn, participants_hash = read_draw(record, file)
    return verify(commitment, drawn, participants_hash=participants_hash)


def published_before(record: LeagueRecord, file: str) -> tuple[str, str]:
    """Return the commit and the participants' hash of a draw, to hold against what was published.

    Raises:
        WholeballError: the file is missing or does not hold what it should.
    """
    commitment, _, participants_hash = read_draw(record, file)
    return commitment.commit, participants_hash
