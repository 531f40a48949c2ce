"""Rows that rosters really hold, numbered N01 to N27 as in our collection of nasty inputs, with the right outcome."""

from datetime import date

import pytest
from records.roster.rosterdesk import codes, fates, only
from records.site import TODAY

from trainer.errors import RecordError
from trainer.exports.csvfile import csv_pieces
from trainer.exports.tables import Table
from trainer.records import ledger, people
from trainer.records.roster import Fate

RUIZ = date(2026, 3, 1)


def ids(plan):
    return [question.id for question in plan.questions]


def test_n01_a_mark_and_semicolons_are_no_part_of_the_first_column(desk):
    plan = desk.take("\ufeffemployee_id;name;hire_date\r\n00241;Dana Ruiz;2024-05-06\r\n")

    assert plan.rows[0].act.fields == {"started": date(2024, 5, 6)}
    assert str(plan.told[0]) == "Read as utf-8-sig, parted by semicolon."
    assert desk.names() == {"00241": "Dana Ruiz"}


def test_n02_a_number_without_its_zeros_is_asked_about_once_for_the_file(desk):
    desk.add("00417", "Dana Ruiz")
    file = "number,name\n417,Dana Ruiz\n"
    asked = desk.check(file)

    assert (fates(asked), ids(asked)) == ([(2, "asked")], ["zeros"])
    assert "417 looks like 00417 with zeros lost" in str(asked.questions[0].sentence)
    assert desk.check(file, zeros="lost").rows[0].fate is Fate.UNCHANGED
    other = desk.check("number,name\n00417,Dana Ruiz\n417,Bo Lind\n", zeros="none-lost")
    assert fates(other) == [(2, "unchanged"), (3, "new")]


def test_n03_the_armour_of_spreadsheets_comes_off_the_number_alone(desk):
    plan = desk.take('number,name\n"=""00417""",Dana Ruiz\n\'00418,\'t Hooft\n')

    assert desk.names() == {"00417": "Dana Ruiz", "00418": "'t Hooft"}
    assert plan.ready


@pytest.mark.parametrize("number", ["1.23457E+11", "1,23457E+11", "3E+05", "417.0"])
def test_n04_a_number_that_a_spreadsheet_destroyed_is_refused(desk, number):
    plan = desk.check(f'number,name\n"{number}",Dana Ruiz\n')

    assert (fates(plan), codes(plan)) == ([(2, "refused")], {"refused-row"})
    assert number in str(only(plan).refusals[0].told)
    assert "text" in str(only(plan).refusals[0].right)


def test_n05_bytes_that_are_not_utf_8_are_asked_about_and_never_replaced(desk):
    file = b"number,name\n1,Jos\xe9 Nu\xf1ez\n"
    asked = desk.check(file, encoding="utf-8")

    assert ids(asked) == ["encoding"]
    assert "cp1252: José Nuñez" in [str(choice.sentence) for choice in asked.questions[0].choices]
    assert asked.rows == ()
    with pytest.raises(RecordError):
        desk.take(file)
    desk.take(file, encoding="cp1252")
    assert desk.names() == {"1": "José Nuñez"}


def test_n07_a_name_composed_in_another_way_is_the_same_name(desk):
    desk.take("number,name\n1,Zoë Lind\n")
    again = desk.take("number,name\n1,Zoe\u0308 Lind\n")

    assert (fates(again), again.acts) == ([(2, "unchanged")], ())
    assert desk.names() == {"1": "Zoë Lind"}


def test_n09_names_are_taken_as_they_are_and_kinds_of_apostrophe_are_one(desk):
    names = ["O'Brien", "D'Angelo", "Al-Sayed", "van der Berg", "Nguyễn Thị Ánh", "mcLeod"]
    desk.take("number,name\n" + "".join(f"{number},{name}\n" for number, name in enumerate(names)))

    assert list(desk.names().values()) != []
    assert set(desk.names().values()) == set(names)
    other = desk.check("number,name\n" + "".join(f"{n},{name.replace(chr(39), '’')}\n" for n, name in enumerate(names)))
    assert {row.fate for row in other.rows} == {Fate.UNCHANGED}


def test_n10_one_name_is_a_whole_name(desk):
    plan = desk.take("number,given name,family name\n1,Suharto,\n2,Dana,Ruiz\n", name_order="given-first")

    assert desk.names() == {"1": "Suharto", "2": "Dana Ruiz"}
    assert [row.act.sort_name for row in plan.rows] == [None, "Ruiz, Dana"]


def test_the_order_of_given_and_family_name_is_asked(desk):
    file = "number,given name,family name\n1,Thị Ánh,Nguyễn\n"
    plan = desk.check(file)

    assert [(choice.value, str(choice.sentence)) for choice in plan.questions[0].choices] == [
        ("given-first", "Thị Ánh Nguyễn"),
        ("family-first", "Nguyễn Thị Ánh"),
    ]
    desk.take(file, name_order="family-first")
    assert desk.names() == {"1": "Nguyễn Thị Ánh"}


