"""Writes down what a team paid of a fee, or is let off, and takes such a record out again."""

from decimal import Decimal

from wholeball.files.any_cell import neutral
from wholeball.files.fees import COLUMNS, FILE
from wholeball.files.fewer_rows import without_row
from wholeball.files.folder import read_folder
from wholeball.files.more_rows import with_rows
from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.reports.fee_words import money
from wholeball.season.fees import Due, FeeEntry, fees_of
from wholeball.usecases.named_rows import text_of


def settle_fee(record: LeagueRecord, new: FeeEntry) -> Decimal:
    """Keep what was paid or waived of the fee for a game, and return what is left of it then.

    Raises:
        InputFaults: it is more than is left, or the season would have a fault; nothing was
            written.
        WholeballError: the game costs the team nothing, or it cannot be kept.
    """
    with record.held():
        read = read_folder(record)
        due = fees_of(read.season, read.fees).due(new.team, new.game)
        if due is None:
            raise WholeballError(
                f"Game {new.game} costs {new.team} nothing.",
                fix="Nothing was written. Look at what is due now.",
                code="gone",
            )
        _refuse_beyond(due, new.amount)
        text = with_rows(text_of(record, FILE), [_cells(new)], columns=COLUMNS)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})
    return due.open - new.amount


def drop_fee_entry(record: LeagueRecord, row: int) -> None:
    """Take out what is written down as paid or waived on a row.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: it is not there any more.
    """
    with record.held():
        text = without_row(text_of(record, FILE), row, what="This payment or waiver")
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def _refuse_beyond(due: Due, amount: Decimal) -> None:
    if amount <= due.open:
        return
    left = money(due.open)
    says = (
        f"{money(amount)} is more than the {left} that {due.team} has left to pay for game {due.game}."
        if due.open
        else f"{due.team} has nothing left to pay for game {due.game}."
    )
    cure = f"Write at most {left}, and give the rest back." if due.open else "Give it back."
    fault = Fault(
        code="overpaid",
        place=Place(file=FILE, column="amount"),
        says=says,
        value=f"{amount:f}",
        cure=cure,
    )
    raise InputFaults([fault])


def _cells(new: FeeEntry) -> tuple[str, ...]:
    told = {
        "date": f"{new.day}",
        "team": neutral(new.team),
        "game": neutral(new.game),
        "what": new.what,
        "amount": f"{new.amount:f}",
        "why": neutral(new.why),
    }
    return tuple(told[one.name] for one in COLUMNS)
