"""What forfeits cost is shown team by team; payments and waivers are kept, and taken out again."""

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Final

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cases.fee_season import FILES, HEAD
from cases.people_season import write_people
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId, TeamId
from wholeball.season.fees import FeeEntry, Settling
from wholeball.usecases.settle_fees import drop_fee_entry, settle_fee
from wholeball.usecases.show_fees import DueShown, EntryShown, FeesShown, TeamFees, show_fees

ASH, BIRCH, ELDER = TeamId("Ash"), TeamId("Birch"), TeamId("Elder")
A2, E1 = GameId("A2"), GameId("E1")
DAY: Final = date(2026, 9, 20)
OF_BIRCH: Final = DueShown(
    team=BIRCH,
    game=A2,
    about="Game A2, Birch v Ash, Thursday 17 September",
    why="For a forfeit by ruling 1 (H 3.5). Birch came half an hour late.",
    amount="20",
    paid="0",
    waived="0",
    left="20",
    over="",
    left_exact=Decimal(20),
    entries=(),
)


@pytest.fixture
def record(tmp_path: Path) -> FolderRecord:
    return FolderRecord(write_people(tmp_path / "season", **FILES))


def text(record: FolderRecord) -> str:
    return (record.path / "fees.csv").read_text(encoding="utf-8")


def hold(record: FolderRecord, rows: str) -> None:
    (record.path / "fees.csv").write_text(HEAD + rows, encoding="utf-8")


def entry(
    amount: str,
    *,
    what: Settling = "paid",
    team: TeamId = BIRCH,
    game: GameId = A2,
    why: str = "",
) -> FeeEntry:
    return FeeEntry(day=DAY, team=team, game=game, what=what, amount=Decimal(amount), why=why)


def by_both(team: TeamId) -> DueShown:
    return DueShown(
        team=team,
        game=E1,
        about="Game E1, Elder v Ash",
        why="For a forfeit of both sides.",
        amount="20",
        paid="0",
        waived="0",
        left="20",
        over="",
        left_exact=Decimal(20),
        entries=(),
    )


def test_each_team_s_dues_are_shown_with_game_and_reason(record: FolderRecord) -> None:
    assert show_fees(record) == FeesShown(
        fee="20",
        ref="H 10.5",
        captain_waits=True,
        teams=(
            TeamFees(team=ELDER, dues=(by_both(ELDER),), left="20", owes=True),
            TeamFees(team=ASH, dues=(by_both(ASH),), left="20", owes=True),
            TeamFees(team=BIRCH, dues=(OF_BIRCH,), left="20", owes=True),
        ),
        idle=(),
        left="60",
    )


def test_parts_are_shown_by_their_rows_and_who_owes_nothing_comes_last(
    record: FolderRecord,
) -> None:
    hold(
        record,
        "2026-09-20,Elder,E1,paid,5,\n\n2026-09-21,Elder,E1,waived,15,first time\n"
        "2026-09-22,Birch,A2,paid,12.5,\n2026-09-23,Ash,A1,paid,20,\n",
    )
    shown = show_fees(record)
    assert [(one.team, one.left, one.owes) for one in shown.teams] == [
        (ASH, "20", True),
        (BIRCH, "7.50", True),
        (ELDER, "0", False),
    ]
    assert (shown.left, shown.owing) == ("27.50", 2)
    of_elder = shown.due("Elder", "E1")
    assert of_elder is not None
    assert of_elder.entries == (
        EntryShown(row=2, day=DAY, team=ELDER, game=E1, what="paid", amount="5", why=""),
        EntryShown(
            row=4,
            day=date(2026, 9, 21),
            team=ELDER,
            game=E1,
            what="waived",
            amount="15",
            why="first time",
        ),
    )
    assert [one.says for one in of_elder.entries] == [
        "5 paid on Sunday 20 September",
        "15 waived on Monday 21 September",
    ]
    assert [(one.row, one.team, one.game) for one in shown.idle] == [(6, ASH, GameId("A1"))]
    assert (shown.due("Ash", "A1"), shown.due("Nobody", "E1")) == (None, None)


def test_a_rulebook_without_a_fee_has_nothing_due_and_shows_what_was_paid_all_the_same(
    tmp_path: Path,
) -> None:
    files = {name: told for name, told in FILES.items() if name != "rules"}
    record = FolderRecord(write_people(tmp_path / "season", **files))
    hold(record, "2026-09-22,Birch,A2,paid,12.5,\n")
    shown = show_fees(record)
    assert (shown.fee, shown.teams, shown.left) == ("", (), "0")
    assert [one.says for one in shown.idle] == ["12.50 paid on Tuesday 22 September"]


