"""The rules of a timetable: told in words, added by kind, given another weight, taken out."""

from datetime import date, time
from pathlib import Path

import pytest

from cases.planned_season import PLANNING, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.planning.rule import Rule
from wholeball.usecases.set_rules import (
    NewRule,
    RuleShown,
    RulesShown,
    add_rule,
    drop_rule,
    set_strength,
    show_rules,
)

ONE_A_NIGHT = RuleShown(
    rule="one game a night",
    says="Every team plays 1 game a night at most.",
    strength="must",
    cost=0,
    cost_says="",
    why="",
    strengths=("must", "wish"),
)
LATE = RuleShown(
    rule="late",
    says="Every team plays late no more often than a fair share.",
    strength="wish",
    cost=5,
    cost_says="unfair",
    why="",
    strengths=("wish",),
)


@pytest.fixture
def record(tmp_path: Path) -> FolderRecord:
    return FolderRecord(write_folder(tmp_path / "season"))


def text(record: FolderRecord) -> str:
    return (record.path / "planning.toml").read_text(encoding="utf-8")


def test_every_rule_is_told_in_the_order_of_the_file(record: FolderRecord) -> None:
    assert show_rules(record) == RulesShown(
        rules=(ONE_A_NIGHT, LATE),
        teams=("Ash", "Birch", "Cedar", "Dogwood"),
        first_day=date(2027, 1, 4),
        last_day=date(2027, 2, 14),
    )


def test_a_rule_is_written_as_the_record_of_its_kind_and_read_again(
    record: FolderRecord,
) -> None:
    new = NewRule(
        kind="games_on",
        params={"most": 0, "nights": (date(2027, 1, 18), date(2027, 1, 25)), "side": "first"},
        cost=10_000,
        teams=("Ash", "Cedar"),
        games="league",
        why='"Away" weeks',
    )
    add_rule(record, new)
    assert text(record) == PLANNING + (
        '\n[[rules]]\nrule = "games on"\nkind = "games_on"\nstrength = "wish"\ncost = 10000\n'
        'teams = ["Ash", "Cedar"]\ngames = "league"\nmost = 0\n'
        'nights = [2027-01-18, 2027-01-25]\nside = "first"\nwhy = "\\"Away\\" weeks"\n'
    )
    said = read_folder(record).planning.said
    assert said is not None
    assert said.rules[-1] == Rule(
        rule="games on",
        kind="games_on",
        strength="wish",
        cost=10_000,
        teams=(TeamId("Ash"), TeamId("Cedar")),
        games="league",
        params={"most": 0, "nights": ("2027-01-18", "2027-01-25"), "side": "first"},
        why='"Away" weeks',
    )


def test_times_are_written_as_people_write_them(record: FolderRecord) -> None:
    add_rule(record, NewRule(kind="absent", params={"from": time(9, 5), "until": time(18)}))
    assert text(record).endswith('strength = "must"\nfrom = "09:05"\nuntil = "18:00"\n')
    assert (
        show_rules(record).rules[-1].says
        == "No team can play on any night from 09:05 to 18:00."
    )


def test_rules_of_one_kind_are_told_apart_by_their_names(record: FolderRecord) -> None:
    for most in (2, 3, 4):
        add_rule(record, NewRule(kind="games_a_week", params={"most": most}))
    names = [one.rule for one in show_rules(record).rules]
    assert names[2:] == ["games a week", "games a week 2", "games a week 3"]


@pytest.mark.parametrize("cost", [None, 3])
def test_what_is_asked_already_is_refused_whatever_it_weighs(
    record: FolderRecord, cost: int | None
) -> None:
    add_rule(record, NewRule(kind="games_a_night", params={"most": 1}, teams=("Ash",)))
    before = text(record)
    with pytest.raises(WholeballError) as refused:
        add_rule(record, NewRule(kind="games_a_night", params={"most": 1}, cost=cost))
    assert str(refused.value) == (
        "It stands there already: Every team plays 1 game a night at most. "
        "Change that one, or take it out first."
    )
    assert text(record) == before


