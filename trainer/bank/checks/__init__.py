"""The checks: one file each, with ``finds`` (what it may find) and ``check(draft)``, a generator of findings."""

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from types import ModuleType
from typing import Any

from trainer.bank.draft import Draft
from trainer.findings import Finding

HELPERS = frozenset({"plainness"})


def modules() -> Iterator[ModuleType]:
    """Give every check."""
    for module in pkgutil.iter_modules(__path__):
        if module.name not in HELPERS:
            yield importlib.import_module(f"{__name__}.{module.name}")


def judge(draft: Draft, check_drawing: Callable[[Mapping[str, Any]], Iterable[str]] | None = None) -> Iterator[Finding]:
    """Run every check over a draft. ``check_drawing`` comes from whoever can draw; without it drawings are not read."""
    for module in modules():
        yield from module.check(draft, check_drawing) if module.__name__.endswith(".drawings") else module.check(draft)
