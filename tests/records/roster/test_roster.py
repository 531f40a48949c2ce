"""A roster is compared, shown and taken whole: encodings, spreadsheets, leavers, people who are back, badges."""

import io
from datetime import date, datetime, timedelta

import pytest
from openpyxl import Workbook
from records.roster.rosterdesk import codes, fates, only
from records.site import TODAY

from trainer.errors import RecordError, UsageError
from trainer.records import people, roster
from trainer.records.roster import Fate

YESTERDAY = TODAY - timedelta(days=1)


def spreadsheet(*rows, formats=(), sheets=()):
    book = Workbook()
    sheet = book.active
    for row in rows:
        sheet.append(row)
    for place, form in formats:
        sheet[place].number_format = form
    for name, more in sheets:
        other = book.create_sheet(name)
        for row in more:
            other.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def test_only_mapped_columns_are_read_and_the_others_are_named(desk):
    plan = desk.take("Employee No.;Full name;Salary;Shift\n1;Bo Lind;99000;Early\n")

    assert plan.dropped == ("Salary",)
    assert dict(plan.rows[0].read) == {"Employee No.": "1", "Full name": "Bo Lind", "Shift": "Early"}
    assert "99000" not in repr(plan)


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("name,shift", "No column is the number"),
        ("number,shift", "No column is the name"),
        ("number,id,name", "number, id: each of these columns could be the number"),
        ("number,name,surname", "choose"),
    ],
)
def test_columns_that_cannot_be_told_stop_the_import(desk, head, said):
    plan = desk.check(f"{head}\n1,2,3\n")

    assert codes(plan) == {"roster-columns"}
    assert said in plan.report.errors[0].note


def test_a_column_can_be_named_for_a_field(desk):
    plan = desk.check("Ref;Wer;id\n1;Bo Lind;9\n", **{"column:number": "Ref", "column:name": "Wer"})

    assert plan.rows[0].act.number == "1"
    assert plan.dropped == ("id",)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_unicode_is_read_without_asking_and_shows_names_beyond_ascii(desk, encoding):
    plan = desk.check("number,name\n1,José Nuñez\n2,Bo Lind\n".encode(encoding))

    assert [row.name for row in plan.rows] == ["José Nuñez", "Bo Lind"]
    assert plan.samples == ("José Nuñez",)
    assert plan.ready


@pytest.mark.parametrize("name", ["JosÃ© NuÃ±ez", "Jos\ufffd", "Jos? Nu?ez"])
def test_a_name_damaged_by_an_encoding_is_refused_and_not_mended(desk, name):
    plan = desk.check(f"number,name\n1,{name}\n")

    assert codes(plan) == {"refused-row"}
    if "Ã" in name:
        assert "José Nuñez" in plan.report.errors[0].note


@pytest.mark.parametrize(
    "file", [b"", b"\n\n", b"a\0\0\0b", b"\xd0\xcf\x11\xe0old", b"PK\x03\x04broken", b'number,name\n1,"a"b\n']
)
def test_what_is_no_table_is_one_finding(desk, file):
    plan = desk.check(file)

    assert codes(plan) == {"unreadable-roster"}
    assert plan.rows == ()


@pytest.mark.parametrize("file", ["number,name\n1,José\n2,Jos".encode() + b"\xc3", b"\xff\xfen\0u"[:5]])
def test_a_file_cut_inside_a_character_looks_cut(desk, file):
    assert codes(desk.check(file)) == {"cut-roster"}


def test_a_huge_file_is_not_looked_at(desk):
    with pytest.raises(UsageError, match="too large"):
        desk.check(b"n" * (32 * 1024 * 1024 + 1))


@pytest.mark.parametrize(("sign", "word"), [(",", "comma"), (";", "semicolon"), ("\t", "tab")])
def test_the_delimiter_is_that_of_the_head(desk, sign, word):
    plan = desk.check(f'number{sign}name{sign}crew\n1{sign}Bo Lind{sign}"a,b;c"\n')

    assert str(plan.told[0]) == f"Read as utf-8, parted by {word}."
    assert plan.rows[0].act.fields == {"crew": "a,b;c"}


def test_a_separator_line_before_the_head_is_skipped(desk):
    plan = desk.check("sep=;\nnumber;name\n1;Bo Lind\n")

    assert (fates(plan), plan.rows[0].name) == ([(3, "new")], "Bo Lind")


def test_a_row_with_a_cell_too_many_is_refused(desk):
    plan = desk.check("number,name\n1,Lind, Bo\n2,Ann Reed\n")

    assert fates(plan) == [(2, "refused"), (3, "new")]
    assert "3 cells" in plan.report.errors[0].note


def test_a_spreadsheet_with_text_cells_is_read_by_its_rows(desk):
    file = spreadsheet(
        ["number", "name", "hire date", "shift"],
        ["00417", "=HYPERLINK", datetime(2024, 5, 6), 1],  # noqa: DTZ001  (a spreadsheet knows no zones)
        [],
        ["00418", "Bo Lind", "2024-05-07", "3E5"],
        formats=(("B2", "@"),),
    )
    plan = desk.check(file)

    assert fates(plan)[1] == (4, "new")
    assert plan.rows[1].act.fields == {"started": date(2024, 5, 7), "shift": "3E5"}


