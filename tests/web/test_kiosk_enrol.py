"""A badge with its PIN opens sheets on an enrolled kiosk and nowhere else."""

import re

from web.glass import Glass
from web.plant import PIN, Plant, post

NUMBER = {"number": "00241", "pin": PIN}


def test_a_device_that_is_not_enrolled_takes_no_pin(plant: Plant):
    plant.client()  # by now it is the tests' day
    stranger = plant.app.test_client()
    page = stranger.get("/").text
    assert "This device is not enrolled" in page
    assert 'name="pin"' not in page
    assert "This device is not enrolled" in post(stranger, "/", NUMBER).text
    assert stranger.get("/sheets").headers["Location"] == "/"


def test_a_session_goes_on_at_no_other_device(plant: Plant):
    glass = Glass(plant, plant.client())
    assert glass.sign_in().status_code == 303
    thief = plant.app.test_client()
    thief.set_cookie("session", glass.client.get_cookie("session").value)
    assert thief.get("/sheets").headers["Location"] == "/"


def test_the_office_makes_a_code_that_enrols_and_withdraws_with_a_reason(plant: Plant):
    office = plant.client("harriet")
    shown = post(office, "/office/kiosks", {"act": "invite", "name": "Hall 3"}).text
    code = re.search(r"[0-9]{5} [0-9]{5}", shown)[0]
    assert code not in office.get("/office/kiosks").text

    device = plant.app.test_client()
    assert "its time is over" in post(device, "/enrol", {"code": "11111 11111"}, of="/").text
    made = post(device, "/enrol", {"code": code}, of="/")
    cookie = made.headers["Set-Cookie"]
    assert made.status_code == 303
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert Glass(plant, device).sign_in().status_code == 303
    row = Glass(plant, device).begin()
    assert row.kiosk == "Hall 3"

    kiosk = re.search(r'value="([0-9a-f]{32})">Hall 3<', office.get("/office/kiosks").text)[1]
    act = {"act": "withdraw", "kiosk": kiosk, "reason": ""}
    assert post(office, "/office/kiosks", act).status_code in {400, 422}
    assert post(office, "/office/kiosks", {**act, "reason": "Stolen"}).status_code == 303
    assert device.get("/sheets").headers["Location"] == "/"
    assert "This device is not enrolled" in device.get("/").text


def test_the_keys_of_the_glass_type_the_code_without_script(plant: Plant):
    plant.client()
    device = plant.app.test_client()
    assert 'value="48"' in post(device, "/enrol", {"code": "4", "press": "8"}, of="/").text


def test_a_demo_takes_each_browser_for_a_kiosk(plant: Plant):
    plant.client()
    plant.app.config["ENROLS_ANYBODY"] = True
    browser = plant.app.test_client()
    assert "Start here" in browser.get("/", follow_redirects=True).text
    assert Glass(plant, browser).sign_in().status_code == 303


def test_a_demo_shows_its_first_sheet_to_a_browser_that_keeps_no_cookies(plant: Plant):
    plant.app.config["ENROLS_ANYBODY"] = True
    client = plant.app.test_client(use_cookies=False)

    answer = client.get("/", follow_redirects=True)

    assert answer.status_code == 200
    assert "not enrolled" in answer.text
