"""Markdown of the bank becomes safe HTML."""

from html.parser import HTMLParser

import pytest

from trainer.bank.render import TAGS, html, plain


class Tags(HTMLParser):
    """Notes every tag and attribute that a browser would see."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[tuple[str, list]] = []

    def handle_starttag(self, tag: str, attrs: list) -> None:
        self.seen.append((tag, attrs))


def test_paragraphs_lists_and_emphasis_are_kept():
    assert html("One *two*.\n\n- a\n- b\n") == "<p>One <em>two</em>.</p>\n<ul>\n<li>a</li>\n<li>b</li>\n</ul>"
    assert html("1. First\n2. Second") == "<ol>\n<li>First</li>\n<li>Second</li>\n</ol>"


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "text <img src=x onerror=alert(1)> text",
        "[press](javascript:alert(1))",
        "[out](https://example.org)",
        "![x](https://example.org/x.png)",
        '<p style="position:fixed" onclick="x()">here</p>',
        "<https://example.org>",
        "<svg/onload=alert(1)>",
        "1. <iframe src='//example.org'>",
    ],
)
def test_nothing_that_acts_or_leaves_the_page_gets_through(text: str):
    browser = Tags()

    browser.feed(html(text))

    assert {tag for tag, _ in browser.seen} <= TAGS
    assert not any(attrs for _, attrs in browser.seen)


def test_plain_text_keeps_the_words_and_the_lines():
    assert plain("One *two* & 3 < 4.\n\n- a\n- b\n") == "One two & 3 < 4.\na\nb"
