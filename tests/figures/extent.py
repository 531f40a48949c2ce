"""How far marks reach: the box about every point of their paths and circles, their turns and shifts worked in."""

import cmath
import math
import re
from collections.abc import Iterator
from xml.etree import ElementTree as ET

Box = tuple[float, float, float, float]
TAKES = {"m": 2, "l": 2, "h": 1, "v": 1, "q": 4, "c": 6, "s": 4, "t": 2, "a": 7}
NUMBER = r"[-+]?(?:\d*\.\d+|\d+)"


def extent(marks: str) -> Box:
    """Return left, low, right and high of the marks in millimetres; control points of curves count as reached."""
    points = list(_points(ET.fromstring(f"<g>{marks}</g>"), lambda point: point))
    xs, ys = [p.real for p in points], [p.imag for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _points(element, place) -> Iterator[complex]:
    if element.tag in {"clipPath", "defs"}:
        return
    own = _placed(element.attrib.get("transform", ""), place)
    if element.tag == "path":
        yield from map(own, _path(element.attrib["d"]))
    if element.tag == "circle":
        x, y, r = (float(element.attrib[key]) for key in ("cx", "cy", "r"))
        yield from (own(complex(x, y) + r * cmath.exp(1j * math.radians(turn))) for turn in range(0, 360, 15))
    for child in element:
        yield from _points(child, own)


def _placed(transform: str, outer):
    steps = [
        (name, [float(v) for v in re.findall(NUMBER, told)])
        for name, told in re.findall(r"(\w+)\(([^)]*)\)", transform)
    ]

    def inner(point: complex) -> complex:
        for name, values in reversed(steps):
            if name == "translate":
                point += complex(values[0], values[1] if len(values) > 1 else 0)
            elif name == "rotate":
                point *= cmath.exp(1j * math.radians(values[0]))
            else:
                point = complex(point.real * values[0], point.imag * values[-1])
        return outer(point)

    return inner


def _path(d: str) -> Iterator[complex]:
    at = start = 0j
    for letter, told in re.findall(r"([a-zA-Z])([^a-zA-Z]*)", d):
        kind, base = letter.lower(), letter.islower()
        if kind == "z":
            at = start
            continue
        values = [float(v) for v in re.findall(NUMBER, told)]
        size = TAKES[kind]
        assert values, letter
        assert len(values) % size == 0, (letter, told)
        for i in range(0, len(values), size):
            for point in _reached(kind, values[i : i + size], at, relative=base):
                yield point
            at = point
            start = at if kind == "m" and i == 0 else start


def _reached(kind: str, values: list[float], at: complex, *, relative: bool) -> list[complex]:
    origin = at if relative else 0j
    if kind == "h":
        return [complex(origin.real + values[0], at.imag)]
    if kind == "v":
        return [complex(at.real, origin.imag + values[0])]
    pairs = values[-2:] if kind == "a" else values
    return [origin + complex(x, y) for x, y in zip(pairs[::2], pairs[1::2], strict=True)]
