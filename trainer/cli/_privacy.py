"""What people may ask about their own data, as commands of ``trainer people``."""

import json
from datetime import date
from typing import TYPE_CHECKING

import click

from trainer.cli.options import (
    data_option,
    day_option,
    json_option,
    language_option,
    open_content,
    open_existing,
    settings_for,
    write_pieces,
)
from trainer.errors import Missing, UsageError
from trainer.wording import say

if TYPE_CHECKING:
    from trainer.bank import Bank
    from trainer.exports.personfile import Copy
    from trainer.records import Reading
    from trainer.records.people import PersonRow
    from trainer.records.privacy.erasing import Plan
    from trainer.settings import Settings

WISHES = ("copy", "erasure", "correction", "objection")
by_option = click.option("--by", required=True, metavar="NUMBER", help="Number of the officer who does it.")
because_option = click.option("--because", "reason", required=True, help="Why; kept on the record. No names.")


@click.command("export")
@data_option
@click.argument("number")
@click.option("--out", metavar="FILE", required=True, help="Write the copy here, such as own-data.zip.")
@click.option("--by", metavar="NUMBER", help="Number of the officer who hands it over; answers an open request.")
@language_option
def export(data: str | None, number: str, out: str, by: str | None, language: str) -> None:
    """Give one person a copy of everything that is held about them: JSON and a plain list, in a zip file.

    Other people are hidden in it. With --by, open requests for a copy count as answered.

    \b
    Example:
      trainer people export 00241 --data instance --out own-data.zip --by 00112
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.exports.personfile import person_zip  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records.privacy import officers, requests  # noqa: PLC0415
    from trainer.web.language import voice  # noqa: PLC0415

    settings = settings_for(data)
    bank, record = open_content(settings), open_existing(settings)
    try:
        with record.reading() as reading:
            key = person_of(reading, number).key
            officer = None if by is None else officers.must_be_officer(reading, person_of(reading, by).key).key
            made = person_zip(_copy(reading, key, bank, settings), voice(language))
        write_pieces([made], out)
        if officer is not None:
            with record.writing() as writing:
                told = requests.answer_open(
                    writing, person=key, kind=requests.Wish.COPY, by=officer, words="A copy was made."
                )
            for row in told:
                click.echo(f"{row.reference} is answered.")
    finally:
        record.close()
    click.echo(f"{out}: everything held about {number}. It is confidential.")


def _copy(reading: "Reading", key: str, bank: "Bank", settings: "Settings") -> "Copy":
    from trainer.exports.personfile import Copy  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records import ledger  # noqa: PLC0415
    from trainer.records.privacy import held, rules  # noqa: PLC0415

    return Copy(
        held=held.held(reading, key),
        entries=list(ledger.entries(reading, person=key)),
        rules=rules.rules(reading),
        bank=bank,
        site=settings.site,
        made_at=reading.now(),
        zone=settings.zone,
    )


@click.command()
@data_option
@click.argument("number")
@click.option("--because", "reason", default="", help="Why; kept on the record. No names.")
@click.option("--by", metavar="NUMBER", help="Number of the officer who does it.")
@click.option("--preview", is_flag=True, help="Only say what would go, what would stay and what stands against it.")
@click.option("--force", is_flag=True, help="Although the time for keeping it is not over; the entry says so.")
def erase(data: str | None, number: str, reason: str, by: str | None, *, preview: bool, force: bool) -> None:
    """Take out who a person is. What was done stays under an opaque key, and every chain still verifies.

    Refused while the person is here and under a legal hold, always; inside the retention period unless forced.
    Backups, exports and packs that were made before still hold the name.

    \b
    Examples:
      trainer people erase 00241 --data instance --preview
      trainer people erase 00241 --data instance --because "Asked for on 2 March" --by 00112

    \b
    Exit codes: 0 done, or nothing stands against it; 1 refused; 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records.privacy import erasing  # noqa: PLC0415  (heavy, and not needed for --help)

    record = open_existing(settings_for(data))
    try:
        with record.reading() as reading:
            found = erasing.plan(reading, person_of(reading, number).key)
            officer = None if by is None else person_of(reading, by).key
        if preview:
            _tell_plan(found)
            click.get_current_context().exit(1 if found.refusals else 0)
        if officer is None or not reason.strip():
            raise UsageError("Give --by, the officer's number, and --because, the reason.")
        with record.writing() as writing:
            entry = erasing.erase(writing, found.person.key, by=officer, reason=reason, force=force)
    finally:
        record.close()
    click.echo(f"{entry.reference}: the identity is taken out; {erasing.pseudonym(entry.person)} stands in its place.")
    if found.named_in:
        click.echo(f"Words in these entries may still name the person: {_numbers(found.named_in)}.")
    click.echo("Backups, exports and packs that were made before still hold the name.")


