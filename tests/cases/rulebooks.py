"""Has the rulebooks that rulings are proved on: presets, editions and houses made for it."""

from collections.abc import Mapping
from copy import deepcopy
from functools import cache
from importlib.resources import files
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition, edition_values, editions
from wholeball.rulebook.load import load

PRESETS: Final = ("eleven", "nine", "eight", "seven", "five_indoor", "mixed")
EDITIONS: Final = tuple(one.key for one in editions() if one.key.startswith("laws-"))
HOUSES: Final = {
    "strict": """
        corner = { direct_goal = false }
        game = { period_end = { at = "chance_played_out", chance = "anywhere" } }
        throw_in = { misplayed = { first = "retake", second = "retake" } }
        kick_off = { direction = "forward" }
        penalty = { double_touch = { no_goal = "play_on" } }
        goalkeeper = { at_feet = "always_foul", return_pass = { spot = "goal_area_line" } }
        cards = { cautions_for_red = 1, team_officials = { unidentified = "nobody" } }
        injury = { leaves = "may_stay" }
    """,
    "odd": """
        game = { period_end = { penalty_completed = false } }
        throw_in.misplayed = { first = "throw_in", second = "retake" }
        throw_in.not_entering = { first = "retake", second = "throw_in" }
        goalkeeper = { return_pass = { spot = "penalty_area_line" } }
        extra_persons = { interference = "dropped_ball" }
        offside = { played = false }
        ends = { winner_chooses = "kick_off" }
    """,
    "lenient": """
        throw_in.not_entering = { first = "throw_in", second = "retake" }
        goalkeeper = { return_pass = { then = "corner_kick" } }
        offside.from_line = "penalty_area_line"
    """,
    "keepers_penalty": """
        goalkeeper.hands_outside.then = "penalty_kick"
    """,
    **{
        f"direct_{spot}": f"""
        free_kick = {{ kinds = "all_direct", near_goal = {{ spot = "{spot}" }} }}
        """
        for spot in ("goal_area_line", "penalty_area_line", "penalty_mark")
    },
}


@cache
def rulebook(name: str) -> Rulebook:
    """Return a preset, an edition or one of the houses above, by name."""
    if name in EDITIONS:
        return edition(name)
    if name in HOUSES:
        return load(HOUSES[name].encode(), file=f"{name}.toml").rulebook
    data = files("wholeball.rulebook.presets").joinpath(f"{name}.toml").read_bytes()
    return load(data, file=f"{name}.toml").rulebook


def changed(said: Mapping[str, object]) -> Rulebook:
    """Return the edition of 2025/26 with some values, by path and key, replaced."""
    laid = deepcopy(edition_values("laws-2025-26"))
    for name, value in said.items():
        *tables, last = name.split(".")
        table = laid
        for part in tables:
            table = table[part]
        table[last] = value
    return Rulebook.model_validate(laid)
