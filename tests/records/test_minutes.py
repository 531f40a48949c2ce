"""Minutes of training: breaks are left out, parts of a minute count whole."""

from datetime import UTC, datetime, timedelta

from records.site import TODAY, Site

from trainer.records.minutes import minutes, paper_minutes

START = datetime(2026, 3, 9, 13, 0, tzinfo=UTC)


def test_a_gap_beyond_the_longest_is_a_break():
    def at(*seconds: int) -> list[datetime]:
        return [START + timedelta(seconds=one) for one in seconds]

    assert paper_minutes(START, *at(61), ()) == (2, 0)
    assert paper_minutes(START, *at(1800), ()) == (30, 0)
    assert paper_minutes(START, *at(1801), ()) == (0, 1)
    assert paper_minutes(START, *at(3600), at(600, 2400)) == (60, 0)
    assert paper_minutes(START, *at(72_000), at(600, 71_400)) == (20, 1)
    assert paper_minutes(START, *at(60), at(-500, 9_000)) == (1, 0)  # answers outside count for nothing


def test_what_was_spent_names_its_entries(site: Site) -> None:
    paper = site.sit(site.learner)
    shown = site.show(site.learner)
    with site.record.reading() as r:
        (one,) = minutes(r, since=TODAY, until=TODAY)
        nothing = minutes(r, since=TODAY + timedelta(days=1), until=TODAY + timedelta(days=9))
    assert (one.person, one.minutes, one.papers, one.practicals) == (site.learner, 2, 1, 1)
    assert one.entries == (paper.number, shown.number)
    assert nothing == []
