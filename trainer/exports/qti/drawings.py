"""The drawings of a package: each an SVG file that carries its pens with it, in one language."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from html import escape
from string import ascii_uppercase

from trainer.bank import Bank
from trainer.bank.model import Drill, OnDrawing, Question, Text
from trainer.exports.qti.names import identifier
from trainer.exports.qti.node import Node, node
from trainer.figures import pressable, scene

NAMESPACE = "http://www.w3.org/2000/svg"
TARGET = 32  # px from the middle of a balloon that count as pressing it, as on the kiosk
BOX = re.compile(r'viewBox="0 0 ([0-9.]+) ([0-9.]+)"')


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing in the package: its file, what a person who cannot see it is told, and where it can be pressed.

    ``spots`` holds for each option the standard's coordinates of a circle: x, y and radius in whole px.
    """

    file: str
    svg: bytes
    told: str
    width: int
    height: int
    spots: Mapping[str, str] = field(default_factory=dict)

    def image(self) -> Node:
        """Return the element that shows it, from an item's file."""
        return node(
            "img",
            src=f"../../{self.file}",
            alt=" ".join(self.told.split()),
            width=str(self.width),
            height=str(self.height),
        )


def picture(bank: Bank, item: Question | Drill, language: str, pens: str) -> Picture | None:
    """Return the drawing of an item, with lettered balloons where places are asked for; None where it has none.

    None as well where the drawing depends on the numbers that a drill draws: a file cannot follow them.
    """
    found = bank.drawing(item.id)
    if found is None or (isinstance(item, Drill) and _moves(found[0])):
        return None
    spec, told = found
    owner, title = (item.id, item.title) if isinstance(item, Drill) else _owner(bank, item)
    name, labels, spots = f"{identifier(owner)}.{item.drawing}", bank.labels(language), {}
    if isinstance(item, OnDrawing):
        name = f"{identifier(item.id)}.places"
        listed = zip(ascii_uppercase, item.options, strict=False)
        spec = {**spec, "balloons": [{"letter": letter, "at": one.at, "value": one.id} for letter, one in listed]}
        placed = pressable(spec, words=labels)
        spots = {balloon.value: f"{balloon.at[0]:.0f},{balloon.at[1]:.0f},{TARGET}" for balloon in placed}
    drawn = scene(spec, words=labels, title=title.in_(language), description=told.in_(language))
    return _picture(f"drawings/{language}/{name}.svg", drawn, told.in_(language), pens, spots)


def _owner(bank: Bank, question: Question) -> tuple[str, Text]:
    return question.scenario, bank.scenarios[question.scenario].title


def _moves(spec: object) -> bool:
    """Say whether a drawing takes something from the numbers of a draw."""
    if isinstance(spec, Mapping):
        return bool({"when", "unless"} & set(spec)) or any(_moves(one) for one in spec.values())
    if isinstance(spec, list | tuple):
        return any(_moves(one) for one in spec)
    return isinstance(spec, str) and spec.startswith("$")


def _picture(file: str, drawn: str, told: str, pens: str, spots: Mapping[str, str]) -> Picture:
    """Make a file of an inline drawing: its namespace, its size and its pens."""
    box = BOX.search(drawn)
    width, height = (round(float(side)) for side in box.groups()) if box else (0, 0)
    head = f'<svg xmlns="{NAMESPACE}" width="{width}" height="{height}" '
    style = f"<style>{escape(pens, quote=False)}</style>"
    svg = drawn.replace("<svg ", head, 1).replace("<defs>", f"<defs>{style}", 1)
    return Picture(file=file, svg=svg.encode("utf-8"), told=told, width=width, height=height, spots=spots)
