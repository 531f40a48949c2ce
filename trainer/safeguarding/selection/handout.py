"""A selection as a sheet to hand out, and as plain data."""

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from trainer.safeguarding.cautions import CAUTION, MEASURED
from trainer.safeguarding.selection import principles
from trainer.safeguarding.selection.facts import FACTS, Fact
from trainer.safeguarding.selection.rules import RULES
from trainer.safeguarding.selection.safeguards import SAFEGUARDS, Kind
from trainer.safeguarding.selection.selection import SafeguardVerdict, Selection
from trainer.safeguarding.selection.verdicts import Verdict
from trainer.wording import Sentence, say

WIDTH = 96

_SOURCES = {rule.id: rule.sources for rule in RULES} | {
    one.id: one.sources
    for one in (principles.UNKNOWN_IS_NOT_YES, principles.BEST_OF_THE_PARTS, principles.NOTHING_VALID)
}


def cautions(selection: Selection) -> tuple[Sentence, ...]:
    """Return what a reader must beware of; the general caution comes last."""
    doubtful = sorted({rule for one in selection.verdicts.values() for rule in one.from_memory})
    memory = say(
        "Part of what these rules rest on was not read in the original: {rules}. Have somebody with the text confirm it.",
        rules=", ".join(doubtful),
    )
    return (*((memory,) if doubtful else ()), MEASURED, CAUTION)


def as_data(selection: Selection) -> dict[str, Any]:
    """Return verdicts, best, what else is needed, what to find out and the cautions as plain data."""
    return {
        "rule_set": selection.rule_set.code,
        "verdicts": {code: _verdict_data(one) for code, one in selection.verdicts.items()},
        "best": list(selection.best),
        "less_good": list(selection.less_good),
        "also_needed": list(selection.also_needed),
        "do_not_run": selection.nothing_valid,
        "find_out": list(selection.find_out),
        "cautions": [str(sentence) for sentence in cautions(selection)],
    }


def _verdict_data(one: SafeguardVerdict) -> dict[str, Any]:
    return {
        "verdict": one.verdict.value,
        "rules": list(one.rules),
        "reasons": [str(sentence) for sentence in one.reasons],
        "conditions": [str(sentence) for sentence in one.conditions],
        "sources": [str(source) for source in one.sources],
    }


def as_text(selection: Selection) -> str:
    """Write a selection out in English, best first, for a person at the brake."""
    parts = (
        [f"Safeguards for this job. Rule set: {selection.rule_set.name} ({selection.rule_set.code})."],
        _do_not_run() if selection.nothing_valid else [],
        _usable("Right for this job; take one of these", selection, selection.best),
        _usable("Usable, but not as good", selection, selection.less_good),
        _must_be_added(selection),
        _find_out(selection),
        _grouped("Cannot be relied on until that is known", selection, Verdict.CANNOT_RELY),
        _grouped("Not valid here", selection, Verdict.NOT_VALID),
        _grouped("Worth having, but never the safeguard", selection, Verdict.SUPPLEMENTARY),
        _job(selection),
        _written_in(selection),
        _headed("Beware", map(str, cautions(selection))),
    )
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _do_not_run() -> list[str]:
    principle = principles.NOTHING_VALID
    return [
        principle.sentence.upper(),
        *_wrapped(
            f"No safeguard is valid for it under this rule set ({principle.id}). {principles.AIDS_DO_NOT_ADD_UP}"
        ),
        "Ways out; name the one that fits:",
        *_listed(map(str, principles.WAYS_OUT)),
    ]


def _usable(title: str, selection: Selection, codes: tuple[str, ...]) -> list[str]:
    blocks = [line for code in codes for line in _usable_block(code, selection.verdicts[code])]
    return [title, *blocks] if blocks else []


def _usable_block(code: str, one: SafeguardVerdict) -> Iterator[str]:
    yield f"  {SAFEGUARDS[code].name} ({code}): {one.verdict.label}"
    yield from _wrapped(f"{_sentences(one.reasons)}{_tag(one.rules)}", "    ")
    if one.conditions:
        yield "    Before the first stroke:"
        yield from _listed(map(str, one.conditions), "    [ ] ")


