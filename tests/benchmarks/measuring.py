"""Measuring: seconds of this process beside a floor's, and a line that says what was measured on which machine."""

import os
import platform
import sqlite3
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any


def seconds(work: Callable[[], Any]) -> tuple[float, float, Any]:
    """Return the processor's and the wall's seconds that work took, and what it gave."""
    wall, own = time.perf_counter(), time.process_time()
    given = work()
    return time.process_time() - own, time.perf_counter() - wall, given


def machine() -> str:
    """Say on what this runs, and how busy it is with other things."""
    info = Path("/proc/cpuinfo")
    names = [line.split(":")[1].strip() for line in info.read_text().splitlines() if line.startswith("model name")]
    cpu = names[0] if info.exists() and names else platform.processor() or platform.machine()
    versions = f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}"
    return f"{os.cpu_count()} x {cpu}, load {os.getloadavg()[0]:.1f}, {versions}"


def tell(what: str, *, took: tuple[float, float], floor: str, floor_took: tuple[float, float], rows: str, aim: str):
    """Print one line; nothing here fails because something took long."""
    print(
        f"\n{what}: {took[0] / floor_took[0]:.2f} x {floor} (aim {aim}); {rows}; "
        f"{took[0]:.2f} s beside {floor_took[0]:.2f} s of processor, {took[1]:.2f} s beside {floor_took[1]:.2f} s "
        f"of wall clock; {machine()}"
    )