def _tell_plan(found: "Plan") -> None:
    for what, count in found.removes.items():
        click.echo(f"goes: {what} ({count})")
    click.echo("goes: name, number, badge, login, birthday, first day, shift, crew, agency, doors")
    click.echo(f"stays: {found.entries} entries, with papers and answers, under the key {found.person.key}")
    if found.named_in:
        click.echo(f"may still name the person, in words that cannot be changed: {_numbers(found.named_in)}")
    if found.period.until is not None:
        click.echo(f"to be kept until: {found.period.until.isoformat()} ({found.period.kind})")
    for sentence in found.refusals:
        click.echo(f"against it: {sentence}")


def _numbers(numbers: tuple[int, ...]) -> str:
    return ", ".join(f"L-{number}" for number in numbers)


@click.command()
@data_option
@click.argument("number")
@click.option("--kind", type=click.Choice(WISHES), required=True, help="What the person asks for.")
@day_option("--received", text="The day on which it came in; today unless given.")
@click.option("--note", default="", help="How it came in, in a few words.")
@click.option("--by", metavar="NUMBER", help="Number of whoever took it down.")
def request(data: str | None, number: str, kind: str, received: date | None, note: str, by: str | None) -> None:
    """Keep a request of a person about their own data. It is due one month later.

    \b
    Example:
      trainer people request 00241 --data instance --kind copy --received 2026-03-09
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records.privacy import requests  # noqa: PLC0415  (heavy, and not needed for --help)

    with open_existing(settings_for(data)).writing() as writing:
        row = requests.receive(
            writing,
            person=person_of(writing, number).key,
            kind=kind,
            received_on=received or writing.today(),
            note=note,
            by=None if by is None else person_of(writing, by).key,
        )
    click.echo(f"{row.reference}: due on {row.due_on.isoformat()}.")


@click.command()
@data_option
@click.option("--all", "everything", is_flag=True, help="Answered ones too.")
@json_option
def requests(data: str | None, *, everything: bool, as_json: bool) -> None:
    """List requests of people about their own data, the one that is due first at the top.

    \b
    Example:
      trainer people requests --data instance

    \b
    Exit codes: 0 listed, 1 one is overdue, 2 wrong usage.
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import people  # noqa: PLC0415  (heavy, and not needed for --help)
    from trainer.records.privacy import requests as kept  # noqa: PLC0415

    with open_existing(settings_for(data)).reading() as reading:
        rows = [(row, people.must(reading, row.person)) for row in kept.listed(reading, only_open=not everything)]
        late = [row for row, _ in rows if row.answered_on is None and row.due_on < reading.today()]
    if as_json:
        click.echo(json.dumps([_request(row, person) for row, person in rows], ensure_ascii=False, indent=2))
    else:
        for row, person in rows:
            state = f"answered {row.answered_on}" if row.answered_on else "OVERDUE" if row in late else "open"
            who = f"{person.number} {person.name}"
            click.echo(f"{row.reference:6} {row.due_on}  {state:19}  {row.kind.value:10}  {who}  {row.note}".rstrip())
        click.echo(f"{len(rows)} requests, {len(late)} overdue.")
    click.get_current_context().exit(1 if late else 0)


