"""A sitting at the kiosk: what is saved, locked, asked back, refused, explained and handed in."""

import re
from datetime import timedelta

import pytest
from web.glass import BADGE, Glass, first, form_of, right, slipped, wrong
from web.plant import PIN, Plant

from trainer.assessment.model_answers import showing, shown_by
from trainer.assessment.paper import Paper, SheetKind
from trainer.records import ledger, sittings


@pytest.fixture
def glass(plant: Plant) -> Glass:
    glass = Glass(plant, plant.client())
    glass.sign_in()
    return glass


def at(glass, kind, item=""):
    """Open a sitting and bring it to a sheet of a kind."""
    row = glass.begin()
    sheet = first(glass.plant.site.bank, row, kind, item)
    with glass.plant.site.record.writing() as w:
        sittings.move_to(w, row.id, sheet.number)
    return row, sheet


def test_what_is_waiting_says_why_until_when_and_how_long(glass):
    page = glass.client.get("/sheets").text

    assert "One thing is waiting for you." in page
    assert "Press brake operator, induction" in page
    assert "new here" in page
    assert "about 60 minutes" in page


def test_an_open_sitting_goes_on_where_it_was_left(glass):
    row, sheet = at(glass, SheetKind.QUESTION)

    assert f"at sheet {sheet.number} of {len(row.paper['sheets'])}" in glass.client.get("/sheets").text
    assert glass.begin().id == row.id


def test_only_what_is_waiting_can_be_started(glass):
    answer = glass.post("/sittings", {"programme": "press-brake-helper-induction"}, of="/sheets")

    assert answer.status_code == 404
    assert "Ask your trainer to assign it" in answer.text


def test_nobody_sees_somebody_elses_sitting(glass):
    row = glass.begin()
    glass.plant.add("00248", "Zoë O’Brien", pin=PIN)
    other = Glass(glass.plant, glass.plant.client())
    other.sign_in("00248")

    sent = other.post(f"/sittings/{row.id}/1/turn", {"stage": "lesson"}, of="/sheets")
    for answer in (other.client.get(f"/sittings/{row.id}/1"), sent):
        assert answer.status_code == 404


def test_a_sheet_further_on_is_not_shown_yet(glass):
    row = glass.begin()

    assert glass.client.get(f"/sittings/{row.id}/5").headers["Location"] == f"/sittings/{row.id}/1"


def test_a_lesson_is_turned_and_can_be_looked_at_again(glass):
    row = glass.begin()
    assert glass.turn(row.id, 1, "lesson").headers["Location"] == f"/sittings/{row.id}/2"
    assert glass.sitting(row.id).at == 2
    assert f"/sittings/{row.id}/1" in glass.sheet(row.id, 2)

    glass.turn(row.id, 1, "lesson")
    assert glass.sitting(row.id).at == 2


def test_an_answer_is_on_disk_before_the_sheet_says_so_and_can_be_changed(glass):
    row, sheet = at(glass, SheetKind.QUESTION)
    assert 'class="stored"' not in glass.sheet(row.id, sheet.number)
    one, other = sheet.order[:2]
    glass.answer(row.id, sheet.number, {"choice": one})
    assert glass.sitting(row.id).answers[sheet.number].answer["chosen"] == one
    assert glass.sheet(row.id, sheet.number).count('class="stored"') == 1

    glass.answer(row.id, sheet.number, {"choice": other})
    assert glass.sitting(row.id).answers[sheet.number].answer["chosen"] == other


def test_the_same_form_sent_twice_is_stored_once(glass):
    row, sheet = at(glass, SheetKind.QUESTION)
    one, other = sheet.order[:2]
    glass.answer(row.id, sheet.number, {"choice": one, "key": "pressed once"})
    glass.answer(row.id, sheet.number, {"choice": other, "key": "pressed once"})

    assert glass.sitting(row.id).answers[sheet.number].answer["chosen"] == one


def test_the_next_sheet_locks_the_answer_and_shows_why(glass):
    row, sheet = at(glass, SheetKind.QUESTION)
    question = glass.plant.site.bank.item(sheet.item)
    glass.answer(row.id, sheet.number, form_of(showing(question, sheet, shown_by(question)[0])))
    glass.turn(row.id, sheet.number, "answer")
    page = glass.sheet(row.id, sheet.number)

    named = glass.plant.site.bank.misconceptions[shown_by(question)[0]]
    assert "That is not right." in page
    assert named.tell.in_("en") in page.replace("&#39;", "'")
    assert question.why.in_("en") in page.replace("&#39;", "'")
    assert glass.answer(row.id, sheet.number, right(glass.plant.site.bank, sheet)).status_code == 409


def test_the_key_pressed_twice_does_not_skip_the_feedback(glass):
    row, sheet = at(glass, SheetKind.QUESTION)
    glass.answer(row.id, sheet.number, right(glass.plant.site.bank, sheet))
    here = f"/sittings/{row.id}/{sheet.number}"
    for _ in range(2):
        assert glass.turn(row.id, sheet.number, "answer").headers["Location"] == here
    assert glass.sitting(row.id).at == sheet.number


