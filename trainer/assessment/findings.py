"""What the self-check of the drills may find."""

from typing import ClassVar

from trainer.findings import Finding, Severity


class RefusedInput(Finding):
    """A value in a drill's range that its problem does not take, or that gives no figure."""

    code: ClassVar[str] = "refused-input"
    title: ClassVar[str] = "The problem gives no figure for numbers of this drill."
    fix: ClassVar[str] = "Keep the ranges inside what the problem takes."


class NeverDrawn(Finding):
    """A value in a drill's range that no accepted draw has: part of the range cannot be reached."""

    code: ClassVar[str] = "never-drawn"
    title: ClassVar[str] = "A value of the range is never drawn."
    fix: ClassVar[str] = "Take it out of the range, or list fewer slips."


class SlipNeverTold(Finding):
    """A slip that can be told apart in no draw of a drill."""

    code: ClassVar[str] = "slip-never-told-apart"
    title: ClassVar[str] = "A slip can be told from the right answer, or from another slip, in no draw."
    fix: ClassVar[str] = "Take the slip out, or change the ranges so that it makes a difference."


class SlipNeverApplies(Finding):
    """A slip that changes nothing anywhere in a drill's range."""

    code: ClassVar[str] = "slip-never-applies"
    title: ClassVar[str] = "A slip changes nothing in any draw."
    fix: ClassVar[str] = "Take the slip out; it belongs to another drill."


class ManyRefused(Finding):
    """A drill that refuses more draws than it asks."""

    code: ClassVar[str] = "many-draws-refused"
    title: ClassVar[str] = "Most draws are refused because slips cannot be told apart in them."
    fix: ClassVar[str] = "Choose steps that keep the slips apart, or list fewer slips."
    severity: ClassVar[Severity] = Severity.WARNING


class NoDraw(Finding):
    """A drill of which no draw can be asked."""

    code: ClassVar[str] = "no-draw"
    title: ClassVar[str] = "No draw of the drill can be asked."
    fix: ClassVar[str] = "Widen the ranges, or list fewer slips."


class UnfairSetting(Finding):
    """A setting that must not be asked: no right answer, no wrong one, or *none* although something not offered would do."""

    code: ClassVar[str] = "unfair-setting"
    title: ClassVar[str] = "The safeguards offered in this setting make no fair question."
    fix: ClassVar[str] = "Offer three or more, of which at least one is right and one is wrong."


class TemptingRight(Finding):
    """A misconception tied to a safeguard that is usable in the setting."""

    code: ClassVar[str] = "tempting-is-right"
    title: ClassVar[str] = "A safeguard that is usable here is said to show a misconception."
    fix: ClassVar[str] = "Take it out of “tempting”, or change the facts."


finds = (
    RefusedInput,
    NeverDrawn,
    SlipNeverTold,
    SlipNeverApplies,
    ManyRefused,
    NoDraw,
    UnfairSetting,
    TemptingRight,
)
