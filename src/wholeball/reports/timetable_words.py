"""Says of a timetable what it costs, how good it is, and why there is none."""

from collections.abc import Iterable, Iterator
from typing import Final

from wholeball.kernel.faults import Fault, Place
from wholeball.planning.answer import Impossible, Line, Plan, Reason
from wholeball.planning.kinds import KINDS
from wholeball.planning.problem import TimetableProblem
from wholeball.planning.rule import Rule
from wholeball.rulebook.sentence import counted, listed

FILE: Final = "planning.toml"
_HUNDRED: Final = 100
_FEW: Final = 6


def proof_line(plan: Plan) -> str:
    """Say how much better a plan could be at most."""
    if plan.proof == "optimal":
        return "No better plan exists."
    if plan.proof == "none":
        return "How much better a plan could be is not known."
    percent = max(1, -(-round(plan.room * _HUNDRED * _HUNDRED) // _HUNDRED))
    return (
        f"At most {min(percent, _HUNDRED)} % of its cost could be saved; that was not proved."
    )


def cost_lines(plan: Plan, problem: TimetableProblem) -> Iterator[str]:
    """Say which wishes are not met, dearest rule first, with what each costs."""
    rules = {rule.rule: rule for rule in problem.rules}
    by_rule: dict[str, list[Line]] = {}
    for line in plan.lines:
        by_rule.setdefault(line.rule, []).append(line)
    for name, lines in sorted(by_rule.items(), key=lambda one: (-_cost(one[1]), one[0])):
        times = counted(sum(line.times for line in lines), "time")
        yield f"{rule_line(rules[name])} Not met {times}: costs {_cost(lines):,}."


def _cost(lines: Iterable[Line]) -> int:
    return sum(line.cost for line in lines)


def rule_line(rule: Rule) -> str:
    """Say a rule in words, with its reason where it has one."""
    why = f" ({rule.why})" if rule.why else ""
    return KINDS[rule.kind].sentence(rule).removesuffix(".") + f"{why}."


def not_proved(plan: Plan) -> Iterator[Fault]:
    """Warn of a plan that may not be the best there is."""
    if plan.proof != "optimal":
        yield Fault(
            code="not_proved",
            place=Place(file="timetable.csv"),
            says=f"the search ended with a plan that costs {plan.total:,}; {_at_least(plan)}",
            value=f"{plan.total}",
            cure="Plan again with more --seconds, or take it as it is.",
            level="doubt",
        )


def _at_least(plan: Plan) -> str:
    if plan.proof == "none":
        return "what the best one costs is not known."
    return f"the best one costs {max(0, round(plan.bound)):,} at least."


def infeasible(answer: Impossible) -> list[Fault]:
    """Return why there is no plan, each reason as a fault with what may cure it."""
    cures = listed(tuple(cure.says.rstrip(".") for cure in answer.cures), last="or")
    opening = (
        "There is a plan if you do this"
        if all(cure.is_tried for cure in answer.cures)
        else "By counting there is room if you do this; no plan was tried"
    )
    reasons = answer.reasons or (
        Reason(rules=(), says="There is no timetable that keeps every rule that must hold."),
    )
    return [
        Fault(
            code="infeasible",
            place=Place(file=FILE),
            says=reason.says,
            value=None if reason.shortage is None else f"{reason.shortage}",
            cure=f"{opening}: {cures}." if cures else _cure(reason),
        )
        for reason in reasons
    ]


def _cure(reason: Reason) -> str:
    own = [name for name in reason.rules if name not in ("capacity", "lock")]
    parts = []
    if "capacity" in reason.rules:
        parts.append("open more fields or nights in slots.csv")
    if "lock" in reason.rules:
        parts.append("give it a slot in slots.csv")
    if own:
        one = "loosen" if len(own) == 1 else "loosen one of"
        parts.append(f"{one}: {listed(tuple(own[:_FEW]), last='or')}")
    text = "; or ".join(parts) or "make one of the musts a wish, or open more slots"
    return f"{text[0].upper()}{text[1:]}."