@pytest.mark.parametrize("family", ["Null", "None", "NA", "True", "Nan"])
def test_n11_names_that_programs_take_for_nothing_are_names(desk, family):
    desk.take(f"number,given name,family name\n1,Ann,{family}\n", name_order="given-first")

    assert desk.names() == {"1": f"Ann {family}"}


def test_n12_quoted_commas_and_codes_stay_text(desk):
    desk.take('number,name,dept,shift\n1,"Berg, Jan van der","MAR1","3E5"\n')

    (person,) = desk.everyone()
    assert (person.name, person.crew, person.shift) == ("Berg, Jan van der", "MAR1", "3E5")


@pytest.mark.parametrize("name", ['=HYPERLINK("http://x","Pay")', "-Singh", "@home", "+Lind"])
def test_n13_a_name_like_a_formula_is_stored_exported_harmless_and_comes_back_the_same(desk, name):
    plan = desk.take('number,name\n1,"' + name.replace('"', '""') + '"\n')
    exported = b"".join(csv_pieces(Table(header=("number", "name"), rows=[["1", name]])))

    assert [finding.code for finding in plan.report] == ["row-for-review"]
    assert desk.names() == {"1": name}
    assert b"'" + name[:1].encode() in exported
    again = desk.take(exported)
    assert (fates(again), again.acts) == ([(2, "unchanged")], ())


def test_n14_two_of_one_name_are_two_people(desk):
    plan = desk.take("number,name,hire date\n2201,Maria Garcia,2024-05-06\n2210,Maria Garcia,2024-05-06\n")

    assert fates(plan) == [(2, "new"), (3, "new")]
    assert [finding.code for finding in plan.report] == ["row-for-review"] * 2
    assert len(desk.everyone()) == 2


def test_n15_a_changed_name_is_proposed_and_keeps_the_old_one_on_record(desk):
    novak = desk.add("3107", "Petra Novak", started=date(2020, 1, 1))
    plan = desk.take("number,name\n3107,Petra Kolar\n")

    row = only(plan)
    assert (row.fate, [(c.field, c.old, c.new) for c in row.changes]) == (
        Fate.CHANGED,
        [("name", "Petra Novak", "Petra Kolar")],
    )
    with desk.record.reading() as r:
        assert people.name_on(r, novak.key, date(2026, 3, 8)) == "Petra Novak"
        assert people.name_on(r, novak.key, TODAY) == "Petra Kolar"


def test_n15_a_number_used_again_is_blocked_until_a_person_says_so_and_no_training_moves(desk):
    reed = desk.add("3108", "Ann Reed", started=date(2020, 1, 1))
    desk.leave(reed, RUIZ)
    file = "number,name\n3108,Tomas Ruiz\n"
    asked = desk.check(file)

    assert (fates(asked), ids(asked)) == ([(2, "asked")], ["person:3108"])
    assert [choice.value for choice in asked.questions[0].choices] == ["new"]
    with pytest.raises(RecordError):
        desk.take(file)
    desk.take(file, person__3108="new")
    with desk.record.reading() as r:
        (ruiz,) = people.with_number(r, "3108")
        assert (ruiz.name, ruiz.key != reed.key) == ("Tomas Ruiz", True)
        assert list(ledger.entries(r, person=ruiz.key)) == []
        assert people.must(r, reed.key).name == "Ann Reed"


def test_n17_a_number_that_comes_twice_is_not_taken_until_a_line_is_chosen(desk):
    file = "number,name,department\n7,Bo Lind,Bending\n8,Ann Reed,Bending\n7,Bo Lind,Welding\n"
    asked = desk.check(file)

    assert (fates(asked), ids(asked)) == ([(2, "asked"), (3, "new"), (4, "asked")], ["line:7"])
    assert [str(choice.sentence) for choice in asked.questions[0].choices] == [
        "Line 2: 7 · Bo Lind · Bending",
        "Line 4: 7 · Bo Lind · Welding",
    ]
    plan = desk.take(file, line__7="2")
    assert fates(plan) == [(2, "new"), (3, "new"), (4, "skipped")]
    assert {one.number: one.crew for one in desk.everyone()} == {"7": "Bending", "8": "Bending"}


def test_n18_line_numbers_are_those_of_the_file_and_the_total_line_is_compared(desk):
    file = 'number,name\n1,"Bo\nLind"\n\n2,Ann Reed\n,\nTotal employees: 2\n'
    plan = desk.check(file)

    assert fates(plan) == [(2, "refused"), (5, "new"), (7, "total")]
    assert "U+000A" in str(plan.rows[0].refusals[0].told)
    assert codes(plan) == {"refused-row"}
    short = desk.check("number,name\n2,Ann Reed\nTotal employees: 143\n")
    assert codes(short) == {"cut-roster"}
    assert "counts 143" in short.report.errors[0].note


@pytest.mark.parametrize("stored", ["sqlite"], indirect=True)  # no database has a part in it, and it is long
def test_n19_a_file_with_as_many_lines_as_a_program_can_hold_looks_cut(desk):
    lines = ["number,name", *(f"{number},Person {number}" for number in range(65_535))]

    assert codes(desk.check("\n".join(lines) + "\n")) == {"cut-roster"}
    assert desk.check("\n".join(lines[:-1]) + "\n").ready


