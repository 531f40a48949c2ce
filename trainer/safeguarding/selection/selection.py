"""What the rules say of every safeguard for one job."""

from collections.abc import Mapping
from dataclasses import dataclass

from trainer.safeguarding.result import Citation
from trainer.safeguarding.selection.completeness import WayIn
from trainer.safeguarding.selection.facts import Facts
from trainer.safeguarding.selection.rulesets import RuleSet
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import Sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class SafeguardVerdict:
    """One safeguard's verdict.

    ``rules`` are those that decided it and ``reasons`` what they say; a rule that could not be answered stands there
    together with ``U-01``. ``conditions`` (for *valid with conditions*) must all be true before the first stroke.
    ``unknown`` names the facts that must be found out first.
    """

    verdict: Verdict
    rules: tuple[str, ...] = ()
    reasons: tuple[Sentence, ...] = ()
    conditions: tuple[Sentence, ...] = ()
    sources: tuple[Citation, ...] = ()
    unknown: tuple[str, ...] = ()
    from_memory: tuple[str, ...] = ()

    @property
    def usable(self) -> bool:
        """Say whether the job may run on it."""
        return self.verdict.usable


@dataclass(frozen=True, slots=True, kw_only=True)
class Selection:
    """All verdicts for one job under one rule set.

    ``best`` names the primaries with the best usable verdict, all equally right, in the order in which a shop should
    reach for them; empty means: do not run this job on this machine as it stands. ``less_good`` names the other usable
    ones. ``also_needed`` is due beside any of them. ``ways_in`` lists the ways to the tools that are open or not known.
    """

    rule_set: RuleSet
    facts: Facts
    verdicts: Mapping[str, SafeguardVerdict]
    best: tuple[str, ...]
    less_good: tuple[str, ...]
    also_needed: tuple[str, ...]
    find_out: tuple[str, ...]
    ways_in: tuple[WayIn, ...]

    @property
    def nothing_valid(self) -> bool:
        """Say whether no safeguard is usable: the job is not run here."""
        return not self.best

    @property
    def also_ok(self) -> tuple[str, ...]:
        """Return what is as good as the first of ``best``."""
        return self.best[1:]
