"""Words of field, restarts and conduct under local rules of a small-sided league."""

from copy import deepcopy

import pytest

from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.editions import edition_values
from wholeball.rulebook.words import conduct, place, restarts

WORDS = {**place.WORDS, **restarts.WORDS, **conduct.WORDS}

HOUSE: dict[Path, tuple[dict[str, object], str]] = {
    "field": (
        {"unit": "ft", "flags": "optional"},
        (
            "The field is 115 yd long and 74 yd wide. Its sizes are printed in feet. Lines are at "
            "most 5 in wide. The centre circle has a radius of 10 yd. The corner arcs have a radius "
            "of 1 yd. At each corner a flag may stand."
        ),
    ),
    "field.limits": (
        {"length_least": "60 yd", "width_most": "55 yd"},
        "A touchline is 60 yd to 120 m long. A goal line is 45 m to 55 yd long.",
    ),
    "ball": (
        {"weight_least_grams": 400, "weight_most_grams": 440, "bounce": "low"},
        (
            "The ball measures 68 cm to 70 cm around. It weighs 400 g to 440 g at the start of the "
            "game. It has a low bounce."
        ),
    ),
    "kick_off": (
        {"direction": "forward", "distance": "5 yd", "direct_goal": False},
        (
            "The ball is kicked forward only. Opponents stay at least 5 yd from the ball. Until the "
            "ball is in play everybody but the kicker is in their own half. The kick-off waits for "
            "the official's signal. A goal may not be scored straight from it."
        ),
    ),
    "offside": (
        {"from_line": "penalty_area_line", "goalkeeper_throw": "first_contact"},
        (
            "A player can be offside only between the line of the opponents' penalty area and the "
            "opponents' goal line. At a goalkeeper's throw the position is judged at the first "
            "contact with the ball."
        ),
    ),
    "dropped_ball": (
        {"to": "last_touch", "spot": "last_touch", "too_close": "nothing"},
        (
            "If the ball was in a penalty area or last touched there, it is dropped there to the "
            "defending goalkeeper. Elsewhere it is dropped to the side that touched it last. It is "
            "dropped where it was last touched. All other players stay at least 4 m from it. Whoever "
            "stays closer is sent back, no more."
        ),
    ),
    "throw_in": (
        {"method": "kick_in", "distance": "5 m (5.5 yd)", "seconds_most": 4},
        (
            "The ball is kicked in from where it left the field. Opponents stay at least 5 m from "
            "that point. The taker has 4 seconds. A goal may not be scored straight from it."
        ),
    ),
    "throw_in.misplayed": (
        {"first": "retake"},
        (
            "When a throw-in is taken wrongly or from the wrong place, it is taken again. When it is "
            "taken wrongly again, the opponents get the throw-in."
        ),
    ),
    "throw_in.not_entering": (
        {"second": "throw_in"},
        (
            "When the ball of a throw-in does not come into the field, it is taken again. When it "
            "does not come in again, the opponents get the throw-in."
        ),
    ),
    "throw_in.countdown": (
        {"seconds": 5, "then": "throw_in"},
        (
            "When a throw-in is delayed, the official may count down 5 seconds by hand; when they "
            "have run out, the opponents get a throw-in."
        ),
    ),
    "goal_kick": (
        {
            "taken": "thrown_by_goalkeeper",
            "must_leave_area": True,
            "not_leaving": "indirect_free_kick",
            "may_pass_halfway": False,
            "direct_goal": False,
        },
        (
            "The goalkeeper throws the ball from the penalty area. The ball must leave the penalty "
            "area to be in play; if it does not, the opponents get an indirect free kick. The ball "
            "may not cross the halfway line before anybody touches it; if it does, the opponents "
            "get an indirect free kick. A goal may not be scored straight from it."
        ),
    ),
    "goal_kick.countdown": (
        {"seconds": 4, "then": "indirect_free_kick"},
        (
            "When a goal kick is delayed, the official may count down 4 seconds by hand; when they "
            "have run out, the opponents get an indirect free kick."
        ),
    ),
    "corner": (
        {"distance": "5 yd", "direct_goal": False},
        (
            "Opponents stay at least 5 yd from the corner arc. A goal may not be scored straight "
            "from it."
        ),
    ),
    "free_kick": (
        {"kinds": "all_indirect", "distance": "5 yd", "distance_given": "always"},
        (
            "Every free kick is indirect: no goal may be scored straight from it. Opponents stay at "
            "least 5 yd from the ball. The official measures the distance at every free kick."
        ),
    ),
    "free_kick.wall": (
        {"players": 2},
        "When 2 defenders or more make a wall, attackers stay at least 1 m from it.",
    ),
    "free_kick.near_goal": (
        {"spot": "penalty_mark"},
        "An indirect free kick to the attackers in the goal area is taken on the penalty mark.",
    ),
    "free_kick.crossing": (
        {"caution": False},
        "Whoever crosses the line that the official set for the distance is not shown yellow.",
    ),
    "penalty.goalkeeper": (
        {"with_kicker": "kicker_penalised_if_goal"},
        (
            "Until the kick the goalkeeper has part of at least one foot on or above the goal line. "
            "A first offence for which the kick is taken again costs the goalkeeper a warning, and "
            "each further one yellow. If the goalkeeper offends, the kick misses and the kicker was "
            "not affected, the kick is not taken again. If goalkeeper and kicker offend together, "
            "the kick is taken again if it did not go in; if it did, the kicker is shown yellow and "
            "the opponents get an indirect free kick."
        ),
    ),
    "penalty.double_touch": (
        {"goal": "indirect_free_kick", "no_goal": "play_on"},
        (
            "If the kicker touches the ball twice by accident and it goes in, the opponents get an "
            "indirect free kick. If it does not go in, play goes on."
        ),
    ),
    "goalkeeper": (
        {"at_feet": "always_foul"},
        "A goalkeeper who goes at an opponent's feet always commits a foul.",
    ),
    "goalkeeper.hands_outside": (
        {"then": "penalty_kick"},
        (
            "When a goalkeeper handles the ball outside the own penalty area, the opponents get a "
            "penalty kick."
        ),
    ),
    "goalkeeper.return_pass": (
        {"spot": "penalty_area_line"},
        (
            "When a goalkeeper handles a ball that a team-mate deliberately kicked to them, the "
            "opponents get an indirect free kick. It is taken on the penalty-area line, at the "
            "nearest point. Who has clearly kicked, or tried to kick, it away may handle it."
        ),
    ),
    "goalkeeper.return_throw": (
        {"then": "play_on"},
        "When a goalkeeper handles a team-mate's throw-in, play goes on.",
    ),
    "goalkeeper.distribution": (
        {"past_halfway": "not_in_the_air", "direct_goal": True},
        (
            "A goalkeeper may not send the ball past halfway in the air; if it goes there, the "
            "opponents get an indirect free kick. A goalkeeper's throw straight into the opponents' "
            "goal counts."
        ),
    ),
    "slide_tackle": (
        {
            "allowed": False,
            "then": "indirect_free_kick",
            "caution": True,
            "goalkeeper_exempt": True,
        },
        (
            "Players may not slide for the ball near an opponent. If one does, the opponents get an "
            "indirect free kick. The player is shown yellow for it. A goalkeeper in the own penalty "
            "area may slide."
        ),
    ),
    "advantage": (
        {"quick_kick_cancels_caution": False, "incorrect_restart": True},
        (
            "When advantage is played, yellow for stopping a promising attack is not shown. After a "
            "quick free kick, yellow for stopping a promising attack is still shown at the next "
            "stoppage. Advantage may be played when a restart was taken incorrectly."
        ),
    ),
    "cards": ({"cautions_for_red": 1}, "A player shown 1 yellow in a game is shown red."),
    "cards.team_officials": (
        {"unidentified": "nobody"},
        (
            "Team officials are shown yellow and red as players are. If nobody knows which of them "
            "offended, nobody is shown it."
        ),
    ),
    "cards.cautioned": (
        {"comes_off": "for_minutes", "minutes": 5, "may_be_replaced": True},
        "A player shown yellow comes off for 5 minutes. A substitute may come on at once.",
    ),
    "cards.sent_off": (
        {"may_be_replaced": True, "after_minutes": 0, "leaves_within_minutes": 2},
        (
            "A player shown red leaves and is out of sight and sound within 2 minutes. The side may "
            "fill up again at once."
        ),
    ),
}


