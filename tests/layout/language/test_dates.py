"""Days in words, held against calendars."""

from datetime import date

import pytest

from layout.language.dates import full_date, short_date
from layout.language.words import languages, read_words
from verify.walk.report.grade import Band

# ISO 8601 calls 2027-01-04 the Monday of week 1; 2028 is a leap year.
DAYS = [
    ("en", date(2027, 1, 4), "Monday, 4\u00a0January 2027"),
    ("en", date(2028, 2, 29), "Tuesday, 29\u00a0February 2028"),
    ("en", date(2026, 11, 25), "Wednesday, 25\u00a0November 2026"),
    ("de", date(2027, 1, 4), "Montag, 4.\u00a0Januar 2027"),
    ("de", date(2028, 2, 29), "Dienstag, 29.\u00a0Februar 2028"),
    ("de", date(2027, 3, 6), "Samstag, 6.\u00a0März 2027"),
]


@pytest.mark.parametrize(("language", "day", "written"), DAYS)
def test_a_day_with_its_year_and_without(language, day, written):
    words = read_words(language)
    assert full_date(day, words) == written
    assert short_date(day, words) == written.removesuffix(f" {day.year}")


@pytest.mark.parametrize("language", languages())
def test_every_language_has_seven_days_twelve_months_and_all_grades(language):
    words = read_words(language)
    assert len(set(words.dates.weekdays)) == 7
    assert len(set(words.dates.months)) == 12
    assert set(words.grades.bands) == {band.value for band in Band}