@pytest.mark.parametrize(
    ("new", "code"),
    [
        (NewRule(kind="games_a_week", params={"most": 100}), "range"),
        (NewRule(kind="games_a_week"), "missing"),
        (NewRule(kind="idle_week"), "unknown_value"),
        (NewRule(kind="next_to_each_other", cost=1, teams=("Ash",)), "range"),
        (NewRule(kind="open_night", cost=1, teams=("Ash",)), "contradiction"),
        (NewRule(kind="rest_days", params={"days": 2}, teams=("Elm",)), "unknown_team"),
        (NewRule(kind="rest_days", params={"days": 2}, cost=10_001), "range"),
        (NewRule(kind="siesta"), "unknown_value"),
        (NewRule(kind="not_at", params={"names": ("Z9",)}), "unknown_game"),
        (
            NewRule(
                kind="fixed", params={"name": "Z9", "night": date(2027, 1, 4), "at": time(18)}
            ),
            "unknown_game",
        ),
    ],
)
def test_what_the_reader_of_the_file_refuses_is_not_written(
    record: FolderRecord, new: NewRule, code: str
) -> None:
    with pytest.raises(InputFaults) as refused:
        add_rule(record, new)
    assert [one.code for one in refused.value.faults] == [code]
    assert text(record) == PLANNING


def test_the_most_that_a_kind_allows_is_taken(record: FolderRecord) -> None:
    add_rule(record, NewRule(kind="games_a_week", params={"most": 99}, cost=10_000))
    assert show_rules(record).rules[-1].says == "Every team plays 99 games a week at most."


def test_without_a_file_the_first_rule_begins_it(tmp_path: Path) -> None:
    folder = write_folder(tmp_path / "season")
    (folder / "planning.toml").unlink()
    record = FolderRecord(folder)
    assert show_rules(record).rules == ()
    add_rule(record, NewRule(kind="rest_days", params={"days": 1}))
    assert text(record) == (
        'schema = 1\nmeetings = 1\n\n[[rules]]\nrule = "rest days"\nkind = "rest_days"\n'
        'strength = "must"\ndays = 1\n'
    )


def test_a_must_becomes_a_wish_and_a_must_again(record: FolderRecord) -> None:
    set_strength(record, "one game a night", strength="wish", cost=4)
    assert text(record) == PLANNING.replace(
        'strength = "must"\nmost = 1\n', 'strength = "wish"\nmost = 1\ncost = 4\n'
    )
    assert show_rules(record).rules[0].cost_says == "more than a nuisance"
    set_strength(record, "one game a night", strength="must", cost=None)
    assert text(record) == PLANNING


@pytest.mark.parametrize(
    ("rule", "strength", "cost", "code"),
    [
        ("late", "must", None, "unknown_value"),
        ("late", "wish", None, "missing"),
        ("late", "wish", 10_001, "range"),
        ("one game a night", "must", 3, "contradiction"),
    ],
)
def test_a_weight_that_a_rule_cannot_have_is_refused(
    record: FolderRecord, rule: str, strength: str, cost: int | None, code: str
) -> None:
    with pytest.raises(InputFaults) as refused:
        set_strength(record, rule, strength=strength, cost=cost)  # type: ignore[arg-type]
    assert code in [one.code for one in refused.value.faults]
    assert text(record) == PLANNING


def test_a_rule_is_taken_out_and_the_others_stay(record: FolderRecord) -> None:
    drop_rule(record, "one game a night")
    assert show_rules(record).rules == (LATE,)
    drop_rule(record, "late")
    assert text(record) == "schema = 1\nturnover_minutes = 10\n\n"


def test_a_rule_that_is_gone_is_neither_changed_nor_taken_out(record: FolderRecord) -> None:
    drop_rule(record, "late")
    before = text(record)
    with pytest.raises(WholeballError, match="This rule is not there any more"):
        drop_rule(record, "late")
    with pytest.raises(WholeballError, match="This rule is not there any more"):
        set_strength(record, "late", strength="wish", cost=1)
    assert text(record) == before
