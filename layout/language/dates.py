"""Days as they are written in a language.

The names of days and months are those of the Common Locale Data Repository, so that no language
has to bring them along. How they are put together is told by the words of each language: from one
edition of the repository to the next, a comma comes and goes, and a page that is made again must
not change.
"""

from datetime import date
from functools import cache

from babel import Locale, UnknownLocaleError

from layout.language.column_words import DateForms, DateWords
from layout.language.words import Words, fill


def full_date(day: date, words: Words) -> str:
    """A day with its year: "Monday, 4 January 2027"."""
    return _written(_forms(words).full, day, words.language)


def short_date(day: date, words: Words) -> str:
    """A day without its year."""
    return _written(_forms(words).short, day, words.language)


def _forms(words: Words) -> DateWords | DateForms:
    """How days are written in the region of a language, or in the language anywhere."""
    region = words.language.partition("-")[2]
    return words.dates.regions.get(region, words.dates)


def _written(form: str, day: date, language: str) -> str:
    locale = _locale(language)
    return fill(
        form,
        weekday=locale.days["format"]["wide"][day.weekday()],
        day=day.day,
        month=locale.months["format"]["wide"][day.month],
        year=day.year,
    )


@cache
def _locale(language: str) -> Locale:
    """The names of a language in its region, or anywhere where they aren't known for the region."""
    try:
        return Locale.parse(language, sep="-")
    except UnknownLocaleError:
        return Locale.parse(language.partition("-")[0])
