"""What a plan breaks in play-offs, before anybody knows who plays in them.

The kinds and their meaning are common practice, no source.
"""

from cases.four_games import APART, FOUR, PASS, PLACES
from cases.tiny_season import EARLY, LATE, at, pairing, plan, question, rule
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, Seeded
from wholeball.planning.check import check

CUP = (
    *FOUR[:2],
    pairing("P1", From(game=GameId("1")), From(game=GameId("2")), 2, pool=None),
)


def test_a_game_comes_after_those_that_bring_its_sides() -> None:
    places = {name: APART[name] for name in ("1", "2")}
    rest = rule("after", minutes=90)
    for start, broken in (
        (at(1, EARLY), []),
        (at(0, LATE, "F2"), ["P1 starts 60 minutes after 2; 90 at least."]),
    ):
        problem = question(CUP, PLACES, rest)
        assert [
            one.says for one in check(problem, plan({**places, "P1": start})).broken
        ] == broken
    early = check(
        question(CUP, PLACES, rest), plan({**APART, "1": at(2, EARLY), "P1": at(1, EARLY)})
    )
    assert "Game P1 starts before game 1, whose outcome it needs." in [
        one.says for one in early.broken
    ]


def test_a_must_holds_for_every_team_that_may_come_to_play_and_a_wish_for_none_of_them() -> (
    None
):
    places = plan({"1": APART["1"], "2": APART["2"], "P1": at(1, EARLY)})
    must = rule("absent", "Dogwood", weekdays=("tuesday",))
    wish = rule("absent", "Dogwood", cost=3, weekdays=("tuesday",))
    assert [one.games for one in check(question(CUP, PLACES, must), places).broken] == [("P1",)]
    assert check(question(CUP, PLACES, wish), places) == PASS


SEMIS = (
    *FOUR,
    pairing("S1", Seeded(seed=1), Seeded(seed=4), 3, pool=None),
    pairing("S2", Seeded(seed=2), Seeded(seed=3), 3, pool=None),
    pairing(
        "P3",
        From(game=GameId("S1"), takes="loser"),
        From(game=GameId("S2"), takes="loser"),
        4,
        pool=None,
    ),
    pairing("P4", From(game=GameId("S1")), From(game=GameId("S2")), 4, pool=None),
)


def test_a_seed_plays_one_semi_final_and_then_the_final_or_the_game_for_third() -> None:
    problem = question(SEMIS, PLACES)
    assert {frozenset(map(str, one)) for one in problem.ways_of(TeamId("Ash"))} == {
        frozenset(("1", "3", semi, last)) for semi in ("S1", "S2") for last in ("P3", "P4")
    }


def test_both_semi_finals_may_be_on_one_night_but_not_with_what_follows() -> None:
    one = rule("games_a_night", "Ash", most=1)
    problem = question(SEMIS, PLACES, one)
    semis = {"S1": at(1, EARLY), "S2": at(1, EARLY, "F2")}
    last = {"P3": at(2, EARLY), "P4": at(2, EARLY, "F2")}
    assert check(problem, plan({**APART, **semis, **last})) == PASS
    last["P4"] = at(1, LATE, "F2")
    assert [one.says for one in check(problem, plan({**APART, **semis, **last})).broken] == [
        "Ash has 2 games on Tuesday 5 January; 1 at most."
    ] * 2
