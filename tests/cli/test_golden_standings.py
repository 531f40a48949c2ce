"""Where everybody at the demo plant stands, on twelve days, as known on two: golden files against the record's answer.

The golden files come from :mod:`records.replay`, which was written from the rules alone and reads the database's rows
itself; a sample of them was worked out by hand from the stories and stands in ``BY_HAND``. A line of a file is one person in one role; `.` is no evidence, and who has no line in a role has none on any of the days.
"""

import csv
import io
import json
import sqlite3
from contextlib import closing
from datetime import date, datetime
from pathlib import Path

import pytest
import yaml
from banks import shipped_bank
from click.testing import CliRunner
from records.replay import Line, Post, word_of

from trainer.cli import main
from trainer.cli._seeding.plant import read_plant
from trainer.clock import Clock
from trainer.records import open_record
from trainer.records.standing import MAY_RUN, standings
from trainer.settings import read_settings, shipped

FOLDER = Path(__file__).parents[1] / "golden" / "standings"
DAYS = [
    date.fromisoformat(day)
    for day in (
        *("2025-01-20", "2025-03-24", "2025-06-02", "2025-09-01", "2025-12-01", "2026-01-10"),
        *("2026-02-11", "2026-02-20", "2026-03-01", "2026-03-05", "2026-03-09", "2026-05-01"),
    )
]
KNOWN = (date(2026, 1, 12), date(2026, 3, 9))  # before and after a practical that was keyed in nine days late
HEAD = ["known on", "role", "number", "story", *(day.isoformat() for day in DAYS)]
NOTHING = "."


@pytest.fixture(scope="module")
def lines(demo_folder):
    with closing(sqlite3.connect(demo_folder / "record.sqlite")) as database:
        rows = database.execute("SELECT number, person, kind, happened_on, recorded_at, zone, body FROM entry")
        return [
            Line(number, person, kind, date.fromisoformat(on), datetime.fromisoformat(at), zone, json.loads(body))
            for number, person, kind, on, at, zone, body in rows
        ]


@pytest.fixture(scope="module")
def people(demo_folder):
    with closing(sqlite3.connect(demo_folder / "record.sqlite")) as database:
        stories = {hand.number: hand.story for hand in read_plant(shipped("seed_scenarios")).people}
        return {key: (number, stories[number]) for key, number in database.execute("SELECT key, number FROM person")}


def posts():
    """Return every role of every machine with the programmes that renew there, read from the bank's own file."""
    programmes = yaml.safe_load((shipped("content") / "programmes.yaml").read_text(encoding="utf-8"))
    plant = yaml.safe_load((shipped("seed_scenarios") / "plant.yaml").read_text(encoding="utf-8"))
    for machine in plant["machines"]:
        there = {name: one for name, one in programmes.items() if machine["kind"] in one["machine_kinds"]}
        for role in sorted({one["role"] for one in there.values()}):
            renewing = {
                name: one["kind"]
                for name, one in there.items()
                if one["role"] == role and one["kind"] in {"induction", "refresher", "return"}
            }
            yield Post(machine["id"], machine["kind"], role, renewing)


