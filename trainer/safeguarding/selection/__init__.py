"""Which safeguards are valid for one job on one machine, under one rule set, with every reason and its source."""

from trainer.safeguarding.selection.engine import select
from trainer.safeguarding.selection.facts import FACTS, UNKNOWN, Fact, Facts, read_facts
from trainer.safeguarding.selection.rule import Rule
from trainer.safeguarding.selection.rules import RULES
from trainer.safeguarding.selection.rulesets import RULE_SETS, RuleSet
from trainer.safeguarding.selection.safeguards import PRIMARIES, SAFEGUARDS, Safeguard
from trainer.safeguarding.selection.selection import SafeguardVerdict, Selection
from trainer.safeguarding.selection.verdicts import Verdict

__all__ = [
    "FACTS",
    "PRIMARIES",
    "RULES",
    "RULE_SETS",
    "SAFEGUARDS",
    "UNKNOWN",
    "Fact",
    "Facts",
    "Rule",
    "RuleSet",
    "Safeguard",
    "SafeguardVerdict",
    "Selection",
    "Verdict",
    "read_facts",
    "select",
]
