"""The door of the kiosk: badge or number with a PIN, the keys in the head, pausing, going away, signing out."""

from datetime import timedelta

import pytest
from web.glass import BADGE, Glass
from web.plant import NOW, PIN, Plant, csrf

from trainer.web import language


@pytest.fixture
def glass(plant: Plant) -> Glass:
    return Glass(plant, plant.client())


@pytest.mark.parametrize(
    "read",
    [BADGE, f"*{BADGE}", f"{BADGE}\n", f"\n{BADGE}", f";{BADGE}?", f" {BADGE}\r\n", "00241"],
    ids=["plain", "star before", "Enter after", "Enter before", "track marks", "blank before", "number"],
)
def test_a_badge_is_known_whatever_its_reader_puts_around_it(glass, read):
    answer = glass.sign_in(read)

    assert (answer.status_code, answer.headers["Location"]) == (303, "/answers")


def test_the_zeros_of_a_badge_count(glass):
    answer = glass.sign_in(BADGE.lstrip("0"))

    assert answer.status_code == 403


def test_an_unknown_badge_and_a_wrong_pin_are_told_the_same(glass):
    unknown, wrong = glass.sign_in("0099999999"), glass.sign_in(pin="9876")

    for answer in (unknown, wrong):
        assert answer.status_code == 403
        assert "That number and PIN do not go together. Try again." in answer.text


def test_nobody_is_named_before_the_pin_was_given(glass):
    assert "Dana" not in glass.sign_in(pin="9876").text


def test_who_signed_in_is_named_with_what_tells_a_namesake_apart(glass):
    glass.sign_in()

    assert "Dana R., 00241" in glass.client.get("/sheets").text


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ({"number": "", "pin": PIN}, "Hold your badge to the reader, or type your number."),
        ({"number": "00241", "pin": ""}, "Type your PIN."),
        ({"number": "*;?", "pin": PIN}, "Hold your badge to the reader, or type your number."),
    ],
)
def test_what_is_missing_is_asked_for_and_what_was_typed_stays(glass, form, told):
    answer = glass.post("/", form)

    assert answer.status_code == 422
    assert told in answer.text


def test_without_script_the_keypad_is_sent_key_by_key_and_the_pin_is_in_no_cookie(glass):
    pin = ""
    for key in "7304":
        answer = glass.post("/", {"number": "00241", "pin": pin, "press": key})
        pin += key
        assert f'value="{pin}"' in answer.text
        with glass.client.session_transaction() as kept:
            assert set(kept) == {"csrf_token"}
    assert 'value="730"' in glass.post("/", {"number": "00241", "pin": pin, "press": "erase"}).text
    assert glass.sign_in("00241", pin).status_code == 303


def test_tries_that_fail_have_to_wait_longer_and_longer(glass):
    for _ in range(3):
        glass.sign_in(pin="9876")

    assert "Wait 5 seconds" in glass.sign_in().text
    glass.plant.site.clock.instant += timedelta(seconds=6)
    assert glass.sign_in().status_code == 303


def test_a_pin_opens_neither_desk_nor_office(glass):
    glass.sign_in("00101")

    assert glass.client.get("/desk/").status_code == 403
    assert glass.client.get("/office/").status_code == 403


def test_nothing_is_kept_by_the_browser(glass):
    glass.sign_in()

    assert glass.client.get("/sheets").headers["Cache-Control"] == "no-store"


def test_signing_out_forgets_the_person_the_language_and_the_swapped_sides(glass):
    glass.post("/aside", {"to": "swap", "back": "/"})
    glass.sign_in()
    assert 'class="swapped"' in glass.client.get("/sheets").text
    glass.post("/leave", of="/sheets")

    assert 'class="swapped"' not in glass.client.get("/").text
    assert glass.client.get("/sheets").headers["Location"] == "/"


def test_strong_contrast_is_chosen_before_signing_in_and_forgotten_after(glass):
    glass.post("/aside", {"to": "contrast", "back": "/"})
    assert 'class="contrast"' in glass.client.get("/").text
    glass.sign_in()
    assert 'class="contrast"' in glass.client.get("/sheets").text
    glass.post("/leave", of="/sheets")
    assert 'class="contrast"' not in glass.client.get("/").text


def test_the_language_is_changed_on_any_sheet_and_leads_back_to_it(glass):
    glass.sign_in()
    answer = glass.post("/aside", {"to": "language:es", "back": "/standing"}, of="/standing")

    assert answer.headers["Location"] == "/standing"
    assert '<html lang="es">' in glass.client.get("/standing").text


