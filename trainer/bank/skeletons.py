"""Skeletons: the files of a new scenario or drill, ready to be filled in, with TODO where an author has to write.

What can be known is filled in from the bank that the item is for: a competency of the right kind, its roles, wrong ideas
that belong to it, its theme, every language. What nobody but the author can know stands as TODO, and ``trainer bank
check`` finds each of them until it is written.
"""

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from trainer.bank.bank import Bank
from trainer.bank.basis import TO_WRITE
from trainer.bank.model import Competency, CompetencyKind, Theme
from trainer.errors import UsageError
from trainer.wording import say

SLUG = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
ID = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")
LONGEST = 60  # characters of a slug or an id
KEY = TO_WRITE.rstrip(":")  # stands for a key that the author has to choose; no list holds it
FOLDERS = {"scenario": "scenarios", "drill": "drills"}

SCENARIO = """\
# Here stands what is the same in each language; the words stand in {languages}.
# Each TODO is a finding of “trainer bank check” until it is written. content/README.md explains every key.
id: {id}
theme: {theme}
roles: [{roles}]
competencies: [{competency}]
sources: [{key}]          # keys of sources.yaml; common-practice for a fact of the trade that has no other source
lessons:
  - {{id: l1, drawing: place}}
questions:
  - id: q1
    version: 1             # goes up with each change
    kind: pick-one
    competency: {competency}
    critical: false        # true: a wrong answer fails the paper
    sources: [{key}]
    drawing: place
    options:               # each wrong one names the wrong idea of misconceptions.yaml that it shows
      - {{id: a, misconception: {first}}}
      - {{id: b, right: true}}
      - {{id: c, misconception: {second}}}
"""
SCENARIO_WORDS = """\
title: "TODO: a name of a few words"
lessons:
  l1:
    heading: "TODO: what this sheet says, in a line"
    text: |
      TODO: what happens here. Two or three short sentences.

      - What to do about it.
questions:
  q1:
    told: "TODO: the scene, in one or two short sentences."
    asked: "TODO: the question, in one line?"
    options:
      a: "TODO: a wrong answer that people give."
      b: "TODO: the right one, and as long."
      c: "TODO: another wrong answer of theirs."
    why: "TODO: why the right one is right."
drawings:
  place: "TODO: what the drawing shows, for somebody who cannot see it."
"""
DRAWINGS = """\
# A press brake from the front. Lengths are millimetres from the left end of its bed and from the floor.
place:
  view: front
  place: {x: 112, y: 440, scale: 0.145}
  parts:
    - {part: floor}
    - {part: brake}
"""
DRILL = """\
# The answer is never written down: it is worked out from what is drawn. The words stand in {languages}.
# Each TODO is a finding of “trainer bank check” until it is written. content/README.md explains every key.
id: {id}
version: 1                 # goes up with each change
kind: compute
competency: {competency}
sources: [{key}]          # keys of sources.yaml
problem: us-presence-sensing   # “trainer calc --list” names the problems and their inputs
unit: mm                   # the unit of the answer
over: 100 mm               # more than this above the least distance is called too far
inputs:
  stopping-time: {{from: 120 ms, to: 200 ms, step: 10 ms}}
slips: [milliseconds-as-hundredths, inches-as-millimetres, rounds-down-far]   # the mistakes that it tells apart
"""
DRILL_WORDS = """\
title: "TODO: a name of a few words"
told: "TODO: what the learner has to know beside the numbers, in one or two sentences."
asked: "TODO: the question, in one line?"
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Skeleton:
    """A new folder of the bank: where it goes (``scenarios/<slug>``) and its files by name."""

    kind: str
    slug: str
    files: Mapping[str, str]


def skeleton(bank: Bank, kind: str, slug: str, ident: str) -> Skeleton:
    """Return the files of a new ``scenario`` or ``drill`` for a bank.

    Raises :class:`UsageError` where slug or id is none, or where the bank has the id already.
    """
    if not SLUG.fullmatch(slug) or len(slug) > LONGEST:
        raise UsageError(say("“{slug}” is no name for a folder; write one such as reach-over-the-top.", slug=slug[:80]))
    if not ID.fullmatch(ident) or len(ident) > LONGEST:
        raise UsageError(say("“{item}” is no id; write letters and digits, with hyphens between.", item=ident[:80]))
    if ident in _ids(bank):
        raise UsageError(say("The bank has {item} already; ids are never used again.", item=ident))
    made = _scenario(bank, ident) if kind == "scenario" else _drill(bank, ident)
    return Skeleton(kind=FOLDERS[kind], slug=slug, files=made)


def _ids(bank: Bank) -> set[str]:
    held: tuple[Mapping[str, object], ...]
    held = (bank.sources, bank.competencies, bank.misconceptions, bank.scenarios, bank.drills, bank.programmes)
    return {ident for entries in (*held, bank.checklists) for ident in entries}


def _scenario(bank: Bank, ident: str) -> dict[str, str]:
    competency = _competency(bank, CompetencyKind.KNOWLEDGE)
    name = competency.id if competency else KEY
    ideas = [idea.id for idea in bank.misconceptions.values() if idea.competency == name]
    first, second, *_ = (*ideas, KEY, KEY)
    text = SCENARIO.format(
        id=ident,
        key=KEY,
        languages=_files(bank),
        theme=_theme(bank, name),
        roles=", ".join(competency.roles) if competency else KEY,
        competency=name,
        first=first,
        second=second,
    )
    return {"scenario.yaml": text, "drawings.yaml": DRAWINGS, **_words(bank, SCENARIO_WORDS)}


def _drill(bank: Bank, ident: str) -> dict[str, str]:
    competency = _competency(bank, CompetencyKind.CALCULATION)
    name = competency.id if competency else KEY
    text = DRILL.format(id=ident, key=KEY, languages=_files(bank), competency=name)
    return {"drill.yaml": text, **_words(bank, DRILL_WORDS)}


def _competency(bank: Bank, kind: CompetencyKind) -> Competency | None:
    return next((one for one in bank.competencies.values() if one.kind is kind), None)


def _theme(bank: Bank, competency: str) -> str:
    """Return the theme that scenarios of a competency have most often."""
    held = (one.theme for one in bank.scenarios.values() if competency in one.competencies and one.theme)
    found = Counter(held).most_common(1)
    return str(found[0][0] if found else next(iter(Theme)))


def _files(bank: Bank) -> str:
    return " and ".join(f"{language}.yaml" for language in bank.languages)


def _words(bank: Bank, text: str) -> dict[str, str]:
    return {f"{language}.yaml": text for language in bank.languages}
