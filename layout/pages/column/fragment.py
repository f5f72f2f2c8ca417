"""A day's puzzle for the web desk: a fragment of a web page, and the same in words alone.

The fragment stands by itself: pictures are inline SVG and as wide as the page lets them, words
are at least as large as the page's own, answers are folded away, and no script is needed. Beside
each picture stands a table that a screen reader walks.
"""

from collections.abc import Iterator
from dataclasses import replace
from html import escape
from typing import Final

from layout.board.board import draw_board
from layout.language.dates import full_date, short_date
from layout.language.wording import rule_sentences
from layout.language.words import Words, fill
from layout.pages.column.column import ColumnDay, Previous
from layout.pages.column.web_table import cells_explained, told_board
from layout.picture.items import Picture
from layout.style.style import Style
from layout.telling.board_in_words import board_in_words, size_in_words
from layout.type.typography import polish
from layout.writers.svg import svg_of_picture
from verify.pencil import Grid
from verify.puzzle import Puzzle
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

    Its own answer, or that of the day before, is folded away where the day has it due. Raises
    CannotDraw for what the fonts or the style can't show.
    """
    if day.over:
        return _answer_alone(day, style, words, language, width)
    number = f', <span style="white-space: nowrap">{_number(day, words)}</span>'
    head = escape(day.heading) + (number if day.number is not None else "")
    rules = "".join(f"<p>{escape(sentence)}</p>\n" for sentence in _rules(day, words))
    return (
        f"{_opened(language)}"
        f'<h2 style="font-size: 1.4em; line-height: 1.25; margin: 0 0 0.3em">{head}</h2>\n'
        f'<p style="font-size: {SMALLER}; margin: 0 0 1em">{_credits(day, words)}</p>\n'
        f"{_board(day.puzzle, _title(day, words), style, words, width)}"
        f'<h3 style="font-size: 1.1em; margin: 1em 0 0.3em">{escape(words.web.rules)}</h3>\n'
        f"{rules}"
        f"{_note(day, words)}"
        f"{''.join(_answers(day, style, words, width))}"
        "</article>\n"
    )


def _answer_alone(day: ColumnDay, style: Style, words: Words, language: str, width: float) -> str:
    """The answer of the day before, on a day without a puzzle: nothing is folded away."""
    assert day.previous is not None, "a day without a puzzle has an answer"  # noqa: S101
    previous = day.previous
    title = previous_words(previous, words)
    return (
        f"{_opened(language)}"
        f'<h2 style="font-size: 1.4em; line-height: 1.25; margin: 0 0 0.3em">'
        f"{escape(day.heading)}</h2>\n"
        f'<p style="font-size: {SMALLER}; margin: 0 0 1em">{_dated(day, words)}</p>\n'
        f'<h3 style="font-size: 1.1em; margin: 1em 0 0.3em">{escape(title)}</h3>\n'
        f"{_board(previous.puzzle, title, style, words, width, previous.answer)}"
        "</article>\n"
    )


def _opened(language: str) -> str:
    """How an article begins."""
    return (
        f'<article lang="{language}" style="font-size: {SIZE}; line-height: 1.5; '
        f'max-width: {WIDEST}; position: relative">\n'
    )


def _answers(day: ColumnDay, style: Style, words: Words, width: float) -> Iterator[str]:
    """What is folded away."""
    if day.due == "same-day":
        title = f"{_title(day, words)}: {words.web.answer}"
        board = _board(day.puzzle, title, style, words, width, day.answer)
        yield _folded(words.web.answer, board)
    elif day.due == "next-day" and day.previous is not None:
        previous = day.previous
        title = previous_words(previous, words)
        board = _board(previous.puzzle, title, style, words, width, previous.answer)
        yield _folded(title, board)


def _folded(summary: str, inside: str) -> str:
    head = f'<summary style="cursor: pointer; padding: 0.7em 0">{escape(summary)}</summary>'
    return f"<details>\n{head}\n{inside}</details>\n"


def previous_words(previous: Previous, words: Words) -> str:
    """Which earlier answer it is: "Answer to no. 122, Saturday, 2 January"."""
    told = fill(words.daily.previous, number=previous.number)
    return words.lists.comma.join((told, short_date(previous.date, words)))


def in_words(day: ColumnDay, words: Words) -> str:
    """The day as plain text: all that its picture says, and the answer that is due at the end."""
    if day.over and day.previous is not None and day.date is not None:
        alone = day.previous
        told = board_in_words(alone.puzzle, words, alone.answer)[1:]
        head = [day.heading, full_date(day.date, words), "", f"{previous_words(alone, words)}:"]
        return "\n".join((*head, *told)) + "\n"
    lines = [
        _title(day, words),
        ", ".join(_credit_words(day, words)),
        "",
        *_rules(day, words),
        "",
        *(told := board_in_words(day.puzzle, words)),
        *cells_explained(told, words),
    ]
    if day.note:
        lines += ["", _polished(day.note, words)]
    if day.due == "same-day":
        lines += ["", f"{words.web.answer}:", *board_in_words(day.puzzle, words, day.answer)[1:]]
    elif day.due == "next-day" and day.previous is not None:
        previous = day.previous
        lines += ["", f"{previous_words(previous, words)}:"]
        lines += board_in_words(previous.puzzle, words, previous.answer)[1:]
    return "\n".join(lines) + "\n"


def _board(
    puzzle: Puzzle,
    title: str,
    style: Style,
    words: Words,
    width: float,
    answer: Grid | None = None,
) -> str:
    """A board as inline SVG that takes the width of the page, and as a table."""
    told = size_in_words(puzzle, words)
    drawn = draw_board(puzzle, style.board, width, answer=answer)
    picture = _inline(replace(drawn, title=title, description=told))
    return picture + told_board(puzzle, title, words, answer)


def _inline(picture: Picture) -> str:
    """An SVG without what only a file of its own needs, and no larger than the page."""
    text = svg_of_picture(picture).decode("utf-8")
    text = text[text.index("<svg ") :].replace(EVENTS, "") + "\n"
    return text.replace("<svg ", f'<svg style="{PICTURE}" ', 1)


def _credits(day: ColumnDay, words: Words) -> str:
    """Date, grade and constructor in one line."""
    said = list(map(escape, _credit_words(day, words)))
    if day.date is not None:
        said[0] = _dated(day, words)
    return " · ".join(said)


def _dated(day: ColumnDay, words: Words) -> str:
    """The date, also as programs read it."""
    if day.date is None:
        return ""
    told = escape(full_date(day.date, words))
    return f'<time datetime="{day.date.isoformat()}">{told}</time>'


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
