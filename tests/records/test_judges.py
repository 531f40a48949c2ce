"""Who judged and by what right: a right that has run out stays beside what was signed under it."""

from datetime import timedelta

from records.site import Site

from trainer.records import acts
from trainer.records.judges import State, judges


def test_rights_and_sign_offs_stand_together_and_old_ones_stay_good(site: Site) -> None:
    site.sit(site.learner)
    made = site.show(site.learner)
    with site.record.reading() as r:
        (judge,) = judges(r, site.today())
    assert judge.person == site.trainer
    assert [right.state for right in judge.rights] == [State.IN_FORCE]
    assert [(one.entry.number, one.right, one.counts) for one in judge.signed] == [
        (made.number, judge.rights[0].entry, True)
    ]
    after = judge.rights[0].valid_to + timedelta(days=1)
    with site.record.reading() as r:
        (later,) = judges(r, after)
    assert [right.state for right in later.rights] == [State.EXPIRED]
    assert not later.without_right
    with site.record.writing() as w:
        acts.revoke(
            w, entitlement=judge.rights[0].entry, reason="Left the trade", by=site.officer, happened_on=w.today()
        )
        acts.withdraw(w, entry=made.number, reason="Another machine", by=site.officer, happened_on=w.today())
    with site.record.reading() as r:
        (ended,) = judges(r, site.today())
    assert [right.state for right in ended.rights] == [State.REVOKED]
    assert [one.counts for one in ended.signed] == [False]
