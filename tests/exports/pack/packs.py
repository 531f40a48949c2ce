"""A small plant with a past, the pack that is made of it, and unpacking it."""

import io
import zipfile
from datetime import timedelta
from pathlib import Path

from records.site import INDUCTION, TODAY, build_site

from trainer.exports.pack.asked import Asked
from trainer.exports.pack.making import write_pack
from trainer.records import acts, assignments, editions, ledger, open_record, people


def build(settings, clock, bank):
    """One authorised operator, one with a failed practical and another name by now, one who has only attended."""
    record = open_record(settings, clock)
    site = build_site(record, clock, bank)
    with record.writing() as w:
        editions.keep(w, bank)
        site.second = people.add(w, number="00307", name='=Łukasz, "Luke"').key
        site.third = people.add(w, number="00411", name="Mei Tran").key
        assignments.assign(
            w, person=site.learner, programme=INDUCTION, by=site.trainer, reason="@hired", happened_on=TODAY
        )
    for person in (site.learner, site.second):
        site.sit(person)
        clock.advance(timedelta(days=1))
    site.show(site.learner)
    site.show(site.second, failing=first_critical(bank))
    with record.writing() as w:
        people.rename(w, site.second, name="Łukasz Nowy", since=w.today())
        acts.attend(
            w, person=site.third, topic="-1+2 pedals", presenter=site.trainer, by=site.trainer, happened_on=w.today()
        )
    return site


def first_critical(bank):
    return next(step.id for step in bank.checklists["operator-hydraulic-brake"].steps if step.critical)


def packed(site, bank, **asked):
    """Return what the pack is and its octets."""
    with site.record.writing() as w:
        ledger.checkpoint(w)
    given = {"on": site.today(), "people": (site.learner, site.second, site.third)} | asked
    file = io.BytesIO()
    with site.record.reading() as r:
        made = write_pack(r, bank, Asked(**given), file, site="Ostrand Mill, Plant 2")
    return made, file.getvalue()


def unpacked(octets: bytes, folder: Path) -> Path:
    """Unpack a pack and return its own folder."""
    with zipfile.ZipFile(io.BytesIO(octets)) as archive:
        archive.extractall(folder)
    return next(folder.iterdir())
