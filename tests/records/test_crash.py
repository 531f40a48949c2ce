"""Killed at any moment, the record holds every answer that was acknowledged, and goes on."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from records.site import INDUCTION, build_site, paper

from trainer.clock import Clock
from trainer.records import ledger, open_record, sittings
from trainer.records.sittings import get

TESTS = Path(__file__).parents[1]
WRITER = """
import sys
from records.site import paper, mark
from trainer.clock import Clock
from trainer.records import open_record, sittings
from trainer.settings import read_settings
record = open_record(read_settings({}, data=sys.argv[1], database=sys.argv[2]), Clock())
for number in range(int(sys.argv[4]), 10_000):
    with record.writing() as w:
        sittings.save_answer(w, sys.argv[3], 2, {"chosen": str(number)}, mark(True), key=f"k{number}", took_ms=1)
    print(number, flush=True)
"""


def kill_once(stored, sitting: str, first: int, chance: random.Random, *, wait: float) -> int:
    """Start a writer, kill it after a while, and return the number of the last answer that it acknowledged."""
    command = [sys.executable, "-c", WRITER, str(stored.data), stored.database, sitting, str(first)]
    paths = {**os.environ, "PYTHONPATH": f"{TESTS.parent}{os.pathsep}{TESTS}"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=paths) as writer:
        assert int(writer.stdout.readline()) == first
        time.sleep(chance.random() * wait)
        writer.send_signal(signal.SIGKILL)
        told = writer.stdout.read().split()
    return int(told[-1]) if told else first


@pytest.mark.parametrize("kills", [pytest.param(3), pytest.param(50, marks=pytest.mark.slow)])
def test_no_acknowledged_answer_is_lost(stored, kills, bank):
    chance = random.Random(kills)
    record = open_record(stored, Clock())
    site = build_site(record, Clock(), bank)
    with record.writing() as w:
        given = {"person": site.learner, "programme": INDUCTION, "paper": paper(), "language": "en", "kiosk": "K1"}
        sitting = sittings.start(w, bank, **given).id
    last = -1
    for _ in range(kills):
        last = kill_once(stored, sitting, last + 1, chance, wait=0.1)
        with record.reading() as r:
            kept = int(get(r, sitting).answers[2].answer["chosen"])
        assert kept in {last, last + 1}  # the one being written may have been kept and not yet told
        last = kept
    with record.reading() as r:
        assert ledger.verify(r).good
        assert [row.id for row in sittings.open_for(r, site.learner)] == [sitting]
    record.close()
