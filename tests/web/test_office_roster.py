"""A roster in the office: chosen, looked at row by row, answered, taken; and handed out as a spreadsheet."""

import hashlib
import html
import io
import re
from typing import Any

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DatabaseError
from web.plant import Plant, csrf

from trainer.records import people, roster
from trainer.records.roster.days import DAY_FIRST
from trainer.records.roster.imports import imports
from trainer.web.office import uploads

FIELD = re.compile(r'<input type="hidden" name="([^"]+)" value="([^"]*)">')
HEAD = "number,name,shift\n"


def choose(client: Any, text: str | bytes, name: str = "people.csv") -> Any:
    """Send a file as the sheet's first form would."""
    data = text if isinstance(text, bytes) else text.encode()
    form = {"csrf_token": csrf(client.get("/office/roster").text), "roster": (io.BytesIO(data), name)}
    return client.post("/office/roster", data=form, content_type="multipart/form-data")


def again(client: Any, answer: Any, **more: str) -> Any:
    """Send the sheet's second form, with answers."""
    kept = {name: html.unescape(value) for name, value in FIELD.findall(answer.text.split('name="kept"')[0])}
    kept |= {name: html.unescape(value) for name, value in FIELD.findall(answer.text)}
    return client.post(
        "/office/roster", data={**kept, **{key.replace("__", " "): value for key, value in more.items()}}
    )


@pytest.fixture
def here(plant: Plant) -> str:
    """Return the plant's people as a roster's rows, as they are."""
    with plant.site.record.reading() as r:
        return HEAD + "".join(f"{one.number},{one.name},{one.shift}\n" for one in people.everybody(r))


def names(plant: Plant) -> set[str]:
    with plant.site.record.reading() as r:
        return {one.name for one in people.everybody(r)}


def test_every_row_is_shown_before_anything_is_written_and_then_all_is_taken(plant: Plant, here: str) -> None:
    client = plant.client("harriet")
    looked = choose(client, f"{here}00900,Zoë O’Brien,Late\n")

    assert "It can be taken; 1 person would be added or changed." in looked.text
    assert "Names as read: Zoë O’Brien" in looked.text
    assert "number: 00900<br>name: Zoë O’Brien<br>shift: Late" in looked.text
    assert "Zoë O’Brien" not in names(plant)
    taken = again(client, looked, take="yes")
    assert (taken.status_code, taken.location) == (303, "/office/roster?taken=1")
    assert "Taken: 1 person was added or changed." in client.get(taken.location).text
    assert "Zoë O’Brien" in names(plant)
    assert "Nothing changes" in choose(client, f"{here}00900,Zoë O’Brien,Late\n").text


def test_a_question_is_answered_on_the_sheet_and_the_file_is_kept(plant: Plant, here: str) -> None:
    client = plant.client("harriet")
    looked = choose(client, f"{here}00900,José Nuñez,Late\n".encode("cp1252"))

    assert "In which encoding do these names read right?" in looked.text
    assert 'value="yes">Take it' not in looked.text
    answered = again(client, looked, answer__encoding="cp1252")
    assert "José Nuñez" in answered.text
    assert again(client, answered, take="yes").status_code == 303
    assert "José Nuñez" in names(plant)


def test_who_is_absent_leaves_on_the_day_that_is_typed_and_a_wrong_day_loses_nothing(plant: Plant, here: str) -> None:
    client = plant.client("harriet")
    ann = plant.add("00901", "Ann Reed")
    looked = choose(client, here)

    assert "people on record are not in the file: 00901 Ann Reed" in looked.text
    wrong = again(client, looked, day__absent="9/3/2026")
    assert (wrong.status_code, "is not a day" in html.unescape(wrong.text)) == (400, True)
    answered = again(client, wrong, day__absent="9 Mar 2026")
    assert again(client, answered, take="yes").status_code == 303
    with plant.site.record.reading() as r:
        assert str(people.must(r, ann).ended) == "2026-03-09"


