"""Drawings of the screen on paper: every drawing of the bank can be printed, with its words, within its place."""

import io
import random
from datetime import UTC, datetime

from pypdf import PdfReader

from trainer.bank import open_bank
from trainer.exports.pdf.drawing import draw, size_of
from trainer.exports.pdf.paper import A4, Paper
from trainer.exports.voice import PLAIN
from trainer.figures import scene
from trainer.settings import shipped


def test_drawings_of_the_bank_are_printed_with_their_words():
    bank = open_bank(shipped("content"))
    specs = [(name, spec) for one in bank.scenarios.values() for name, spec in one.drawings.items()]
    words = bank.labels("en")
    for name, spec in random.Random(4).sample(specs, 8):
        svg = scene(spec, words=words, title=name, description="x")
        paper = Paper(A4, PLAIN, title=name, site="s", made_at=datetime(2026, 3, 9, tzinfo=UTC))
        paper.add_page()
        wide, high = size_of(svg)
        assert abs(draw(paper, svg, 10, 10, 100) - 100 * high / wide) < 0.01
        text = PdfReader(io.BytesIO(paper.data())).pages[0].extract_text()
        for label in spec.get("labels", ()):
            assert words[label["word"]].split()[0] in text
