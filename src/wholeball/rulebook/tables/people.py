"""Declares who plays: sides, rosters, eligibility, equipment, check-in, substitutes."""

from typing import ClassVar, Literal, TypeAlias

from wholeball.rulebook.value import (
    Always,
    Article,
    Idle,
    Kind,
    Most,
    idle,
    items,
    key,
)

Worn: TypeAlias = Literal[
    "shirt", "shorts", "socks", "shinguards", "footwear", "goalkeeper_colours", "number"
]
NotWorn: TypeAlias = Literal[
    "jewellery",
    "metal_studs",
    "screw_in_studs",
    "hard_cast",
    "watch",
    "cap",
    "pockets",
    "electronics",
]


class Mixed(Article):
    """How many of each gender are on the field, where the game is mixed.

    Gender is what a player privately says it is; nobody asks for proof.
    """

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle(
            "goalkeeper_counts",
            "declared",
            "short",
            women_least=(0,),
            men_least=(0,),
            difference_most=("no_limit",),
        ),
    )

    women_least: int = key(
        "The fewest women on the field; 0 where not asked.", least=0, most=11
    )
    men_least: int = key("The fewest men on the field; 0 where not asked.", least=0, most=11)
    difference_most: Most = key("The most that one gender may outnumber the other.")
    goalkeeper_counts: bool = key("Whether the goalkeeper counts.")
    declared: Literal["self_privately"] = key("Who says a player's gender: the player alone.")
    short: Literal["plays_short", "forfeits"] = key("What a side does that lacks a gender.")


class Sides(Article):
    """How many play, and how few may."""

    own_kind: ClassVar[Kind] = "local"

    on_field: int = key("The most on the field a side, goalkeeper included.", least=3, most=11)
    minimum_to_start: int = key("The fewest a side may start with.", least=1, most=30)
    minimum_to_continue: int = key("The fewest a side may go on with.", least=1, most=30)
    goalkeeper: Literal["required", "optional", "none"] = key("Whether one is a goalkeeper.")
    mixed: Mixed = key("The numbers of a mixed game.")