def test_n19_a_part_of_the_people_ends_nobody(desk):
    with desk.record.writing() as w:
        for number in range(140):
            people.add(w, number=f"{number:03}", name=f"Person {number}")
    file = "number,name\n" + "".join(f"{number:03},Person {number}\n" for number in range(61))
    plan = desk.check(file)

    assert codes(plan) == {"cut-roster", "open-question"}
    assert "79 of 140 people" in str(plan.questions[0].sentence)
    assert codes(desk.check(file, absent="2026-03-06")) == {"cut-roster", "open-question"}
    kept = desk.take(file, absent="keep")
    assert (kept.acts, len(desk.names())) == ((), 140)


@pytest.mark.parametrize(
    "file", ["number,name,shift\n1,Bo Lind,Early\n2,Ann", 'number,name\n1,Bo Lind\n2,"Ann', "number,name\n"]
)
def test_n19_a_file_that_stops_in_mid_row_looks_cut(desk, file):
    assert codes(desk.check(file)) >= {"cut-roster"}
    assert not desk.check(file).ready


@pytest.mark.parametrize(
    ("name", "taken"), [("a\u202eb", False), ("N" * 300, True), ("N" * 301, False), ("Ann 🙂", True)]
)
def test_n20_signs_that_turn_text_are_refused_and_long_names_and_pictures_stored(desk, name, taken):
    plan = desk.check(f"number,name\n1,{name}\n")

    assert [row.fate for row in plan.rows] == [Fate.NEW if taken else Fate.REFUSED]
    if not taken:
        assert str(plan.rows[0].refusals[0].told)
        return
    desk.take(f"number,name\n1,{name}\n")
    assert desk.names() == {"1": name}


DAYS = "number,name,hire date\n1,Bo Lind,03/04/2024\n2,Ann Reed,11/12/2023\n"


def test_n21_one_value_settles_the_order_for_the_whole_column_and_says_so(desk):
    plan = desk.check(f"{DAYS}3,Dana Ruiz,13/04/2024\n")

    assert [row.act.fields["started"] for row in plan.rows] == [date(2024, 4, 3), date(2023, 12, 11), date(2024, 4, 13)]
    assert "Column hire date is read with the day first, because of 13/04/2024 on line 4." in map(str, plan.told)


def test_n21_a_column_that_settles_nothing_is_asked_about(desk):
    plan = desk.check(DAYS)

    assert (ids(plan), fates(plan)) == (["days:started"], [(2, "asked"), (3, "asked")])
    assert [str(choice.sentence) for choice in plan.questions[0].choices] == [
        "03/04/2024 is 2024-04-03",
        "03/04/2024 is 2024-03-04",
    ]
    month_first = desk.check(DAYS, days__started="month-first")
    assert [row.act.fields["started"] for row in month_first.rows] == [date(2024, 3, 4), date(2023, 11, 12)]
    assert month_first.settled == {"days:started": "month-first"}


@pytest.mark.parametrize("other", ["04/13/2024", "2024-04-13"])
def test_n21_a_column_in_two_orders_is_refused_whole(desk, other):
    plan = desk.check(f"{DAYS}3,Dana Ruiz,13/04/2024\n4,Petra Kolar,{other}\n")

    assert codes(plan) == {"mixed-days"}
    assert {row.fate for row in plan.rows} == {Fate.REFUSED}


@pytest.mark.parametrize(
    ("day", "said"),
    [
        ("29/02/2023", "no day 29/02/2023"),
        ("31/04/2024", "no day 31/04/2024"),
        ("01/02/34", "two digits of a year"),
        ("45000", "cannot be read"),
        ("May 3", "cannot be read"),
    ],
)
def test_n23_a_day_that_is_none_is_a_refused_row(desk, day, said):
    plan = desk.check(f"number,name,hire date\n1,Bo Lind,{day}\n")

    assert (fates(plan), codes(plan)) == ([(2, "refused")], {"refused-row"})
    assert said in str(only(plan).refusals[0].told)
    assert only(plan).refusals[0].head == "hire date"


def test_n23_a_first_day_to_come_needs_confirmation(desk):
    file = "number,name,hire date\n1,Bo Lind,2052-01-05\n"
    plan = desk.check(file)

    assert (fates(plan), ids(plan)) == ([(2, "asked")], ["future"])
    assert desk.take(file, future="right").rows[0].fate is Fate.NEW


def test_n27_a_first_day_after_the_first_entry_and_a_last_day_before_the_last_are_refused(desk):
    lind = desk.add("1", "Bo Lind", started=date(2020, 1, 1))
    desk.leave(lind, date(2026, 3, 1))
    with desk.record.writing() as w:
        people.come_back(w, lind.key, on=date(2026, 3, 5), by="office")

    late = desk.check("number,name,hire date\n1,Bo Lind,2026-03-08\n")
    early = desk.check("number,name,last day\n1,Bo Lind,2026-03-02\n")
    assert (codes(late), codes(early)) == ({"refused-row"}, {"refused-row"})
    assert "2026-03-01" in late.report.errors[0].note