def test_a_refused_row_says_what_would_be_right_and_nothing_is_taken(plant: Plant, here: str) -> None:
    client = plant.client("harriet")
    looked = choose(client, f"{here}1.2E+11,<b>Bo</b>,Late\n00902,Cy Hart,Late\n")

    assert "Format the column as text" in looked.text
    assert "&lt;b&gt;Bo&lt;/b&gt;" in looked.text
    refused = again(client, looked, take="yes")
    assert (refused.status_code, "Nothing was taken" in refused.text) == (409, True)
    assert "Cy Hart" not in names(plant)


def test_a_record_that_changed_meanwhile_is_shown_again(plant: Plant, here: str) -> None:
    client = plant.client("harriet")
    looked = choose(client, f"{here}00903,Di Moss,Late\n")
    plant.add("00903", "Di Moss")

    refused = again(client, looked, take="yes")
    assert (refused.status_code, "has changed since this was shown" in refused.text) == (409, True)


@pytest.mark.parametrize(
    ("data", "name", "said"),
    [
        (b"", "", "Choose a file first."),
        (b"a\0\0\0b", "odd.csv", "zero bytes"),
        (b"", "empty.csv", "The file is empty."),
    ],
)
def test_what_is_no_roster_is_one_sentence(plant: Plant, data: bytes, name: str, said: str) -> None:
    assert said in choose(plant.client("harriet"), data, name).text


def test_a_file_too_large_for_the_sheet_is_sent_to_the_command(plant: Plant, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(uploads, "LARGEST", 1000)

    assert "too large for this sheet" in choose(plant.client("harriet"), b"n" * 1001).text
    assert "too large for this sheet" not in choose(plant.client("harriet"), b"n" * 1000).text


def test_the_sheet_speaks_spanish(plant: Plant, here: str) -> None:
    client = plant.client("harriet")
    client.post(
        "/language", data={"language": "es", "back": "/", "csrf_token": csrf(client.get("/office/roster").text)}
    )
    looked = choose(client, f"{here}1.2E+11,Bo,Late\n")

    assert "¿Qué resulta de esta lista de personal?" in looked.text
    assert "Dé formato de texto a la columna" in looked.text


def test_who_is_here_goes_out_as_a_spreadsheet_and_comes_back_without_a_change(plant: Plant) -> None:
    client = plant.client("harriet")
    answer = client.get("/office/roster.xlsx")

    assert "roster-2026-03-09.xlsx" in answer.headers["Content-Disposition"]
    assert "Nothing changes" in choose(client, answer.data, "roster.xlsx").text


def test_only_the_office_sees_a_roster(plant: Plant) -> None:
    client = plant.client("rosalind")

    assert client.get("/office/roster").status_code == 403
    assert client.get("/office/roster.xlsx").status_code == 403


def test_every_roster_that_was_taken_is_on_the_log_also_one_that_changed_nothing(plant: Plant) -> None:
    here = (("00101", "Rosalind Achterberg"), ("00112", "Harriet Lindqvist-Moss"), ("00115", "Abdulrahman Siddiqi"))
    lines = ["number;name;started", "00501;Zoë Ångström;03/04/2020", "00241;Dana Ruiz;"]
    data = "\n".join([*lines, *(f"{number};{name};" for number, name in here), ""]).encode()
    digest = hashlib.sha256(data).hexdigest()
    for _turn in range(2):
        with plant.site.record.writing() as w:
            roster.take(w, data, by=plant.site.officer, file="march.csv", answers={"days:started": DAY_FIRST})
    with plant.site.record.reading() as r:
        newest, first = imports(r)
    assert (first.file, first.digest, first.changed, newest.changed) == ("march.csv", digest, 1, 0)
    assert ("days:started", DAY_FIRST) in first.answers
    sheet = plant.client("harriet").get("/office/roster").text
    assert digest in sheet
    assert "Harriet Lindqvist-Moss" in sheet
    with pytest.raises(DatabaseError, match="append-only"), plant.site.record.writing() as w:
        w.session.execute(text("DELETE FROM roster_import"))
