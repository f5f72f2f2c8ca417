"""Days of a schedule, held against ISO 8601 and the Gregorian calendar (both from memory)."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.jobs.column.schedule import (
    FIRST_YEAR,
    LAST_YEAR,
    DaySpan,
    Schedule,
    span_of,
    week_of,
    weekdays_of,
)

EVERY_DAY = frozenset(range(7))


def schedule(first, last=None, issues=None, days="mon-sun", without=(), grades=()):
    return Schedule(
        date.fromisoformat(first),
        date.fromisoformat(last) if last else None,
        issues,
        weekdays_of(days) or frozenset(),
        frozenset(map(date.fromisoformat, without)),
        dict(grades),
    )


@pytest.mark.parametrize(
    ("day", "week"),
    [
        # Turns of years by ISO 8601, and years of 53 weeks: from memory.
        ("2005-01-01", "2004-W53"),
        ("2005-01-02", "2004-W53"),
        ("2005-12-31", "2005-W52"),
        ("2006-01-01", "2005-W52"),
        ("2006-01-02", "2006-W01"),
        ("2007-12-31", "2008-W01"),
        ("2008-12-28", "2008-W52"),
        ("2008-12-29", "2009-W01"),
        ("2009-12-31", "2009-W53"),
        ("2010-01-03", "2009-W53"),
        ("2020-12-31", "2020-W53"),
        ("2026-12-31", "2026-W53"),
        ("2027-01-03", "2026-W53"),
        ("2027-01-04", "2027-W01"),
    ],
)
def test_weeks_by_iso_8601(day, week):
    assert week_of(date.fromisoformat(day)) == week
    span = span_of(week)
    assert span.first <= date.fromisoformat(day) <= span.last
    assert (span.first.weekday(), span.last - span.first) == (0, timedelta(6))


# Leap years of the Gregorian calendar: every fourth, of the full hundreds every fourth of these.
YEARS = [(1900, 365), (2000, 366), (2027, 365), (2028, 366), (2100, 365)]


@pytest.mark.parametrize(("year", "count"), YEARS)
def test_a_year_of_days(year, count):
    days = [day.isoformat() for day in schedule(f"{year}-01-01", f"{year}-12-31").days()]
    assert len(days) == len(set(days)) == count
    assert (f"{year}-02-29" in days) == (count == 366)


def test_days_may_be_written_as_a_day_of_a_week():
    assert span_of("2026-W53-5") == DaySpan(date(2027, 1, 1), date(2027, 1, 1))


NO_DAYS = (
    "",
    "2027-02-29",
    "2100-02-29",
    "2027-W53",
    "2027-W00",
    "2027-W01-8",
    "2027-1-4",
    "20270104",
    "2027-01-04T08",
    "2027-01-04 ",
    "0999-01-01",
    "3000-01-01",
    "٢٠٢٧-01-04",
)


@pytest.mark.parametrize("text", NO_DAYS)
def test_no_day(text):
    assert span_of(text) is None


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("mon-sat", {0, 1, 2, 3, 4, 5}),
        ("sun", {6}),
        ("sat-mon", {5, 6, 0}),
        ("mon-mon", {0}),
        ("mon-sun", EVERY_DAY),
        ("tue-mon", EVERY_DAY),
        ("monday", None),
        ("mon-", None),
        ("-", None),
        ("mon-tue-wed", None),
    ],
)
def test_weekdays(text, days):
    assert weekdays_of(text) == days


def test_a_leap_day_is_a_day_of_its_week():
    days = list(schedule("2028-02-26", "2028-03-02", days="mon-sat").days())
    assert [day.isoformat() for day in days] == [
        "2028-02-26",
        "2028-02-28",
        "2028-02-29",
        "2028-03-01",
        "2028-03-02",
    ]


def test_days_without_an_issue_are_passed_over_and_not_counted():
    some = schedule("2026-12-24", issues=3, days="mon-sat", without=["2026-12-25", "2026-12-26"])
    assert list(map(str, some.days())) == ["2026-12-24", "2026-12-28", "2026-12-29"]
    assert some.after(date(2026, 12, 24)) == date(2026, 12, 28)
    assert some.after(date(2026, 12, 29)) == date(2026, 12, 30)


def test_grades_by_weekday():
    calm, hard = frozenset({"calm"}), frozenset({"steep", "severe"})
    some = schedule("2027-01-04", issues=7, grades=[(0, calm), (6, hard)])
    assert [some.wish(day) for day in some.days()] == [calm, *[None] * 5, hard]


@given(
    st.dates(date(FIRST_YEAR, 1, 1), date(LAST_YEAR - 10, 1, 1)),
    st.integers(1, 400),
    st.frozensets(st.integers(0, 6), min_size=1),
)
def test_so_many_issues_end_on_their_last_day(first, issues, weekdays):
    counted = Schedule(first, None, issues, weekdays, frozenset(), {})
    days = list(counted.days())
    assert len(days) == issues
    assert all(day.weekday() in weekdays for day in days)
    assert all(one < two and (two - one).days <= 7 for one, two in pairwise(days))
    dated = Schedule(first, days[-1], None, weekdays, frozenset(), {})
    assert list(dated.days()) == days
    assert all(span_of(week_of(day)).first <= day <= span_of(week_of(day)).last for day in days)
