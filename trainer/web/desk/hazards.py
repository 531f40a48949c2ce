"""One report of a hazard, and what was done about it."""

from collections.abc import Mapping

from trainer.records.hazards import SUGGESTION, HazardRow
from trainer.records.people import PersonRow
from trainer.web.desk.frames import desk_frame
from trainer.web.desk.pages import Answered, HazardPage
from trainer.web.sheet import moment
from trainer.web.words import _
from trainer.web.zones import told_zone
from trainer.wording import Sentence


def hazard_page(
    found: HazardRow,
    named: Mapping[str, PersonRow],
    *,
    typed: str = "",
    closes: bool = False,
    refusal: Sentence | None = None,
) -> HazardPage:
    """Build the sheet, with what was typed already."""
    who = named.get(found.person or "")
    return HazardPage(
        frame=desk_frame("desk.week", _("Hazard report %(number)s", number=found.reference)),
        reference=found.reference,
        suggestion=found.kind == SUGGESTION,
        place=told_zone(found.place),
        machine=found.machine or _("No machine named"),
        who=f"{who.name}, {who.number}" if who else _("did not want to be named"),
        at=moment(found.at),
        kiosk=found.kiosk,
        words=found.words,
        is_open=found.is_open,
        answers=tuple(
            Answered(
                by=named[answer.by].name if answer.by in named else answer.by,
                at=moment(answer.at),
                words=answer.words,
                closes=answer.closes,
            )
            for answer in found.answers
        ),
        typed=typed,
        closes=closes,
        refusal=refusal,
    )
