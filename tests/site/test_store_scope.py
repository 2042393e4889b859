"""Tests who may see what, and that what is missing and what is forbidden look the same."""

import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import Http404
from pytest_django import DjangoAssertNumQueries

from cases.stored import NOW, a_season, an_account, written_by
from wholeball.store import audit
from wholeball.store.models import AuditRow, Membership, Organisation, Season
from wholeball.store.permissions import may_change_facts, may_run_desk
from wholeball.store.reader import PUBLIC, Reader, reader_of
from wholeball.store.scope import (
    game_for,
    games_for,
    organisation_for,
    persons_for,
    season_for,
    seasons_for,
    team_for,
)

pytestmark = pytest.mark.django_db
TEXTS = {
    "teams.csv": b"team\nReds\nBlues\n",
    "timetable.csv": (
        b"game,round,date,start,field,home,away\n"
        b"1,1,2026-09-07,19:00,North,Reds,Blues\n"
        b"2,1,2026-09-07,20:00,North,Reds,Blues\n"
        b"3,2,2026-09-14,19:00,North,Reds,Blues\n"
    ),
    "crews.csv": b"game,role,official\n1,referee,Ada\n2,referee,Bo\n3,referee,Bo\n",
}


def _reader(role: str, season: Season | None, **more: str) -> Reader:
    account = an_account(f"{role} {more.get('person', '')}".strip())
    organisation = Organisation.objects.get()
    Membership.objects.create(
        organisation=organisation, account=account, role=role, season=season, **more
    )
    return reader_of(account)


def test_a_season_that_is_not_public_is_missing_to_all_but_its_members() -> None:
    season, other = a_season(), a_season("Spring")
    official = _reader("official", season, person="Ada")
    coordinator = _reader("coordinator", None)
    assert season_for(official, "harrow-fen", "autumn") == season
    said = set()
    for reader, slug in [
        (PUBLIC, "autumn"),
        (official, "spring"),
        (official, "nowhere"),
        (reader_of(AnonymousUser()), "autumn"),
    ]:
        with pytest.raises(Http404) as missing:
            season_for(reader, "harrow-fen", slug)
        said.add(str(missing.value))
    assert said == {"There is no such page, or it is not for you."}
    assert seasons_for(coordinator) == [other, season]
    Season.objects.filter(pk=other.pk).update(is_public=True)
    assert seasons_for(PUBLIC) == [other]
    with pytest.raises(Http404):
        season_for(PUBLIC, "harrow-fen", "spring", may_run_desk)


def test_only_a_coordinator_changes_facts_and_one_of_a_season_runs_no_other() -> None:
    season, other = a_season(), a_season("Spring")
    here = _reader("coordinator", season)
    assert season_for(here, "harrow-fen", "autumn", may_change_facts) == season
    with pytest.raises(Http404):
        season_for(here, "harrow-fen", "spring", may_change_facts)
    with pytest.raises(Http404):
        organisation_for(here, "harrow-fen")
    everywhere = _reader("coordinator", None, person="Una")
    assert organisation_for(everywhere, "harrow-fen") == other.organisation
    for role in ("supervisor", "scorekeeper"):
        with pytest.raises(Http404):
            season_for(_reader(role, season), "harrow-fen", "autumn", may_change_facts)


def test_each_works_at_their_own_games_and_a_supervisor_at_those_of_the_night() -> None:
    season = a_season()
    written_by(season).write(TEXTS)
    found = {
        "official": games_for(_reader("official", season, person="Ada"), season),
        "scorekeeper": games_for(_reader("scorekeeper", season, person="Bo"), season),
        "supervisor": games_for(_reader("supervisor", season, person="Ada"), season),
        "any night": games_for(_reader("supervisor", season), season),
        "coordinator": games_for(_reader("coordinator", None), season),
        "captain": games_for(_reader("captain", season, team="Reds"), season),
        "public": games_for(PUBLIC, season),
    }
    assert found == {
        "official": frozenset({"1"}),
        "scorekeeper": frozenset({"2", "3"}),
        "supervisor": frozenset({"1", "2"}),
        "any night": None,
        "coordinator": None,
        "captain": frozenset(),
        "public": frozenset(),
    }


