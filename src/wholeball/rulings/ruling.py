"""Rules a situation: exactly one ruling, or the fact that is lacking."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from wholeball.kernel.faults import WholeballError
from wholeball.kernel.nearest import did_you_mean
from wholeball.rulebook.book import Rulebook
from wholeball.rulings.article import Claim
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.fact import Fact
from wholeball.rulings.settle import applying_in, is_asked, settle
from wholeball.rulings.situation_words import situation_in_words
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """What somebody saw: values by fact. Complete when every fact that is asked has one."""

    facts: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruling:
    """What is decided: a value for each part of the answer, and the articles that say so."""

    answers: Mapping[str, str]
    articles: tuple[Claim, ...]

    def __getitem__(self, part: str) -> str:
        return self.answers[part]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lacks:
    """There is no ruling yet: this fact is asked and has no value; these are possible."""

    fact: Fact
    values: tuple[str, ...]


def rule(situation: Situation, rulebook: Rulebook, space: Space = GAME) -> Ruling | Lacks:
    """Return the ruling of a situation under a rulebook, or the first fact it lacks.

    Raises:
        WholeballError: a fact or value is unknown, contradicts another, or is not asked.
    """
    return rule_by(situation, bind(space, rulebook))


def rule_by(situation: Situation, rules: Rules) -> Ruling | Lacks:
    """Return the same under rules that are bound already."""
    _refuse_unknown(situation, rules.space)
    known: dict[str, str] = {}
    articles: list[Claim] = []
    for stage in rules.space.stages:
        for fact in rules.facts:
            if fact.stage != stage.name:
                continue
            if not is_asked(fact, known, rules):
                continue
            value = situation.facts.get(fact.name)
            if value is None:
                return Lacks(fact=fact, values=fact.open_values(known))
            _refuse_contradiction(fact, value, known)
            known[fact.name] = value
        settled = settle(stage, applying_in(stage, known, rules))
        if settled.gaps or settled.conflicts:
            told = situation_in_words(situation.facts, rules.space)
            raise Unproven(stage.name, settled.gaps, settled.conflicts, told)
        articles.extend(settled.articles)
        known |= settled.answers
    _refuse_unasked(situation, known, rules.space)
    parts = [part for stage in rules.space.stages for part in stage.parts]
    return Ruling(answers={part: known[part] for part in parts}, articles=tuple(articles))


class Unproven(WholeballError):
    """The rulebook has no one answer here; `prove` shows every such situation."""

    def __init__(
        self,
        stage: str,
        gaps: tuple[str, ...],
        conflicts: tuple[str, ...],
        situation: str = "",
    ) -> None:
        """Name the parts without an answer and those with several, and a situation in words."""
        parts = ", ".join((*gaps, *conflicts))
        says = f"The rulebook does not give exactly one answer here ({stage}: {parts})."
        super().__init__(
            f"{says} {situation}".strip(),
            fix="The proof of the rulebook shows every such situation.",
            code="unproven",
        )


def _refuse_unknown(situation: Situation, space: Space) -> None:
    facts = {fact.name: fact for fact in space.facts}
    for name, value in situation.facts.items():
        if name not in facts:
            raise WholeballError(
                f"{name} is no fact.", fix=did_you_mean(name, facts), code="unknown_fact"
            )
        if value not in facts[name].values:
            raise WholeballError(
                f"{name} has no value {value}.",
                fix=did_you_mean(value, facts[name].values),
                code="unknown_value",
            )


def _refuse_contradiction(fact: Fact, value: str, known: Mapping[str, str]) -> None:
    because = fact.contradicted(value, known)
    if because is not None:
        raise WholeballError(
            f"{fact.name} cannot be {value}: {because}.",
            fix=f"Use one of: {', '.join(fact.open_values(known))}.",
            code="contradiction",
        )


def _refuse_unasked(situation: Situation, known: Mapping[str, str], space: Space) -> None:
    for name in situation.facts:
        if name not in known:
            raise WholeballError(
                f"{name} decides nothing here: {space.fact(name).question}",
                fix=f"Leave {name} out, or change what makes it out of place.",
                code="not_asked",
            )
