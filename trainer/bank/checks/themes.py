"""Each scenario says what it is mainly about, so that the weights of the bank can be told."""

from collections.abc import Iterator
from typing import ClassVar

from trainer.bank.draft import Draft
from trainer.findings import Finding


class NoTheme(Finding):
    """A scenario that belongs to no theme."""

    code: ClassVar[str] = "no-theme"
    title: ClassVar[str] = "The scenario has no theme."
    fix: ClassVar[str] = "Say what it is mainly about; content/README.md lists the themes."


finds = (NoTheme,)


def check(draft: Draft) -> Iterator[Finding]:
    """Look at each scenario."""
    for scenario in draft.bank.scenarios.values():
        if scenario.theme is None:
            yield draft.at(NoTheme, scenario.id)
