"""How long the record takes beside the least that a computer could do: run with ``--slow -s``; nothing fails on time."""

import hashlib
import random
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import timedelta

import pytest
import rfc8785
from benchmarks.measuring import seconds, tell
from benchmarks.plant import LAST

from trainer.records import ledger
from trainer.records.standing import standings
from trainer.web import create_app
from trainer.web.desk.services import read_person

pytestmark = pytest.mark.slow

EXPORT = """
import resource, sys, time
from pathlib import Path
from trainer.clock import Clock
from trainer.exports.csvfile import ledger_csv
from trainer.records import open_record
from trainer.records.history import history
from trainer.settings import read_settings
record = open_record(read_settings({}, data=sys.argv[1], zone="America/Chicago", site="x"), Clock(), create=False)
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
own, wall = time.process_time(), time.perf_counter()
with record.reading() as r, Path(sys.argv[2]).open("wb") as out:
    for piece in ledger_csv(history(r)):
        out.write(piece)
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(time.process_time() - own, time.perf_counter() - wall, before / 1024, peak / 1024)
"""
DUMP = """
import resource, subprocess, sys, time
wall = time.perf_counter()
with open(sys.argv[2], "wb") as out:
    subprocess.run(["sqlite3", "-csv", sys.argv[1], "SELECT * FROM entry ORDER BY number"], stdout=out, check=True)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(used.ru_utime + used.ru_stime, time.perf_counter() - wall)
"""


def run(script: str, *arguments: object) -> list[float]:
    command = [sys.executable, "-c", script, *map(str, arguments)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, env={"PYTHONPATH": ":".join(sys.path)})
    return [float(word) for word in done.stdout.split()]


def bare_cursor(path, out) -> None:
    """Write the rows as the driver gives them, joined by commas, with nothing quoted, named or understood."""
    with closing(sqlite3.connect(path)) as connection, out.open("w", encoding="utf-8") as file:
        for row in connection.execute("SELECT * FROM entry ORDER BY number"):
            file.write(",".join(map(str, row)) + "\n")


def test_csv_of_every_entry(large, tmp_path):
    out = tmp_path / "out.csv"
    *took, before, peak = run(EXPORT, large.path.parent, out)
    with out.open("rb") as file:
        lines = sum(1 for _ in file)
    out.unlink()
    bare = seconds(lambda: bare_cursor(large.path, out))
    floors = {"a bare cursor whose rows are joined by commas": bare[:2]}
    try:
        floors["the database's own shell writing CSV"] = tuple(run(DUMP, large.path, out))
    except (OSError, subprocess.CalledProcessError):
        print("\nno sqlite3 shell here, so only the bare cursor is compared")
    for floor, floor_took in floors.items():
        told = f"{large.entries} entries of {len(large.people)} people"
        tell("CSV export", took=tuple(took), floor=floor, floor_took=floor_took, rows=told, aim="2 x")
    print(f"CSV export: {peak:.0f} MB at most, {before:.0f} MB before the first row (aim under 200 MB)")

    assert lines == large.entries + 1


def test_verifying_every_entry(large):
    with large.record.reading() as r:
        *took, report = seconds(lambda: ledger.verify(r))

    def floor() -> None:
        with closing(sqlite3.connect(large.path)) as connection:
            connection.row_factory = sqlite3.Row
            for row in connection.execute("SELECT * FROM entry ORDER BY number"):
                hashlib.sha256(rfc8785.dumps(dict(row))).digest()

    *floor_took, _ = seconds(floor)
    told = f"{large.entries} entries of {len(large.people)} people"
    name = "canonical JSON and SHA-256 of each row alone"
    tell("Verifying", took=tuple(took), floor=name, floor_took=tuple(floor_took), rows=told, aim="1.5 x")

    assert report.good


@pytest.mark.parametrize("everything", [False, True], ids=["concerned", "everything"])
def test_standing_of_everybody_at_every_machine(plant_of, bank, rows, everything):
    headcount = max(rows // 100, 10)
    plant = plant_of(headcount=headcount, machine_count=30, entries=headcount * 5)
    with plant.record.reading() as r:
        *took, found = seconds(lambda: standings(r, bank, on=LAST - timedelta(days=30), everything=everything))

    def floor() -> int:
        newest = (
            "SELECT e.person, m.id, max(e.happened_on) FROM machine AS m JOIN entry AS e "
            "WHERE e.happened_on <= '2026-02-07' AND (json_extract(e.body, '$.machine') = m.id "
            "OR json_extract(e.body, '$.passed')) GROUP BY e.person, m.id"
        )
        with closing(sqlite3.connect(plant.path)) as connection:
            return len(connection.execute(newest).fetchall())

    *floor_took, pairs = seconds(floor)
    told = f"{headcount} people x 30 machines, {len(found)} standings, {plant.entries} entries"
    name = f"one plain query for the newest evidence of each pair ({pairs} pairs)"
    tell("Standing", took=tuple(took), floor=name, floor_took=tuple(floor_took), rows=told, aim="2 s")

    assert found
    assert len({(one.person, one.machine, one.role) for one in found}) == len(found)


def test_one_persons_page_in_a_small_and_a_large_ledger(plant_of, bank, large):
    """Both people have a hundred entries; only the rest of the ledger grows."""
    small = plant_of(headcount=max(large.entries // 10_000, 10), machine_count=30, entries=large.entries // 100)
    took = []
    for plant in (small, large):
        keys = random.Random(7).sample(plant.people[1:], k=min(9, len(plant.people) - 1))
        app = create_app(plant.settings, bank=bank, record=plant.record)
        with app.test_request_context(), plant.record.reading() as r:
            read_person(r, bank, keys[0])
            *both, read = seconds(lambda: [read_person(r, bank, key) for key in keys])  # noqa: B023
        took.append(tuple(each / len(keys) for each in both))
        lengths = {len(each.entries) for each in read}
        print(f"\n{plant.entries} entries, {lengths} of each person: {both[0] / len(keys) * 1000:.1f} ms a page")
    told = f"{small.entries} and {large.entries} entries"
    tell(
        "One person's page",
        took=took[1],
        floor="the same in the small ledger",
        floor_took=took[0],
        rows=told,
        aim="1.2 x",
    )

    assert all(one.entries for one in read)
