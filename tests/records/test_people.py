"""People are kept as they are called, with what they were called before; numbers are text."""

from datetime import date, timedelta

import pytest
from records.site import TODAY

from trainer.errors import Missing, RecordError, UsageError
from trainer.records import ledger, people


@pytest.fixture
def dana(record):
    with record.writing() as w:
        return people.add(w, number="00241", name="Dana Ruiz", badge="0013748911", shift="Early", started=TODAY)


def test_a_person_is_stored_as_given(record, dana):
    with record.reading() as r:
        assert people.get(r, dana.key) == dana
        assert people.must(r, dana.key) == dana
        assert people.get(r, "nobody") is None
    assert (dana.number, dana.badge, dana.roles, dana.status) == ("00241", "0013748911", {"learner"}, "active")
    assert "ruiz" not in dana.key.lower()


@pytest.mark.parametrize(
    "name",
    # names that careless programs break
    [
        "Suharto",
        "Null",
        "NA",
        "Nguyễn Thị Ánh",
        "O’Brien",
        "van der Berg",
        "=HYPERLINK(1)",
        "-Singh",
        "@home",
        "N" * 300,
    ],
)
def test_any_real_name_is_stored_unchanged(record, name):
    with record.writing() as w:
        assert people.add(w, number="1", name=name).name == name


@pytest.mark.parametrize("name", ["", "   ", "a\u202eb", "a\nb", "a\x00b", "N" * 301])
def test_a_name_that_cannot_be_shown_is_refused(record, name):
    with pytest.raises(UsageError), record.writing() as w:
        people.add(w, number="1", name=name)


@pytest.mark.parametrize(
    "wrong",
    [{"number": ""}, {"number": "1" * 81}, {"kind": "robot"}, {"roles": ("boss",)}, {"badge": "\x07"}],
)
def test_what_cannot_be_right_is_refused(record, wrong):
    with pytest.raises(UsageError), record.writing() as w:
        people.add(w, **({"number": "1", "name": "Suharto"} | wrong))


@pytest.mark.parametrize(
    "same", [{"number": "00241"}, {"number": "0013748911"}, {"badge": "0013748911"}, {"badge": "00241"}]
)
def test_nobody_takes_a_number_or_badge_that_somebody_active_has(record, dana, same):
    with pytest.raises(RecordError, match="already"), record.writing() as w:
        people.add(w, **({"number": "7", "name": "Ann Reed"} | same))


def test_zeros_make_another_number(record, dana):
    with record.writing() as w:
        people.add(w, number="241", name="Ann Reed", badge="13748911")
    with record.reading() as r:
        assert len(people.everybody(r)) == 2


def test_a_number_is_free_again_once_its_holder_has_left_and_training_stays(record, dana, clock):
    with record.writing() as w:
        people.change(w, dana.key, started=date(2020, 1, 1))
        entry = people.leave(w, dana.key, on=date(2026, 3, 8), by="office", reason="moved away")
        new = people.add(w, number="00241", name="Ann Reed")
    with record.reading() as r:
        assert [row.key for row in people.with_number(r, "00241")] == [new.key]
        assert list(ledger.entries(r, person=new.key)) == []
        assert people.must(r, dana.key).ended == date(2026, 3, 8)
    assert entry.body == {"event": "left", "last_day": "2026-03-08", "note": "moved away"}
    with pytest.raises(RecordError, match="left, on 2026-03-08"), record.writing() as w:
        people.leave(w, dana.key, on=TODAY, by="office")


def test_everybody_of_a_day_is_who_belonged_to_the_site_then(record, dana):
    with record.writing() as w:
        people.leave(w, dana.key, on=date(2026, 3, 20), by="office")
    with record.reading() as r:
        days = [date(2026, 3, 8), TODAY, date(2026, 3, 20), date(2026, 3, 21)]
        assert [len(people.everybody(r, on=day)) for day in days] == [0, 1, 1, 0]


