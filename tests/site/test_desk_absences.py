"""The page on which a coordinator says who cannot play when."""

from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.contrib.messages import get_messages

from cases.desk_season import HERE, DeskSeason, a_desk
from cases.stored import written_by
from wholeball.store.models import Change, Season

pytestmark = pytest.mark.django_db

PAGE: Final = f"{HERE}season/absences/"
TOLD: Final = {
    "team": "Birch",
    "when": "days",
    "weekday": "monday",
    "day": "2026-11-03",
    "until_day": "2026-11-04",
    "opens": "",
    "closes": "20:30",
    "strength": "wish",
    "cost": "3",
    "why": "=field trip",
}
WRITTEN: Final = (
    b"team,weekday,date,from,until,strength,cost,why\n"
    b"Birch,,2026-11-03,,20:30,wish,3,'=field trip\n"
    b"Birch,,2026-11-04,,20:30,wish,3,'=field trip\n"
)
SAYS: Final = (
    "Birch would rather not play on Tuesday 3 November and Wednesday 4 November before 20:30."
)


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


def post(desk: DeskSeason, page: str = PAGE, **told: str) -> Any:
    return desk.people["coordinator"].post(page, told)


def get(desk: DeskSeason, page: str = PAGE) -> str:
    return unescape(desk.people["coordinator"].get(page).content.decode())


def version() -> str:
    return f"{Season.objects.get().version}"


def test_an_absence_is_added_and_told_with_its_cost(desk: DeskSeason) -> None:
    assert "Every team can play whenever there is a place." in get(desk)
    answer = post(desk, **TOLD)
    assert (answer.status_code, answer.url) == (HTTPStatus.FOUND, PAGE)
    assert [str(one) for one in get_messages(answer.wsgi_request)][-1] == (
        "Birch: it counts from the next plan or repair on."
    )
    assert desk.texts()["absences.csv"] == WRITTEN
    page = get(desk)
    assert SAYS in page
    assert "<bdi>=field trip</bdi>; costs 3 each time" in page


def test_an_absence_is_taken_out_by_its_rows_and_the_change_can_be_undone(
    desk: DeskSeason,
) -> None:
    post(desk, **TOLD)
    post(desk, **{**TOLD, "day": "2026-11-10", "until_day": "", "why": "", "cost": "1"})
    answer = post(desk, f"{PAGE}take-out/", version=version(), row="2", last_row="3")
    assert answer.status_code == HTTPStatus.FOUND
    head = WRITTEN.splitlines(keepends=True)[0]
    assert desk.texts()["absences.csv"] == head + b"Birch,,2026-11-10,,20:30,wish,1,\n"
    change = Change.objects.order_by("-version")[0]
    assert change.name == "absences.csv"
    assert "the list of absences" in get(desk, f"{HERE}changes/").lower()
    post(desk, f"{HERE}changes/undo/", change=f"{change.pk}")
    assert desk.texts()["absences.csv"] == WRITTEN + b"Birch,,2026-11-10,,20:30,wish,1,\n"


def test_who_looked_at_an_older_list_takes_nothing_out(desk: DeskSeason) -> None:
    post(desk, **TOLD)
    stale = {"version": version(), "row": "2", "last_row": "3"}
    post(desk, **{**TOLD, "team": "Ash"})
    answer = post(desk, f"{PAGE}take-out/", **stale)
    assert answer.status_code == HTTPStatus.CONFLICT
    assert desk.texts()["absences.csv"].startswith(WRITTEN)
    assert post(desk, f"{PAGE}take-out/", **{**stale, "version": version()}).url == PAGE


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"team": "Elm"}, "team", "Select a valid choice. Elm is not one of the available"),
        ({"when": ""}, "when", "This field is required."),
        ({"when": "weekday", "until_day": ""}, "day", "Empty this, or choose days above."),
        ({"day": ""}, "day", "There is no day yet. Choose one."),
        ({"day": "2026-11-31"}, "day", "This is no day of the calendar."),
        ({"until_day": "2026-11-02"}, "until_day", "It is before 2026-11-03."),
        ({"opens": "20:30"}, "closes", "It is not after 20:30. Choose a later time."),
        ({"closes": "25:00"}, "closes", "This is no time of the day."),
        ({"cost": ""}, "cost", "A wish has a cost. Write one: 1 tiny"),
        ({"cost": "0"}, "cost", "It is less than 1. Write one: 1 tiny"),
        ({"cost": "10001"}, "cost", "It is more than 10,000. Write one: 1 tiny"),
        ({"strength": "must"}, "cost", "A must has no cost. Empty this, or choose a wish."),
        (
            {"when": "every", "day": "", "until_day": "", "closes": ""},
            "opens",
            "There is no time yet.",
        ),
        ({"until_day": "2026-12-05"}, "__all__", "2026-12-05 is no day of the season."),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_what_was_typed_stays(
    desk: DeskSeason, changed: dict[str, str], field: str, says: str
) -> None:
    answer = post(desk, **{**TOLD, **changed})
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    form = answer.context["form"]
    assert list(form.errors) == [field]
    assert says in form.errors[field][0]
    assert form["why"].value() == "=field trip"
    assert "absences.csv" not in desk.texts()


def test_an_absence_outside_the_season_is_a_doubt_that_leads_to_the_page(
    desk: DeskSeason,
) -> None:
    rows = b"team,date\nAsh,2026-12-05\n"
    written_by(desk.season).write({"absences.csv": rows})
    page = get(desk, f"{HERE}doubts/?day=2026-10-01")
    assert ">Absences</h" in page
    assert f'href="{PAGE}"' in page


def test_all_that_is_wrong_is_told_at_once(desk: DeskSeason) -> None:
    answer = post(desk, **{**TOLD, "day": "", "cost": "", "opens": "21:00"})
    assert list(answer.context["form"].errors) == ["day", "closes", "cost"]


def test_a_team_s_page_leads_to_its_absences_for_the_coordinator_alone(
    desk: DeskSeason,
) -> None:
    assert f'href="{PAGE}?team=Ash"' in get(desk, f"{HERE}teams/Ash/")
    captain = desk.people["captain"].get(f"{HERE}teams/Ash/").content.decode()
    assert "absences" not in captain
    assert desk.people["captain"].get(PAGE).status_code == HTTPStatus.NOT_FOUND
    form = desk.people["coordinator"].get(f"{PAGE}?team=Ash").context["form"]
    assert form["team"].value() == "Ash"
    assert f'href="{PAGE}"' in get(desk, f"{HERE}season/times/")
