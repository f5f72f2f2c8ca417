"""Days as they are written in a language."""

from datetime import date

from layout.language.words import Words, fill


def full_date(day: date, words: Words) -> str:
    """A day with its year: "Monday, 4 January 2027"."""
    return _written(words.dates.full, day, words)


def short_date(day: date, words: Words) -> str:
    """A day without its year."""
    return _written(words.dates.short, day, words)


def _written(pattern: str, day: date, words: Words) -> str:
    return fill(
        pattern,
        weekday=words.dates.weekdays[day.weekday()],
        day=day.day,
        month=words.dates.months[day.month - 1],
        year=day.year,
    )
