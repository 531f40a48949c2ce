"""Facts about barriers and about devices worn on the wrists."""

from trainer.safeguarding.selection.facts.fact import choice
from trainer.wording import mark

GUARDS = (
    choice(
        "guard_fit",
        mark("This job and a barrier guard"),
        mark("Nobody has tried whether the job passes a barrier guard. Try a blank and measure the opening."),
        feeds_ok=mark("feeds through openings that meet the opening table"),
        opening_too_big=mark("feeds, but an opening is larger than the table allows"),
        part_cannot_pass=mark("cannot pass the guard"),
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
        bypassed=mark("tied, taped or bridged"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "guard_locking",
        mark("Interlocked guard stays locked until closing is over"),
        mark("Nobody knows whether the guard stays locked while the ram closes. Try it with the tools empty."),
        yes=mark("yes"),
        no=mark("no"),
    ),
    choice(
        "adj_guard_state",
        mark("Adjustable guard without a switch"),
        mark("Nobody has looked how the adjustable guard is set. Look, and measure its opening."),
        set_for_this_job=mark("set for this job"),
        set_for_other_job=mark("set for another job"),
        raised=mark("raised or swung away"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "pullback_set",
        mark("Pull-backs"),
        mark("Nobody knows for whom and for which die the pull-backs are set. Check them on the wrists at this die."),
        this_operator_this_die=mark("set and checked for this operator and this die"),
        other_operator=mark("set for another operator"),
        other_die=mark("set for another die"),
        not_checked=mark("not checked this shift"),
        not_fitted=mark("not fitted"),
    ),
    choice(
        "restraint_set",
        mark("Restraint"),
        mark("Nobody has tried the restraint at full stretch. Try it on this operator at this die."),
        stops_short=mark("stops the fingertips short of the tools"),
        too_long=mark("too long"),
        other_operator=mark("set for another operator"),
        not_fitted=mark("not fitted"),
    ),
)
