"""Numbers that may have lost zeros in front. Whether they did is asked once for a file; no zero is put back unasked."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from trainer.records.roster.known import Known
from trainer.records.roster.questions import Asked, Choice, Question
from trainer.records.roster.refusals import Refusal
from trainer.records.roster.values import Stated
from trainer.wording import Sentence, say

LOST, NONE_LOST = "lost", "none-lost"
MOST_SHOWN = 3


def settle_zeros(stated: Iterable[Stated], known: Known, asked: Asked) -> None:
    """Set the numbers right as a person says."""
    doubtful = _doubtful(stated, known)
    answer = asked.ask(_question(doubtful)) if doubtful else NONE_LOST
    for one, others in doubtful if answer != NONE_LOST else ():
        if answer is None:
            one.open.append(say("Whether the number has lost zeros is not answered yet."))
        elif len(others) == 1:
            one.number = others[0]
        else:
            told = say("{number} has lost zeros, and it cannot be told how many.", number=one.number)
            one.refusals.append(Refusal(told, say("Format the column as text in the source and export it again.")))


def _doubtful(stated: Iterable[Stated], known: Known) -> list[tuple[Stated, Sequence[str]]]:
    alike: dict[str, set[str]] = defaultdict(set)
    for number in known.numbers:
        alike[_stripped(number)].add(number)
    found: list[tuple[Stated, Sequence[str]]] = []
    for one in stated:
        if not one.number or one.refusals:
            continue
        others = sorted(alike[_stripped(one.number)] - {one.number})
        exact = one.number in known.numbers
        if (others and one.bare) or (not exact and (others or one.bare)):
            found.append((one, others))
    return found


def _stripped(number: str) -> str:
    return (number.lstrip("0") or "0") if number.isdigit() else number


def _question(doubtful: Sequence[tuple[Stated, Sequence[str]]]) -> Question:
    pairs = [(one.number, others[0]) for one, others in doubtful if others][:MOST_SHOWN]
    first = doubtful[0][0]
    lost, none_lost = _choices(pairs, first.number)
    told = (
        say("{short} looks like {long} with zeros lost. Has a spreadsheet taken zeros off the numbers of this file?",
            short=pairs[0][0], long=pairs[0][1])
        if pairs
        else say("{number} is a number to the spreadsheet, which takes zeros off. Did any number of this file begin with zero?",
                 number=first.number)
    )  # fmt: skip
    choices = (Choice(LOST, lost), Choice(NONE_LOST, none_lost))
    return Question(id="zeros", sentence=told, choices=choices, line=first.line)


def _choices(pairs: Sequence[tuple[str, str]], number: str) -> tuple[Sentence, Sentence]:
    if not pairs:
        return say("Yes, zeros are lost; the rows are refused"), say("No, {number} is whole", number=number)
    shown = " · ".join(f"{short} = {long}" for short, long in pairs)
    apart = " · ".join(f"{short} ≠ {long}" for short, long in pairs)
    return say("Yes: {pairs}", pairs=shown), say("No, they are other people: {pairs}", pairs=apart)
