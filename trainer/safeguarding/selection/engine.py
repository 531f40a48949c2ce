"""Put the rules to the facts of one job and weigh what they cast: the worst verdict wins, in whatever order.

A rule that has to read an unknown fact casts *cannot be relied on until known*. Two things read verdicts instead of
facts: a combination, which is as good as the best of its parts, and the answer that nothing is valid here.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from trainer.safeguarding.result import Citation
from trainer.safeguarding.selection.completeness import ways_in
from trainer.safeguarding.selection.facts import FACTS, Facts, read_facts
from trainer.safeguarding.selection.principles import BEST_OF_THE_PARTS, NOTHING_AGAINST, UNKNOWN_IS_NOT_YES
from trainer.safeguarding.selection.rule import Rule, Vote
from trainer.safeguarding.selection.rules import RULES
from trainer.safeguarding.selection.rulesets import rule_set as known_rule_set
from trainer.safeguarding.selection.safeguards import PRIMARIES, SAFEGUARDS, Safeguard
from trainer.safeguarding.selection.selection import SafeguardVerdict, Selection
from trainer.safeguarding.selection.verdicts import Verdict, best, worst
from trainer.wording import Sentence, say

GUARDS_THE_OTHER_SIDES = "side_rear_guards"
OPEN_SIDES = {"ends_closed": "no", "rear_closed": "no", "backstop": "powered_unguarded"}

Verdicts = Mapping[str, SafeguardVerdict]


def select(facts: Mapping[str, str] | Facts, rule_set: str, *, rules: Iterable[Rule] = RULES) -> Selection:
    """Say of every safeguard whether it is valid for this job under ``us`` or ``intl``.

    ``facts`` are the keys of :data:`~trainer.safeguarding.selection.facts.FACTS` with their words, numbers of mm or
    counts; what is not given is unknown. Raises :class:`~trainer.errors.UsageError` for a key, a value or a rule set
    that does not exist.
    """
    by = known_rule_set(rule_set)
    known = facts if isinstance(facts, Facts) else read_facts(facts)
    cast = [vote for rule in rules if (vote := rule.vote(known, by))]
    verdicts = _verdicts(sorted(cast, key=lambda vote: vote.rule.id))
    usable = [code for code in PRIMARIES if verdicts[code].usable]
    best_word = best(verdicts[code].verdict for code in usable)
    return Selection(
        rule_set=by,
        facts=known,
        verdicts=verdicts,
        best=tuple(code for code in usable if verdicts[code].verdict is best_word),
        less_good=tuple(code for code in usable if verdicts[code].verdict is not best_word),
        also_needed=_also_needed(known),
        find_out=_find_out(verdicts),
        ways_in=ways_in(known),
    )


def _verdicts(votes: list[Vote]) -> Verdicts:
    plain = {code: _weigh(_on(code, votes)) for code, it in SAFEGUARDS.items() if not it.best_of}
    return MappingProxyType(
        {code: _combine(it, plain, _on(code, votes)) if it.best_of else plain[code] for code, it in SAFEGUARDS.items()}
    )


def _on(code: str, votes: Iterable[Vote]) -> list[Vote]:
    return [vote for vote in votes if code in vote.rule.applies]


def _weigh(votes: list[Vote]) -> SafeguardVerdict:
    """Weigh the votes on one safeguard; the rules that cast the final word speak, the others are silent."""
    word = worst(vote.verdict for vote in votes)
    if not votes:
        return SafeguardVerdict(verdict=word, reasons=(NOTHING_AGAINST,))
    deciding = [vote for vote in votes if vote.verdict is word]
    unknown = _in_order(key for vote in deciding for key in vote.unknown)
    principle = (UNKNOWN_IS_NOT_YES,) if unknown else ()
    conditions = [condition for vote in deciding for condition in vote.rule.conditions]
    return SafeguardVerdict(
        verdict=word,
        rules=(*(vote.rule.id for vote in deciding), *(one.id for one in principle)),
        reasons=_once(reason for vote in deciding for reason in _reasons(vote)),
        conditions=_once(map(say, conditions)) if word is Verdict.VALID_COND else (),
        sources=_all_sources(*(vote.rule.sources for vote in deciding), *(one.sources for one in principle)),
        unknown=unknown,
        from_memory=tuple(vote.rule.id for vote in deciding if vote.rule.from_memory),
    )


def _reasons(vote: Vote) -> list[Sentence]:
    return [say(FACTS[key].find_out) for key in vote.unknown] or [say(vote.rule.reason)]


def _combine(safeguard: Safeguard, verdicts: Verdicts, votes: list[Vote]) -> SafeguardVerdict:
    """Judge a combination by the best of its parts, then let its own rules speak."""
    word = best(verdicts[part].verdict for part in safeguard.best_of)
    own = _weigh(votes)
    if own.verdict.weight > word.weight:
        return own
    carrying = [verdicts[part] for part in safeguard.best_of if verdicts[part].verdict is word]
    carried = [say(told) for part, told in safeguard.best_of.items() if word.usable and verdicts[part].verdict is word]
    speaking = [*carrying, own] if votes and own.verdict is word else carrying
    return SafeguardVerdict(
        verdict=word,
        rules=tuple(dict.fromkeys((BEST_OF_THE_PARTS.id, *(name for one in speaking for name in one.rules)))),
        reasons=_once((say(BEST_OF_THE_PARTS.sentence), *carried, *(s for one in speaking for s in one.reasons))),
        conditions=_once(condition for one in speaking for condition in one.conditions),
        sources=_all_sources(BEST_OF_THE_PARTS.sources, *(one.sources for one in speaking)),
        unknown=_in_order(key for one in speaking for key in one.unknown),
        from_memory=tuple(dict.fromkeys(name for one in speaking for name in one.from_memory)),
    )


def _also_needed(facts: Facts) -> tuple[str, ...]:
    open_side = any(facts.get(key) == word for key, word in OPEN_SIDES.items())
    return (GUARDS_THE_OTHER_SIDES,) if open_side else ()


def _find_out(verdicts: Verdicts) -> tuple[str, ...]:
    return _in_order(key for code in PRIMARIES for key in verdicts[code].unknown)


def _in_order(keys: Iterable[str]) -> tuple[str, ...]:
    wanted = set(keys)
    return tuple(key for key in FACTS if key in wanted)


def _once(sentences: Iterable[Sentence]) -> tuple[Sentence, ...]:
    return tuple(dict.fromkeys(sentences))


def _all_sources(*groups: Iterable[Citation]) -> tuple[Citation, ...]:
    return tuple(dict.fromkeys(source for group in groups for source in group))