def test_until_the_last_day_is_over_a_person_is_here_and_keeps_the_number(record, dana, clock):
    with record.writing() as w:
        people.leave(w, dana.key, on=TODAY, by="office")
    with record.reading() as r:
        assert [row.status for row in people.everybody(r)] == ["active"]
    with pytest.raises(RecordError, match="already"), record.writing() as w:
        people.add(w, number="00241", name="Ann Reed")
    clock.advance(timedelta(days=1))
    with record.reading() as r:
        assert people.everybody(r) == []
        assert people.must(r, dana.key).status == "left"
    with record.writing() as w:
        people.add(w, number="00241", name="Ann Reed")


def test_who_comes_back_keeps_the_history_unless_the_number_is_taken(record, dana, clock):
    with pytest.raises(RecordError, match="has not left"), record.writing() as w:
        people.come_back(w, dana.key, on=TODAY, by="office")
    with record.writing() as w:
        people.leave(w, dana.key, on=TODAY - timedelta(days=1), by="office")
        entry = people.come_back(w, dana.key, on=TODAY, by="office", reason="rehired")
        assert people.must(w, dana.key).status == "active"
    assert entry.body == {"event": "returned", "note": "rehired"}
    with record.writing() as w:
        people.leave(w, dana.key, on=TODAY - timedelta(days=1), by="office")
        people.add(w, number="00241", name="Ann Reed")
    with pytest.raises(RecordError, match="number 00241 already"), record.writing() as w:
        people.come_back(w, dana.key, on=TODAY, by="office")


def test_people_are_in_the_order_of_their_sort_names_whatever_the_database(record):
    names = ["Zoë", "adam", "Ábel", "Ørsted", "Bert"]
    with record.writing() as w:
        for number, name in enumerate(names):
            people.add(w, number=str(number), name=name)
        assert [row.name for row in people.everybody(w)] == ["Ábel", "adam", "Bert", "Ørsted", "Zoë"]


def test_a_new_name_counts_from_its_day_and_the_old_one_is_found_still(record, dana):
    with record.writing() as w:
        people.rename(w, dana.key, name="Dana Ruiz-Novák", number="90241", since=date(2026, 4, 1))
    with record.reading() as r:
        assert people.name_on(r, dana.key, date(2026, 3, 31)) == "Dana Ruiz"
        assert people.name_on(r, dana.key, date(2026, 4, 1)) == "Dana Ruiz-Novák"
        assert people.name_on(r, dana.key, date(2020, 1, 1)) == "Dana Ruiz"
        for text in ("dana ruiz", "NOVAK", "00241", "90241", "0013748911"):
            assert [row.key for row in people.find(r, text)] == [dana.key], text
        assert [row.key for row in people.with_number(r, "00241")] == [dana.key]


@pytest.mark.parametrize("text", ["", "  ", "241", "%", "_", "ruiz%"])
def test_a_search_takes_signs_as_they_are(record, dana, text):
    with record.reading() as r:
        assert people.find(r, text) == []


def test_apostrophes_of_any_kind_match(record):
    with record.writing() as w:
        people.add(w, number="1", name="Zoë O’Brien")
        assert [row.name for row in people.find(w, "o'brien")] == ["Zoë O’Brien"]


def test_what_may_change_changes_and_the_rest_does_not(record, dana):
    with record.writing() as w:
        changed = people.change(w, dana.key, shift="Night", badge="77", roles=("learner", "trainer"))
        assert (changed.shift, changed.badge, changed.roles) == ("Night", "77", {"learner", "trainer"})
        people.change(w, dana.key, roles=("trainer",))
    with record.reading() as r:
        assert people.must(r, dana.key).roles == {"trainer"}
    with pytest.raises(UsageError, match="name, status"), record.writing() as w:
        people.change(w, dana.key, name="X", status="left")
    with pytest.raises(Missing), record.writing() as w:
        people.change(w, "nobody", shift="Night")