def test_a_default_beyond_those_allowed_is_told_as_what_it_is(tmp_path: Path) -> None:
    allowed = (
        '[forfeit.default]\nallowed = 0\nnotice_day = "day_before"\nnotice_by = 12:00:00\n'
    )
    results = "game,round,home,away,how,by,note\nE1,5,Elder,Ash,default,home,rained off\n"
    files = {**FILES, "rules": FILES["rules"] + allowed, "results": results}
    record = FolderRecord(write_people(tmp_path / "season", **files))
    due = show_fees(record).due("Elder", "E1")
    assert due is not None
    assert due.why == "For a default beyond those allowed, so a forfeit. Rained off"


def test_a_payment_in_parts_and_a_waiver_are_written_until_nothing_is_left(
    record: FolderRecord,
) -> None:
    assert settle_fee(record, entry("12.50")) == Decimal("7.50")
    assert settle_fee(record, entry("7.49", what="waived", why="=hardship")) == Decimal("0.01")
    assert settle_fee(record, entry("0.01")) == 0
    assert text(record) == HEAD + (
        "2026-09-20,Birch,A2,paid,12.50,\n"
        "2026-09-20,Birch,A2,waived,7.49,'=hardship\n"
        "2026-09-20,Birch,A2,paid,0.01,\n"
    )
    found = show_fees(record).due("Birch", "A2")
    assert found is not None
    assert (found.paid, found.waived, found.left, found.is_open) == (
        "12.51",
        "7.49",
        "0",
        False,
    )


def refused(record: FolderRecord, new: FeeEntry) -> list[tuple[str, str | None, str]]:
    with pytest.raises(InputFaults) as told:
        settle_fee(record, new)
    return [(one.code, one.place.column, f"{one.says} {one.cure}") for one in told.value.faults]


def test_what_is_left_is_taken_and_a_cent_more_is_refused(record: FolderRecord) -> None:
    hold(record, "2026-09-19,Birch,A2,paid,12.5,\n")
    before = text(record)
    assert refused(record, entry("7.51")) == [
        (
            "overpaid",
            "amount",
            (
                "7.51 is more than the 7.50 that Birch has left to pay for game A2. "
                "Write at most 7.50, and give the rest back."
            ),
        )
    ]
    assert text(record) == before
    assert settle_fee(record, entry("7.5")) == 0
    assert refused(record, entry("0.01")) == [
        ("overpaid", "amount", "Birch has nothing left to pay for game A2. Give it back.")
    ]


def test_a_waiver_without_a_reason_is_refused_by_the_file_itself(record: FolderRecord) -> None:
    assert refused(record, entry("5", what="waived")) == [
        ("missing", "why", "a fee is waived without a reason. Say why.")
    ]
    assert not record.has("fees.csv")


@pytest.mark.parametrize(("team", "game"), [("Ash", "A2"), ("Birch", "E1"), ("Birch", "Z9")])
def test_a_game_that_costs_the_team_nothing_takes_no_payment(
    record: FolderRecord, team: str, game: str
) -> None:
    with pytest.raises(WholeballError) as told:
        settle_fee(record, entry("5", team=TeamId(team), game=GameId(game)))
    assert str(told.value) == (
        f"Game {game} costs {team} nothing. Nothing was written. Look at what is due now."
    )
    assert not record.has("fees.csv")


def test_a_wrong_entry_is_taken_out_and_all_else_stays(record: FolderRecord) -> None:
    hold(record, "2026-09-19,Birch,A2,paid,12.5 ,\n\n2026-09-20,Elder,E1,paid,5,x\n")
    drop_fee_entry(record, 4)
    assert text(record) == HEAD + "2026-09-19,Birch,A2,paid,12.5 ,\n\n"


@pytest.mark.parametrize("row", [1, 3, 4])
def test_a_row_that_is_no_entry_is_refused_and_nothing_goes(
    record: FolderRecord, row: int
) -> None:
    hold(record, "2026-09-19,Birch,A2,paid,12.5,\n")
    with pytest.raises(WholeballError) as told:
        drop_fee_entry(record, row)
    assert told.value.code == "gone"
    assert text(record) == HEAD + "2026-09-19,Birch,A2,paid,12.5,\n"


@settings(
    max_examples=15,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.lists(st.integers(1, 700), max_size=4))
def test_what_is_left_is_always_what_was_due_without_what_was_taken(
    record: FolderRecord, cents: list[int]
) -> None:
    hold(record, "")
    left = Decimal(20)
    for one in cents:
        amount = Decimal(one) / 100
        if amount > left:
            with pytest.raises(InputFaults):
                settle_fee(record, entry(str(amount)))
        else:
            left = settle_fee(record, entry(str(amount)))
    assert left == 20 - sum(map(_taken, text(record).splitlines()[1:]), Decimal(0))
    found = show_fees(record).due("Birch", "A2")
    assert found is not None
    assert found.left_exact == left


def _taken(row: str) -> Decimal:
    return Decimal(row.split(",")[4])
