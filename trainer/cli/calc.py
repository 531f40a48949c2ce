"""``trainer calc``: work a problem out and print the working."""

import click


@click.command(context_settings={"ignore_unknown_options": True, "help_option_names": ["-h", "--help"]})
@click.argument("words", nargs=-1, metavar="PROBLEM [KEY=VALUE]...", type=click.UNPROCESSED)
@click.option("--list", "listed", is_flag=True, help="List the problems with their inputs; [such] may be left out.")
@click.option("--unit", metavar="mm|in", help="Unit of lengths in the result and the working; mm unless given.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def command(words: tuple[str, ...], unit: str | None, *, listed: bool, as_json: bool) -> None:
    """Work out PROBLEM from its inputs and print each step with its source.

    Values carry their unit: 190ms, 0.19s, 30mm, 8.5in. A count is a whole number. What is known from memory only is
    used, and said to be so, with unverified=yes.

    \b
    Examples:
      trainer calc --list
      trainer calc us-presence-sensing stopping-time=190ms
      trainer calc effective-object-sensitivity object-sensitivity=14mm beams-blanked=2 beam-pitch=10mm
      trainer calc longest-stopping-time distance=15in object-sensitivity=30mm device-response=20ms --json

    \b
    Exit codes: 0 worked out, 1 the rule gives no figure (the reason is printed), 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.cli import _calc  # noqa: PLC0415  (heavy, and not needed for --help)

    if listed:
        _calc.print_list(as_json=as_json)
        return
    name, texts = _calc.split(words)
    _calc.print_solution(name, texts, _calc.unit_of(unit), as_json=as_json)
