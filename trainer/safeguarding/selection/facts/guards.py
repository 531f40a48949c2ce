"""Facts about barriers and about devices worn on the wrists."""

from trainer.safeguarding.selection.facts.fact import choice
from trainer.wording import mark

GUARDS = (
    choice(
        "guard_fit",
        mark("How the job passes a barrier guard"),
        mark("Nobody has tried whether the job passes a barrier guard. Try a blank and measure the opening."),
        feeds_ok=mark("it feeds, and the openings agree with the table"),
        opening_too_big=mark("it feeds, but the table does not allow that opening"),
        part_cannot_pass=mark("it does not feed"),
    ),
    choice(
        "fixed_guard_state",
        mark("Fixed barrier guard"),
        mark("Nobody has looked whether the fixed guard is on. Look."),
        fitted=mark("fitted"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "interlock_state",
        mark("Interlocked barrier guard"),
        mark("Nobody has tried the interlock of the guard. Open the guard and see that the ram cannot close."),
        working=mark("working"),
        bypassed=mark("switch cheated"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "guard_locking",
        mark("Interlocked guard locks while the ram closes"),
        mark("Nobody knows whether the guard stays locked while the ram closes. Try it with the tools empty."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "adj_guard_state",
        mark("Guard on screws"),
        mark("Nobody has looked how the adjustable guard is set. Look, and measure its opening."),
        set_for_this_job=mark("set for this job"),
        set_for_other_job=mark("adjusted for other work"),
        raised=mark("moved out of the way"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "pullback_set",
        mark("Pull-backs"),
        mark("Nobody knows for whom and for which die the pull-backs are set. Check them on the wrists at this die."),
        this_operator_this_die=mark("right for the operator and die of today, checked"),
        other_operator=mark("adjusted to somebody else"),
        other_die=mark("adjusted to other tools"),
        not_checked=mark("nobody checked them since the shift began"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "restraint_set",
        mark("Restraint"),
        mark("Nobody has tried the restraint at full stretch. Try it on this operator at this die."),
        stops_short=mark("stops the fingertips short of the tools"),
        too_long=mark("too long"),
        other_operator=mark("adjusted to somebody else"),
        not_fitted=mark("not fitted"),
    ),
)
