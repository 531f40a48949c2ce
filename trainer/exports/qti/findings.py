"""What taking questions in from a package may find."""

from typing import ClassVar

from trainer.findings import Finding, Severity


class UnreadableItem(Finding):
    """A file of the package is no XML that is read here, or is not there."""

    code: ClassVar[str] = "unreadable-item"
    title: ClassVar[str] = "The item cannot be read."
    fix: ClassVar[str] = "Save it as XML in UTF-8, without a document type, under 1 MB, and name it in the manifest."


class NotAQuestion(Finding):
    """An item asks in a way that no kind of question of the bank has."""

    code: ClassVar[str] = "not-a-question"
    title: ClassVar[str] = "The item is of no kind that the bank has."
    fix: ClassVar[str] = "Ask it as a choice, an order or a match, or write it in the bank by hand."


class NoRightAnswer(Finding):
    """An item does not say which answer is right, or names one that is not offered."""

    code: ClassVar[str] = "no-declared-answer"
    title: ClassVar[str] = "The item does not say what is right."
    fix: ClassVar[str] = "Declare the right answer as qti-correct-response, with identifiers that are offered."


class NoWords(Finding):
    """A text is wanting, or holds what is no words."""

    code: ClassVar[str] = "no-words"
    title: ClassVar[str] = "There are no words here."
    fix: ClassVar[str] = "Write it as text; pictures, sound and formulas are not taken in."


class UnfitFacts(Finding):
    """What the bank wrote beside the standard was changed to something that it cannot be."""

    code: ClassVar[str] = "unfit-facts"
    title: ClassVar[str] = "The bank's own data in the item cannot be used."
    fix: ClassVar[str] = "Correct what the note names, or take the data- attribute out and fill the draft by hand."


class OtherFigure(Finding):
    """The right number of an item is not what the sum gives."""

    code: ClassVar[str] = "other-figure"
    title: ClassVar[str] = "The number is not what the sum gives."
    fix: ClassVar[str] = "Correct the inputs; a number is always worked out and never taken over."


class LanguagesDiffer(Finding):
    """The same question is built differently in two languages."""

    code: ClassVar[str] = "languages-differ"
    title: ClassVar[str] = "The question is not the same in each language."
    fix: ClassVar[str] = "Give it the same answers, the same right one and the same data in each language."


class TakenTwice(Finding):
    """The package holds a question twice in one language."""

    code: ClassVar[str] = "taken-twice"
    title: ClassVar[str] = "The package holds it twice."
    fix: ClassVar[str] = "Give one of the two an identifier of its own."


class DrillLeft(Finding):
    """An item is a drill of the bank, of which the package holds only what a player needs."""

    code: ClassVar[str] = "drill-left"
    title: ClassVar[str] = "The item is a drill and is not taken in."
    fix: ClassVar[str] = "Nothing is lost: its ranges, sum and slips stand in the bank's drills folder."
    severity: ClassVar[Severity] = Severity.WARNING


class DraftUnfinished(Finding):
    """A draft lacks what the standard does not carry."""

    code: ClassVar[str] = "draft-unfinished"
    title: ClassVar[str] = "The draft lacks what only the bank knows."
    fix: ClassVar[str] = "Write it into the draft; trainer bank check then looks at all of it."
    severity: ClassVar[Severity] = Severity.WARNING
