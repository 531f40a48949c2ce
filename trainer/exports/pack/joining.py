"""``verify.py``: the modules that check a pack, put one after another into one file that needs nothing else."""

import ast
from importlib.resources import files

PACKAGE = "trainer.exports.pack.verifier"
ORDER = ("files", "canonical", "trees", "check", "bags", "shape", "entries", "contents", "main")
HEAD = '''"""Check this audit pack. It needs Python 3.10 or newer and nothing else; it changes and writes nothing.

    python -I -S verify.py             checks the folder in which this file lies
    python -I -S verify.py PACK        checks another folder, or a pack that is still a zip file

It names what was changed, one line each, and ends with 0 when nothing was, with 1 when something was, with 2 when
there is no pack to check. Whoever can change a pack can change this file too: take it from the site, or from a pack
that you trust, and compare the pack code that it prints.
"""
'''
FOOT = '\n\nif __name__ == "__main__":\n    sys.exit(main(sys.argv[1:]))\n'


def joined() -> str:
    """Return the text of ``verify.py``."""
    return HEAD + "".join(f"\n\n# {'-' * 78}\n{_alone(name)}" for name in ORDER) + FOOT


def _alone(name: str) -> str:
    """Return a module without what it takes from its siblings."""
    text = files(PACKAGE).joinpath(f"{name}.py").read_text(encoding="utf-8")
    gone = {
        line
        for part in ast.parse(text).body
        if isinstance(part, ast.ImportFrom) and (part.module or "").startswith(PACKAGE)
        for line in range(part.lineno, (part.end_lineno or part.lineno) + 1)
    }
    return "".join(line for number, line in enumerate(text.splitlines(keepends=True), 1) if number not in gone)
