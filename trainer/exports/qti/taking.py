"""The answers of each kind of question, read back from the standard's own elements."""

import json
from collections.abc import Callable, Mapping
from typing import Any

from trainer.exports.qti.findings import NoRightAnswer, NotAQuestion
from trainer.exports.qti.names import PLACE, SHOWS, ident
from trainer.exports.qti.node import Node
from trainer.exports.qti.reading import ItemReader, Taken

CHOICES = ("qti-simple-choice", "qti-hotspot-choice")


def take(file: str, root: Node) -> Taken:
    """Read an item; :class:`~trainer.exports.qti.reading.Unfit` where it is no question of the bank's kinds."""
    taking = ItemReader(file, root)
    kind = taking.kind()
    blocks = [taking.words(one) for one in taking.blocks()]
    asked = [taking.words(prompt) for one in taking.interactions if (prompt := one.first("qti-prompt"))]
    if not asked:
        asked, blocks = blocks[-1:], blocks[:-1]
    made = Taken(
        file=file,
        line=root.line,
        name=taking.name,
        language=taking.language(),
        title=root.get("title").strip(),
        facts=taking.facts,
        scenario=taking.scenario,
    )
    made.words = {"told": "\n\n".join(blocks), "asked": "".join(asked[:1])}
    made.structure = {"kind": kind}
    READERS[kind](taking, made)
    why = taking.why()
    made.words |= {"why": why} if why else {}
    return made


def _options(taking: ItemReader, interaction: Node) -> tuple[list[dict[str, Any]], dict[str, str]]:
    """Return the options of an interaction as they are written, and their words by id."""
    listed, words = [], {}
    for choice in interaction.all(*CHOICES):
        key = ident(choice.get("identifier"))
        if key in words:
            raise taking.unfit(NotAQuestion, choice, f"Two answers are called “{key[:40]}”.")
        label = choice.get("hotspot-label").strip()
        words[key] = label or taking.words(choice)
        entry = {"id": key, "misconception": choice.get(SHOWS), "at": _place(choice.get(PLACE))}
        listed.append({name: value for name, value in entry.items() if value})
    if not listed:
        raise taking.unfit(NotAQuestion, interaction, "It offers no answers.")
    return listed, words


def _place(text: str) -> Any:
    try:
        return json.loads(text) if text.startswith("[") else text
    except ValueError:
        return text


def _pressed(taking: ItemReader, interaction: Node) -> tuple[list[dict[str, Any]], dict[str, str]]:
    """Return options with those marked that are right."""
    listed, words = _options(taking, interaction)
    right = taking.known(interaction, [ident(value) for value in taking.correct(interaction)], list(words))
    marked = [{"id": one["id"], **({"right": True} if one["id"] in right else {}), **one} for one in listed]
    return marked, words


def _take_pressed(taking: ItemReader, made: Taken) -> None:
    made.structure["options"], made.words["options"] = _pressed(taking, taking.interactions[0])


def _take_reasoned(taking: ItemReader, made: Taken) -> None:
    _take_pressed(taking, made)
    made.structure["reasons"], made.words["reasons"] = _pressed(taking, taking.interactions[1])


def _take_order(taking: ItemReader, made: Taken) -> None:
    """Take the options in their right order; each has to be in it."""
    interaction = taking.interactions[0]
    listed, words = _options(taking, interaction)
    order = taking.known(interaction, [ident(value) for value in taking.correct(interaction)], list(words))
    if len(order) != len(words):
        raise taking.unfit(NoRightAnswer, interaction, "Not each step has a place in the right order.")
    by_id = {one["id"]: one for one in listed}
    made.structure["options"] = [by_id[key] for key in order]
    made.words["options"] = {key: words[key] for key in order}


def _take_match(taking: ItemReader, made: Taken) -> None:
    """Take options with their partners: each has one, and no two the same."""
    interaction = taking.interactions[0]
    sets = [
        {one.get("identifier"): taking.words(one) for one in found.all("qti-simple-associable-choice")}
        for found in interaction.all("qti-simple-match-set")
    ]
    pairs = [tuple(value.split()) for value in taking.correct(interaction)]
    partner = {pair[0]: pair[1] for pair in pairs if len(pair) == 2}
    whole = len(sets) == 2 and set(partner) == set(sets[0]) and set(partner.values()) == set(sets[1])
    if not whole or not len(pairs) == len(partner) == len(sets[1]):
        note = "Each line has to have one partner, and each partner one line."
        raise taking.unfit(NoRightAnswer, taking.declared(interaction) or interaction, note)
    made.structure["options"] = [{"id": ident(key)} for key in sets[0]]
    made.words["options"] = {ident(key): text for key, text in sets[0].items()}
    made.words["partners"] = {ident(key): sets[1][partner[key]] for key in sets[0]}


def _take_number(taking: ItemReader, made: Taken) -> None:
    made.correct = tuple(taking.correct(taking.interactions[0]))


READERS: Mapping[str, Callable[[ItemReader, Taken], None]] = {
    "pick-one": _take_pressed,
    "next": _take_pressed,
    "pick-all": _take_pressed,
    "point": _take_pressed,
    "spot": _take_pressed,
    "reasoned": _take_reasoned,
    "order": _take_order,
    "match": _take_match,
    "number": _take_number,
}
