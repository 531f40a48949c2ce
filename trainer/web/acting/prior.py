"""Accepting training from elsewhere in place of a programme."""

from trainer.records import Reading, Writing, acts
from trainer.records.ledger import Entry
from trainer.web.acting.act import Act, Asked, why
from trainer.web.acting.blanks import Blank
from trainer.web.language import current
from trainer.web.words import _, _l
from trainer.wording import say


def _programmes(asked: Asked) -> tuple[tuple[str, str], ...]:
    return tuple((one.id, one.name.in_(current())) for one in asked.bank.programmes.values() if one.kind.renews)


def _blanks(_r: Reading, asked: Asked) -> tuple[Blank, ...]:
    return (
        Blank(name="programme", label=_("in place of"), kind="choice", choices=_programmes(asked)),
        Blank(name="trained", label=_("trained on"), kind="day"),
        Blank(
            name="evidence",
            label=_("Evidence that you have in hand"),
            kind="text",
            hint=_("certificate, number, issuer"),
        ),
        why(),
    )


def _accept(w: Writing, asked: Asked) -> list[Entry]:
    given = asked.given
    programmes = (value for value, _name in _programmes(asked))
    made = acts.accept_prior(
        w,
        asked.bank,
        person=asked.person.key,
        programme=given.one_of("programme", programmes, say("Choose the programme that it stands for.")),
        trained_on=given.later("trained", asked.today, say("Write the day of that training.")),
        evidence=given.text("evidence", say("Write which evidence you have in hand.")),
        assessor=asked.by,
        reason=given.reason(),
        happened_on=asked.today,
    )
    return [made]


PRIOR = Act(
    id="prior",
    title=_l("Accept training from elsewhere"),
    note=_l("it stands in place of the papers, never of the practical"),
    told=(
        _l("It counts from the day of that training, not from today, and is printed as what it is."),
        _l("You are the one who judged it adequate."),
    ),
    blanks=_blanks,
    do=_accept,
)
