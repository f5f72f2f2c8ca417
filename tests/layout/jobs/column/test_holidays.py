"""Days without a paper: from intervals, from a list, and from a calendar."""

from datetime import date

import pytest

from layout.jobs.column.holidays import holidays
from layout.jobs.column.schedule import interval_of
from tests.support.seasons import JOB, write_column
from verify.reading.node import Place
from verify.reading.problems import Unreadable

PLACE = Place("daily.yaml", 7, 3)

CALENDAR = """\
BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//Saltmarsh//Desk//EN
BEGIN:VEVENT
UID:1@saltmarsh.example
DTSTAMP:20260101T000000Z
DTSTART;VALUE=DATE:20270326
DTEND;VALUE=DATE:20270330
SUMMARY:Good Friday to Easter Monday
END:VEVENT
BEGIN:VEVENT
UID:2@saltmarsh.example
DTSTAMP:20260101T000000Z
DTSTART;VALUE=DATE:20201225
DURATION:P2D
RRULE:FREQ=YEARLY
EXDATE;VALUE=DATE:20281225
SUMMARY:Christmas
END:VEVENT
BEGIN:VEVENT
UID:3@saltmarsh.example
DTSTAMP:20260101T000000Z
DTSTART:20270501T090000Z
DTEND:20270501T170000Z
SUMMARY:A day by the hour
END:VEVENT
END:VCALENDAR
"""


def days_in(folder, name, text):
    (folder / name).write_text(text, encoding="utf-8")
    return holidays(folder, name, PLACE, date(2029, 12, 31))


def test_a_calendar_by_rfc_5545(tmp_path):
    """An end is the first day after (3.6.1); events return by their rule, but for exceptions.

    Good Friday 2027 is 26 March, Easter Monday 29 March (the ecclesiastical computation, from
    memory).
    """
    found = days_in(tmp_path, "holidays.ics", CALENDAR.replace("\n", "\r\n"))
    easter = {date(2027, 3, day) for day in (26, 27, 28, 29)}
    christmas = {date(year, 12, day) for year in (*range(2020, 2028), 2029) for day in (25, 26)}
    assert found == easter | christmas | {date(2027, 5, 1)}


def test_a_list_of_days(tmp_path):
    text = "# by the desk\n2027-12-24/2027-12-26 Christmas\n\n2027-W01\n2028-01-01  # New Year\n"
    found = days_in(tmp_path, "holidays.txt", text)
    week = {date(2027, 1, day) for day in range(4, 11)}
    assert found == week | {date(2027, 12, day) for day in (24, 25, 26)} | {date(2028, 1, 1)}


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2027-12-24/2028-01-01", date(2027, 12, 24), date(2028, 1, 1)),
        ("2027-W01/2027-W02", date(2027, 1, 4), date(2027, 1, 17)),
        ("2027-12-24", date(2027, 12, 24), date(2027, 12, 24)),
    ],
)
def test_intervals_by_iso_8601(text, first, last):
    span = interval_of(text)
    assert (span.first, span.last) == (first, last)
    assert len(list(span.days())) == (last - first).days + 1


@pytest.mark.parametrize(
    "text", ["2028-01-01/2027-12-24", "2027-12-24/", "/2027-12-24", "2027/2028"]
)
def test_what_is_no_interval(text):
    assert interval_of(text) is None


@pytest.mark.parametrize(
    ("name", "text", "line", "expected"),
    [
        ("a.txt", "2027-01-01\nChristmas\n", 2, 'found "Christmas", expected a day such as'),
        ("a.ics", "no calendar\n", 1, "it is no calendar that can be read"),
        ("a.ics", CALENDAR.replace("20270326", "20271399"), 1, "it is no calendar"),
        ("a.ics", CALENDAR.replace("FREQ=YEARLY", "FREQ=NEVER"), 1, "it is no calendar"),
    ],
)
def test_slips_in_a_file_are_told_there(tmp_path, name, text, line, expected):
    with pytest.raises(Unreadable) as raised:
        days_in(tmp_path, name, text)
    (found,) = raised.value.problems
    assert (found.place.file, found.place.line) == (name, line)
    assert expected in found.message


@pytest.mark.parametrize("name", ["none.ics", "../outside.ics"])
def test_a_file_that_is_not_there_is_told_in_the_job(tmp_path, name):
    with pytest.raises(Unreadable) as raised:
        holidays(tmp_path, name, PLACE, date(2029, 1, 1))
    assert raised.value.problems[0].place == PLACE


def test_a_season_leaves_out_the_days_of_a_file(tmp_path, capsys):
    from layout.command import main

    job = write_column(tmp_path, JOB.replace("days: mon-sat", "days: mon-sat\n  except: [h.ics]"))
    (tmp_path / "h.ics").write_text(CALENDAR.replace("20270326", "20270227"), encoding="utf-8")
    assert main(["make", str(job), "--dry-run"]) == 0
    days = [line.split()[0] for line in capsys.readouterr().out.splitlines()]
    assert days[0] == "2027-02-26"
    assert days[1] == "2027-03-30"
