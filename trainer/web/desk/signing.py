"""The practical, held at the machine: its sheet, and signing it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.bank import Bank
from trainer.bank.model import Checklist
from trainer.errors import Missing, UsageError
from trainer.records import Writing, access, practicals
from trainer.records.ledger import Entry
from trainer.records.machines import MachineRow
from trainer.records.people import PersonRow
from trainer.records.practicals import Entitlement
from trainer.records.standing import Standing
from trainer.web.days import read_last_day
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.judges import Judges, until
from trainer.web.desk.pages import Judge, SignOffPage, StepLine
from trainer.web.language import current
from trainer.web.roster import named
from trainer.web.sheet import Box
from trainer.web.standings import role_name
from trainer.web.words import _
from trainer.wording import Sentence, say

LONGEST_WHY = 500  # characters for what happened at one step


@dataclass(frozen=True, slots=True, kw_only=True)
class SignOffForm:
    """What is marked so far. The PINs are not in it: they are never sent back to a page."""

    evaluator: str
    day: str
    witnessed: bool
    seen: Mapping[str, str]
    whys: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Practical:
    """What a practical is about: who shows what, at which machine, and who may judge it."""

    person: PersonRow
    machine: MachineRow
    role: str
    checklist: Checklist
    standing: Standing
    rights: Sequence[Entitlement]
    people: Mapping[str, PersonRow]


def checklist_for(bank: Bank, kind: str, role: str) -> Checklist:
    """Return the checklist for a kind of machine and a role; :class:`Missing` where the bank has none."""
    for checklist in bank.checklists.values():
        if role == checklist.role and kind in checklist.machine_kinds:
            return checklist
    raise Missing(say("The bank has no checklist for this role at this kind of machine. Nothing can be signed."))


def read_form(form: Mapping[str, str], checklist: Checklist, *, evaluator: str, today: str) -> SignOffForm:
    """Read what was marked; unknown fields and values are left out."""
    steps = [step.id for step in checklist.steps]
    seen = {step: form.get(f"step-{step}", "") for step in steps}
    return SignOffForm(
        evaluator=form.get("evaluator", evaluator),
        day=form.get("day", today)[:40],
        witnessed=form.get("witnessed") == "yes",
        seen={step: value for step, value in seen.items() if value in {"right", "failed"}},
        whys={step: form.get(f"why-{step}", "").strip()[:LONGEST_WHY] for step in steps},
    )


def sign_off_page(practical: Practical, form: SignOffForm, refusal: Sentence | None) -> SignOffPage:
    """Build the sheet, with everything that was marked already."""
    title = _("%(machine)s %(role)s", machine=practical.machine.id, role=role_name(practical.role))
    return SignOffPage(
        frame=desk_frame(
            "desk.practicals",
            _("Practical, %(what)s", what=title),
            Box(label=_("Checklist"), value=practical.checklist.name.in_(current())),
            Box(label=_("Signing needs"), value=_("both who were there")),
        ),
        person=named(practical.person, "desk.person"),
        machine=practical.machine.id,
        machine_name=practical.machine.name,
        role=role_name(practical.role),
        reasons=practical.standing.reasons,
        judges=_judges(practical),
        steps=_steps(practical.checklist, form),
        form=form,
        refusal=refusal,
    )


def _judges(practical: Practical) -> tuple[Judge, ...]:
    rights = Judges(rights=practical.rights).for_(practical.machine.kind, practical.role, practical.person.key)
    return tuple(_judge(right, practical.people[right.person]) for right in rights if right.person in practical.people)


def _judge(right: Entitlement, person: PersonRow) -> Judge:
    name = _("%(person)s, to %(day)s", person=person.name, day=until(right))
    return Judge(key=person.key, name=name, words=f"{person.name}, {person.number}", entry=right.entry)


def _steps(checklist: Checklist, form: SignOffForm) -> tuple[StepLine, ...]:
    language = current()
    return tuple(
        StepLine(
            id=step.id,
            title=step.title.in_(language),
            detail=step.detail.in_(language),
            critical=step.critical,
            seen=form.seen.get(step.id, ""),
            why=form.whys.get(step.id, ""),
        )
        for step in checklist.steps
    )


def sign(
    w: Writing,
    bank: Bank,
    practical: Practical,
    form: SignOffForm,
    *,
    signed_in: str,
    pins: Mapping[str, str],
    place: str,
) -> Entry:
    """Prove both who were there and enter the practical.

    ``signed_in`` is the trainer whose session this is: somebody else who judges proves it with a PIN. Raises the
    record's refusals, each one sentence, with nothing entered.
    """
    happened = read_last_day(form.day, today=w.today())
    _check_marks(form, practical.checklist)
    if not form.witnessed:
        raise UsageError(say("The one who judges has not confirmed. Tick that you saw the steps yourself."))
    if form.evaluator != signed_in:
        _prove(w, practical.people.get(form.evaluator), pins.get("evaluator_pin", ""), place)
    _prove(w, practical.person, pins.get("trainee_pin", ""), place)
    return practicals.sign(
        w,
        bank,
        person=practical.person.key,
        evaluator=form.evaluator,
        machine=practical.machine.id,
        checklist=practical.checklist.id,
        role=practical.role,
        steps={step.id: form.seen.get(step.id) for step in practical.checklist.steps},
        comment=_comment(form, practical.checklist),
        happened_on=happened,
    )


def _check_marks(form: SignOffForm, checklist: Checklist) -> None:
    for number, step in enumerate(checklist.steps, start=1):
        if form.seen.get(step.id) == "failed" and not form.whys.get(step.id):
            raise UsageError(say("Step {number} failed. Write what happened there.", number=number))


def _prove(w: Writing, person: PersonRow | None, pin: str, place: str) -> None:
    if person is None:
        raise UsageError(say("Choose who judges from the list."))
    if not pin:
        raise UsageError(say("The PIN of {person} is missing. Nothing was signed.", person=person.name))
    access.sign_in_pin(w, person.number, pin, place=place)


def _comment(form: SignOffForm, checklist: Checklist) -> str:
    parts = (
        f"{number}. {form.whys[step.id]}"
        for number, step in enumerate(checklist.steps, start=1)
        if form.seen.get(step.id) == "failed" and form.whys.get(step.id)
    )
    return "\n".join(parts)
