"""A question is kept at once, answered by adding, and shown to who asked; when it was answered is in the ledger."""

from datetime import timedelta

import pytest

from trainer.errors import Missing, UsageError
from trainer.records import asking, ledger, people
from trainer.records.asking import LONGEST, Wish


@pytest.fixture
def crew(record):
    with record.writing() as w:
        made = {
            "dana": people.add(w, number="00241", name="Dana Ruiz", shift="Late"),
            "early": people.add(
                w, number="00101", name="Aaron Early", shift="Early", roles=("trainer",), login="early"
            ),
            "late": people.add(w, number="00102", name="Zoe Late", shift="Late", roles=("trainer",), login="late"),
        }
    return {name: row.key for name, row in made.items()}


def ask(record, crew, **given):
    with record.writing() as w:
        return asking.ask(w, person=crew["dana"], kiosk="kiosk 1", **given)


def test_a_trainer_of_the_same_shift_answers_else_any(record, crew):
    with record.reading() as r:
        dana = people.must(r, crew["dana"])
        assert asking.on_shift(r, dana).key == crew["late"]
    with record.writing() as w:
        people.change(w, crew["dana"], shift="Night")
    with record.reading() as r:
        assert asking.on_shift(r, people.must(r, crew["dana"])).key == crew["early"]


def test_nobody_answers_their_own_question(record, crew):
    with record.reading() as r:
        assert asking.on_shift(r, people.must(r, crew["late"])).key == crew["early"]


def test_a_question_is_open_until_it_is_answered_and_new_until_it_was_seen(record, crew, clock):
    made = ask(record, crew, words=" Why 7 mm? ", about="PB-D01", to=crew["late"])
    assert (made.reference, made.words, made.is_open) == ("Q-001", "Why 7 mm?", True)
    clock.instant += timedelta(hours=1)
    with record.writing() as w:
        asking.answer(w, made.id, by=crew["early"], words="It is the finger's depth.")
    with record.reading() as r:
        assert asking.questions(r, only_open=True) == []
        (fresh,) = asking.unseen(r, crew["dana"])
        assert fresh.answers[0].at - fresh.at == timedelta(hours=1)
    with record.writing() as w:
        asking.mark_seen(w, made.id, person=crew["dana"])
    with record.reading() as r:
        assert asking.unseen(r, crew["dana"]) == []


def test_the_ledger_says_when_it_was_asked_and_answered_and_keeps_no_word_of_it(record, crew):
    made = ask(record, crew, words="Why does Zoe Late say 7 mm?")
    with record.writing() as w:
        asking.answer(w, made.id, by=crew["late"], words="Because of the finger.")
    with record.reading() as r:
        (entry,) = list(ledger.entries(r, person=crew["dana"]))
    assert (entry.body["event"], entry.body["note"], entry.by) == ("question-answered", "Q-001", crew["late"])
    assert entry.body["asked_at"] <= entry.body["answered_at"]
    assert "Zoe" not in str(entry.body)
    assert "finger" not in str(entry.body)


def test_who_cannot_type_presses_what_they_want(record, crew):
    assert ask(record, crew, wish=Wish.SHOW).words == ""


@pytest.mark.parametrize("words", [" ", "x" * (LONGEST + 1)])
def test_a_question_that_says_nothing_or_too_much_is_refused(record, crew, words):
    with pytest.raises(UsageError):
        ask(record, crew, words=words)


def test_an_answer_has_words_and_a_question(record, crew):
    made = ask(record, crew, words="Why?")
    with pytest.raises(UsageError), record.writing() as w:
        asking.answer(w, made.id, by=crew["late"], words=" ")
    with pytest.raises(Missing, match="Q-9"), record.writing() as w:
        asking.answer(w, 9, by=crew["late"], words="No.")


def test_nobody_marks_somebody_elses_answer_as_seen(record, crew):
    made = ask(record, crew, words="Why?")
    with pytest.raises(Missing), record.writing() as w:
        asking.mark_seen(w, made.id, person=crew["late"])


def test_a_name_that_is_taken_out_leaves_the_question(record, crew):
    ask(record, crew, words="Why?")
    with record.writing() as w:
        asking.forget(w, crew["dana"])
    with record.reading() as r:
        (row,) = asking.questions(r)
    assert (row.person, row.words) == (None, "Why?")
