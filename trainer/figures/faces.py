"""The faces that printed papers are set in: DejaVu Sans, which matplotlib brings along, so that none has to be installed."""

from pathlib import Path

import matplotlib as mpl


def face(name: str) -> Path:
    """Return the file of a face: ``DejaVuSans``, ``DejaVuSans-Bold`` or ``DejaVuSansMono``."""
    return Path(mpl.get_data_path()) / "fonts" / "ttf" / f"{name}.ttf"
