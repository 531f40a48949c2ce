"""A kiosk without a browser: signs in, opens sittings, answers, and reads what stands on the glass."""

import re
from dataclasses import dataclass
from typing import Any

from flask.testing import FlaskClient
from web.plant import PIN, Plant, csrf

from trainer.assessment import drills, judging
from trainer.assessment.answers import Answer
from trainer.assessment.model_answers import right_answer, showing, shown_by
from trainer.assessment.paper import Paper, Sheet, SheetKind
from trainer.assessment.pressing import takes_presses
from trainer.assessment.selecting import key_of
from trainer.bank import Bank
from trainer.bank.model import ComputeDrill, JudgeDrill, PickOne, Question, RuleDrill, SelectDrill
from trainer.records import sittings
from trainer.records.sittings import SittingRow
from trainer.safeguarding.problems import problem

BADGE = "0013748911"
KEY = re.compile(r'name="key" value="([^"]+)"')


@dataclass
class Glass:
    """One client in front of the kiosk."""

    plant: Plant
    client: FlaskClient

    def post(self, address: str, form: dict[str, Any] | None = None, *, of: str = "/") -> Any:
        """Send a form with the token of the sheet at ``of``."""
        page = self.client.get(of, follow_redirects=True).text
        return self.client.post(address, data={**(form or {}), "csrf_token": csrf(page)})

    def sign_in(self, number: str = BADGE, pin: str = PIN) -> Any:
        return self.post("/", {"number": number, "pin": pin})

    def begin(self, programme: str = "press-brake-operator-induction") -> SittingRow:
        """Start or go on with a programme, and return its sitting."""
        answer = self.post("/sittings", {"programme": programme}, of="/sheets")
        assert answer.status_code == 303, answer.text
        return self.sitting(answer.headers["Location"].split("/")[2])

    def sitting(self, sitting: str) -> SittingRow:
        with self.plant.site.record.reading() as r:
            return sittings.get(r, sitting)

    def sheet(self, sitting: str, number: int) -> str:
        return self.client.get(f"/sittings/{sitting}/{number}", follow_redirects=True).text

    def answer(self, sitting: str, number: int, form: dict[str, Any]) -> Any:
        address = f"/sittings/{sitting}/{number}"
        key = KEY.search(self.sheet(sitting, number))
        return self.post(address, {"key": key[1] if key else "", **form}, of=address)

    def turn(self, sitting: str, sheet: int, stage: str, **form: Any) -> Any:
        address = f"/sittings/{sitting}/{sheet}"
        return self.post(f"{address}/turn", {"stage": stage, **form}, of=address)

    def give(self, sitting: str, sheet: Sheet, form: dict[str, Any]) -> None:
        """Answer a sheet, look at its feedback and go on."""
        assert self.answer(sitting, sheet.number, form).status_code == 303
        self.turn(sitting, sheet.number, "answer")
        self.turn(sitting, sheet.number, "feedback")

    def hand_in(self, row: SittingRow, pin: str = PIN) -> Any:
        """Confirm a paper with a PIN and hand it in."""
        return self.post(f"/sittings/{row.id}/hand-in", {"pin": pin}, of="/sheets")

    def finish(self, row: SittingRow, *, slips: dict[str, str] | None = None) -> None:
        """Go through a whole paper, right but for the ``slips`` (drill id → code), up to handing in."""
        for sheet in Paper.from_data(row.paper).sheets[row.at - 1 :]:
            if sheet.kind is SheetKind.LESSON:
                self.turn(row.id, sheet.number, "lesson")
            else:
                code = (slips or {}).get(sheet.item)
                self.give(
                    row.id,
                    sheet,
                    slipped(self.plant.site.bank, sheet, code) if code else right(self.plant.site.bank, sheet),
                )


def right(bank: Bank, sheet: Sheet) -> dict[str, str]:
    """Return the form that answers a sheet as it should be."""
    item = bank.item(sheet.item)
    if isinstance(item, Question):
        return form_of(right_answer(item, sheet))
    if isinstance(item, SelectDrill):
        return {"choice": key_of(item, sheet.drawn["setting"]).right[0]}
    if isinstance(item, JudgeDrill | RuleDrill):
        return {"choice": judging.right_choice(item, sheet.drawn).id}
    assert isinstance(item, ComputeDrill)
    return {"number": str(drills.worked(item, sheet.drawn).rounded.magnitude), "unit": "mm"}


def form_of(answer: Answer) -> dict[str, str]:
    """Return the form that gives an answer at once, however many presses it takes."""
    if answer.value is not None:
        number, _, unit = answer.value.partition(" ")
        return {"number": number, "unit": unit}
    return {"choice": answer.chosen or "", "given": " ".join(answer.given)}


def wrong(bank: Bank, sheet: Sheet) -> dict[str, str]:
    """Return a form that picks something else, or leaves out a term."""
    if not sheet.order:
        return slipped(bank, sheet, "leaves-out-penetration")
    item = bank.item(sheet.item)
    if isinstance(item, Question) and takes_presses(item):
        made = next(filter(None, (showing(item, sheet, one) for one in shown_by(item))))
        return form_of(made)
    good = right(bank, sheet)["choice"]
    return {"choice": next(option for option in sheet.order if option != good)}


def slipped(bank: Bank, sheet: Sheet, code: str) -> dict[str, str]:
    """Return the form of somebody who makes one mistake in a drill."""
    item = bank.item(sheet.item)
    assert isinstance(item, ComputeDrill)
    sum_ = problem(item.problem)
    made = sum_.wrong(sum_.read(sheet.drawn), code)
    assert made is not None
    return {"number": str(made.rounded.magnitude), "unit": "mm"}


def first(bank: Bank, row: SittingRow, kind: SheetKind, item: str = "") -> Sheet:
    """Return the first sheet of a kind, or of an item; of the questions, one of which one answer is picked."""
    sheets = [sheet for sheet in Paper.from_data(row.paper).sheets if sheet.kind is kind]
    if kind is SheetKind.QUESTION:
        sheets = [sheet for sheet in sheets if isinstance(bank.item(sheet.item), PickOne)]
    return next(sheet for sheet in sheets if not item or sheet.item == item)
