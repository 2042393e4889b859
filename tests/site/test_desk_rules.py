"""The pages on which a coordinator says by which rules a timetable is planned."""

from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest

from cases.answers import said
from cases.desk_season import HERE, DeskSeason, a_desk, member
from cases.stored import NOW, written_by
from wholeball.desk.forms.rule_kinds import OFFERS
from wholeball.planning.kinds import KINDS
from wholeball.store.models import Account, Change, Search, Season

pytestmark = pytest.mark.django_db

PAGE: Final = f"{HERE}season/rules/"
PLANNING: Final = b"""schema = 1
# our own words

[[rules]]
rule = "one game a night"
kind = "games_a_night"
strength = "must"  # always
most = 1

[[rules]]
rule = "length"
kind = "length"
strength = "must"
minutes = 50
"""
WISH: Final = {"strength": "wish", "cost": "3", "why": "", "games": "all"}
MUST: Final = {**WISH, "strength": "must", "cost": ""}


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    made = a_desk(tmp_path)
    written_by(made.season).write({"planning.toml": PLANNING})
    return made


def post(desk: DeskSeason, page: str, **told: Any) -> Any:
    return desk.people["coordinator"].post(f"{PAGE}{page}", told)


def get(desk: DeskSeason, page: str = "") -> str:
    return unescape(desk.people["coordinator"].get(f"{PAGE}{page}").content.decode())


def held(desk: DeskSeason) -> bytes:
    return desk.texts()["planning.toml"]


def at_version(**told: str) -> dict[str, str]:
    return {**told, "version": f"{Season.objects.get().version}"}


def test_every_kind_is_offered_but_those_that_the_season_makes_by_itself() -> None:
    assert {*OFFERS} == {*KINDS} - {"block", "length", "after"}
    for one in OFFERS.values():
        params = KINDS[one.kind].params.model_fields
        assert {*one.labels} == {info.alias or name for name, info in params.items()}
        assert {*one.hints} <= {*one.labels}


def test_rules_stand_there_in_words_with_what_they_weigh(desk: DeskSeason) -> None:
    page = get(desk)
    assert "Every team plays 1 game a night at most." in page
    assert "A game has 50 minutes at least, with its turnover." in page
    assert page.count("How much it weighs") == 1
    assert [one.rule for one, _ in desk.people["coordinator"].get(PAGE).context["rows"]] == [
        "one game a night",
        "length",
    ]


def test_a_season_without_a_rule_says_where_to_begin(tmp_path: Path) -> None:
    page = get(a_desk(tmp_path))
    assert "No rule yet" in page
    assert f'href="{PAGE}new/games_a_night/"' in page


@pytest.mark.parametrize(
    ("kind", "told", "says"),
    [
        ("rest_days", {"days": "60", **MUST}, "Every team has 60 free days or more between"),
        ("games_a_week", {"most": "0", **MUST}, "Every team plays 0 games a week at most."),
        ("even_starts", {"which": "early", **WISH}, "Every team plays early no more often"),
        ("even_fields", {**WISH, "games": "league"}, "Every team plays on each field about as"),
        ("idle_week", {**WISH, "teams": ["Ash"]}, "Ash plays every week."),
        (
            "next_to_each_other",
            {**WISH, "teams": ["Ash", "Birch"]},
            "Ash and Birch play one after the other where they play on one night.",
        ),
        (
            "never_at_once",
            {**MUST, "minutes": "", "teams": ["Ash", "Birch"]},
            "Ash and Birch never play at once.",
        ),
        (
            "absent",
            {
                **MUST,
                "weekdays": ["monday", "friday"],
                "nights": "",
                "from": "",
                "until": "19:00",
            },
            "No team can play on Mondays and Fridays before 19:00.",
        ),
        (
            "absent",
            {**WISH, "nights": "2026-11-26, 2026-11-03,2026-11-26", "from": "", "until": ""},
            "Every team would rather not play on Tuesday 3 November and Thursday 26 November.",
        ),
        (
            "games_on",
            {**MUST, "most": "1", "nights": "2026-11-03", "side": "second", "teams": ["Ash"]},
            "Ash plays 1 game as the side listed second at most on Tuesday 3 November.",
        ),
    ],
)
def test_a_rule_of_a_kind_is_added(
    desk: DeskSeason, kind: str, told: dict[str, Any], says: str
) -> None:
    answer = post(desk, f"new/{kind}/", **told)
    assert (answer.status_code, answer.headers.get("Location")) == (HTTPStatus.FOUND, PAGE)
    assert said(answer) == "It counts from the next plan or repair on."
    assert held(desk).startswith(PLANNING)
    assert says in get(desk)


