"""The office: what auditors ask, each with its answer and its file."""

import csv
import io
from datetime import date, timedelta
from typing import Any

import pytest
from records.site import tamper
from web.plant import NOW, Plant

from trainer.records import acts, people


def rows(answer: Any) -> list[dict[str, str]]:
    """Read a file as handed over: UTF-8 with its mark."""
    assert answer.mimetype == "text/csv"
    return list(csv.DictReader(io.StringIO(answer.data.decode("utf-8-sig"), newline="")))


def group(page: str, title: str) -> str:
    """Return what stands under one heading of a list."""
    assert title in page
    return page.split(title, 1)[1].split("</tbody>", maxsplit=1)[0]


@pytest.fixture
def late(plant: Plant) -> Plant:
    """Return a plant where a practical of 17 Feb was written on 26 Feb."""
    plant.authorise("00230", "Søren Dahlgaard", days=390)
    plant.authorise("00218", "Jun Watanabe-Reyes", "Late", days=100)
    plant.at(40)
    ramiro = plant.add("00270", "Ramiro Quispe", "Late")
    plant.site.sit(ramiro)
    plant.at(11)
    plant.site.show(ramiro, happened_on=(NOW - timedelta(days=20)).date())
    return plant


ASKED = "/office/authorised?machine=PB-1&day=17+Feb+2026&known=9+Mar+2026"


def test_the_questions_are_sentences_with_blanks_and_each_leads_to_an_answer(plant: Plant) -> None:
    client = plant.client("harriet")
    page = client.get("/office/").text
    assert "What does the auditor ask?" in page
    assert '<option value="PB-1" selected>' in page
    for path in ("authorised", "person", "changed", "overdue", "records.csv"):
        assert f'action="/office/{path}"' in page
        assert client.get(f"/office/{path}").status_code == 200


def test_the_list_of_a_day_names_who_was_authorised_and_why(late: Plant) -> None:
    page = late.client("harriet").get(ASKED).text
    assert "PB-1 on Tuesday 17 February 2026" in page
    assert "2 people were authorised to run it." in page
    assert "Jun Watanabe-Reyes" in group(page, "Authorised to run")
    assert "Ramiro Quispe" in group(page, "Authorised to run")
    assert "Søren Dahlgaard" in group(page, "Not on that day")
    assert "Dana Ruiz" in group(page, "Not yet")
    assert "3 people at the plant that day" in page


def test_as_known_on_the_day_itself_what_came_later_is_left_out(late: Plant) -> None:
    page = late.client("harriet").get(ASKED.replace("9+Mar", "17+Feb")).text
    assert "1 person was authorised to run it." in page
    assert "Ramiro Quispe" in group(page, "Not yet")
    assert "came after the day" not in page


def test_an_entry_that_came_late_is_flagged_with_both_days_and_what_the_answer_was_then(late: Plant) -> None:
    page = late.client("harriet").get(ASKED).text
    assert "Entered 9 days late." in page
    assert "Happened on 17 Feb 2026, written on 26 Feb 2026:" in page
    assert "the list held 1 person; now it holds 2." in page
    assert 'href="/office/authorised?machine=PB-1&amp;day=2026-02-17&amp;known=2026-02-17"' in page


def test_the_list_is_handed_over_as_a_file_with_both_days_and_the_entries(late: Plant) -> None:
    answer = late.client("harriet").get(ASKED.replace("authorised?", "authorised.csv?"))
    assert "attachment" in answer.headers["Content-Disposition"]
    found = {row["person number"]: row for row in rows(answer)}
    assert found["00270"]["may run"] == "yes"
    assert found["00230"]["standing"] == "lapsed"
    assert {row["on"] for row in found.values()} == {"2026-02-17"}
    assert {row["known on"] for row in found.values()} == {"2026-03-09"}
    assert "L-" in found["00218"]["entries"]


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("machine=PB-1&day=3/4/2026", "is not a day"),
        ("machine=PB-1&day=10+Mar+2026", "lies ahead"),
        ("machine=PB-1&known=30+Feb+2026", "is not a day"),
    ],
)
def test_a_blank_that_cannot_be_read_is_answered_with_one_sentence(plant: Plant, query: str, told: str) -> None:
    answer = plant.client("harriet").get(f"/office/authorised?{query}")
    assert answer.status_code == 422
    assert told in answer.text.split('role="alert">')[1].split("</p>")[0]


def test_an_unknown_machine_is_no_list(plant: Plant) -> None:
    client = plant.client("harriet")
    assert client.get("/office/authorised?machine=PB-9").status_code == 404
    assert client.get("/office/authorised.csv?machine=PB-9").status_code == 404
    assert client.get("/office/authorised.csv?machine=PB-1&day=x").status_code == 400