def test_a_supervisor_of_a_later_night_works_at_what_is_played_and_goes_on_then() -> None:
    season = a_season()
    later = b"game,role,official,day\n1,referee,Ada,\n1,referee,Cy,2026-09-14\n2,referee,Bo,\n"
    written_by(season).write({**TEXTS, "crews.csv": later})
    readers = (_reader("supervisor", season, person=one) for one in ("Cy", "Bo", "Ada"))
    assert [games_for(one, season) for one in readers] == [
        frozenset({"1", "3"}),
        frozenset({"1", "2"}),
        frozenset({"1", "2"}),
    ]
    assert games_for(_reader("official", season, person="Cy"), season) == frozenset({"1"})


def test_a_game_or_team_of_others_is_as_missing_as_one_that_is_not_there() -> None:
    season = a_season()
    written_by(season).write(TEXTS)
    official = _reader("official", season, person="Ada")
    captain = _reader("captain", season, team="Reds", person="k7")
    coordinator = _reader("coordinator", season)
    assert game_for(official, season, "1") == "1"
    assert game_for(coordinator, season, "3") == "3"
    assert team_for(captain, season, "Reds") == "Reds"
    assert team_for(coordinator, season, "Blues") == "Blues"
    for reader, game in ((official, "2"), (official, "9"), (coordinator, "9"), (captain, "1")):
        with pytest.raises(Http404):
            game_for(reader, season, game)
    for reader, team in ((captain, "Blues"), (coordinator, "Golds"), (official, "Reds")):
        with pytest.raises(Http404):
            team_for(reader, season, team)
    assert [persons_for(one, season) for one in (coordinator, captain, official)] == [
        None,
        frozenset({"k7"}),
        frozenset(),
    ]


def test_looking_somebody_up_takes_as_many_queries_for_many_rows_as_for_one(
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    season = a_season()
    supervisor = _reader("supervisor", season, person="Ada")
    for nights in (1, 200):
        rows = "".join(
            f"{n},1,2026-09-{n % 28 + 1:02},19:00,F{n},Reds,Blues\n" for n in range(nights)
        )
        crews = "".join(f"{n},referee,Ada\n" for n in range(nights))
        written_by(season).write(
            {
                "teams.csv": TEXTS["teams.csv"],
                "timetable.csv": f"game,round,date,start,field,home,away\n{rows}".encode(),
                "crews.csv": f"game,role,official\n{crews}".encode(),
            }
        )
        with django_assert_num_queries(2):
            games_for(supervisor, season)
        with django_assert_num_queries(1):
            seasons_for(supervisor)


def test_an_account_that_was_closed_reads_as_the_public() -> None:
    a_season()
    coordinator = _reader("coordinator", None)
    assert coordinator.account is not None
    coordinator.account.is_active = False
    assert reader_of(coordinator.account) == PUBLIC


def test_the_audit_names_the_first_row_that_was_forged_or_is_missing() -> None:
    organisation, kim = a_season().organisation, an_account()
    for what in ("teams.csv", "people.csv", "rosters.csv"):
        audit.note(organisation, did="read", what=what, by=kim, at=NOW)
    assert audit.first_broken(organisation) is None
    rows = list(AuditRow.objects.order_by("number"))
    assert [row.before for row in rows] == ["", rows[0].hash, rows[1].hash]
    forged = Organisation.objects.create(name="Forged", slug="forged")
    for row in rows:
        row.pk, row.organisation = None, forged
        row.what = "nothing" if row.number == 2 else row.what
        row.save(force_insert=True)
    assert audit.first_broken(forged) == 1
    lacking = Organisation.objects.create(name="Lacking", slug="lacking")
    audit.note(lacking, did="read", what="a", by=None, at=NOW)
    AuditRow.objects.create(
        organisation=lacking, number=3, at=NOW, did="read", what="c", before="", hash="0" * 64
    )
    assert audit.first_broken(lacking) == 2
