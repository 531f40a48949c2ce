"""All rules, gathered from the families in this folder.

A rule is one entry in ``RULES`` of one family; nothing else lists it. A family is one module here.
"""

import importlib
import pkgutil
from collections.abc import Iterator

from trainer.safeguarding.selection.rule import Rule


def _families() -> Iterator[tuple[Rule, ...]]:
    for module in sorted(pkgutil.iter_modules(__path__), key=lambda found: found.name):
        family: tuple[Rule, ...] = importlib.import_module(f"{__name__}.{module.name}").RULES
        yield family


RULES: tuple[Rule, ...] = tuple(sorted((rule for family in _families() for rule in family), key=lambda rule: rule.id))
