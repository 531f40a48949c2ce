"""Who needs the trainer this week."""

from datetime import timedelta

import pytest
from records.site import REFRESHER
from web.plant import Plant

from trainer.records import acts, hazards, people


def test_the_front_page_says_so_when_nobody_waits(plant: Plant) -> None:
    page = plant.client("rosalind").get("/desk/").text
    assert "Nobody waits for you" in page


def test_who_handed_in_a_passed_paper_a_moment_ago_stands_first_with_the_sign_off(plant: Plant) -> None:
    plant.at(0)
    plant.site.sit(plant.site.learner)
    plant.site.clock.advance(timedelta(minutes=30))
    page = plant.client("rosalind").get("/desk/").text
    assert "waits 30 min" in page
    assert f"/desk/practicals/{plant.site.learner}/PB-1/operator" in page
    assert "You may sign." in page
    assert 'class="act act-now"' in page


def test_the_next_day_the_same_person_waits_since_a_day_and_the_act_is_no_longer_filled(plant: Plant) -> None:
    plant.at(0)
    plant.site.sit(plant.site.learner)
    plant.site.clock.advance(timedelta(days=1))
    page = plant.client("rosalind").get("/desk/").text
    assert "waits 1 day" in page
    assert 'class="act act-today"' in page
    assert 'class="act act-now"' not in page


def test_an_open_hazard_report_comes_before_anything_else(plant: Plant) -> None:
    plant.at(0)
    plant.site.sit(plant.site.learner)
    with plant.site.record.writing() as w:
        hazards.report(w, words="The rod did not stop the ram.", kiosk="kiosk 1", machine="PB-1")
    page = plant.client("rosalind").get("/desk/").text
    assert page.index("The rod did not stop the ram.") < page.index("Dana Ruiz")
    assert "1</b> hazard report is open." in page


def test_a_paper_not_passed_asks_for_a_coach_and_counts_the_tries(plant: Plant) -> None:
    plant.at(2)
    for _ in range(2):
        plant.site.talk_over(plant.site.learner)
        plant.site.sit(plant.site.learner, right=False)
        plant.site.clock.advance(timedelta(days=1))
    page = plant.client("rosalind").get("/desk/").text
    assert "theory not passed, 2 times" in page
    assert "1 of 2 right, 2 needed" in page


def test_a_failed_practical_is_a_second_try_under_supervision(plant: Plant) -> None:
    plant.at(3)
    plant.site.sit(plant.site.learner)
    plant.site.show(plant.site.learner, failing="curtain-test")
    page = plant.client("rosalind").get("/desk/").text
    assert "second practical, PB-1 operator" in page


@pytest.mark.parametrize(
    ("days", "told"),
    [(365 + 20, "over 20 d"), (365 - 3, "by 12 Mar 2026"), (365 - 25, "by 3 Apr 2026"), (365 - 40, "")],
)
def test_refreshers_show_when_over_or_within_thirty_days(plant: Plant, days: int, told: str) -> None:
    plant.authorise("00230", "Søren Dahlgaard", days=days)
    page = plant.client("rosalind").get("/desk/").text
    if told:
        assert told in page
        assert "Assign the refresher" in page
    else:
        assert "refresher is over or ends" not in page


def test_a_shift_with_one_person_is_short_already_and_names_who_is_left(plant: Plant) -> None:
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late")
    page = plant.client("rosalind").get("/desk/").text
    assert "shift runs short" in page
    assert "One person may run it: Jun Watanabe-Reyes." in page


def test_a_shift_that_will_be_short_is_to_be_booked_with_the_day_and_those_who_end(plant: Plant) -> None:
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=300)
    plant.authorise("00219", "Aroha Ngata", "Late", days=10)
    page = plant.client("rosalind").get("/desk/").text
    assert "from 14 May 2026" in page
    assert "Leaves Aroha Ngata alone." in page


def test_a_changed_machine_puts_all_who_need_the_re_brief_on_one_line(plant: Plant) -> None:
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=60)
    plant.authorise("00219", "Aroha Ngata", "Late", days=50)
    plant.at(0)
    with plant.site.record.writing() as w:
        acts.machine_changed(w, machine="PB-1", note="Control replaced", by=plant.site.trainer, happened_on=w.today())
    page = plant.client("rosalind").get("/desk/").text
    assert page.count("re-brief after a change, PB-1 operator") == 1
    assert "The machine was changed on 9 Mar 2026." in page
    assert "Nobody may run it." in page
    assert "May not now, but did: " in page


def test_a_leaver_is_on_no_line(plant: Plant) -> None:
    key = plant.authorise("00230", "Søren Dahlgaard", days=380)
    plant.at(0)
    with plant.site.record.writing() as w:
        people.leave(w, key, on=w.today() - timedelta(days=1), by=plant.site.officer)
    assert "Søren Dahlgaard" not in plant.client("rosalind").get("/desk/").text


def test_a_suspended_person_is_looked_into(plant: Plant) -> None:
    key = plant.authorise("00263", "Ifeanyi Nwachukwu")
    plant.at(0)
    with plant.site.record.writing() as w:
        acts.suspend(w, person=key, reason="Reached round the curtain.", by=plant.site.trainer, happened_on=w.today())
    page = plant.client("rosalind").get("/desk/").text
    assert "Reached round the curtain." in page


def test_numbers_of_lines_run_on_from_one_through_all_groups(plant: Plant) -> None:
    plant.authorise("00230", "Søren Dahlgaard", days=380)
    plant.authorise("00231", "Bo Lind", "Late", days=340)
    plant.at(0)
    plant.site.sit(plant.site.learner)
    page = plant.client("rosalind").get("/desk/").text
    shown = [int(part.split("<")[0]) for part in page.split('<span class="item">')[1:]]
    assert shown == list(range(1, len(shown) + 1))
    assert len(shown) >= 4


def test_a_refresher_in_the_record_takes_the_line_away(plant: Plant) -> None:
    key = plant.authorise("00230", "Søren Dahlgaard", days=380)
    plant.at(1)
    plant.site.sit(key, REFRESHER)
    assert "Søren Dahlgaard ends" not in plant.client("rosalind").get("/desk/").text
    assert "it lapsed after" not in plant.client("rosalind").get("/desk/").text
