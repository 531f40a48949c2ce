"""How a command prints findings: place, code and key, what was seen, what would be right."""

import click

from trainer.findings import Report


def print_findings(report: Report) -> None:
    """Print each finding on three lines, then how many there are."""
    for finding in report:
        place = f"{finding.file}:{finding.line}" if finding.line else finding.file
        click.echo(f"{place}: {finding.severity}: {finding.code}: {finding.key}".rstrip(": "))
        click.echo(f"    {finding.note or finding.title}")
        click.echo(f"    {finding.fix}")
    errors = len(report.errors)
    click.echo(f"Errors: {errors}. Warnings: {len(report) - errors}.")