def test_everything_about_one_person_is_found_by_number_or_name_also_of_leavers(late: Plant) -> None:
    client = late.client("harriet")
    with late.site.record.writing() as w:
        (jun,) = people.with_number(w, "00218")
        people.leave(w, jun.key, on=w.today(), by=late.site.officer)
    answer = client.get("/office/person?who=watanabe", follow_redirects=True)
    assert "Jun Watanabe-Reyes" in answer.text
    assert "left on 9 Mar 2026" in answer.text
    assert "Practical at PB-1 signed" in answer.text
    many = client.get("/office/person?who=a").text
    assert "people fit" in many
    assert "0 people fit" in client.get("/office/person?who=nobody+of+that+name").text
    assert client.get("/office/person?who=00218&day=x").status_code == 422


def test_a_persons_entries_up_to_a_day_leave_out_what_happened_later(late: Plant) -> None:
    client = late.client("harriet")
    answer = client.get("/office/person?who=00270&day=10+Feb+2026", follow_redirects=True)
    assert "1 entry up to 10 Feb 2026" in answer.text
    path = answer.request.path
    found = rows(client.get(f"{path}/entries.csv?day=9+Mar+2026"))
    assert [row["kind"] for row in found] == ["sitting-marked", "practical-signed"]
    assert found[1]["entered late days"] == "9"


def test_an_untouched_ledger_is_read_again_and_holds(late: Plant) -> None:
    page = late.client("harriet").get("/office/changed").text
    assert "No. The ledger holds." in page
    assert "nobody is missing" in page
    assert "Entered 9 days late." in page


def test_a_changed_byte_is_named_with_its_entry_and_the_list_is_not_to_be_trusted(late: Plant) -> None:
    client = late.client("harriet")
    with late.site.record.reading() as r:
        (jun,) = people.with_number(r, "00218")
    tamper(
        late.site.record,
        f"UPDATE entry SET body = replace(body, '\"passed\":true', '\"passed\": true') WHERE person = '{jun.key}'",
    )
    page = client.get("/office/changed").text
    assert "The ledger does not hold." in page
    assert "altered-entry" in page
    assert "L-" in page.split("What does not hold")[1].split("</table>")[0]
    assert "Do not trust this list" in client.get(ASKED).text


def test_an_entry_that_was_taken_out_makes_every_list_untrustworthy(late: Plant) -> None:
    client = late.client("harriet")
    assert "The ledger holds" in client.get(ASKED).text
    tamper(late.site.record, "DELETE FROM entry WHERE number = 2")
    assert "Do not trust this list" in client.get(ASKED).text
    page = client.get("/office/changed").text
    assert "L-2" in page.split("What does not hold")[1].split("</table>")[0]


def test_a_correction_is_listed_beside_what_it_corrects(late: Plant) -> None:
    with late.site.record.writing() as w:
        acts.withdraw(w, entry=1, reason="Written for the wrong person.", by=late.site.officer, happened_on=w.today())
    page = late.client("harriet").get("/office/changed").text
    assert "Written for the wrong person." in page


def test_what_is_overdue_is_told_apart_by_kind(late: Plant) -> None:
    client = late.client("harriet")
    page = client.get("/office/overdue").text
    assert "Søren Dahlgaard" in group(page, "Lapsed: 1")
    assert "12 Feb 2026" in group(page, "Lapsed: 1")
    assert "Dana Ruiz" in group(page, "Theory open: 1")
    assert "Søren Dahlgaard" not in client.get("/office/overdue?shift=Late").text
    assert "Nothing is overdue" in client.get("/office/overdue?shift=Late&machine=PB-4").text
    assert "Lapsed" not in client.get("/office/overdue?day=1+Feb+2026").text.split("</main>")[0].split("<table")[1]
    assert client.get("/office/overdue?day=soon").status_code == 422


def test_the_records_of_a_span_of_days_are_one_file_in_the_order_of_writing(late: Plant) -> None:
    client = late.client("harriet")
    whole = rows(client.get("/office/records.csv?first=1+Jan+2020&last=9+Mar+2026"))
    numbers = [int(row["entry"].removeprefix("L-")) for row in whole]
    assert numbers == list(range(1, len(numbers) + 1))
    assert {row["person number"] for row in whole} >= {"00241", "00218", "00270"}
    some = rows(client.get("/office/records.csv?first=1+Feb+2026&last=28+Feb+2026"))
    assert [date.fromisoformat(row["happened on"]).month for row in some] == [2]
    assert client.get("/office/records.csv?first=x").status_code == 422


def test_a_file_is_harmless_for_a_spreadsheet(plant: Plant) -> None:
    plant.at(3)
    key = plant.add("00900", "=HYPERLINK(1)")
    plant.site.sit(key)
    found = rows(plant.client("harriet").get("/office/records.csv?first=1+Jan+2026"))
    assert found[-1]["person name then"] == "'=HYPERLINK(1)"
    assert found[-1]["person number"] == "00900"


def test_an_entry_opens_as_it_was_written(late: Plant) -> None:
    client = late.client("harriet")
    assert "As it was written" in client.get("/office/entries/1").text
    assert client.get("/office/entries/4000000").status_code == 404
