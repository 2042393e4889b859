"""What a wish costs is told by the words of its scale."""

from wholeball.planning.rule import SCALE, cost_word


def test_costs_are_told_by_the_word_below_them() -> None:
    assert {one: cost_word(one) for one in SCALE} == dict(SCALE)
    assert [cost_word(one) for one in (2, 4, 9, 29, 99, 101, 10_000)] == [
        "more than tiny",
        "more than a nuisance",
        "more than unfair",
        "more than a complaint",
        "more than an appeal",
        "more than no game",
        "more than no game",
    ]