def table(machine, people, word):
    """Return a machine's golden text; ``word`` says where a person stands in a post on a day, as known on a day."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEAD)
    for known_on in KNOWN:
        for post in (post for post in posts() if post.machine == machine):
            for key, (number, story) in sorted(people.items(), key=lambda each: each[1]):
                words = [word(key, post, on, known_on) for on in DAYS]
                if set(words) != {NOTHING}:
                    writer.writerow([known_on.isoformat(), post.role, number, story, *words])
    return out.getvalue()


MACHINES = sorted({post.machine for post in posts()})


def golden(machine):
    return (FOLDER / f"{machine}.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize("machine", MACHINES)
def test_the_second_reckoning_still_comes_to_the_golden_files(machine, lines, people, request):
    mine = {key: [line for line in lines if line.person == key or line.kind == "corrected"] for key in people}

    def word(person, post, on, known_on):
        return word_of(mine[person], person, post, on, known_on).replace("no-evidence", NOTHING)

    made = table(machine, people, word)
    if request.config.getoption("--update-golden"):
        FOLDER.mkdir(parents=True, exist_ok=True)
        (FOLDER / f"{machine}.csv").write_text(made, encoding="utf-8")
    assert made == golden(machine)


@pytest.fixture(scope="module")
def answers(demo_folder):
    """Ask the record for every person, machine and role on every day, as known on each of the two days."""
    record = open_record(read_settings({}, data=str(demo_folder), zone="America/Chicago"), Clock(), create=False)
    bank = shipped_bank()
    found = {}
    with record.reading() as r:
        for known_on in KNOWN:
            for on in DAYS:
                for one in standings(r, bank, on=on, known_on=known_on, everything=True):
                    assert one.may_run is (one.word in MAY_RUN)
                    found[one.person, one.machine, one.role, on, known_on] = one.word.value
    record.close()
    return found


@pytest.mark.parametrize("machine", MACHINES)
def test_the_record_answers_as_the_golden_files_say(machine, people, answers):
    def word(person, post, on, known_on):
        found = answers.get((person, post.machine, post.role, on, known_on), "no-evidence")  # who left is on no list
        return found.replace("no-evidence", NOTHING)

    assert table(machine, people, word) == golden(machine)


def test_every_person_machine_and_role_was_asked_for(people, answers):
    pairs = {(machine, role) for _, machine, role, _, _ in answers}

    assert pairs == {(post.machine, post.role) for post in posts()}
    assert len({key[0] for key in answers}) == len(people) == 40
    assert len(answers) >= len(pairs) * len(DAYS) * len(KNOWN) * 39


@pytest.mark.parametrize("known_on", KNOWN)
def test_the_command_says_what_the_golden_file_says(demo_folder, known_on):
    on = date(2026, 2, 11)
    words = ["--machine", "PB-3", "--on", on.isoformat(), "--known-on", known_on.isoformat(), "--all", "--json"]
    result = CliRunner().invoke(
        main, ["records", "standing", "--data", str(demo_folder), *words], env={"TRAINER_ZONE": "America/Chicago"}
    )
    assert result.exit_code == 0, result.output
    told = {(row["number"], row["role"]): row["standing"] for row in json.loads(result.output)}
    rows = [row for row in csv.DictReader(golden("PB-3").splitlines()) if row["known on"] == known_on.isoformat()]
    expected = {(row["number"], row["role"]): row[on.isoformat()] for row in rows if row[on.isoformat()] != NOTHING}

    assert {pair: word for pair, word in told.items() if word != "no-evidence"} == expected
    late = "practical-pending" if known_on == KNOWN[0] else "authorised"
    assert told["00270", "operator"] == late, "whose practical of 8 January was keyed in on the 17th"


# Worked out by hand from stories.yaml and plant.yaml (days before 9 March 2026; a Sunday becomes the Saturday before),
# twelve months' time and sixty days' warning; the comment says the days. From the first of the twelve days on; `-` is
# the word before. First as known on 12 January 2026, then on 9 March.
BY_HAND = [
    # paper 13 Jan 2025, practical 18 Jan, refresher 17 Feb 2026; warned from 14 Nov 2025, over after 13 Jan 2026
    (
        "00101",
        "PB-1",
        "authorised - - - refresh-due - lapsed - - - - -",
        "authorised - - - refresh-due - lapsed authorised - - - -",
    ),
    # refresher 23 Apr 2025 after a paper of 13 Jan 2025; warned from 22 Feb 2026, over after 23 Apr 2026
    (
        "00109",
        "PB-3",
        "authorised - - - - - - - refresh-due - - lapsed",
        "authorised - - - - - - - refresh-due - - lapsed",
    ),
    # assigned 28 Jan 2026, paper 4 Feb, practical failed 28 Feb
    ("00289", "PB-1", ". - - - - - - - - - - -", ". - - - - - practical-pending - supervised - - -"),
    # paper 17 May 2025 (the 18th was a Sunday), practical 23 May, suspended 4 Mar 2026; warned from 18 Mar 2026
    ("00263", "PB-1", ". - authorised - - - - - - - - refresh-due", ". - authorised - - - - - - suspended - -"),
    # paper 2 Jan 2026, practical 8 Jan that was recorded on the 17th
    ("00270", "PB-3", ". - - - - practical-pending - - - - - -", ". - - - - authorised - - - - - -"),
    # assigned 25 Feb 2026, papers failed 28 Feb and 6 Mar
    ("00266", "PB-2", ". - - - - - - - - - - -", ". - - - - - - - theory-open - - -"),
    # paper 5 Apr 2025, practical 12 Apr, last day 12 Feb 2026; warned from 4 Feb, over after 5 Apr 2026
    ("00304", "PB-1", ". - authorised - - - refresh-due - - - - lapsed", ". - authorised - - - refresh-due . - - - -"),
    # training of 21 Aug 2025 accepted 7 Feb 2026, practical 13 Feb; over after 21 Aug 2026
    ("00293", "PB-1", ". - - - - - - - - - - -", ". - - - - - practical-pending authorised - - - -"),
    # assigned 7 Mar 2026
    ("00241", "PB-1", ". - - - - - - - - - - -", ". - - - - - - - - - theory-open -"),
    # a talk on 23 Jan 2026
    ("00296", "PB-3", ". - - - - - - - - - - -", ". - - - - - attended - - - - -"),
    # paper 16 Jul 2025, practical 21 Jul, refreshers 6 Dec 2025 and 3 Mar 2026
    ("00248", "PB-1", ". - - authorised - - - - - - - -", ". - - authorised - - - - - - - -"),
]


@pytest.mark.parametrize(("number", "machine", "early", "late"), BY_HAND)
def test_what_was_worked_out_by_hand_stands_in_the_golden_files(number, machine, early, late):
    rows = {
        row["known on"]: [row[day.isoformat()] for day in DAYS]
        for row in csv.DictReader(golden(machine).splitlines())
        if (row["number"], row["role"]) == (number, "operator")
    }

    for known_on, told in zip(KNOWN, (early, late), strict=True):
        words: list[str] = []
        for word in told.split():
            words.append(words[-1] if word == "-" else word)
        assert rows.get(known_on.isoformat(), [NOTHING] * len(DAYS)) == words
