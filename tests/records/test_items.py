"""What the answers on record say about items and papers."""

from datetime import UTC, date, datetime, timedelta

import pytest
from records.site import INDUCTION, TODAY, mark, paper

from trainer.assessment.itemstats import Doubt
from trainer.records import acts, people, sittings
from trainer.records.chain import EntryKind
from trainer.records.effects import Fact
from trainer.records.itemcounts import Counts
from trainer.records.items import findings, judged, reading_words

ITEM, WORDS = "PB-S14/q1", 70  # the words of its sheet in English: told, asked and four options


def found(site, **asked):
    with site.record.reading() as r:
        return findings(r, site.bank, **asked)


def item(found, name=ITEM):
    return next(one for one in found.items if one.item == name)


def sit(site, person, chosen, *, version=1, took_ms=30_000, programme=INDUCTION):
    given = paper(programme)
    given["sheets"][1] |= {"version": version}
    right = chosen == "b"
    with site.record.writing() as w:
        row = sittings.start(w, site.bank, person=person, programme=programme, paper=given, language="en", kiosk="K1")
        sittings.save_answer(w, row.id, 2, {"chosen": chosen}, mark(right), key="k", took_ms=took_ms)
        result = {"passed": True, "right": int(right), "out_of": 2, "needed": 2, "critical_missed": []}
        return sittings.hand_in(w, row.id, result)


def test_nothing_recorded_says_nothing(site):
    assert found(site).items == found(site).papers == ()


def test_an_item_counts_each_person_once_with_the_first_answer(site):
    sit(site, site.learner, "a")
    sit(site, site.learner, "b")
    sit(site, site.trainer, "b")
    one = item(found(site))

    assert (one.statistics.answers, one.statistics.right) == (2, 1)
    assert str(one.statistics.note) == "Too few answers to judge by: 2 of the 50 that it takes."
    assert {option.option: (option.right, option.chosen) for option in one.options.options} == {
        "a": (False, 1),
        "b": (True, 1),
        "c": (False, 0),
        "d": (False, 0),
    }


def test_a_sheet_left_without_an_answer_is_no_answer(site):
    sit(site, site.learner, "b")
    drill = item(found(site), "PB-D01")

    assert (drill.skipped, drill.statistics.answers) == (1, 0)
    assert str(drill.statistics.note) == "Nobody has answered it yet."


def test_a_new_version_is_counted_by_itself_and_what_the_bank_lacks_has_no_options(site):
    sit(site, site.learner, "a")
    sit(site, site.learner, "b", version=3)
    one = item(found(site))

    assert (one.version, one.in_bank, one.options, one.statistics.answers) == (3, False, None, 1)
    assert one.hurried.timed == 0


def test_answers_too_fast_to_be_read_are_counted_and_unknown_times_are_not(site):
    sit(site, site.learner, "b", took_ms=WORDS * 100 - 1)
    sit(site, site.trainer, "a", took_ms=WORDS * 100)
    sit(site, site.officer, "b", took_ms=0)
    hurried = item(found(site)).hurried

    assert (hurried.timed, hurried.fast, hurried.right) == (2, 1, 1)
    assert reading_words(site.bank)(ITEM, 1, "en") == WORDS
    assert reading_words(site.bank)(ITEM, 2, "en") == reading_words(site.bank)("PB-D01", 1, "en") == 0


def test_a_withdrawn_paper_does_not_count_and_a_corrected_one_counts_as_corrected(site):
    first = sit(site, site.learner, "a")
    second = sit(site, site.trainer, "a")
    body = second.body["items"]
    with site.record.writing() as w:
        acts.withdraw(w, entry=first.number, reason="Wrong person.", by=site.officer, happened_on=TODAY)
        acts.replace(
            w,
            entry=second.number,
            reason="The key was wrong.",
            by=site.officer,
            happened_on=TODAY,
            instead={"items": [{**body[0], "right": True, "verdict": "right"}, *body[1:]]},
        )
    one = item(found(site))

    assert (one.statistics.answers, one.statistics.right) == (1, 1)


def test_only_papers_of_the_days_asked_about_count(site, clock):
    sit(site, site.learner, "a")
    clock.advance(timedelta(days=3))
    sit(site, site.trainer, "b")
    later = TODAY + timedelta(days=3)

    assert item(found(site, until=TODAY)).statistics.right == 0
    assert item(found(site, since=later)).statistics.right == 1
    assert item(found(site, known_on=TODAY)).statistics.answers == 1