def test_a_formula_is_no_name_and_a_date_no_crew(desk):
    file = spreadsheet(
        ["number", "name", "crew"],
        ["1", '=UPPER("bo")', "A"],
        ["2", "Ann Reed", datetime(2024, 3, 1)],  # noqa: DTZ001  (a spreadsheet knows no zones)
        ["3", True, "A"],
        ["4", "#N/A", "A"],
    )
    plan = desk.check(file)

    assert [str(row.refusals[0].told) for row in plan.rows] == [
        'The cell holds the formula =UPPER("bo") and no text.',
        "2024-03-01 is a date to the spreadsheet; a text such as MAR1 becomes one.",
        "TRUE is no text to the spreadsheet.",
        "The cell holds the error #N/A.",
    ]


def test_numbers_of_a_spreadsheet_that_may_have_lost_zeros_are_refused_until_a_person_says_they_have_not(desk):
    file = spreadsheet(["number", "name"], [417, "Dana Ruiz"], [123456789012, "Bo Lind"], [88, "Ann Reed"],
                       formats=(("A4", "00000"),))  # fmt: skip
    plan = desk.check(file)

    assert fates(plan) == [(2, "asked"), (3, "refused"), (4, "new")]
    assert plan.rows[2].number == "00088"
    assert "1.23457E+11" in str(plan.rows[1].refusals[0].told)
    assert fates(desk.check(file, zeros="lost"))[0] == (2, "refused")
    assert fates(desk.check(file, zeros="none-lost"))[0] == (2, "new")


def test_date_cells_beside_written_days_are_half_a_swapped_column(desk):
    file = spreadsheet(
        ["number", "name", "hire date"],
        ["1", "Bo Lind", datetime(2024, 4, 3)],  # noqa: DTZ001  (a spreadsheet knows no zones)
        ["2", "Ann Reed", "13/04/2024"],
    )
    assert codes(desk.check(file)) == {"mixed-days"}


def test_the_sheet_with_a_rosters_head_is_read_and_two_are_asked_about(desk):
    rows = [["number", "name"], ["1", "Bo Lind"]]
    assert desk.check(spreadsheet(*rows, sheets=[("About", [["What", "People"]])])).rows[0].name == "Bo Lind"

    both = spreadsheet(*rows, sheets=[("Other", [["number", "name"], ["2", "Ann Reed"]])])
    assert [choice.value for choice in desk.check(both).questions[0].choices] == ["Sheet", "Other"]
    assert desk.check(both, sheet="Other").rows[0].name == "Ann Reed"


def test_changed_fields_are_listed_and_an_empty_cell_takes_nothing_away(desk):
    desk.add("1", "Bo Lind", shift="Early", crew="A", badge="99")
    plan = desk.take("number,name,shift,crew,badge\n1,Bo Lind,Late,,\n")

    assert [(c.field, c.old, c.new) for c in only(plan).changes] == [("shift", "Early", "Late")]
    (person,) = desk.everyone()
    assert (person.shift, person.crew, person.badge) == ("Late", "A", "99")


def test_a_last_day_ends_somebody_with_an_entry_and_who_took_the_file(desk):
    lind = desk.add("1", "Bo Lind", started=date(2020, 1, 1))
    file = f"number,name,last day\n1,Bo Lind,{YESTERDAY}\n"
    plan = desk.take(file)

    assert [row.fate for row in plan.rows] == [Fate.LEAVER]
    with desk.record.reading() as r:
        assert people.must(r, lind.key).ended == YESTERDAY
    again = desk.take(file)
    assert (fates(again), again.acts) == ([(2, "unchanged")], ())
    moved = desk.check("number,name,last day\n1,Bo Lind,2026-03-01\n")
    assert (fates(moved), moved.ready) == ([(2, "skipped")], True)


def test_who_left_elsewhere_and_was_never_here_is_skipped(desk):
    assert fates(desk.check("number,name,last day\n1,Bo Lind,2020-01-31\n")) == [(2, "skipped")]


def test_who_is_absent_is_asked_about_and_leaves_on_the_day_that_is_given(desk):
    for number in ("1", "2"):
        desk.add(number, f"Person {number}", started=date(2020, 1, 1))
    file = "number,name\n1,Person 1\n"
    plan = desk.check(file)

    assert ([q.id for q in plan.questions], plan.absent) == (["absent"], (("2", "Person 2"),))
    assert not desk.check(file, absent="2026-13-01").ready
    desk.take(file, absent=str(YESTERDAY))
    assert desk.names() == {"1": "Person 1"}
    assert desk.take(file).acts == ()