def house(path: Path, said: dict[str, object]) -> Rulebook:
    """Return the edition of 2025/26 with some values of one article replaced."""
    laid = deepcopy(edition_values("laws-2025-26"))
    table = laid
    for part in path.split("."):
        table = table[part]
    table.update(said)
    return Rulebook.model_validate(laid)


@pytest.mark.parametrize("path", list(HOUSE))
def test_a_local_rule_reads_so(path: Path) -> None:
    said, reads = HOUSE[path]
    assert " ".join(str(one) for one in WORDS[path].says(house(path, said))) == reads


def test_a_kick_in_is_called_one_wherever_it_is_spoken_of() -> None:
    counted = {"seconds": 5, "then": "throw_in"}
    book = house("throw_in", {"method": "kick_in", "countdown": counted})
    paths = ("throw_in.misplayed", "throw_in.not_entering", "throw_in.countdown")
    assert [str(one) for path in paths for one in WORDS[path].says(book)] == [
        "When a kick-in is taken wrongly or from the wrong place, the opponents get the kick-in.",
        "When it is taken wrongly again, the opponents get the kick-in.",
        "When the ball of a kick-in does not come into the field, it is taken again.",
        "When it does not come in again, it is taken again.",
        (
            "When a kick-in is delayed, the official may count down 5 seconds by hand; when they "
            "have run out, the opponents get a kick-in."
        ),
    ]


def test_a_wall_that_attackers_need_keep_no_distance_from_is_open_to_them() -> None:
    book = house("free_kick.wall", {"players": 3, "distance": "0 m"})
    assert [str(one) for one in WORDS["free_kick.wall"].says(book)] == [
        "Attackers may stand at a wall of defenders."
    ]