def test_a_paper_counts_each_person_once(site):
    for chosen in ("a", "b"):
        sit(site, site.learner, chosen)
    with site.record.writing() as w:
        others = [people.add(w, number=f"0050{n}", name=f"Ines Okafor {n}").key for n in range(3)]
    for person in others:
        sit(site, person, "b")
    (one,) = found(site).papers

    assert (one.programme, one.people, one.passed) == (INDUCTION, 4, 4)
    assert (one.consistency.items, one.consistency.needed, one.consistency.people) == (2, 2, 4)
    assert one.error_at_mark == 0
    assert (one.reliability.people, one.reliability.items) == (4, 2)
    assert str(one.reliability.note) == "Too few answers to judge by: 4 of the 50 that it takes."


# Many answers, without a database.


def fact(*, right=(), wrong=(), edition=1, chosen="c", on=TODAY, programme=INDUCTION, slips=()):
    def one(name, is_right):
        picked = ("b" if is_right else chosen) if name == ITEM else None
        return {
            "item": name,
            "version": 1,
            "competency": "die-ends",
            "verdict": "right" if is_right else "wrong",
            "right": is_right,
            "chosen": picked,
            "order": list("abcd"),
            "language": "en",
            "took_ms": 20_000,
            "misconception": None if is_right else "m",
            "slips": [] if is_right else list(slips),
        }

    items = [*(one(name, True) for name in right), *(one(name, False) for name in wrong)]
    body = {"items": items, "programme": programme, "edition": edition, "needed": 3, "passed": not wrong}
    return Fact(
        number=1,
        person="p",
        kind=EntryKind.SITTING_MARKED,
        on=on,
        recorded_at=datetime(2026, 3, 9, tzinfo=UTC),
        by="p",
        body=body,
        numbers=(1,),
        trusted=True,
    )


def counted(bank, *groups):
    counts = Counts(words=reading_words(bank))
    for times, one in groups:
        for _ in range(times):
            counts.add_person([one])
    return judged(counts, bank)


REST = ("PB-S01/q1", "PB-S01/q2", "PB-S01/q3")


def test_an_item_that_the_better_get_wrong_stands_first_and_says_why(bank):
    best = fact(right=REST, wrong=(ITEM,))
    weakest = fact(right=(ITEM, REST[0]), wrong=REST[1:])
    found_ = counted(bank, (40, best), (40, weakest))
    first = found_.items[0]

    assert first.item == ITEM
    assert first.doubts == (Doubt.KEY, Doubt.NEVER, Doubt.BACKWARDS)
    assert first.statistics.corrected == pytest.approx(-1)
    assert first.mistakes == (("m", 40),)
    assert {one.option: one.doubts for one in first.options.options}["c"] == (Doubt.BACKWARDS,)


def test_slips_that_tie_are_not_counted_as_mistakes(bank):
    slips = [{"codes": ["one"], "tied": False}, {"codes": ["two"], "tied": True}]
    found_ = counted(bank, (2, fact(right=REST, wrong=(ITEM,), slips=slips)))

    assert dict(item(found_).mistakes) == {"m": 2, "one": 2}


def test_an_item_that_got_easier_from_one_edition_to_the_next_says_so(bank):
    found_ = counted(
        bank,
        (30, fact(right=(*REST, ITEM), edition=1)),
        (30, fact(right=REST, wrong=(ITEM,), edition=1)),
        (58, fact(right=(*REST, ITEM), edition=2)),
        (2, fact(right=REST, wrong=(ITEM,), edition=2)),
    )

    assert str(item(found_).drift.told) == "Easier in edition 2 than in 1."
    assert item(found_, REST[0]).drift.told is None
    assert item(counted(bank, (5, fact(right=(ITEM,))))).drift is None


def test_a_paper_with_enough_people_has_its_agreement(bank):
    found_ = counted(
        bank,
        (40, fact(right=(*REST, ITEM))),
        (20, fact(right=(ITEM,), wrong=REST)),
        (20, fact(right=(), wrong=(*REST, ITEM))),
    )
    (one,) = found_.papers

    assert one.consistency.note is None
    assert 0.5 < one.consistency.exact.alike < 1
    assert one.reliability.kr20 == pytest.approx(4 / 3 * (1 - 3 * 0.25 / 3.1875 - 0.1875 / 3.1875), abs=1e-9)
    assert one.reliability.note is None


def test_a_person_who_moved_on_to_another_paper_is_asked_anew_only_what_is_new(bank):
    counts = Counts(words=reading_words(bank))
    counts.add_person(
        [fact(wrong=(ITEM,), on=date(2026, 1, 1)), fact(right=(ITEM, REST[0]), programme="another", on=TODAY)]
    )
    found_ = judged(counts, bank)

    assert item(found_).statistics.right == 0
    assert item(found_, REST[0]).statistics.answers == 1
    assert [one.people for one in found_.papers] == [1, 1]
