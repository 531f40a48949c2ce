"""Markdown of the bank to HTML that is safe to show."""

from functools import cache
from html import unescape

import nh3
from markdown_it import MarkdownIt

TAGS = {"p", "em", "strong", "ul", "ol", "li", "br", "sub", "sup", "code", "table", "thead", "tbody", "tr", "th", "td"}


@cache
def _markdown() -> MarkdownIt:
    return MarkdownIt("commonmark", {"html": False}).enable("table")


def html(markdown: str) -> str:
    """Return ``markdown`` as HTML with paragraphs, lists, tables and emphasis, and nothing else."""
    made: str = _markdown().render(markdown)
    return nh3.clean(made, tags=TAGS, attributes={}, link_rel=None).strip()


def plain(markdown: str) -> str:
    """Return ``markdown`` without its marks, for reading aloud and for measuring."""
    text = unescape(nh3.clean(_markdown().render(markdown), tags=set()))
    return "\n".join(line.strip() for line in text.splitlines() if line.strip())
