"""A day's puzzle for the web desk: a fragment of a web page, and the same in words alone.

The fragment stands by itself: pictures are inline SVG and as wide as the page lets them, words
are at least as large as the page's own, the answer is folded away, and no script is needed.
"""

from collections.abc import Iterator
from dataclasses import replace
from html import escape
from typing import Final

from layout.board.board import draw_board
from layout.language.dates import full_date
from layout.language.wording import rule_sentences
from layout.language.words import Words, fill
from layout.pages.column.column import ColumnDay
from layout.picture.items import Picture
from layout.style.style import Style
from layout.telling.board_in_words import board_in_words
from layout.type.typography import polish
from layout.writers.svg import svg_of_picture
from verify.pencil import Grid
from verify.walk.report.grade import Band

WIDEST: Final = "34rem"
"""All grows with the page up to this width, in the page's own letters."""

SIZE: Final = "max(1rem, 16px)"
"""The size of running words, whatever size the page gives its own."""

SMALLER: Final = "max(0.9rem, 14px)"
"""The size of what stands above the grid, and of a note."""

EVENTS: Final = ' xmlns:ev="http://www.w3.org/2001/xml-events"'
"""A name space that no page of HTML may have."""

PICTURE: Final = "display: block; width: 100%; height: auto; background: #fff"
"""A picture takes the width of the page, and brings its paper along."""


def web_fragment(day: ColumnDay, style: Style, words: Words, language: str, width: float) -> str:
    """The day as HTML, one `article`; `width` is that of the drawn pictures in millimetres.

    Raises CannotDraw for what the fonts or the style can't show.
    """
    puzzle = _picture(day, style, words, width)
    answer = _picture(day, style, words, width, day.answer)
    number = f', <span style="white-space: nowrap">{_number(day, words)}</span>'
    head = escape(day.heading) + (number if day.number is not None else "")
    rules = "".join(f"<p>{escape(sentence)}</p>\n" for sentence in _rules(day, words))
    return (
        f'<article lang="{language}" style="font-size: {SIZE}; line-height: 1.5; '
        f'max-width: {WIDEST}">\n'
        f'<h2 style="font-size: 1.4em; line-height: 1.25; margin: 0 0 0.3em">{head}</h2>\n'
        f'<p style="font-size: {SMALLER}; margin: 0 0 1em">{_credits(day, words)}</p>\n'
        f"{puzzle}"
        f'<h3 style="font-size: 1.1em; margin: 1em 0 0.3em">{escape(words.web.rules)}</h3>\n'
        f"{rules}"
        f"{_note(day, words)}"
        "<details>\n"
        f'<summary style="cursor: pointer; padding: 0.7em 0">{escape(words.web.answer)}</summary>\n'
        f"{answer}"
        "</details>\n"
        "</article>\n"
    )


def in_words(day: ColumnDay, words: Words) -> str:
    """The day as plain text: all that its picture says, and the answer at the end."""
    lines = [
        _title(day, words),
        ", ".join(_credit_words(day, words)),
        "",
        *_rules(day, words),
        "",
        *board_in_words(day.puzzle, words),
    ]
    if day.note:
        lines += ["", _polished(day.note, words)]
    lines += ["", f"{words.web.answer}:", *board_in_words(day.puzzle, words, day.answer)[1:]]
    return "\n".join(lines) + "\n"


def _picture(
    day: ColumnDay, style: Style, words: Words, width: float, answer: Grid | None = None
) -> str:
    """A board as inline SVG that takes the width of the page."""
    told = " ".join(board_in_words(day.puzzle, words, answer))
    title = _title(day, words)
    title = title if answer is None else f"{title}: {words.web.answer}"
    drawn = draw_board(day.puzzle, style.board, width, answer=answer)
    return _inline(replace(drawn, title=title, description=told))


def _inline(picture: Picture) -> str:
    """An SVG without what only a file of its own needs, and no larger than the page."""
    text = svg_of_picture(picture).decode("utf-8")
    text = text[text.index("<svg ") :].replace(EVENTS, "") + "\n"
    return text.replace("<svg ", f'<svg style="{PICTURE}" ', 1)


def _credits(day: ColumnDay, words: Words) -> str:
    """Date, grade and constructor in one line."""
    said = list(map(escape, _credit_words(day, words)))
    if day.date is not None:
        said[0] = f'<time datetime="{day.date.isoformat()}">{said[0]}</time>'
    return " · ".join(said)


def _credit_words(day: ColumnDay, words: Words) -> Iterator[str]:
    if day.date is not None:
        yield full_date(day.date, words)
    if day.grade is not Band.UNGRADED:
        yield words.grades.bands[day.grade.value]
    if day.puzzle.credits.constructor:
        yield fill(words.daily.constructor, name=day.puzzle.credits.constructor)


def _title(day: ColumnDay, words: Words) -> str:
    """What the day's puzzle is called."""
    return day.heading if day.number is None else f"{day.heading}, {_number(day, words)}"


def _number(day: ColumnDay, words: Words) -> str:
    return fill(words.daily.number, number=day.number)


def _rules(day: ColumnDay, words: Words) -> tuple[str, ...]:
    sentences = rule_sentences(day.puzzle, words)
    return tuple(_polished(sentence, words) for sentence in sentences)


def _note(day: ColumnDay, words: Words) -> str:
    """The note as a paragraph; nothing where there is none."""
    if not day.note:
        return ""
    return f'<p style="font-size: {SMALLER}">{escape(_polished(day.note, words))}</p>\n'


def _polished(text: str, words: Words) -> str:
    return polish(text, words.quote_marks)
