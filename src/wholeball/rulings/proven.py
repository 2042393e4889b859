"""Refuses a rulebook that does not give exactly one ruling for every situation."""

from wholeball.rulings.bind import Rules
from wholeball.rulings.graph import compile_rules
from wholeball.rulings.proof import OPEN, prove
from wholeball.rulings.ruling import Situation, Unproven, rule_by


def proven(rules: Rules) -> Rules:
    """Return the rules as they are.

    Raises:
        Unproven: they have a gap or a conflict; it tells a situation in which it shows.
    """
    try:
        compile_rules(rules)
    except Unproven:
        for finding in prove(rules).findings:
            if finding.code in OPEN:
                rule_by(Situation(facts=finding.situation), rules)
        raise
    return rules