def test_who_is_back_under_the_old_number_is_asked_about_and_has_to_renew(desk):
    lind = desk.add("1", "Bo Lind", started=date(2020, 1, 1), shift="Early")
    desk.leave(lind, date(2026, 2, 1))
    file = f"number,name,hire date\n1,Bo Lind,{YESTERDAY}\n"
    asked = desk.check(file)

    assert [choice.value for choice in asked.questions[0].choices] == ["new", "back"]
    plan = desk.take(file, person__1="back")
    assert (only(plan).fate, only(plan).act.back_on) == (Fate.BACK, YESTERDAY)
    (person,) = desk.everyone()
    assert (person.key, person.status, person.started) == (lind.key, "active", date(2020, 1, 1))
    again = desk.take(file)
    assert (fates(again), again.acts) == ([(2, "unchanged")], ())


def test_who_is_back_under_a_new_number_keeps_the_history_and_gives_up_a_badge_that_is_somebody_elses(desk):
    lind = desk.add("1", "Bo Lind", started=date(2020, 1, 1), badge="99")
    desk.leave(lind, date(2026, 2, 1))
    desk.add("2", "Ann Reed", badge="99")
    file = "number,name\n2,Ann Reed\n7,BO LIND\n"
    asked = desk.check(file)
    assert [q.id for q in asked.questions] == ["person:7"]

    plan = desk.take(file, person__7="back")
    assert (plan.rows[1].fate, plan.rows[1].act.back_on) == (Fate.BACK, TODAY)
    with desk.record.reading() as r:
        back = people.must(r, lind.key)
        assert (back.number, back.badge, back.status) == ("7", None, "active")
    assert desk.take(file).acts == ()


def test_a_name_that_is_elsewhere_on_record_may_be_a_new_number(desk):
    garcia = desk.add("2201", "Maria Garcia")
    file = "number,name\n2210,Maria Garcia\n"
    asked = desk.check(file)

    assert [choice.value for choice in asked.questions[0].choices] == ["new", "renumbered"]
    desk.take(file, person__2210="renumbered")
    assert [(one.key, one.number) for one in desk.everyone()] == [(garcia.key, "2210")]
    old = desk.check("number,name\n2201,Maria Garcia\n")
    assert "is 2210 now" in old.report.errors[0].note


def test_another_name_under_a_number_that_somebody_has_is_asked_about(desk):
    desk.add("1", "Bo Lind")
    file = "number,name\n1,Tomas Ruiz\n"

    assert [choice.value for choice in desk.check(file).questions[0].choices] == ["renamed"]
    assert desk.take(file, person__1="renamed").rows[0].fate is Fate.CHANGED


def test_two_people_can_swap_their_badges(desk):
    desk.add("1", "Bo Lind", badge="91")
    desk.add("2", "Ann Reed", badge="92")
    desk.take("number,name,badge\n1,Bo Lind,92\n2,Ann Reed,91\n")

    assert {one.number: one.badge for one in desk.everyone()} == {"1": "92", "2": "91"}


def test_a_badge_that_somebody_has_is_refused_before_anything_is_written(desk):
    desk.add("1", "Bo Lind", badge="91")
    plan = desk.check("number,name,badge\n1,Bo Lind,\n2,Ann Reed,91\n3,Dana Ruiz,1\n")

    assert fates(plan) == [(2, "unchanged"), (3, "refused"), (4, "refused")]


def test_all_or_nothing(desk):
    file = "number,name\n1,Bo Lind\n2,\n"
    with pytest.raises(RecordError, match="Nothing was taken: 1 "):
        desk.take(file)
    assert desk.everyone() == []


def test_a_failure_half_way_leaves_nothing(desk, monkeypatch):
    real = people.add

    def fails(w, **given):
        if given["number"] == "2":
            raise RecordError("no")
        return real(w, **given)

    monkeypatch.setattr(people, "add", fails)
    with pytest.raises(RecordError):
        desk.take("number,name\n1,Bo Lind\n2,Ann Reed\n")
    assert desk.everyone() == []


def test_what_was_shown_is_what_is_taken(desk):
    file = b"number,name\n1,Bo Lind\n"
    seen = desk.check(file)
    desk.add("1", "Bo Lind")
    with pytest.raises(RecordError, match="has changed since"), desk.record.writing() as w:
        roster.take(w, file, by=None, code=seen.code)


def test_leaving_needs_somebody_who_answers_for_it(desk):
    desk.add("1", "Bo Lind", started=date(2020, 1, 1))
    file = f"number,name,last day\n1,Bo Lind,{YESTERDAY}\n".encode()
    with pytest.raises(UsageError, match="who answers"), desk.record.writing() as w:
        roster.take(w, file, by=None)


def test_an_identity_number_is_warned_about(desk):
    plan = desk.check("number,name,crew\n1,Bo Lind,078-05-1120\n")

    assert [finding.code for finding in plan.report] == ["row-for-review"]
    assert plan.ready


def test_the_same_row_twice_is_taken_once(desk):
    plan = desk.take("number,name\n1,Bo Lind\n1,Bo Lind\n")

    assert fates(plan) == [(2, "new"), (3, "repeated")]
    assert len(desk.everyone()) == 1
