"""Reads a drawing back: its numbers, its words and where they stand, as a viewer would see them."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from xml.etree import ElementTree as ET

from trainer.figures.lettering import width_of

NS = "{http://www.w3.org/2000/svg}"
RISE, FALL = 16.0, 4.0


@dataclass(frozen=True)
class Words:
    """A line of words and the box that it fills, in px."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))


def view_box(svg: str) -> tuple[float, float]:
    _x, _y, width, height = map(float, parsed(svg).attrib["viewBox"].split())
    return width, height


def words_of(svg: str, size: float = 22) -> list[Words]:
    return [_words(element, size) for element in parsed(svg).iter(f"{NS}text")]


def _words(element: ET.Element, size: float) -> Words:
    classes = element.attrib.get("class", "").split()
    text = "".join(element.itertext())
    bold = bool({"strong", "title", "danger-text", "safe-text", "ask-for"} & set(classes))
    wide = width_of(text, 30 if "ask-for" in classes else size, bold=bold)
    x, y = float(element.attrib["x"]), float(element.attrib["y"])
    left = x - (wide if "end" in classes else wide / 2 if "mid" in classes else 0)
    scale = size / 22
    return Words(text, left, y - RISE * scale, left + wide, y + FALL * scale)


def off_the_sheet(svg: str, size: float = 22) -> list[str]:
    width, height = view_box(svg)
    return [
        words.text
        for words in words_of(svg, size)
        if words.left < -2 or words.right > width + 2 or words.top < -2 or words.bottom > height + 2
    ]


def overlapping(svg: str, size: float = 22) -> list[tuple[str, str]]:
    return [
        (one.text, other.text)
        for one, other in combinations(words_of(svg, size), 2)
        if one.left < other.right - 1
        and other.left < one.right - 1
        and one.top < other.bottom - 1
        and other.top < one.bottom - 1
    ]


def ids(svg: str) -> list[str]:
    return re.findall(r'\bid="([^"]+)"', svg)


def references(svg: str) -> set[str]:
    return set(re.findall(r"url\(#([^)]+)\)", svg)) | set(re.findall(r'aria-labelledby="([^"]+)"', svg)[0].split())


def classes(svg: str) -> set[str]:
    return {name for found in re.findall(r'\bclass="([^"]+)"', svg) for name in found.split()}


def boxes_of(svg: str, name: str) -> Iterator[tuple[float, float, float, float]]:
    """Yield x, y, width and height of the boxes of a class that are drawn in px, in their order."""
    for element in parsed(svg).iter(f"{NS}path"):
        found = re.fullmatch(r"M(\S+) (\S+)h(\S+)v(\S+)h(\S+)z", element.attrib["d"])
        if name in element.attrib.get("class", "").split() and found:
            x, y, width, height, _back = map(float, found.groups())
            yield x, y, width, height
