from datetime import date

from trainer.web.office.clocks import Late, clocks

ASKED, KNOWN = date(2026, 2, 17), date(2026, 3, 9)


def test_what_was_written_after_the_day_asked_about_crosses_its_line() -> None:
    strip = clocks(
        [Late(number=1, entry=20, happened=date(2026, 2, 9), recorded=date(2026, 2, 20))], asked=ASKED, known=KNOWN
    )
    (row,) = strip.rows
    assert row.happened_x < strip.asked_x < row.recorded_x < strip.known_x


def test_every_place_lies_on_the_strip_whatever_the_days() -> None:
    late = [
        Late(number=1, entry=1, happened=date(2001, 1, 1), recorded=date(2026, 3, 8)),
        Late(number=2, entry=2, happened=ASKED, recorded=KNOWN),
    ]
    for known in (KNOWN, ASKED):
        strip = clocks(late, asked=ASKED, known=known)
        places = [strip.asked_x, strip.known_x, *(x for row in strip.rows for x in (row.happened_x, row.recorded_x))]
        assert all(0 <= x <= strip.width for x in places)
        assert [row.number for row in strip.rows] == [1, 2]
        assert strip.rows[0].y < strip.rows[1].y < strip.foot
