"""The paper as it looked then: what exactly one sitting asked, what was answered, and what would have been right.

It is put together from the entry of the ledger, which the chain proves, and from the content that the record kept
under the fingerprint which that entry names, which proves itself. Today's bank has no part in it.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.assessment.paper import Sheet
from trainer.bank import Bank
from trainer.errors import Missing
from trainer.exports.askedsheet import Asked, Looked, Row, competency_name
from trainer.exports.voice import Voice
from trainer.records import Reading, editions, ledger
from trainer.records.chain import Entry, EntryKind
from trainer.wording import Sentence, mark, say


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPaper:
    """A sitting as it was. ``bank`` is None where its content was not kept; the sheets are then empty."""

    entry: Entry
    bank: Bank | None
    sheets: tuple[Asked, ...]


def asked_paper(r: Reading, number: int, voice: Voice) -> AskedPaper:
    """Return the paper of the sitting that an entry records.

    Raises :class:`~trainer.errors.Missing` for an entry that records none, and
    :class:`~trainer.errors.RecordError` where the content that was kept is not what it was.
    """
    entry = ledger.entry(r, number)
    if entry.kind is not EntryKind.SITTING_MARKED:
        raise Missing(say("{entry} records no sitting.", entry=entry.reference))
    try:
        bank = editions.bank_of(r, entry.body["fingerprint"])
    except Missing:
        return AskedPaper(entry=entry, bank=None, sheets=())
    return AskedPaper(entry=entry, bank=bank, sheets=tuple(_sheets(bank, entry, voice)))


def summary(found: AskedPaper, voice: Voice) -> tuple[Sentence, ...]:
    """Say what a sitting came to, in which languages it was shown, at which kiosk, and whether it was confirmed."""
    body = found.entry.body
    counts = {**body["score"], "needed": body.get("needed", body["score"]["out_of"])}
    passed = mark("Passed: {right} of {out_of} right, {needed} needed.")
    failed = mark("Not passed: {right} of {out_of} right, {needed} needed.")
    told = [say(passed if body["passed"] else failed, **counts)]
    if missed := body.get("critical_missed"):
        told.append(
            say(
                "Critical and not right: {what}.",
                what=", ".join(competency_name(found.bank, key, voice) for key in missed),
            )
        )
    languages = ", ".join(body.get("languages") or [body["language"]])
    told.append(say("Shown in: {languages}. Kiosk: {kiosk}.", languages=languages, kiosk=body.get("kiosk") or "-"))
    if "confirmed" in body:
        told.append(
            say("The person confirmed with {how} that the answers are their own.", how=body["confirmed"]["with"])
        )
    else:
        told.append(say("No confirmation by the person is on record."))
    return tuple(told)


def answered(sheet: Asked, voice: Voice) -> str:
    """Say what was answered, how it was marked, what it was told to show, and how long it took."""
    told = (
        [say("Answered {answer}, needed {needed}.", answer=sheet.answer, needed=sheet.needed)] if sheet.answer else []
    )
    told.append(say("Mark: {verdict}.", verdict=sheet.verdict))
    if sheet.shows:
        told.append(say("It showed: {what}.", what="; ".join(sheet.shows)))
    if sheet.seconds is not None:
        told.append(say("{seconds} s.", seconds=sheet.seconds))
    return " ".join(voice.tell(one) for one in told)


def beside(sheet: Asked, voice: Voice) -> str:
    """Say what the rows were to be matched with; nothing for any other kind of sheet."""
    told = say("To be matched with, in this order: {partners}", partners=sheet.beside)
    return voice.tell(told) if sheet.beside else ""


def _sheets(bank: Bank, entry: Entry, voice: Voice) -> Iterator[Asked]:
    for number, item in enumerate(entry.body["items"], 1):
        sheet = Sheet.from_data({"number": number, **item})
        yield Looked(bank, sheet, item, item.get("language") or entry.body["language"], voice).asked()


__all__ = ["Asked", "AskedPaper", "Row", "answered", "asked_paper", "beside", "summary"]
