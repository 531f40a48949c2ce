"""The plan of 90 days: where fewer than two are left on a shift at a machine, from which day, and what heals it."""

from web.plant import Plant


def test_one_person_alone_is_called_out_now(plant: Plant) -> None:
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=60)
    page = plant.client("rosalind").get("/desk/plan").text
    assert "On 1 shift at a machine fewer than two people are left" in page
    assert "<b>already</b>" in page
    assert "One person may run it: Søren Dahlgaard." in page


def test_an_end_within_90_days_that_leaves_one_is_called_out_from_the_day_after(plant: Plant) -> None:
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=330)  # good for 12 months: ends in 35 days
    plant.authorise("00231", "Bo Lind", "Night", days=60)
    page = plant.client("rosalind").get("/desk/plan").text
    assert "Leaves Bo Lind alone." in page
    assert "<b>from 14 Apr 2026</b>" in page
    assert "Assign the refresher" in page


def test_two_people_who_stay_need_no_warning(plant: Plant) -> None:
    for ago, number in ((60, "00230"), (59, "00231")):
        plant.authorise(number, f"Person {number}", "Night", days=ago)
    page = plant.client("rosalind").get("/desk/plan").text
    assert "Two people or more stay on each shift" in page
    assert "Fewer than two left" not in page


def test_shift_machine_and_role_narrow_it_and_an_unknown_role_has_nobody(plant: Plant) -> None:
    plant.authorise("00230", "Søren Dahlgaard", "Night", days=60)
    client = plant.client("rosalind")
    assert "Søren" in client.get("/desk/plan?shift=Night&machine=PB-1").text
    for query in ("shift=Early", "machine=PB-4", "role=setter", "role=no-such"):
        page = client.get(f"/desk/plan?{query}").text
        assert "Søren" not in page
        assert "Nobody has a standing for this choice" in page
