"""What asks for a second look is found, with its entries, and nothing else is."""

from datetime import date, timedelta

from records.site import INDUCTION, TODAY, Site

from trainer.records import acts, people
from trainer.records.quality import Kind, counted, quality, references


def no_words(_item: str, _version: int, _language: str) -> int:
    return 0


def test_each_kind_is_found_with_its_entries(site: Site) -> None:
    with site.record.writing() as w:
        crew = [people.add(w, number=f"0040{n}", name=f"Hand {n}", started=TODAY).key for n in range(4)]
        twin = people.add(w, number="00409", name="dana RUIZ", badge="9", pin="7304", language="es").key
        acts.accept_prior(
            w,
            site.bank,
            person=twin,
            programme=INDUCTION,
            evidence="A card",
            trained_on=TODAY - timedelta(days=30),
            assessor=site.officer,
            reason="Known",
            happened_on=w.today(),
        )
    paper = site.sit(twin)
    signed = [site.show(key) for key in crew]
    site.clock.advance(timedelta(days=9))
    late = site.show(twin, happened_on=site.today() - timedelta(days=9))
    with site.record.reading() as r:
        found = quality(r, no_words)
        fast = quality(r, lambda *_of: 1000)
    of = {one.kind: one for one in found}
    assert of[Kind.BATCH].entries == tuple(one.number for one in signed)
    assert of[Kind.BATCH].people == (site.trainer,)
    assert of[Kind.LATE].entries == (late.number,)
    assert of[Kind.LANGUAGE].entries == (paper.number,)
    assert references(of[Kind.LANGUAGE]) == paper.reference
    assert set(of[Kind.NAMESAKES].people) == {site.learner, twin}
    assert "A card" in str(of[Kind.NO_FILE].told)
    assert twin not in {key for one in found if one.kind is Kind.NO_WAY_IN for key in one.people}
    assert not {Kind.FUTURE, Kind.CLOCK, Kind.BEFORE_HIRE, Kind.TOO_FAST, Kind.ONE_FOR_MANY} & set(counted(found))
    assert counted(fast)[Kind.TOO_FAST] == 1
    assert [one.kind for one in found] == sorted((one.kind for one in found), key=list(Kind).index)


def test_a_day_before_the_first_day_here_is_found(site: Site) -> None:
    made = site.show(site.learner)
    with site.record.writing() as w:
        people.change(w, site.learner, started=site.today() + timedelta(days=1))
    with site.record.reading() as r:
        found = [one for one in quality(r, no_words) if one.kind is Kind.BEFORE_HIRE]
    assert [one.entries for one in found] == [(made.number,)]
    assert isinstance(date.fromisoformat(str(found[0].told.values["day"])), date)
