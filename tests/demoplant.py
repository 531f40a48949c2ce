"""The demo plant of 9 March 2026, built once for all processes of a run: living its year takes long."""

import os
import time
from datetime import date
from pathlib import Path

from click.testing import CliRunner

from trainer.cli import main

DAY = date(2026, 3, 9)
LONGEST = 600  # seconds that a process waits for another one to build


def demo_plant(basetemp: Path) -> Path:
    """Return the folder of the plant; only to be read, or copied before it is written to."""
    root = basetemp.parent if "PYTEST_XDIST_WORKER" in os.environ else basetemp
    folder, built = root / "ostrand", root / "ostrand-is-built"
    try:
        folder.mkdir()
    except FileExistsError:
        _wait_for(built)
        return folder
    result = CliRunner().invoke(main, ["demo", "--no-serve", "--data", str(folder), "--day", DAY.isoformat()])
    built.write_text("" if result.exit_code == 0 else result.output)
    assert result.exit_code == 0, result.output
    return folder


def _wait_for(built: Path) -> None:
    for _ in range(LONGEST * 5):
        if built.exists():
            assert built.read_text() == ""
            return
        time.sleep(0.2)
    raise TimeoutError("the demo plant was not built by the process that began")
