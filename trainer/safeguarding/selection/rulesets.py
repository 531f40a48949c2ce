"""The two rule sets, and the three places where they measure differently."""

from dataclasses import dataclass
from fractions import Fraction

from trainer.errors import UsageError
from trainer.wording import mark, say

US, INTL = "us", "intl"
BOTH = frozenset({US, INTL})


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSet:
    """A body of rules as it bears on press brakes.

    ``small_gap`` (mm) is the largest opening that no finger enters. Where ``strict``, a distance must be greater than
    the one worked out; otherwise it must not be less. ``coarsest`` (mm) bounds the resolution that still sees a hand.
    """

    code: str
    name: str
    small_gap: Fraction
    strict: bool
    coarsest: Fraction
    coarsest_allowed: bool

    def too_near(self, at: Fraction, needs: Fraction) -> bool:
        """Say whether a device ``at`` mm stands nearer than the ``needs`` mm worked out for it."""
        return not at > needs if self.strict else at < needs

    def too_coarse(self, resolution: Fraction) -> bool:
        """Say whether a field with this effective resolution (mm) no longer sees a hand."""
        return resolution > self.coarsest if self.coarsest_allowed else resolution >= self.coarsest


RULE_SETS = {
    # Small gap 1/4 in: WAC 296-806-46504; greater than: 29 CFR 1910.217 (c)(3)(iii)(e) by way of a State copy;
    # 63.5 mm and above: range of the depth formula in ANSI B11.19 (2003), second hand.
    US: RuleSet(
        code=US,
        name=mark("United States"),
        small_gap=Fraction("6.35"),
        strict=True,
        coarsest=Fraction("63.5"),
        coarsest_allowed=False,
    ),
    # Small gap 6 mm: DGUV Information 209-030 section 2 (2014); not less than, and 70 mm: ISO 13855 6.2 (2010), second hand.
    INTL: RuleSet(
        code=INTL,
        name=mark("International"),
        small_gap=Fraction(6),
        strict=False,
        coarsest=Fraction(70),
        coarsest_allowed=True,
    ),
}


def rule_set(code: str) -> RuleSet:
    """Return the rule set with this code, ``us`` or ``intl``.

    Raises :class:`UsageError` that names both.
    """
    if code not in RULE_SETS:
        raise UsageError(
            say("There is no rule set “{code}”. Take one of: {known}.", code=code, known=", ".join(RULE_SETS))
        )
    return RULE_SETS[code]
