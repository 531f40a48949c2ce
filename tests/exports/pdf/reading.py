"""PDFs read back: words, sizes, what is clipped."""

import io
import re
import shutil
import subprocess
from itertools import pairwise

import pytest
from pypdf import PdfReader

MM = 72 / 25.4


def pages(data):
    return PdfReader(io.BytesIO(data)).pages


def words(data):
    """Return all words in one line, so that a broken line does not part them."""
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages(data)))


def size(page):
    return round(float(page.mediabox.width) / MM, 1), round(float(page.mediabox.height) / MM, 1)


def spans(data):
    """Return every piece of text as (page, x, y from the top, text), in mm."""
    found = []
    for number, page in enumerate(pages(data)):
        high = float(page.mediabox.height)

        def see(text, _cm, tm, _font, _size, number=number, high=high):
            if text.strip():
                found.append((number, tm[4] / MM, (high - tm[5]) / MM, text))

        page.extract_text(visitor_text=see)
    return found


def inked(data, folder, *, dpi=60):
    """Render each page and return, as shares of its sides, the box that holds all its ink."""
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not on this machine")
    (folder / "paper.pdf").write_bytes(data)
    subprocess.run(["pdftoppm", "-gray", "-r", str(dpi), "paper.pdf", "paper"], cwd=folder, check=True)
    return [_box(path.read_bytes()) for path in sorted(folder.glob("paper*.pgm"))]


def _box(picture):
    _magic, wide, high, _most, pixels = re.match(rb"(P5)\s(\d+)\s(\d+)\s(\d+)\s(.*)", picture, re.DOTALL).groups()
    wide, high = int(wide), int(high)
    rows = [pixels[y * wide : (y + 1) * wide] for y in range(high)]
    dark = [y for y, row in enumerate(rows) if min(row) < 200]
    across = [x for x in range(wide) if any(row[x] < 200 for row in rows)]
    return min(across) / wide, min(dark) / high, (max(across) + 1) / wide, (max(dark) + 1) / high


def rising(numbers):
    return all(first <= second for first, second in pairwise(numbers))
