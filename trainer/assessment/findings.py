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


class NothingWrong(Finding):
    """A setting in which every safeguard offered is usable."""

    code: ClassVar[str] = "nothing-wrong-offered"
    title: ClassVar[str] = "Whatever is chosen in this setting is usable."
    fix: ClassVar[str] = "Offer a safeguard that does not count here."


class NoKey(Finding):
    """A setting in which nothing offered is right."""

    code: ClassVar[str] = "nothing-right-offered"
    title: ClassVar[str] = "No safeguard offered in this setting is usable, and “none” is not offered."
    fix: ClassVar[str] = "Offer one that is valid, or “none”."


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
    NothingWrong,
    NoKey,
    TemptingRight,
)
