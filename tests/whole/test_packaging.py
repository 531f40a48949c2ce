"""What a newcomer installs holds all that the program needs."""

import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_wheel_carries_the_bank_the_plant_and_every_data_file(tmp_path):
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")
    names = set(zipfile.ZipFile(wheel).namelist())

    folders = {
        "content": "trainer/_shipped/content",
        "seed_scenarios": "trainer/_shipped/seed_scenarios",
        "trainer": "trainer",
    }
    for folder, inside in folders.items():
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts and not path.name.startswith("."):
                assert f"{inside}/{path.relative_to(ROOT / folder).as_posix()}" in names


def test_help_is_quick_because_nothing_heavy_is_read():
    code = (
        "import sys, click.testing, trainer.cli as c;"
        "r = click.testing.CliRunner().invoke(c.main, ['--help']); assert r.exit_code == 0, r.output;"
        "print([m for m in ('matplotlib', 'flask', 'sqlalchemy', 'numpy', 'pydantic') if m in sys.modules])"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert result.stdout.strip() == "[]"
