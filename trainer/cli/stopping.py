"""``trainer stopping``: what a machine's dated stopping times say about the distance its safeguard is mounted at."""

from datetime import date
from pathlib import Path

import click

from trainer.cli.options import day_option, json_option


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("readings", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.argument("words", nargs=-1, required=True, metavar="PROBLEM [KEY=VALUE]...", type=click.UNPROCESSED)
@click.option("--mounted", required=True, metavar="LENGTH", help="The distance as mounted, such as 420mm.")
@click.option(
    "--interval", required=True, metavar="DAYS", type=click.IntRange(1, 3660), help="How often it has to be measured."
)
@click.option("--rule", default="highest", show_default=True, help="How the newest day's readings become one time.")
@day_option("--on", text="As of this day; today unless given.")
@click.option("--plot", type=click.Path(dir_okay=False, path_type=Path), help="Draw it into a .png, .pdf or .svg file.")
@json_option
def command(
    readings: Path,
    words: tuple[str, ...],
    mounted: str,
    interval: int,
    rule: str,
    on: date | None,
    plot: Path | None,
    *,
    as_json: bool,
) -> None:
    """Say whether a safeguard still stands far enough: time to use, trend, distance needed now, margin and its end.

    READINGS is a CSV file with the columns date and stopping-time: 2026-03-02,186ms. PROBLEM is a sum that gives a
    distance from a stopping time, with its other inputs.

    \b
    Example:
      trainer stopping pb-1.csv ansi-presence-sensing control-response=25ms device-response=20ms \\
        monitor-allowance=29ms object-sensitivity=14mm --mounted 440mm --interval 182 --plot pb-1.png

    \b
    Exit codes: 0 far enough and measured in time, 1 findings or a refusal, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli import _stopping  # noqa: PLC0415  (heavy, and not needed for --help)

    asked = _stopping.Asked(readings=readings, mounted=mounted, interval=interval, rule=rule, on=on, plot=plot)
    raise SystemExit(_stopping.answer(words, asked, as_json=as_json))