def test_a_kind_without_stages_and_teams_asks_for_neither(desk: DeskSeason) -> None:
    told = {"strength": "wish", "cost": "10000", "why": "few lights"}
    assert post(desk, "new/open_night/", **told, games="all").status_code == 400
    assert post(desk, "new/open_night/", **told).status_code == HTTPStatus.FOUND
    assert held(desk) == PLANNING + (
        b'\n[[rules]]\nrule = "open night"\nkind = "open_night"\nstrength = "wish"\n'
        b'cost = 10000\nwhy = "few lights"\n'
    )


@pytest.mark.parametrize("kind", ["length", "block", "after", "siesta"])
def test_a_kind_that_is_not_offered_has_no_page(desk: DeskSeason, kind: str) -> None:
    answer = desk.people["coordinator"].get(f"{PAGE}new/{kind}/")
    assert answer.status_code == HTTPStatus.NOT_FOUND


@pytest.mark.parametrize(
    ("kind", "told", "faults"),
    [
        ("rest_days", {**MUST, "days": "61"}, {"days": "It is more than 60."}),
        ("rest_days", {**MUST, "days": "0"}, {"days": "It is less than 1."}),
        ("rest_days", {**MUST, "days": "two"}, {"days": "This is no whole number."}),
        (
            "rest_days",
            {**WISH, "days": "", "cost": ""},
            {"days": "There is no number yet.", "cost": "A wish has a cost."},
        ),
        ("rest_days", {**MUST, "days": "2", "cost": "3"}, {"cost": "A must has no cost."}),
        (
            "rest_days",
            {**WISH, "days": "2", "cost": "10001"},
            {"cost": "It is more than 10,000."},
        ),
        ("rest_days", {**MUST, "days": "2", "teams": ["Elm"]}, {"teams": "Select a valid"}),
        ("idle_week", {**WISH, "strength": "must"}, {"strength": "Select a valid choice."}),
        ("idle_week", {**WISH, "cost": ""}, {"cost": "A wish has a cost."}),
        ("next_to_each_other", {**WISH, "teams": ["Ash"]}, {"teams": "It is about two teams"}),
        ("next_to_each_other", {**WISH}, {"teams": "It is about two teams or more."}),
        ("absent", {**MUST}, {"nights": "It does not say when."}),
        ("absent", {**MUST, "from": "19:00", "until": "19:00"}, {"until": "It is not after"}),
        ("absent", {**MUST, "nights": "2026-02-30"}, {"nights": "“2026-02-30” is no day"}),
        ("absent", {**MUST, "nights": "2026-12-05"}, {"nights": "2026-12-05 is no day of the"}),
        ("games_a_night", {**MUST, "most": "1"}, {"__all__": "It stands there already:"}),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_nothing_is_kept(
    desk: DeskSeason, kind: str, told: dict[str, Any], faults: dict[str, str]
) -> None:
    answer = post(desk, f"new/{kind}/", **{**told, "why": "typed"})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert dict.fromkeys(form.errors, True) == {
        name: form.errors.get(name, [""])[0].startswith(says) for name, says in faults.items()
    }
    assert form["why"].value() == "typed"
    assert held(desk) == PLANNING


def test_a_fault_of_boxes_leads_to_the_first_of_them(desk: DeskSeason) -> None:
    page = post(desk, "new/next_to_each_other/", **WISH).content.decode()
    assert 'href="#id_teams_0"' in page
    assert 'id="id_teams_0_fault"' in page
    assert 'aria-describedby="id_teams_0_hint id_teams_0_fault"' in page


def test_a_weight_is_changed_stands_under_changes_and_is_taken_back(desk: DeskSeason) -> None:
    told = at_version(rule="one game a night", strength="wish", cost="30")
    answer = post(desk, "weigh/", **told)
    assert answer.status_code == HTTPStatus.FOUND
    wished = PLANNING.replace(b'"must"  # always', b'"wish"  # always').replace(
        b"most = 1\n", b"most = 1\ncost = 30\n"
    )
    assert held(desk) == wished
    assert "Costs 30 each time it is not met: an appeal." in get(desk)
    change = Change.objects.order_by("-version")[0]
    coordinator = desk.people["coordinator"]
    assert "the season's plan" in unescape(
        coordinator.get(f"{HERE}changes/").content.decode().lower()
    )
    coordinator.post(f"{HERE}changes/undo/", {"change": f"{change.pk}"})
    assert held(desk) == PLANNING


def test_a_weight_that_cannot_be_is_told_at_its_rule_and_what_was_typed_stays(
    desk: DeskSeason,
) -> None:
    told = at_version(rule="one game a night", strength="wish", cost="10001")
    answer = post(desk, "weigh/", **told)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    (_, form), (_, other) = answer.context["rows"]
    assert (form["cost"].value(), list(form.errors), other) == ("10001", ["cost"], None)
    assert held(desk) == PLANNING


def test_a_rule_is_taken_out_and_its_neighbours_and_comments_stay(desk: DeskSeason) -> None:
    answer = post(desk, "take-out/", **at_version(rule="length"))
    assert said(answer) == "The rule is taken out. To undo it: Season, Changes."
    assert held(desk) == PLANNING[: PLANNING.index(b'[[rules]]\nrule = "length"')]


def test_who_looked_at_older_rules_is_told_and_nobody_loses_anything(desk: DeskSeason) -> None:
    old = at_version()
    other = member(desk.season, "coordinator", person="Other")
    other.post(f"{PAGE}new/rest_days/", {**MUST, "days": "2"})
    now = held(desk)
    weighed = post(desk, "weigh/", **old, rule="one game a night", strength="wish", cost="3")
    assert weighed.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert "It was changed while you worked on it." in unescape(weighed.content.decode())
    dropped = post(desk, "take-out/", **old, rule="one game a night")
    assert dropped.status_code == HTTPStatus.CONFLICT
    assert held(desk) == now
    gone = at_version(rule="one game a night")
    post(desk, "take-out/", **gone)
    again = at_version(rule="one game a night", strength="wish", cost="3")
    assert said(post(desk, "weigh/", **again)) == (
        "This rule is not there any more. Nothing was changed."
    )


def test_a_box_may_be_ticked_with_others_and_no_other_field_comes_twice(
    desk: DeskSeason,
) -> None:
    twice = post(desk, "new/idle_week/", **{**WISH, "cost": ["3", "5"]})
    assert twice.status_code == HTTPStatus.BAD_REQUEST
    no_text = post(desk, "new/idle_week/", **WISH, teams=["Ash", "B\x00"])
    assert no_text.status_code == HTTPStatus.BAD_REQUEST
    assert held(desk) == PLANNING


@pytest.mark.parametrize("kind", OFFERS)
def test_every_kind_has_a_form_that_keeps_what_was_typed(desk: DeskSeason, kind: str) -> None:
    shown = desk.people["coordinator"].get(f"{PAGE}new/{kind}/")
    assert shown.status_code == HTTPStatus.OK
    names = shown.context["form"].names
    answer = post(desk, f"new/{kind}/", **dict.fromkeys(names, "?"))
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert [form[name].value() for name in names] == ["?"] * len(names)
    assert "strength" in form.errors
    assert held(desk) == PLANNING


@pytest.mark.parametrize(
    ("kind", "state", "found"),
    [
        ("explain", "done", {"reasons": ["No."], "cures": [], "broken": [], "lines": []}),
        ("plan", "failed", {"refused": ["No."]}),
    ],
)
def test_where_there_is_no_plan_the_page_leads_to_the_rules(
    desk: DeskSeason, kind: str, state: str, found: dict[str, Any]
) -> None:
    search = Search.objects.create(
        season=desk.season,
        account=Account.objects.order_by("pk")[0],
        kind=kind,
        version=1,
        state=state,
        made_at=NOW,
        beat=NOW,
        found=found,
    )
    page = desk.people["coordinator"].get(f"{HERE}calendar/tasks/{search.pk}/")
    assert f'href="{PAGE}"' in page.content.decode()


def test_the_rules_are_found_from_fields_and_times(desk: DeskSeason) -> None:
    page = desk.people["coordinator"].get(f"{HERE}season/times/").content.decode()
    assert f'href="{PAGE}"' in page
