"""The invented cases, and where the shared ones are when they are there."""

from pathlib import Path

import yaml

HERE = Path(__file__).parent
CASES = yaml.safe_load((HERE / "cases.yaml").read_text(encoding="utf-8"))
BENCH: dict[str, str] = CASES["bench"]
SHARED = HERE.parents[3] / "shared" / "reference" / "selection-vignettes.yaml"
SETS = ("us", "intl")


def facts(changes: dict[str, str] | None = None) -> dict[str, str]:
    """Return the bench with some facts changed."""
    return {**BENCH, **(changes or {})}


def case_id(case: dict) -> str:
    """Name a case after what it says, or after its rule and rule set."""
    return case.get("says") or f"{case['rule']}-{case['set']}-{'-'.join(case['facts'].values()) or 'bench'}"
