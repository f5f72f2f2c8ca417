"""Days in words, held against calendars."""

from datetime import date

import pytest

from layout.language.dates import full_date, short_date
from layout.language.words import languages, read_words, words_for
from verify.walk.report.grade import Band

# ISO 8601 calls 2027-01-04 the Monday of week 1; 2028 is a leap year.
DAYS = [
    ("en", date(2027, 1, 4), "Monday, 4\u00a0January", " 2027"),
    ("en", date(2028, 2, 29), "Tuesday, 29\u00a0February", " 2028"),
    ("en-GB", date(2026, 11, 25), "Wednesday, 25\u00a0November", " 2026"),
    ("en-US", date(2026, 11, 5), "Thursday, November\u00a05", ", 2026"),
    ("de", date(2027, 1, 4), "Montag, 4.\u00a0Januar", " 2027"),
    ("de", date(2028, 2, 29), "Dienstag, 29.\u00a0Februar", " 2028"),
    ("de-CH", date(2027, 3, 6), "Samstag, 6.\u00a0März", " 2027"),
    ("de-AT", date(2027, 1, 4), "Montag, 4.\u00a0Jänner", " 2027"),
    ("de-ZZ", date(2027, 1, 4), "Montag, 4.\u00a0Januar", " 2027"),
]

NAMES = {
    "en": (
        "Monday Tuesday Wednesday Thursday Friday Saturday Sunday",
        "January February March April May June July August September October November December",
    ),
    "de": (
        "Montag Dienstag Mittwoch Donnerstag Freitag Samstag Sonntag",
        "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
    ),
}
"""All that a page can print of them, so that no edition of the names changes a page unseen."""


@pytest.mark.parametrize(("language", "day", "short", "year"), DAYS)
def test_a_day_with_its_year_and_without(language, day, short, year):
    words = words_for(language)
    assert short_date(day, words) == short
    assert full_date(day, words) == short + year


def names(language):
    """Days from Monday on, and months, as full dates tell them; 2027-03-01 is a Monday."""
    words = words_for(language)
    days = [full_date(date(2027, 3, day), words).split(",")[0] for day in range(1, 8)]
    return days, [full_date(date(2027, month, 1), words).split()[-2] for month in range(1, 13)]


@pytest.mark.parametrize("language", NAMES)
def test_names_of_days_and_months(language):
    days, months = NAMES[language]
    assert names(language) == (days.split(), months.split())


@pytest.mark.parametrize("language", languages())
def test_every_language_has_seven_days_twelve_months_and_all_grades(language):
    days, months = names(language)
    assert (len(set(days)), len(set(months))) == (7, 12)
    assert set(read_words(language).grades.bands) == {band.value for band in Band}
