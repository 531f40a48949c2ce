"""Who is told of what, at which step, and that the database lets one process win."""

import threading
from datetime import date, timedelta

import pytest

from trainer.errors import UsageError
from trainer.records import assignments, people, reminders
from trainer.records.reminders import FAILED, SENT, UNSURE

TODAY = date(2026, 3, 9)


@pytest.mark.parametrize(
    ("days", "step"),
    [(31, None), (30, "30"), (15, "30"), (14, "14"), (8, "14"), (7, "7"), (0, "7"), (-1, "over"), (-400, "over")],
)
def test_the_step_is_the_nearest_that_is_reached_and_the_day_itself_is_good(days, step):
    assert reminders.step_of(TODAY + timedelta(days=days), TODAY) == step


@pytest.fixture
def due(site):
    """Return a site where the learner has something to do in five days, with addresses for learner and trainer."""
    with site.record.writing() as w:
        reminders.set_address(w, site.learner, "dana@plant.example")
        reminders.set_address(w, site.trainer, "rosalind@plant.example")
        assignments.assign(
            w,
            person=site.learner,
            programme="press-brake-operator-induction",
            by=site.trainer,
            reason="new here",
            happened_on=TODAY,
            machine="PB-1",
            due_on=TODAY + timedelta(days=5),
        )
    return site


def waiting(site):
    with site.record.reading() as r:
        return reminders.untold(r, reminders.due_notes(r, site.bank, on=r.today()))


def claim(site, recipient):
    with site.record.writing() as w:
        return reminders.claim(w, recipient, [note for note in waiting(site) if note.recipient == recipient])


def settle(site, letter, state, note=""):
    with site.record.writing() as w:
        reminders.settle(w, letter.id, state, note)


def test_the_person_and_the_trainer_are_told_each_once_per_step(due):
    assert [(note.recipient, note.step) for note in waiting(due)] == [(due.learner, "7"), (due.trainer, "7")]
    for key in (due.learner, due.trainer):
        settle(due, claim(due, key), SENT)
    assert waiting(due) == []
    assert claim(due, due.learner) is None

    due.clock.advance(timedelta(days=5))
    assert waiting(due) == []
    due.clock.advance(timedelta(days=1))
    assert [note.step for note in waiting(due)] == ["over", "over"]


def test_what_was_missed_is_not_told_afterwards(due):
    assert {note.step for note in waiting(due)} == {"7"}  # and not 30 and 14 as well


def test_who_has_no_address_or_has_left_is_not_told(due):
    with due.record.writing() as w:
        reminders.set_address(w, due.learner, None)
        people.leave(w, due.trainer, on=TODAY, by=due.officer)
    due.clock.advance(timedelta(days=1))
    assert waiting(due) == []


def test_what_failed_is_told_again_once_the_wait_is_over_and_longer_each_time(due):
    settle(due, claim(due, due.learner), FAILED, "451 busy")
    assert [note.recipient for note in waiting(due)] == [due.trainer]
    due.clock.advance(timedelta(minutes=5))
    settle(due, claim(due, due.learner), FAILED, "451 busy")
    due.clock.advance(timedelta(minutes=5))
    assert claim(due, due.learner) is None
    due.clock.advance(timedelta(minutes=5))
    settle(due, claim(due, due.learner), SENT)
    assert claim(due, due.learner) is None
    assert [reminders.wait(tries) for tries in (1, 2, 99)] == [
        timedelta(minutes=5), timedelta(minutes=10), timedelta(hours=6),
    ]  # fmt: skip


def test_what_may_have_arrived_is_not_told_again_by_itself(due):
    settle(due, claim(due, due.learner), UNSURE)
    due.clock.advance(timedelta(days=1))
    assert claim(due, due.learner) is None
    with due.record.writing() as w:
        assert reminders.give_up_lost(w) == 1
        reminders.tell_unsure_again(w)
    assert claim(due, due.learner) is not None


def test_a_letter_of_a_process_that_died_becomes_unsure(due):
    claim(due, due.learner)
    with due.record.writing() as w:
        assert reminders.give_up_lost(w) == 0  # it may be on its way just now
    due.clock.advance(timedelta(minutes=16))
    with due.record.writing() as w:
        assert reminders.give_up_lost(w) == 1


def test_of_many_that_claim_at_the_same_time_one_wins(due):
    notes = [note for note in waiting(due) if note.recipient == due.learner]
    start, won = threading.Barrier(6), []

    def race():
        start.wait()
        with due.record.writing() as w:
            letter = reminders.claim(w, due.learner, notes)
        won.append(letter)

    threads = [threading.Thread(target=race) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(won) == 6
    assert sum(letter is not None for letter in won) == 1


def test_erasing_takes_address_and_reminders_out(due):
    claim(due, due.learner)
    claim(due, due.trainer)
    with due.record.writing() as w:
        reminders.forget(w, due.learner)
        assert reminders.addresses(w) == {due.trainer: "rosalind@plant.example"}
        assert reminders.give_up_lost(w) == 0
    due.clock.advance(timedelta(hours=1))
    with due.record.writing() as w:
        assert reminders.give_up_lost(w) == 0  # the trainer's was about the learner too


@pytest.mark.parametrize(
    "text",
    ["", "dana", "a@b@c", "a b@c.example", "<a@b.example>", "a@b.example, c@d.example", "dána@x.example", "a\n@b"],
)
def test_what_is_no_plain_address_is_refused(site, text):
    with pytest.raises(UsageError), site.record.writing() as w:
        reminders.set_address(w, site.learner, text)