@pytest.mark.parametrize("back", ["//elsewhere.example", "/\\elsewhere.example", "https://elsewhere.example", "/desk/"])
def test_a_key_in_the_head_leads_nowhere_else(glass, back):
    answer = glass.post("/aside", {"to": "swap", "back": back})

    assert answer.headers["Location"] == "/"


def test_more_than_two_languages_have_a_sheet_of_their_own(glass, monkeypatch):
    three = {"en": "English", "es": "Español", "pl": "Polski"}
    monkeypatch.setattr(language, "offered", lambda: three)
    glass.sign_in()

    assert 'value="tongues"' in glass.client.get("/sheets").text
    assert glass.post("/aside", {"to": "tongues", "back": "/sheets"}).headers["Location"] == "/language"
    assert all(name in glass.client.get("/language").text for name in three.values())


def test_a_pause_shows_nothing_of_the_sitting_and_wants_the_pin(glass):
    glass.sign_in()
    row = glass.begin()
    here = f"/sittings/{row.id}/1"
    assert glass.post("/aside", {"to": "pause", "back": here}, of=here).headers["Location"] == "/pause"
    assert glass.client.get(here).headers["Location"] == "/pause"
    assert "Short tool" not in glass.client.get("/pause").text
    assert glass.post("/pause", {"pin": "9876"}, of="/pause").status_code == 403

    answer = glass.post("/pause", {"pin": PIN}, of="/pause")
    assert answer.headers["Location"] == here
    assert glass.client.get(here).status_code == 200


def test_a_report_can_be_made_during_a_pause_and_leads_back_to_it(glass):
    glass.sign_in()
    glass.begin()
    glass.post("/aside", {"to": "pause", "back": "/sheets"}, of="/sheets")

    assert glass.client.get("/hazard").status_code == 200
    assert glass.client.get("/sheets").headers["Location"] == "/pause"


def test_nobody_there_is_asked_first_and_signed_out_after_twenty_seconds(glass):
    glass.sign_in()
    row = glass.begin()
    here = f"/sittings/{row.id}/1"
    assert glass.post("/aside", {"to": "away", "back": here}, of=here).headers["Location"] == "/away"
    page = glass.client.get("/away")
    assert "you are signed out in 20 seconds" in page.text
    assert page.headers["Refresh"] == "20; url=/"
    glass.plant.site.clock.instant += timedelta(seconds=20)

    glass.client.get("/")
    assert glass.client.get("/sheets").headers["Location"] == "/"
    glass.sign_in()
    assert glass.begin().id == row.id


def test_one_press_says_that_somebody_is_there(glass):
    glass.sign_in()
    for _ in range(9):
        glass.post("/aside", {"to": "away", "back": "/standing"}, of="/standing")
        glass.plant.site.clock.instant += timedelta(seconds=15)
        assert glass.post("/away", of="/away").headers["Location"] == "/standing"
    glass.plant.site.clock.instant += timedelta(seconds=60)

    assert glass.client.get("/").headers["Location"] == "/sheets"


def test_the_start_sheet_can_be_wiped_and_comes_back(glass):
    page = glass.client.get("/wipe")

    assert page.headers["Refresh"] == "20; url=/"
    assert "<button" not in page.text.replace('<button class="key" type="button" data-aloud-key hidden>', "")


def test_another_badge_in_the_middle_is_noticed_and_nobody_is_named(glass):
    glass.plant.add("00248", "Zoë O’Brien", badge="0013748999")
    glass.sign_in()
    row = glass.begin()
    glass.post("/badge", {"code": "0013748999", "back": f"/sittings/{row.id}/1"}, of="/sheets")
    page = glass.client.get("/badge").text
    assert "That was not your badge. It changed nothing." in page
    assert "Zoë" not in page

    glass.post("/badge", {"code": f"*{BADGE}"}, of="/sheets")
    assert "Is this you?" in glass.client.get("/badge").text
    assert glass.post("/back", of="/badge").headers["Location"] == f"/sittings/{row.id}/1"


def test_every_form_carries_a_token(glass):
    assert glass.client.post("/", data={"number": "00241", "pin": PIN}).status_code == 400
    assert csrf(glass.client.get("/").text)


def test_the_session_is_another_one_after_signing_in(glass):
    with glass.client.session_transaction() as before:
        kept = dict(before)
    glass.sign_in()
    with glass.client.session_transaction() as after:
        assert after["person"] == glass.plant.site.learner
        assert after.get("csrf_token") != kept.get("csrf_token", "none")
        assert after["since"] == NOW.isoformat()