def test_a_sheet_without_an_answer_is_not_left(glass):
    row, sheet = at(glass, SheetKind.QUESTION)
    glass.turn(row.id, sheet.number, "answer")

    assert "Save an answer first." in glass.sheet(row.id, sheet.number)


def test_a_slip_is_named_at_its_step_with_what_would_happen_at_the_machine(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D02")
    glass.answer(row.id, sheet.number, slipped(glass.plant.site.bank, sheet, "nominal-sensitivity"))
    glass.turn(row.id, sheet.number, "answer")
    page = glass.sheet(row.id, sheet.number)

    (line,) = re.findall(r'<li class="slip">(.*?)</li>', page, re.DOTALL)
    assert "The curtain sees" in line
    assert "You had 14 mm." in line
    assert "object sensitivity" in line
    assert "the hand gets there first" in page
    assert "The race between hand and ram" in page
    assert "a competent person decide" in page


def test_a_right_distance_is_far_enough(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    glass.answer(row.id, sheet.number, right(glass.plant.site.bank, sheet))
    glass.turn(row.id, sheet.number, "answer")

    assert "Far enough: the ram stops before the hand is there" in glass.sheet(row.id, sheet.number)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("", "Nothing was typed"),
        ("abc", "does not start with a number"),
        ("-215", "is less than nothing"),
        ("−215", "is less than nothing"),
        ("8 1/0", "divides by nought"),
        ("=2+3", "does not start with a number"),
        ("<b>215</b>", "does not start with a number"),
        ("120 ms", "is not a length"),
    ],
)
def test_what_is_no_length_gets_one_sentence_and_stays_in_the_box(glass, typed, told):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    glass.answer(row.id, sheet.number, {"number": typed, "unit": "mm"})
    page = glass.sheet(row.id, sheet.number)

    assert told in page
    assert "<b>215</b>" not in page
    assert 'aria-invalid="true"' in page
    assert glass.sitting(row.id).answers == {}


