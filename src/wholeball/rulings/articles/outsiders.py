"""Declares what follows when an outsider meets the ball or play: Laws 3, 9 and 10."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_OFFICIAL: Final = "ball_off_official.then"
_THREE: Final = {_OFFICIAL: "dropped_ball_in_three_cases"}
_STANDS: Final = "extra_persons.goal_stands"

OUTSIDERS: Final[tuple[Article, ...]] = (
    _play(
        "outsider_without_effect",
        "Play goes on if an outsider changes nothing.",
        "Laws 3.7 and 9.1",
        when={"effect": "none"},
        outcome="play_on",
    ),
    _play(
        "off_official",
        "A ball off an official that starts a promising attack or changes sides is dropped.",
        "Law 9.1",
        when={"effect": "attack turnover"},
        outcome="dropped_ball",
        path="ball_off_official",
        given=_THREE,
    ),
    _play(
        "off_official_no_goal",
        "A ball that goes in off an official is no goal, and is dropped.",
        "Law 9.1",
        when={"effect": "in_goal"},
        outcome="dropped_ball",
        then={"goal": "no"},
        path="ball_off_official",
        given=_THREE,
    ),
    _play(
        "off_official_plays_on",
        "A ball off an official stays in play.",
        "Law 9",
        when={"effect": "attack turnover"},
        outcome="play_on",
        path="ball_off_official",
        given={_OFFICIAL: "play_on"},
    ),
    _play(
        "off_official_goal",
        "A ball that goes in off an official is a goal.",
        "Law 9",
        when={"effect": "in_goal"},
        outcome="goal_for_a",
        path="ball_off_official",
        given={_OFFICIAL: "play_on"},
    ),
    _play(
        "stranger_interferes",
        "What belongs to neither side and interferes brings a dropped ball.",
        "Law 3.7",
        when={"person": "agent", "effect": "hampers"},
        outcome="dropped_ball",
        path="extra_persons",
    ),
    _play(
        "stranger_takes_goal",
        "A ball that went in is no goal if a defender was kept from playing it.",
        "Law 3.7",
        when={"effect": "in_hampered"},
        outcome="dropped_ball",
        then={"goal": "no"},
        path="extra_persons",
    ),
    _play(
        "stranger_leaves_goal",
        "A ball that goes in all the same is a goal if no defender was kept from it.",
        "Law 3.7",
        when={"effect": "in_free"},
        outcome="goal_for_a",
        path="extra_persons",
    ),
    *(
        _play(
            f"extra_person_{place}",
            "A substitute or team official who interferes gives a "
            f"{'penalty' if place == 'own_area' else 'direct free'} kick.",
            "Law 3.7",
            when={"effect": "hampers", "place": place},
            outcome=outcome,
            then=then,
            path="extra_persons",
            given={"extra_persons.interference": "direct_free_kick"},
        )
        for place, outcome, then in (
            ("elsewhere", "direct_free_kick", {"basis": "interference"}),
            ("own_area", "penalty_kick", {}),
        )
    ),
    _play(
        "extra_person_dropped",
        "A substitute or team official who interferes brings a dropped ball.",
        "common practice, no source",
        when={"person": "extra", "effect": "hampers"},
        outcome="dropped_ball",
        path="extra_persons",
        given={"extra_persons.interference": "dropped_ball"},
    ),
    *(
        _play(
            f"leaving_ball_touched_{place}",
            "Touching a ball that leaves the field, without unfair intent, counts like any "
            "other interference.",
            "Law 3.7",
            when={"effect": "leaving", "place": place},
            outcome=outcome,
            then=then,
            path="extra_persons",
            given={"extra_persons.touch_leaving_ball": "free_kick_and_caution"},
        )
        for place, outcome, then in (
            ("elsewhere", "direct_free_kick", {"basis": "interference"}),
            ("own_area", "penalty_kick", {}),
        )
    ),
    _play(
        "leaving_ball_touched_fairly",
        "Touching a ball that leaves the field, without unfair intent, is an indirect free "
        "kick.",
        "Law 3.7",
        when={"effect": "leaving"},
        outcome="indirect_free_kick",
        then={"basis": "interference"},
        path="extra_persons",
        given={"extra_persons.touch_leaving_ball": "indirect_free_kick"},
    ),
    *(
        _play(
            f"extra_scorer_{name}",
            says,
            "Law 3.9",
            when={"moment": "dead", "extra_of": "scorers", **more},
            outcome=outcome,
            then=then,
            path="extra_persons",
            given={_STANDS: stands},
        )
        for name, more, outcome, then, stands, says in (
            (
                "on_field",
                {},
                "direct_free_kick",
                {"goal": "no", "basis": "interference"},
                "unless_on_field",
                "A goal does not count while the scorers have somebody too many on the field.",
            ),
            (
                "interfered",
                {"interfered": "yes"},
                "direct_free_kick",
                {"goal": "no", "basis": "interference"},
                "unless_interfered",
                "A goal does not count if somebody too many of the scorers interfered.",
            ),
            (
                "stood_by",
                {"interfered": "no"},
                "goal_for_a",
                {},
                "unless_interfered",
                "A goal counts if the one too many did not interfere.",
            ),
        )
    ),
    _play(
        "extra_conceder",
        "A goal counts whatever somebody too many of the conceding side did.",
        "Law 3.9",
        when={"moment": "dead", "extra_of": "conceders"},
        outcome="goal_for_a",
        path="extra_persons",
    ),
    _play(
        "stranger_at_goal",
        "A goal does not count if a stranger on the field interfered.",
        "Law 3.9",
        when={"moment": "dead", "extra_of": "nobody", "interfered": "yes"},
        outcome="dropped_ball",
        then={"goal": "no"},
        path="extra_persons",
    ),
    _play(
        "harmless_stranger_at_goal",
        "A goal counts if a stranger on the field did not interfere.",
        "Law 3.9",
        when={"moment": "dead", "extra_of": "nobody", "interfered": "no"},
        outcome="goal_for_a",
        path="extra_persons",
    ),
    *(
        _play(
            f"noticed_after_restart_{name}",
            "Once play has restarted a goal counts; whoever is too many leaves, and play "
            f"resumes with {words}.",
            "Law 3.9",
            when={"moment": "open", "extra_of": of, "interfered": interfered},
            outcome=outcome,
            then={"goal": "A", **then},
            path="extra_persons",
        )
        for name, of, interfered, outcome, then, words in (
            (
                "scorers",
                "scorers",
                "yes",
                "direct_free_kick",
                {"basis": "interference"},
                "a direct free kick to the other side",
            ),
            (
                "conceders",
                "conceders",
                "yes",
                "direct_free_kick",
                {"basis": "interference", "side": "A"},
                "a direct free kick to the scorers",
            ),
            ("nobody", "nobody", "yes", "dropped_ball", {}, "a dropped ball"),
            (
                "harmless",
                "scorers conceders nobody",
                "no",
                "dropped_ball",
                {},
                "a dropped ball",
            ),
        )
    ),
)
