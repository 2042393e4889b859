"""Declares what is asked about persons and procedure, beside what happens to the ball."""

from typing import Final

from wholeball.rulings.fact import Said

BESIDE_STAGE: Final = "beside"

BESIDE: Final = (
    Said(
        name="matter",
        stage=BESIDE_STAGE,
        question="What is to be settled?",
        values={
            "ends": "who chooses, and who kicks off",
            "entering": "somebody who comes on, or should not have",
            "leaving": "a player who is replaced and does not leave in time",
            "sent_off": "who replaces somebody sent off",
            "treated": "a player treated on the field",
            "numbers": "whether a side has enough players, or too many",
            "kicker": "whether somebody may take a kick from the mark",
            "unable": "a player who cannot go on in the kicks from the mark",
            "order": "the order of kickers from one round to the next",
            "tosses": "the tosses before the kicks from the mark",
            "winner": "how a level game may be decided",
            "decision": "a decision that turns out to be wrong",
            "flagpost": "a flagpost that was moved",
        },
    ),
    Said(
        name="chose",
        stage=BESIDE_STAGE,
        question="What did the winner of the toss choose?",
        values={"end": "an end", "kick_off": "the kick-off"},
        when=({"matter": "ends"},),
    ),
    Said(
        name="half",
        stage=BESIDE_STAGE,
        question="Which half begins?",
        values={"first": "the first", "second": "the second"},
        when=({"matter": "ends"},),
    ),
    Said(
        name="lapse",
        stage=BESIDE_STAGE,
        question="What was done otherwise than it should be?",
        values={
            "untold_at_start": "a named substitute started, and nobody told an official",
            "untold_at_interval": "a substitute came on at half-time, and nobody told an official",
            "never_on": "the substitute takes a restart without having stepped on the field",
            "keeper_told": "a player changes places with the goalkeeper and told an official",
            "other": "another part of the procedure",
        },
        when=({"matter": "entering"},),
    ),
    Said(
        name="when_sent",
        stage=BESIDE_STAGE,
        question="When, and who?",
        values={
            "before": "a player, before the kick-off",
            "after": "a player, after the kick-off",
            "substitute": "a named substitute",
            "keeper_in_kicks": "the goalkeeper, during the kicks from the mark",
        },
        when=({"matter": "sent_off"},),
    ),
    Said(
        name="stands",
        stage=BESIDE_STAGE,
        question="What about the players?",
        values={
            "enough": "enough to go on",
            "too_few": "fewer than a side may go on with",
            "too_few_in_kicks": "fewer than that, in the kicks from the mark",
            "unequal": "one side has more players for the kicks from the mark",
        },
        when=({"matter": "numbers"},),
    ),
    Said(
        name="kicker_is",
        stage=BESIDE_STAGE,
        question="Who wants to kick?",
        values={
            "on_field": "a player on the field at the end who has not kicked",
            "briefly_off": "one who was briefly off at the end",
            "substitute": "a substitute who was not on the field at the end",
            "sent_off": "one sent off during the game",
            "has_kicked": "one who has kicked, before all team-mates have",
        },
        when=({"matter": "kicker"},),
    ),
    Said(
        name="unable_is",
        stage=BESIDE_STAGE,
        question="Who cannot go on?",
        values={"keeper": "the goalkeeper", "other": "another player"},
        when=({"matter": "unable"},),
    ),
    Said(
        name="changes_left",
        stage=BESIDE_STAGE,
        question="Has the side substitutions left?",
        values={"yes": "yes", "no": "no"},
        when=({"unable_is": "keeper"},),
    ),
    Said(
        name="restarted",
        stage=BESIDE_STAGE,
        question="Has play restarted?",
        values={"no": "not yet", "yes": "yes"},
        when=({"matter": "decision"},),
    ),
)