def test_a_number_of_ten_thousand_digits_is_cut_and_refused(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    answer = glass.answer(row.id, sheet.number, {"number": "9" * 10_000, "unit": "mm"})

    assert answer.status_code == 303
    assert glass.sitting(row.id).answers == {}


def test_a_number_that_can_be_read_in_two_ways_is_asked_back_and_not_marked(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    glass.answer(row.id, sheet.number, {"number": "1,234", "unit": "mm"})
    page = glass.sheet(row.id, sheet.number)
    readings = re.findall(r'name="number" value="([^"]+)"', page)
    assert len(readings) == 2
    assert "Nothing is marked yet" in page
    assert glass.sitting(row.id).answers == {}

    glass.answer(row.id, sheet.number, {"number": readings[1], "unit": "mm"})
    assert glass.sitting(row.id).answers[sheet.number].answer["value"] == readings[1]


@pytest.mark.parametrize("read", [BADGE, f"*{BADGE}", f"{BADGE}\n", f"35{BADGE}"])
def test_a_badge_in_the_answer_box_is_no_answer_and_changes_none(glass, read):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    glass.answer(row.id, sheet.number, {"number": "400", "unit": "mm"})
    glass.answer(row.id, sheet.number, {"number": read, "unit": "mm"})

    assert "A badge was read. It changed nothing here." in glass.sheet(row.id, sheet.number)
    assert glass.sitting(row.id).answers[sheet.number].answer["value"] == "400 mm"


def test_inches_are_taken_as_inches(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    glass.answer(row.id, sheet.number, {"number": "15 1/2", "unit": "in"})

    assert glass.sitting(row.id).answers[sheet.number].answer["value"].endswith(" in")


def test_without_script_the_keypad_writes_the_number_key_by_key(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    typed = ""
    for key in "402":
        glass.answer(row.id, sheet.number, {"number": typed, "unit": "in", "press": key})
        typed += key
    page = glass.sheet(row.id, sheet.number)

    assert 'name="number" value="402"' in page
    assert re.search(r'value="in" checked', page)
    assert glass.sitting(row.id).answers == {}


def test_changing_the_language_keeps_the_sheet_and_what_was_typed(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    here = f"/sittings/{row.id}/{sheet.number}"
    form = {"to": "language:es", "back": here, "at": f"{row.id}/{sheet.number}", "number": "40.5", "unit": "in"}
    assert glass.post("/aside", form, of=here).headers["Location"] == here
    page = glass.sheet(row.id, sheet.number)

    assert '<html lang="es">' in page
    assert 'name="number" value="40.5"' in page
    glass.answer(row.id, sheet.number, {"number": "402,2", "unit": "mm"})
    assert glass.sitting(row.id).languages == ("en", "es")


def test_a_number_typed_after_the_last_save_is_saved_before_the_sheet_is_turned(glass):
    row, sheet = at(glass, SheetKind.DRILL, "PB-D01")
    glass.answer(row.id, sheet.number, {"number": "400", "unit": "mm"})
    glass.turn(row.id, sheet.number, "answer", number="455", unit="mm")

    stored = glass.sitting(row.id).answers[sheet.number]
    assert (stored.answer["value"], stored.locked) == ("455 mm", False)


def test_a_pause_is_not_counted_as_time_on_the_sheet(glass):
    row, sheet = at(glass, SheetKind.QUESTION)
    clock, here = glass.plant.site.clock, f"/sittings/{row.id}/{sheet.number}"
    glass.sheet(row.id, sheet.number)
    clock.instant += timedelta(seconds=30)
    glass.post("/aside", {"to": "pause", "back": here}, of=here)
    clock.instant += timedelta(minutes=10)
    glass.post("/pause", {"pin": PIN}, of="/pause")
    clock.instant += timedelta(seconds=12)
    glass.answer(row.id, sheet.number, {"choice": sheet.order[0]})

    assert glass.sitting(row.id).answers[sheet.number].took_ms == 42_000


def test_a_paper_is_handed_in_only_when_every_sheet_is_answered(glass):
    row = glass.begin()
    answer = glass.client.get(f"/sittings/{row.id}/hand-in")
    number = Paper.from_data(row.paper).marked[0].number
    assert answer.headers["Location"] == f"/sittings/{row.id}/{number}"

    glass.hand_in(row)
    assert glass.sitting(row.id).state == "open"


def test_an_induction_with_one_slip_ends_with_the_theory_passed_and_the_practical_pending(glass):
    row = glass.begin()
    glass.finish(row, slips={"PB-D02": "nominal-sensitivity"})
    page = glass.client.get(f"/sittings/{row.id}/hand-in").text
    assert "23 answers, all on disk" in page
    for _ in range(2):  # pressed twice is handed in once
        answer = glass.hand_in(row)
        assert answer.headers["Location"] == f"/sittings/{row.id}/result"
    page = glass.client.get(f"/sittings/{row.id}/result").text

    assert "Do not run PB-1 alone yet." in page
    assert re.findall(r"<strong>(?:<svg.*?</svg>)?\s*([^<]+)</strong>", page, re.DOTALL) == [
        "passed",
        "pending",
        "not yet",
    ]
    assert re.search(r"Distance with beams blanked</th><td>look again", page)
    with glass.plant.site.record.reading() as r:
        marked = [entry for entry in ledger.entries(r, person=row.person) if entry.body.get("sitting") == row.id]
    assert [entry.body["score"] for entry in marked] == [{"right": 22, "out_of": 23}]


def test_a_paper_is_confirmed_with_the_own_pin_and_the_ledger_says_so(glass):
    row = glass.begin()
    glass.finish(row)
    for pin in ("", "9999"):
        answer = glass.hand_in(row, pin)
        assert answer.status_code in {403, 422}
        assert 'role="alert"' in answer.text
        assert glass.sitting(row.id).state == "open"
    glass.hand_in(row)

    with glass.plant.site.record.reading() as r:
        entry = ledger.entry(r, glass.sitting(row.id).entry)
    assert entry.body["confirmed"] == {"with": "pin", "at": entry.body["ended_at"]}


def test_without_script_the_pin_of_the_confirmation_is_sent_key_by_key(glass):
    row = glass.begin()
    glass.finish(row)
    page = glass.post(f"/sittings/{row.id}/hand-in", {"pin": "73", "press": "0"}, of="/sheets").text

    assert 'value="730"' in page
    assert glass.sitting(row.id).state == "open"


def test_a_paper_that_is_not_passed_says_what_was_missed_and_what_comes(glass):
    row = glass.begin()
    bank = glass.plant.site.bank
    for sheet in Paper.from_data(row.paper).sheets:
        if sheet.kind is SheetKind.LESSON:
            glass.turn(row.id, sheet.number, "lesson")
        else:
            glass.give(row.id, sheet, wrong(bank, sheet))
    glass.hand_in(row)
    page = glass.client.get(f"/sittings/{row.id}/result").text

    assert "Do not run PB-1 yet." in page
    assert "0 of 23 were right; 19 are needed." in page
    assert "not passed" in page
    assert f"/sittings/{row.id}/{Paper.from_data(row.paper).marked[0].number}" in page
    assert "One thing is waiting for you." in glass.client.get("/sheets").text


def test_who_was_signed_off_may_run_the_machine(glass):
    site = glass.plant.site
    site.sit(site.learner)
    site.show(site.learner)
    page = glass.client.get("/standing").text

    assert "You may run PB-1." in page
    assert "It holds until" in page
    assert "not yet" not in page


def test_somebody_of_whom_nothing_is_known_is_told_not_to_run_anything(glass):
    glass.plant.add("00248", "Zoë O’Brien", pin=PIN)
    other = Glass(glass.plant, glass.plant.client())
    other.sign_in("00248")

    assert "Nothing is waiting for you." in other.client.get("/sheets").text
    assert "Do not run a machine." in other.client.get("/standing").text
