"""Who may play: for each rule the last person who may and the first who may not.

No outside source: what is asked comes from the rulebook, and its values are common practice.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, time
from decimal import Decimal

import pytest

from cases.season_people import book, fixture, league, rosters, sheet
from wholeball.kernel.identity import BlockId, GameId, PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.person import Gender, NotCleared, Person
from wholeball.league.player import Player
from wholeball.season.discipline import Played, discipline
from wholeball.season.eligibility import Eligibility, Gate, Known
from wholeball.season.fees import Due, Ledger
from wholeball.season.mixed_sides import MixedCount, mixed_count
from wholeball.season.reason_not import Reason
from wholeball.season.suspension import Discipline

AL = PersonId("al")
ASH, CEDAR = TeamId("Ash"), TeamId("Cedar")
OPEN = """
[roster]
teams_each = 1
teams_each_in = "league"
bound_by = "first_game_played"
additions_until = "always"
additions_hours_before = 0
[eligibility]
waiver = false
"""
TONIGHT = fixture(8)


def known(text: str = OPEN, /, **keys: object) -> Known:
    given: dict[str, object] = {
        "book": book(text),
        "league": league(),
        "rosters": rosters(),
        "fixtures": [TONIGHT],
        "sheets": (),
        "discipline": Discipline(on=TONIGHT.day),
        **keys,
    }
    return Known(**given)  # type: ignore[arg-type]


def why_not(
    of: Known, person: str = "al", game: Fixture = TONIGHT, gate: Gate | None = None
) -> list[str]:
    found = Eligibility(of).reasons(PersonId(person), game, "home", gate or Gate())
    return [one.code for one in found]


def with_al(**keys: object) -> dict[TeamId, tuple[Player, ...]]:
    """Return the rosters with al of Ash written down otherwise."""
    people = dict(rosters())
    al, *others = people[ASH]
    people[ASH] = (replace(al, **keys), *others)  # type: ignore[arg-type]
    return people


def test_a_player_against_whom_nothing_speaks_may_play() -> None:
    assert why_not(known()) == []


def test_somebody_of_no_roster_of_the_side_may_not_play() -> None:
    assert why_not(known(), "cy") == ["not_on_roster"]


def test_a_player_added_the_day_after_was_not_yet_on_the_roster() -> None:
    on, after = date(2026, 9, 8), date(2026, 9, 9)
    assert why_not(known(rosters=with_al(added=on))) == []
    assert why_not(known(rosters=with_al(added=after))) == ["not_yet_on_roster"]


def suspended(**keys: object) -> Known:
    red = sheet(fixture(1), shown={"al": "red"})
    season = Played(
        league=league(), rosters=rosters(), fixtures=[red.fixture, TONIGHT], sheets=[red]
    )
    text = OPEN + "[discipline.red]\ngames = 1\nuntil_meeting = false\nsecond_games = 2\n"
    return known(text, discipline=discipline(season, book(text), on=TONIGHT.day), **keys)


def test_staff_read_that_a_player_is_suspended_and_a_captain_only_to_see_the_coordinator() -> (
    None
):
    line, other = Eligibility(suspended()).gate_list(TONIGHT, "home")
    assert line.reasons == (Reason(code="suspended", article="discipline.red", count=1),)
    assert (line.is_blocked, line.sees_coordinator, line.for_captain) == (True, True, ())
    assert (other.is_blocked, other.sees_coordinator) == (False, False)


def test_all_reasons_are_told_at_once() -> None:
    gate = Gate(refused=frozenset([AL]))
    blocked = [NotCleared(person=AL, since=date(2026, 9, 1))]
    assert why_not(suspended(not_cleared=blocked), gate=gate) == [
        "suspended",
        "not_cleared",
        "refused",
    ]


@pytest.mark.parametrize(
    ("since", "until", "codes"),
    [
        (9, None, []),
        (8, None, ["not_cleared"]),
        (1, 8, ["not_cleared"]),
        (1, 7, []),
    ],
)
def test_a_block_holds_from_its_first_day_to_its_last(
    since: int, until: int | None, codes: list[str]
) -> None:
    one = NotCleared(
        person=AL,
        since=date(2026, 9, since),
        until=None if until is None else date(2026, 9, until),
    )
    assert why_not(known(not_cleared=[one])) == codes


ONE_LEAGUE = {"league": league(split=False)}
FOR_CEDAR = [sheet(fixture(1, "Cedar Dogwood"), appeared=["al"])]


def test_the_first_team_played_for_binds_within_the_league_and_not_beyond() -> None:
    assert why_not(known(sheets=FOR_CEDAR, **ONE_LEAGUE)) == ["other_team"]
    assert why_not(known(sheets=FOR_CEDAR)) == []


def test_a_team_played_for_first_stays_open_whatever_comes_later() -> None:
    sheets = [
        sheet(fixture(1), appeared=["al"]),
        sheet(fixture(2, "Cedar Dogwood"), appeared=["al"]),
    ]
    assert why_not(known(sheets=sheets, **ONE_LEAGUE)) == []
    later = [sheet(fixture(9, "Cedar Dogwood"), appeared=["al"])]
    assert why_not(known(sheets=later, **ONE_LEAGUE)) == []


def test_two_teams_bind_where_the_house_allows_two() -> None:
    two = OPEN.replace("teams_each = 1", "teams_each = 2")
    assert why_not(known(two, sheets=FOR_CEDAR, **ONE_LEAGUE)) == []


def test_a_game_that_was_annulled_binds_nobody() -> None:
    sheets = [
        sheet(fixture(1, "Cedar Dogwood"), how="annulled", is_played=True, appeared=["al"])
    ]
    assert why_not(known(sheets=sheets, **ONE_LEAGUE)) == []


def test_signing_binds_to_the_team_signed_for_first() -> None:
    text = OPEN.replace("first_game_played", "signing")
    later = with_al(added=date(2026, 9, 2))
    assert why_not(known(text, rosters=later, **ONE_LEAGUE)) == ["other_team"]
    assert why_not(known(text, **ONE_LEAGUE)) == []


@pytest.mark.parametrize(("within", "codes"), [("division", ["other_team"]), ("block", [])])
def test_teams_are_counted_within_what_the_house_names(within: str, codes: list[str]) -> None:
    text = OPEN.replace('"league"', f'"{within}"')
    one = league(split=False)
    teams = tuple(replace(team, block=BlockId(str(team.team))) for team in one.teams)
    assert why_not(known(text, league=replace(one, teams=teams), sheets=FOR_CEDAR)) == codes


def test_club_players_beyond_the_limit_are_those_added_last() -> None:
    text = OPEN + '[roster.club_players]\nmost = 1\ncounted = ["club", "varsity"]\n'
    people = {
        PersonId("al"): Person(person=AL, member_of=("club",)),
        PersonId("bo"): Person(person=PersonId("bo"), member_of=("varsity",)),
    }
    both = known(text, people=people)
    assert (why_not(both, "al"), why_not(both, "bo")) == ([], ["club_players"])
    later = known(text, people=people, rosters=with_al(added=date(2026, 9, 2)))
    assert (why_not(later, "al"), why_not(later, "bo")) == (["club_players"], [])
    former = {**people, AL: Person(person=AL, member_of=("former_varsity",))}
    assert why_not(known(text, people=former), "bo") == []


SEASON = [fixture(1), fixture(3), fixture(8), fixture(21, stage="play_off")]


@pytest.mark.parametrize(
    ("until", "last"),
    [("second_game", 3), ("last_regular_week", 13), ("play_offs", 21)],
)
def test_players_are_added_up_to_the_day_that_the_house_names(until: str, last: int) -> None:
    """8 September 2026 is a Tuesday; its week ends on Sunday the 13th."""
    text = OPEN.replace('"always"', f'"{until}"')
    game = fixture(28, stage="play_off")
    for day, codes in ((last, []), (last + 1, ["added_late"])):
        people = with_al(added=date(2026, 9, day))
        of = known(text, fixtures=SEASON, rosters=people)
        assert why_not(of, game=game) == codes


@pytest.mark.parametrize(
    ("start", "codes"), [(time(19), []), (time(18, 59), ["added_too_near"])]
)
def test_a_player_comes_onto_the_roster_so_many_hours_before(
    start: time, codes: list[str]
) -> None:
    """Added on the 7th at any hour, the 8th at 19:00 is at most 43 hours later."""
    text = OPEN.replace("additions_hours_before = 0", "additions_hours_before = 43")
    people = with_al(added=date(2026, 9, 7))
    assert why_not(known(text, rosters=people), game=replace(TONIGHT, start=start)) == codes


WAIVER = OPEN.replace("waiver = false", "waiver = true")


@pytest.mark.parametrize(
    ("until", "codes"),
    [(None, ["waiver_missing"]), (7, ["waiver_expired"]), (8, [])],
)
def test_a_waiver_holds_up_to_its_last_day(until: int | None, codes: list[str]) -> None:
    day = None if until is None else date(2026, 9, until)
    of = known(WAIVER, people={AL: Person(person=AL, waiver_until=day)})
    assert why_not(of) == codes


def test_a_person_of_whom_nothing_is_written_has_no_waiver_where_others_have_one() -> None:
    others = {PersonId("bo"): Person(person=PersonId("bo"), waiver_until=date(2027, 1, 1))}
    assert why_not(known(WAIVER, people=others)) == ["waiver_missing"]
    assert why_not(known(WAIVER)) == []


@pytest.mark.parametrize(
    ("most", "before", "codes"),
    [
        ("1", 0, ["identification_forgotten"]),
        ("1", 1, ["identification_used_up"]),
        ("0", 0, ["identification_used_up"]),
        ('"no_limit"', 9, ["identification_forgotten"]),
    ],
)
def test_an_id_may_be_forgotten_so_often(most: str, before: int, codes: list[str]) -> None:
    text = (
        f'{OPEN}[eligibility.identification]\ndocument = "photo_id"\nforgotten_most = {most}\n'
    )
    gate = Gate(without_id=frozenset([AL]), forgotten={AL: before})
    [found] = Eligibility(known(text)).reasons(AL, TONIGHT, "home", gate)
    assert ([found.code], found.blocks) == (codes, codes == ["identification_used_up"])


def test_nobody_is_asked_for_an_id_where_the_house_wants_none() -> None:
    text = f'{OPEN}[eligibility.identification]\ndocument = "none"\n'
    assert why_not(known(text), gate=Gate(without_id=frozenset([AL]))) == []


FINAL = fixture(21, stage="play_off")
TWO = OPEN + '[play_offs]\nqualify = "per_pool"\nplaces = 2\ngames_played_least = 2\n'


def test_play_offs_need_games_of_the_season_for_that_team() -> None:
    one = sheet(fixture(1), appeared=["al", "bo"])
    other = sheet(fixture(2), appeared=["bo"])
    elsewhere = sheet(fixture(3, "Cedar Dogwood"), appeared=["al"])
    of = known(TWO, sheets=[one, other, elsewhere])
    assert (why_not(of, "al", FINAL), why_not(of, "bo", FINAL)) == (["too_few_games"], [])
    assert why_not(of, "al") == []


def test_a_game_without_a_check_in_is_left_to_a_person() -> None:
    of = known(TWO, sheets=[sheet(fixture(1), appeared=["al"]), sheet(fixture(2))])
    [found] = Eligibility(of).reasons(AL, FINAL, "home")
    assert (found.code, found.blocks, found.count, found.most) == (
        "games_not_recorded",
        False,
        1,
        2,
    )


def test_only_the_captain_waits_for_a_fee() -> None:
    fees = Ledger(
        dues=(Due(team=ASH, game=GameId("A1"), cause="forfeit", amount=Decimal(15)),),
        captain_waits=True,
    )
    of = known(rosters=with_al(is_captain=True), fees=fees)
    assert (why_not(of, "al"), why_not(of, "bo")) == (["fee_open"], [])
    assert why_not(replace(of, fees=replace(fees, captain_waits=False))) == []


def counted(there: str, **keys: str) -> MixedCount:
    text = (
        "[sides]\non_field = 6\nminimum_to_start = 4\nminimum_to_continue = 4\n[sides.mixed]\n"
    )
    names: dict[str, Gender | None] = {"w": "woman", "m": "man", "o": "other", "-": None}
    people: Sequence[Gender | None] = [names[one] for one in there]
    values = {"women_least": "2", "men_least": "2", "difference_most": "1"}
    lines = "".join(f"{name} = {value}\n" for name, value in {**values, **keys}.items())
    return mixed_count(book(text + lines).sides, people)


def test_a_mixed_side_lacks_as_many_as_are_missing() -> None:
    found = counted("wmmmm", goalkeeper_counts="true")
    assert found == MixedCount(women=1, men=4, others=0, women_lacking=1, men_lacking=0, most=3)
    assert counted("wwmmm", goalkeeper_counts="true").women_lacking == 0


def test_a_goalkeeper_who_does_not_count_may_be_anybody() -> None:
    assert counted("wmmmm", goalkeeper_counts="false").most == 4


def test_whoever_is_neither_takes_a_place_and_outnumbers_nobody() -> None:
    found = counted("wwmmo-", goalkeeper_counts="true")
    assert (found.others, found.most, found.women_lacking, found.men_lacking) == (2, 6, 0, 0)


def test_those_who_are_checked_in_are_counted_by_what_they_say_of_themselves() -> None:
    people = {
        AL: Person(person=AL, gender="woman"),
        PersonId("bo"): Person(person=PersonId("bo"), gender="man"),
    }
    text = OPEN + "[sides.mixed]\nwomen_least = 2\n"
    found = Eligibility(known(text, people=people)).mixed([AL, PersonId("bo"), PersonId("cy")])
    assert (found.women, found.men, found.others, found.women_lacking) == (1, 1, 1, 1)