def _must_be_added(selection: Selection) -> list[str]:
    names = (f"{SAFEGUARDS[code].name} ({code}). {principles.ALSO_NEEDED}" for code in selection.also_needed)
    open_ways = (str(way.sentence) for way in selection.ways_in if way.known)
    return [
        *_headed("Must be added, whatever is chosen", names),
        *_headed("Ways to the tools that are open", open_ways),
    ]


def _find_out(selection: Selection) -> list[str]:
    lines = list(_listed(FACTS[key].find_out for key in selection.find_out))
    return [*_wrapped(f"Find out first. {principles.UNKNOWN_IS_NOT_YES.sentence}"), *lines] if lines else []


def _grouped(title: str, selection: Selection, verdict: Verdict) -> list[str]:
    """List the safeguards with one verdict; those with the same reasons share a line."""
    groups: dict[tuple[Sentence, ...], list[str]] = {}
    rules: dict[tuple[Sentence, ...], dict[str, None]] = {}
    for code, one in selection.verdicts.items():
        if one.verdict is verdict:
            groups.setdefault(one.reasons, []).append(f"{SAFEGUARDS[code].name} ({code})")
            rules.setdefault(one.reasons, {}).update(dict.fromkeys(one.rules))
    lines = (f"{'; '.join(names)}: {_sentences(reasons)}{_tag(rules[reasons])}" for reasons, names in groups.items())
    return _headed(title, lines)


def _job(selection: Selection) -> list[str]:
    told = (f"{FACTS[key].meaning}: {FACTS[key].told(value)}." for key, value in selection.facts.items())
    missing = [key for key in FACTS if key not in selection.facts]
    lines = _headed("The job as told", told)
    return [*lines, *_headed("Not known", [", ".join(missing)])] if missing else lines


def _written_in(selection: Selection) -> list[str]:
    named = {rule for one in selection.verdicts.values() for rule in one.rules}
    if selection.nothing_valid:
        named.add(principles.NOTHING_VALID.id)
    return _headed("Where it is written", (f"{rule}: {'; '.join(map(str, _SOURCES[rule]))}." for rule in sorted(named)))


def _sentences(sentences: Iterable[Sentence]) -> str:
    return " ".join(map(str, sentences))


def _tag(rules: Iterable[str]) -> str:
    named = ", ".join(rules)
    return f" [{named}]" if named else ""


def _headed(title: str, lines: Iterable[str]) -> list[str]:
    listed = list(_listed(lines))
    return [title, *listed] if listed else []


def _listed(lines: Iterable[str], bullet: str = "  - ") -> Iterator[str]:
    for line in lines:
        yield from textwrap.wrap(line, WIDTH, initial_indent=bullet, subsequent_indent=" " * len(bullet))


def _wrapped(text: str, indent: str = "") -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def facts_as_text() -> str:
    """List every fact with what may be written for it and what that means, then every safeguard."""
    facts = [line for fact in FACTS.values() for line in _fact_lines(fact)]
    safeguards = [f"{code} ({_KINDS[it.kind]})\n    {it.name}. {it.what}" for code, it in SAFEGUARDS.items()]
    return "\n".join(("Facts; each may be unknown", *facts, "", "Safeguards", *safeguards)) + "\n"


def _fact_lines(fact: Fact) -> Iterator[str]:
    yield f"{fact.key}={'|'.join(fact.allowed)}"
    yield f"    {fact.meaning}"
    for word, told in fact.choices.items():
        if word != told:
            yield f"      {word}: {told}"


_KINDS: Mapping[Kind, str] = {
    Kind.PRIMARY: "can be the safeguard",
    Kind.COMPLETING: "always needed, never enough",
    Kind.AID: "an aid",
    Kind.NONE: "not a safeguard",
}
