"""``trainer stopping``: readings in, findings out."""

import json

import pytest
from click.testing import CliRunner

from trainer.cli import main

READINGS = (
    "date,stopping-time\n2025-01-12,150ms\n2025-06-10,156ms\n2025-12-08,153ms\n2026-05-30,0.162s\n2026-05-30,160ms\n"
)
SUM = ("ansi-presence-sensing", "control-response=0ms", "device-response=20ms", "monitor-allowance=0ms",
       "object-sensitivity=14mm")  # fmt: skip


@pytest.fixture
def stopping(tmp_path):
    """Return a function that runs the command on readings."""

    def run(*words, text=READINGS, problem=SUM, mounted="350mm", on="2026-10-01"):
        file = tmp_path / "PB-1.csv"
        file.write_bytes(text if isinstance(text, bytes) else text.encode())
        given = [str(file), *problem, "--mounted", mounted, "--interval", "182", "--on", on, *words]
        return CliRunner().invoke(main, ["stopping", *given])

    return run


def test_far_enough_and_measured_in_time_is_good(stopping):
    result = stopping()

    assert result.exit_code == 0
    for told in ("5 readings", "The time to use is 162 ms", "It needs 316 mm; the safeguard stands at 350 mm",
                 "183.8 ms", "The margin is 34.9 mm", "Least distance from the hazard", "training aid"):  # fmt: skip
        assert told in result.stdout


@pytest.mark.parametrize(
    ("given", "code"),
    [({"mounted": "310mm"}, "mounted-too-close"), ({"on": "2026-12-01"}, "not-measured-in-interval"),
     ({"on": "2024-12-01"}, "not-measured-in-interval"), ({"text": "date,stopping-time\n"}, "not-measured-in-interval")],
)  # fmt: skip
def test_a_finding_is_printed_with_the_machine_and_ends_with_1(stopping, given, code):
    result = stopping(**given)

    assert result.exit_code == 1
    assert f"PB-1: {code}: " in result.stdout


def test_a_margin_that_may_end_too_soon_is_told_and_lets_the_machine_run(stopping):
    result = stopping(mounted="322mm")

    assert result.exit_code == 0
    assert "PB-1: margin-ends-before-next-measurement: " in result.stdout


def test_json_carries_the_numbers_and_the_working(stopping):
    found = json.loads(stopping("--json").stdout)

    assert (found["use_ms"], found["needed_mm"], found["mounted_mm"]) == (162.0, 316.0, 350.0)
    assert found["longest_allowed_ms"] == 183.8
    assert found["margin_ends_from"] < found["margin_ends"]
    assert found["measure_by"] == "2026-11-28"
    assert found["findings"] == []
    assert found["needed"]["problem"] == "ansi-presence-sensing"


def test_the_plot_is_written(stopping, tmp_path):
    plot = tmp_path / "plot.png"

    assert stopping("--plot", str(plot)).exit_code == 0
    assert plot.read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("given", "said"),
    [({"text": "day,time\n"}, "line 1: write the heads of the columns: date,stopping-time"),
     ({"text": "date,stopping-time\n2025-01-12,150\n"}, "line 2: "),
     ({"text": "date,stopping-time\n12.01.2025,150ms\n"}, "line 2: “12.01.2025” is not a day. Write 2026-03-02."),
     ({"text": "date,stopping-time\n2025-01-12,0ms\n"}, "line 2: "),
     ({"text": 'date,stopping-time\n2025-01-12,"150ms,151ms"\n'}, "line 2: write one time"),
     ({"text": "date,stopping-time\n2025-01-12\n"}, "line 2: write a day and a time"),
     ({"text": b"date,stopping-time\n\xff\xfe"}, "not a CSV file in UTF-8"),
     ({"problem": ("closing-time", "gap=6mm", "speed=10mm/s")}, "does not give a distance"),
     ({"problem": ("no-such-sum",)}, "There is no problem"),
     ({"problem": (*SUM, "stopping-time=1ms")}, "comes from the readings"),
     ({"problem": SUM[:2]}, "device-response"),
     ({"mounted": "350"}, "has no unit"),
     ({"mounted": "3s"}, "length")],
)  # fmt: skip
def test_wrong_usage_is_one_sentence(stopping, given, said):
    result = stopping(**given)

    assert result.exit_code == 2
    assert said in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1


def test_there_is_nothing_to_draw_without_a_reading(stopping, tmp_path):
    result = stopping("--plot", str(tmp_path / "plot.png"), on="2024-12-01")

    assert result.exit_code == 2
    assert "no reading to draw" in result.stderr
