"""How much there is in a bank: by kind, competency, role and language."""

from collections import Counter
from collections.abc import Iterator

from trainer.bank.bank import Bank
from trainer.bank.model import Drill, Question, Text

Counts = dict[str, dict[str, int]]


def counts(bank: Bank) -> Counts:
    """Return counts of what the bank holds. An item counts once for each role that needs its competency."""
    marked: list[Question | Drill] = [*bank.questions.values(), *bank.drills.values()]
    kinds = Counter(item.kind for item in marked)
    return {
        "kind": {
            "scenarios": len(bank.scenarios),
            "lessons": len(bank.lessons),
            **dict(sorted(kinds.items())),
            "programmes": len(bank.programmes),
            "checklists": len(bank.checklists),
        },
        "theme": dict(
            sorted(Counter(s.theme for s in bank.scenarios.values() if s.theme for _ in s.questions).items())
        ),
        "competency": {name: sum(item.competency == name for item in marked) for name in bank.competencies},
        "role": _roles(bank, marked),
        "language": {name: sum(text.has(name) for text in _texts(bank)) for name in bank.languages},
    }


def _roles(bank: Bank, marked: list[Question | Drill]) -> dict[str, int]:
    found: Counter[str] = Counter()
    for item in marked:
        competency = bank.competencies.get(item.competency)
        found.update(role.value for role in competency.roles) if competency else None
    return dict(sorted(found.items()))


def _texts(bank: Bank) -> Iterator[Text]:
    """Give every text of the sheets: what has to be there in each language."""
    for lesson in bank.lessons.values():
        yield from (lesson.heading, lesson.text)
    for question in bank.questions.values():
        yield from (question.told, question.asked, question.why)
        yield from (one.text for one in (*question.options, *question.reasons))
        yield from (option.partner for option in question.options if option.partner)
    for drill in bank.drills.values():
        yield from (drill.title, drill.told, drill.asked, *(s.told for s in getattr(drill, "settings", ())))
