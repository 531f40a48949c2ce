"""Figures in texts: a text says ``{need}``, and the sum behind that name says how much it is."""

import re
from collections.abc import Mapping

from trainer import units
from trainer.bank.basis import Text
from trainer.bank.draft import Origin
from trainer.bank.findings import BadFigure
from trainer.bank.question_model import Shown
from trainer.errors import TrainerError
from trainer.findings import Finding
from trainer.safeguarding.problems import problem

NAMED = re.compile(r"\{([A-Za-z0-9-]+)\}")
NO_BREAK = "\u00a0"
PLACES = 4


def amounts(figures: Mapping[str, Shown], item: str, origin: Origin, findings: list[Finding]) -> dict[str, str]:
    """Return what each figure comes to, rounded to its safe side, as text; one that cannot be had is a finding."""
    found = {}
    for name, shown in figures.items():
        try:
            sum_ = problem(shown.problem)
            worked = sum_.solve(sum_.read(shown.inputs), unit=shown.unit)
        except TrainerError as error:
            findings.append(_wrong(item, origin, name, str(error)))
            continue
        if worked.rounded is None or worked.unit != shown.unit:
            note = str(worked.refusal) if worked.refusal else f"It has no figure in {shown.unit}."
            findings.append(_wrong(item, origin, name, note))
            continue
        found[name] = units.show(worked.rounded, worked.unit, PLACES)
    return found


def fill(text: Text, known: Mapping[str, str]) -> Text:
    """Put the figures into a text, with the decimal sign of each language; a name that is not known is left as it is."""
    return Text(words={language: _filled(words, known, language) for language, words in text.words.items()})


def unfilled(text: Text) -> set[str]:
    """Return the names in a text for which there was no figure."""
    return {name for words in text.words.values() for name in NAMED.findall(words)}


def _filled(words: str, known: Mapping[str, str], language: str) -> str:
    def put(match: re.Match[str]) -> str:
        amount = known.get(match[1], match[0])
        return units.localised(amount, language).replace(" ", NO_BREAK)

    return NAMED.sub(put, words)


def _wrong(item: str, origin: Origin, name: str, note: str) -> Finding:
    return BadFigure(file=origin.file.name, line=origin.line("figures", name), key=f"{item} figures.{name}", note=note)
