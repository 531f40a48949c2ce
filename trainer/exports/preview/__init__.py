"""One item of the bank as one page for its author: every language side by side, the key, the sources, the draws."""

from trainer.exports.preview.page import preview

__all__ = ["preview"]
