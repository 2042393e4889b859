"""Declares what the later stages ask: the place, the degree, the chance, who is shown what."""

from typing import Final

from wholeball.rulings.fact import Said

SPOT: Final = "spot"
MISCONDUCT: Final = "misconduct"
SHOWN: Final = "shown"
CARE: Final = "care"
_FREE_KICKS: Final = "direct_free_kick indirect_free_kick"

AFTER: Final = (
    Said(
        name="goal_area",
        stage=SPOT,
        question="Was that inside a goal area?",
        values={
            "neither": "in neither",
            "own": "in the one of the side that acted",
            "opp": "in the other side's",
        },
        when=(
            {"moment": "open", "restart": _FREE_KICKS, "basis": "offence"},
            {"seen": "form offside", "kind": "not penalty_kick", "basis": "offence"},
            {"seen": "near", "kind": _FREE_KICKS, "restart": "indirect_free_kick"},
        ),
        cuts=(
            ("own", {"zone": "elsewhere off off_by_area"}, "that is in the own penalty area"),
            ("own", {"arm": "to_score accident"}, "that is at the other end"),
            ("own", {"seen": "handling", "who": "keeper"}, "that is in the own penalty area"),
            ("own", {"seen": "near"}, "the wall defends the other goal"),
            ("opp", {"zone": "own_area off off_by_area"}, "that is at the other end"),
            ("opp", {"seen": "keeper_hands"}, "that is at the other end"),
        ),
    ),
    Said(
        name="ball_at",
        stage=SPOT,
        question="Where was the ball when play was stopped?",
        values={
            "elsewhere": "outside both penalty areas",
            "own_area": "in the penalty area of the side that touched it last",
            "opp_area": "in the other side's penalty area",
        },
        when=({"restart": "dropped_ball"},),
    ),
    Said(
        name="last_at",
        stage=SPOT,
        question="Where was the ball touched last?",
        values={
            "elsewhere": "outside both penalty areas",
            "own_area": "in the penalty area of the side that touched it",
            "opp_area": "in the other side's penalty area",
        },
        when=({"ball_at": "elsewhere"},),
    ),
    Said(
        name="would",
        stage=SPOT,
        question="Which side had the ball, or would clearly have got it?",
        values={
            "unclear": "neither clearly",
            "same": "the side that touched it last",
            "other": "the other side",
        },
        when=({"ball_at": "elsewhere"},),
    ),
    Said(
        name="degree",
        stage=MISCONDUCT,
        question="How was it done?",
        values={
            "careless": "carelessly",
            "reckless": "recklessly",
            "excessive": "with excessive force",
        },
        when=({"foul": "graded object"}, {"foul": "risky at_feet slide", "contact": "yes"}),
    ),
    Said(
        name="chance",
        stage=MISCONDUCT,
        question="What did it take from the other side?",
        values={
            "none": "no attack worth the name",
            "promising": "a promising attack",
            "obvious": "an obvious chance of a goal",
        },
        when=(
            {
                "moment": "open",
                "foul": "graded object",
                "against": "opponent the_ball",
                "degree": "careless reckless",
            },
            {"moment": "open", "foul": "risky at_feet slide", "degree": "careless reckless"},
            {"moment": "open", "foul": "hold held_object impede hinder_keeper"},
            {"moment": "open", "foul": "risky", "contact": "no"},
            {"foul": "at_feet slide", "contact": "no", "advantage": "yes quick"},
            {"foul": "at_feet slide", "contact": "no", "basis": "offence mark"},
            {"arm": "deliberate bigger", "net": "no"},
            {"flaw": "twice twice_hand", "kind": "not penalty_kick"},
        ),
    ),
    Said(
        name="fair_try",
        stage=MISCONDUCT,
        question="Was it an attempt to play the ball?",
        values={"yes": "an attempt to play the ball", "no": "no chance to play it"},
        when=(
            {
                "chance": "not none",
                "restart": "penalty_kick",
                "foul": "graded risky at_feet slide",
            },
        ),
    ),
    Said(
        name="often",
        stage=MISCONDUCT,
        question="Has this player broken the Laws again and again?",
        values={"no": "no", "yes": "yes"},
        when=(
            {
                "moment": "open",
                "foul": "graded object",
                "against": "own_side official stranger",
                "degree": "careless",
            },
            {
                "foul": "graded object risky at_feet slide",
                "degree": "careless",
                "chance": "none",
            },
            {"foul": "hold held_object impede hinder_keeper", "chance": "none"},
            {"foul": "risky at_feet slide", "contact": "no", "chance": "none"},
            {"seen": "handling", "chance": "none"},
        ),
    ),
    Said(
        name="bench",
        stage=MISCONDUCT,
        question="Was it a team official?",
        values={"no": "a substitute or a player sent off", "yes": "a team official"},
        when=({"person": "extra", "effect": "hampers"},),
    ),
    Said(
        name="role",
        stage=SHOWN,
        question="Whose was it?",
        values={
            "player": "a player's",
            "substitute": "a substitute's",
            "team_official": "a team official's",
            "unknown": "somebody's in the technical area, nobody knows whose",
        },
        when=({"misconduct": "not none", "culprit": "anyone"},),
        cuts=(
            ("player substitute", {"conduct": "minor"}, "it was said of the technical area"),
            ("player unknown", {"person": "extra"}, "it was a substitute or a team official"),
            ("unknown", {"seen": "foul"}, "somebody was seen to do it"),
        ),
    ),
    Said(
        name="warned",
        stage=SHOWN,
        question="Had the goalkeeper been warned for it in this game already?",
        values={"no": "no", "yes": "yes"},
        when=({"misconduct": "warning", "culprit": "other_keeper"},),
    ),
    Said(
        name="earlier",
        stage=SHOWN,
        question="Does the person have so many yellows that one more makes a red?",
        values={
            "no": "no",
            "yes": "yes",
            "in_the_game": "only with those of the game before the kicks from the mark",
        },
        when=({"misconduct": "caution"}, {"warned": "yes"}),
        cuts=(
            (
                "in_the_game",
                {"resumed": "not shootout"},
                "there are no kicks from the mark yet",
            ),
        ),
    ),
    Said(
        name="hurt",
        stage=CARE,
        question="Who is hurt?",
        values={"player": "an outfield player", "keeper": "the goalkeeper"},
        when=({"reason": "injury"},),
    ),
)