def _request(row: object, person: "PersonRow") -> dict[str, object]:
    fields = ("reference", "kind", "received_on", "due_on", "note", "answered_on", "answer")
    data = {field: getattr(row, field) for field in fields}
    plain = {key: value.isoformat() if isinstance(value, date) else value for key, value in data.items()}
    return {**plain, "number": person.number, "name": person.name}


@click.command()
@data_option
@click.argument("request")
@by_option
@because_option
def answered(data: str | None, request: str, by: str, reason: str) -> None:
    """Note that a request was answered, also by a refusal; say how.

    \b
    Example:
      trainer people answered R-3 --data instance --by 00112 --because "The birthday was put right"
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records.privacy import requests as kept  # noqa: PLC0415  (heavy, and not needed for --help)

    plain = request.upper().removeprefix("R-")
    if not (plain.isascii() and plain.isdigit() and len(plain) < 10):
        raise UsageError(say("Write a request as R-3, not {text!r}.", text=request))
    with open_existing(settings_for(data)).writing() as writing:
        row = kept.answer(writing, int(plain), by=person_of(writing, by).key, words=reason)
    click.echo(f"{row.reference} is answered.")


@click.command()
@data_option
@click.argument("numbers", nargs=-1, required=True)
@by_option
@because_option
@click.option("--lift", is_flag=True, help="Lift the hold instead of setting it.")
def hold(data: str | None, numbers: tuple[str, ...], by: str, reason: str, *, lift: bool) -> None:
    """Set a legal hold on people's data, or lift it: until then nothing about them is taken out. All, or none.

    \b
    Examples:
      trainer people hold 00241 00307 --data instance --by 00112 --because "Case 12"
      trainer people hold 00241 --lift --data instance --by 00112 --because "Case 12 is closed"
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records.privacy import holds  # noqa: PLC0415  (heavy, and not needed for --help)

    act, told = (holds.lift_hold, "lifted") if lift else (holds.set_hold, "set")
    with open_existing(settings_for(data)).writing() as writing:
        officer = person_of(writing, by).key
        made = [act(writing, person_of(writing, number).key, by=officer, reason=reason) for number in numbers]
    for number, entry in zip(numbers, made, strict=True):
        click.echo(f"{entry.reference}: legal hold on {number} {told}.")


@click.command()
@data_option
@click.argument("number")
@click.argument("address", required=False)
@click.option("--none", "forget", is_flag=True, help="Forget the address.")
def email(data: str | None, number: str, address: str | None, *, forget: bool) -> None:
    """Keep where a person reads mail, for reminders. Nobody needs one: kiosk and printed list say the same.

    \b
    Examples:
      trainer people email 00241 dana@plant.example --data instance
      trainer people email 00241 --none --data instance
    """  # noqa: D301 - the mark is click's, and not to be raw
    from trainer.records import reminders  # noqa: PLC0415  (heavy, and not needed for --help)

    if forget == (address is not None):
        raise UsageError("Give an address, or --none.")
    with open_existing(settings_for(data)).writing() as writing:
        reminders.set_address(writing, person_of(writing, number).key, address)
    click.echo(f"{number}: {address or 'no address'}.")


def person_of(reading: "Reading", number: str) -> "PersonRow":
    """Return the one person who has, or had, a number; one sentence for none, or for several."""
    from trainer.records import people  # noqa: PLC0415  (heavy, and not needed for --help)

    found = people.with_number(reading, number)
    if not found:
        raise Missing(say("Nobody has, or had, the number {number}.", number=number))
    if len(found) > 1:
        raise UsageError(say("The number {number} was used by several people.", number=number))
    return found[0]


COMMANDS = (export, erase, request, requests, answered, hold, email)
