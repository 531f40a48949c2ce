"""Rules for barrier guards: fixed, interlocked, adjustable."""

from trainer.safeguarding.selection import sources as s
from trainer.safeguarding.selection.conditions import ALWAYS, has
from trainer.safeguarding.selection.rule import NOT_FITTED, Rule, only
from trainer.safeguarding.selection.rules.shared import CANNOT_STOP, STOP_TIME_NOT_CURRENT
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import mark

BARRIERS = only("fixed_guard", "interlocked_guard", "adjustable_guard")
UNLOCKED = has("guard_locking", "no")

RULES = (
    Rule(
        id="BG-01",
        applies=BARRIERS,
        when=has("guard_fit", "part_cannot_pass"),
        verdict=Verdict.NOT_VALID,
        reason=mark("This part does not get past the guard. Somebody would take the guard off."),
        sources=(s.PRACTICE, s.LETTER_1976),
    ),
    Rule(
        id="BG-02",
        applies=BARRIERS,
        when=has("guard_fit", "opening_too_big"),
        verdict=Verdict.NOT_VALID,
        reason=mark("An opening is too large for its distance. Fingers reach the tools through it."),
        sources=(s.TABLE_O_10, s.ISO_13857_4),
    ),
    Rule(
        id="BG-03",
        applies=only("fixed_guard", "adjustable_guard"),
        when=has("needs_reach_in", "yes"),
        verdict=Verdict.NOT_VALID,
        reason=mark("Hands must go in at each part, and this guard does not open. It would be left off."),
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="FG-01",
        applies=only("fixed_guard"),
        when=has("fixed_guard_state", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="IG-01",
        applies=only("interlocked_guard"),
        when=has("interlock_state", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="IG-02",
        applies=only("interlocked_guard"),
        when=has("interlock_state", "bypassed"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The switch of the guard is cheated. The ram closes with the guard open."),
        sources=(s.WAC_20054,),
    ),
    Rule(
        id="IG-03",
        applies=only("interlocked_guard"),
        when=UNLOCKED & CANNOT_STOP,
        verdict=Verdict.NOT_VALID,
        reason=mark("The guard can be opened in a stroke that does not stop any more."),
        sources=(s.MICHIGAN_GATE, s.ISO_14119),
    ),
    Rule(
        id="IG-04",
        applies=only("interlocked_guard"),
        when=UNLOCKED & STOP_TIME_NOT_CURRENT,
        verdict=Verdict.CANNOT_RELY,
        reason=mark("The guard does not lock. Without a current stopping time nobody knows whether a hand is faster."),
        sources=(s.ISO_14119, s.ISO_13855_9),
    ),
    Rule(
        id="AG-01",
        applies=only("adjustable_guard"),
        when=has("adj_guard_state", "not_fitted"),
        verdict=Verdict.NOT_VALID,
        reason=NOT_FITTED,
        sources=(s.PRACTICE,),
    ),
    Rule(
        id="AG-02",
        applies=only("adjustable_guard"),
        when=has("adj_guard_state", "raised"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The guard is out of the way. The machine cannot tell, and closes all the same."),
        sources=(s.PRACTICE, s.OSHA_3067),
    ),
    Rule(
        id="AG-03",
        applies=only("adjustable_guard"),
        when=has("adj_guard_state", "set_for_other_job"),
        verdict=Verdict.NOT_VALID,
        reason=mark("The guard is adjusted for other work. With these tools a hand may fit under it."),
        sources=(s.PRACTICE, s.DGUV_008_10),
    ),
    Rule(
        id="AG-04",
        applies=only("adjustable_guard"),
        when=ALWAYS,
        verdict=Verdict.VALID_COND,
        reason=mark("Nothing but its setting keeps this guard in place."),
        conditions=(
            mark("The guard is set for this job and its screws are tight."),
            mark("Its opening is measured against the opening table."),
            mark("Somebody entitled to do so has released it."),
        ),
        sources=(s.PRACTICE, s.LETTER_1998_OPENINGS),
    ),
)
