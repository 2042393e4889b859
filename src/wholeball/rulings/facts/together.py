"""Declares what is asked when two things happen at once, each of them ruled alone."""

from typing import Final

from wholeball.rulings.fact import Said

TOGETHER_STAGE: Final = "together"
_THREE: Final = {
    "one": "the first one",
    "other": "the second one",
    "neither": "neither, they weigh the same",
}

TOGETHER: Final = (
    Said(
        name="graver_shown",
        stage=TOGETHER_STAGE,
        question="Which of the two costs more: red before yellow before nothing?",
        values=_THREE,
    ),
    Said(
        name="graver_restart",
        stage=TOGETHER_STAGE,
        question="Which brings the graver kick: penalty before direct before indirect?",
        values=_THREE,
        when=({"graver_shown": "neither"},),
    ),
    Said(
        name="sides",
        stage=TOGETHER_STAGE,
        question="Whose offences were they?",
        values={"same": "one side's", "two": "each side's one"},
        when=({"graver_restart": "neither"},),
    ),
    Said(
        name="person",
        stage=TOGETHER_STAGE,
        question="Was it the same person?",
        values={"two": "two persons", "same": "the same person"},
    ),
    Said(
        name="yellows",
        stage=TOGETHER_STAGE,
        question="Is each of them a yellow?",
        values={"no": "not both", "both": "both"},
        when=({"person": "same"},),
    ),
)
