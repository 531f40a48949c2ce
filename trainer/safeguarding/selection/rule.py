"""One rule: a question on the facts, and the verdict that a yes casts on the safeguards it applies to."""

from dataclasses import dataclass

from trainer.safeguarding.result import Citation, Read
from trainer.safeguarding.selection.conditions import Condition
from trainer.safeguarding.selection.facts import Facts, Unknown
from trainer.safeguarding.selection.rulesets import BOTH, RuleSet
from trainer.safeguarding.selection.safeguards import COMBINED, SAFEGUARDS
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Vote:
    """What one rule casts: its verdict, or that it cannot tell before the facts in ``unknown`` are known."""

    rule: "Rule"
    verdict: Verdict
    unknown: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One thought about safeguards, complete in one place.

    ``reason`` is a message for the trainee; ``conditions`` (messages, for *valid with conditions* alone) say what must
    be true before the first stroke; ``sets`` are the rule sets in which it holds; ``sources`` say where it is written
    and how that was read.
    """

    id: str
    applies: frozenset[str]
    verdict: Verdict
    when: Condition
    reason: str
    sources: tuple[Citation, ...]
    conditions: tuple[str, ...] = ()
    sets: frozenset[str] = BOTH

    def __post_init__(self) -> None:
        if not self.applies <= SAFEGUARDS.keys() or not self.sets <= BOTH or not self.sources:
            raise ValueError(f"{self.id} names a safeguard or rule set that does not exist, or no source")
        if bool(self.conditions) != (self.verdict is Verdict.VALID_COND):
            raise ValueError(f"{self.id} has conditions where it must not, or none where it must")

    @property
    def from_memory(self) -> bool:
        """Say whether a text that nobody has read bears on the rule; it has to be confirmed before it counts."""
        return any(source.read is Read.MEMORY for source in self.sources)

    def vote(self, facts: Facts, rule_set: RuleSet) -> Vote | None:
        """Cast the verdict, abstain (None), or say which unknown facts stand in the way."""
        if rule_set.code not in self.sets:
            return None
        try:
            return Vote(rule=self, verdict=self.verdict) if self.when(facts, rule_set) else None
        except Unknown as gap:
            return Vote(rule=self, verdict=Verdict.CANNOT_RELY, unknown=gap.keys)


NOT_FITTED = mark("It is not fitted on this machine.")


def only(*codes: str) -> frozenset[str]:
    """Name the safeguards that a rule applies to."""
    return frozenset(codes)


ALL_PRIMARIES = frozenset(
    code for code, safeguard in SAFEGUARDS.items() if safeguard.kind == "primary" and code not in COMBINED
)