class ClubPlayers(Article):
    """How many players of a club or varsity side a team may have."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("counted", most=("no_limit",), on_field_most=("no_limit",)),
    )

    most: Most = key("The most on one roster.")
    counted: tuple[Literal["club", "varsity", "former_varsity", "professional"], ...] = items(
        "Who counts.", most=4
    )
    on_field_most: Most = key("The most on the field at once.")


class Roster(Article):
    """Who may be named on a team, how many, and until when."""

    own_kind: ClassVar[Kind] = "administrative"

    maximum: Most = key("The most players on a roster.")
    minimum: int = key("The fewest players on a roster.", least=0, most=50)
    teams_each: int = key("The most teams one person plays for.", least=1, most=9)
    teams_each_in: Literal["league", "division", "block"] = key("Within what that is counted.")
    bound_by: Literal["first_game_played", "signing"] = key("What binds a player to a team.")
    additions_until: Literal["play_offs", "last_regular_week", "second_game", "always"] = key(
        "Until when a player may be added."
    )
    additions_hours_before: int = key("Hours before a game.", least=0, most=336, unit="hours")
    club_players: ClubPlayers = key("Players of club and varsity sides.")


class Identification(Article):
    """What a player shows at check-in."""

    own_kind: ClassVar[Kind] = "administrative"
    idle_keys: ClassVar[tuple[Idle, ...]] = (idle("forgotten_most", document=("none",)),)

    document: Literal["university_id", "photo_id", "none"] = key("What is shown.")
    forgotten_most: Most = key("How often a term it may be forgotten and vouched for.")


class FoundIneligible(Article):
    """What follows when a player turns out not to have been eligible."""

    own_kind: ClassVar[Kind] = "administrative"

    then: Literal["forfeit", "result_stands", "coordinator"] = key("What becomes of the game.")
    discovered_within_days: int = key("How long it may still be found.", least=0, most=365)
    cards_stand: Always = key("Yellow and red shown in the game stand.")


class Eligibility(Article):
    """Who may play in the league."""

    own_kind: ClassVar[Kind] = "administrative"

    who: tuple[Literal["students", "staff", "faculty", "alumni", "guests"], ...] = items(
        "Who may sign up.", least=1, most=5
    )
    waiver: bool = key("Whether a signed waiver is needed.")
    not_cleared: Literal["may_not_play"] = key(
        "What a block at the gate means; the block is shown, never its reason."
    )
    identification: Identification = key("What a player shows.")
    found_later: FoundIneligible = key("An ineligible player found later.")


class EquipmentExceptions(Article):
    """When something otherwise forbidden may be worn."""

    own_kind: ClassVar[Kind] = "permitted"

    medical: Literal["allowed_if_taped", "allowed", "coordinator"] = key(
        "A medical identity tag."
    )
    religious: Literal["allowed_if_taped", "allowed", "coordinator"] = key("A religious item.")
    head_covers: Literal["allowed", "coordinator"] = key(
        "A plain head cover without hard parts."
    )
    covered_accessories: bool = key(
        "Whether covered accessories that endanger nobody may stay."
    )


class Shinguards(Article):
    """Who answers for the size of a shinguard."""

    own_kind: ClassVar[Kind] = "local"

    size: Literal["reasonable_protection", "player_responsible"] = key("Who answers for it.")


class Equipment(Article):
    """What must be worn, and what must not."""

    own_kind: ClassVar[Kind] = "local"

    required: tuple[Worn, ...] = items("What each player wears.", most=7)
    forbidden: tuple[NotWorn, ...] = items("What nobody wears.", most=8)
    colours: Literal["two_sides_differ", "bibs_for_one_side"] = key("How sides are told apart.")
    faulty: Literal["leaves_to_correct"] = key("What a player with faulty equipment does.")
    returns: Literal["at_stoppage_after_check", "on_signal_after_check"] = key(
        "When the player comes back."
    )
    exceptions: EquipmentExceptions = key("Medical and religious exceptions.")
    shinguards: Shinguards = key("The size of shinguards.")


class Captain(Article):
    """What a captain is and does."""

    own_kind: ClassVar[Kind] = "local"

    armband: Literal["required", "optional"] = key("Whether a captain wears an armband.")
    only_captain_approaches: Literal["not_used", "optional", "compulsory"] = key(
        "Whether only the captain may come to the official about a decision."
    )


class CheckIn(Article):
    """When and how players are checked in."""

    own_kind: ClassVar[Kind] = "administrative"

    opens_minutes_before: int = key("When it opens.", least=0, most=240)
    late: Literal["until_the_end", "until_half_time", "not_after_kick_off"] = key(
        "Until when a late player may check in."
    )
    late_enters: Literal["next_stoppage", "next_substitution"] = key(
        "When a late player enters."
    )


class LeavingField(Article):
    """How a player who is replaced leaves."""

    own_kind: ClassVar[Kind] = "local"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("too_slow_waits_seconds", seconds=("no_limit",)),
    )

    by: Literal["anywhere", "halfway_line", "nearest_point", "own_bench"] = key(
        "Where the player leaves."
    )
    seconds: Most = key("How long that may take.", unit="seconds")
    too_slow_waits_seconds: int = key(
        "How long the substitute waits if it takes longer, then till the first stoppage; 0 for "
        "no wait.",
        least=0,
        most=600,
    )


class Substitution(Article):
    """Who may be replaced, how often and when."""

    own_kind: ClassVar[Kind] = "permitted"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle(
            "again",
            "when",
            "enters_at",
            "signal",
            "recorded",
            "concussion_extra",
            "leaving",
            most=(0,),
        ),
    )

    most: Most = key("How many in a game.")
    again: bool = key("Whether a player who was replaced may come back.")
    when: Literal["any_stoppage", "own_restarts", "goals_kicks_and_halves", "flying"] = key(
        "When it may be made."
    )
    enters_at: Literal["halfway_line", "own_bench"] = key("Where the substitute enters.")
    signal: bool = key("Whether the official's signal is needed.")
    recorded: bool = key("Whether each substitution is written down.")
    concussion_extra: Literal["not_used", "optional"] = key(
        "Whether a further one is allowed for a suspected head injury."
    )
    leaving: LeavingField = key("How the player leaves.")


class Injury(Article):
    """What an injured player does."""

    own_kind: ClassVar[Kind] = "local"
    idle_keys: ClassVar[tuple[Idle, ...]] = (
        idle("goalkeeper_exempt", "off_after_restart_seconds", leaves=("may_stay",)),
    )

    leaves: Literal["after_treatment", "until_next_dead_ball", "may_stay"] = key(
        "Whether an injured player for whom play stopped leaves."
    )
    goalkeeper_exempt: bool = key("Whether a goalkeeper may be treated and stay.")
    off_after_restart_seconds: int = key(
        "How long after the restart the player stays off.", least=0, most=600
    )
    bleeding: Literal["off_until_stopped_and_covered"] = key("What a bleeding player does.")
    suspected_head_injury: Literal["out_for_the_day"] = key(
        "What a suspected head injury means; the next night needs local clearance."
    )
