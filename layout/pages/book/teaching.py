"""How to solve: a page for each rule that the book uses, with a small worked example.

Rows, columns and boxes, which most puzzles have, share the first page.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from typing import Final

from layout.language.wording import all_symbols
from layout.language.words import Words, fill
from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.common.book import Book
from layout.pages.common.design import Design, board_at, cap, fit, heading, stacked
from layout.pages.common.page import Labels, Page
from layout.pages.common.prose_pages import (
    MOST_TITLE_LINES,
    OPENING,
    chapter_title,
    row_items,
    rows_below,
    rows_in,
)
from layout.picture.items import Anchor, Item
from layout.type.markup import read_markup
from layout.type.paragraph import set_words
from layout.type.prose import ProseRow, cut_pages
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import Answer, prove
from verify.puzzle import Puzzle
from verify.rules import BY_NAME, RULES

ANCHOR: Final = "how-to-solve"

LEAST_EXAMPLE: Final = 0.7
"""An example gets a page of its own before it gets smaller than this share of its size."""

PLAIN: Final = ("rows", "columns", "boxes")
"""The rules that are taught on one page."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """What one page teaches, of which rules; `example` is a manifest."""

    title: str
    rules: tuple[str, ...]
    teach: str
    example: str

    @property
    def anchor(self) -> str:
        """Where it stands."""
        return "rule-" + "-".join(self.rules)


def lessons(book: Book, words: Words) -> tuple[Lesson, ...]:
    """A lesson for each rule of the book, in the order of the catalogue."""
    return lessons_for((numbered.puzzle for numbered in book.puzzles()), words)


def lessons_for(puzzles: Iterable[Puzzle], words: Words) -> tuple[Lesson, ...]:
    """A lesson for each rule of some puzzles, in the order of the catalogue."""
    used = {use.rule.name for puzzle in puzzles for use in puzzle.uses}
    plain = [name for name in PLAIN if name in used]
    others = [rule.name for rule in RULES if rule.name in used and rule.name not in PLAIN]
    first = (_plain_lesson(plain, words),) if plain else ()
    return (*first, *(_lesson(name, words) for name in others))


def _lesson(name: str, words: Words) -> Lesson:
    said = words.rules[name]
    return Lesson(said.title, (name,), said.teach, BY_NAME[name].example)


def _plain_lesson(names: Sequence[str], words: Words) -> Lesson:
    """One page for rows, columns and boxes, as far as the book has them."""
    houses = words.houses
    plurals = {"rows": houses.rows, "columns": houses.columns, "boxes": houses.boxes}
    title = words.lists.join([plurals[name] for name in names])
    each = " ".join(words.rules[name].teach for name in names)
    return Lesson(
        title[:1].upper() + title[1:],
        tuple(names),
        "\n\n".join((houses.teach, each, houses.start)),
        BY_NAME[names[-1]].example,
    )


def teaching_part(book: Book, design: Design) -> BookPart | None:
    """The lessons of a book; None where it uses no rule."""
    taught = lessons(book, design.words)
    if not taught:
        return None
    part = ContentsEntry(design.words.pages.how_to_solve, ANCHOR)
    entries = (ContentsEntry(lesson.title, lesson.anchor, level=1) for lesson in taught)
    return BookPart(lambda _: _teaching_pages(taught, design), (part, *entries))


def _teaching_pages(taught: Sequence[Lesson], design: Design) -> tuple[Page, ...]:
    """The pages of all lessons; the first of them opens the part."""
    return tuple(
        page
        for index, lesson in enumerate(taught)
        for page in _lesson_pages(lesson, index == 0, design)
    )


def _lesson_pages(lesson: Lesson, opens: bool, design: Design) -> Iterator[Page]:
    """The lesson's words, and its example under them or, where it has no room, overleaf."""
    voices = design.faces.prose
    rows = design.prose().rows(read_markup(lesson.teach, design.words.quote_marks))
    title, above = _title(lesson, opens, design)
    room = rows_in(design.depth, voices)
    cut = cut_pages(rows, room, room - above)
    bodies = [_Body(page, 0 if index else above) for index, page in enumerate(cut)]
    if not _example_room(lesson, bodies[-1].example_top(design), design):
        bodies.append(_Body((), 0))
    part = design.words.pages.how_to_solve
    for index, body in enumerate(bodies):
        shown = lesson if index == len(bodies) - 1 else None
        yield Page(
            partial(_draw, () if index else title, body, shown, design),
            anchors=() if index else _anchors(lesson, opens),
            head="" if opens and not index else part,
        )


@dataclass(frozen=True, slots=True)
class _Body:
    """Rows of a page, from its row `first` on."""

    rows: tuple[ProseRow, ...]
    first: int

    def example_top(self, design: Design) -> float:
        """Where an example below the rows begins."""
        voices, used = design.faces.prose, self.first + len(self.rows)
        return cap(voices) + (used - 1) * voices.leading + 1.6 * design.page.gap if used else 0.0


def _anchors(lesson: Lesson, opens: bool) -> tuple[Anchor, ...]:
    own = Anchor(lesson.anchor, 0.0)
    return (Anchor(ANCHOR, 0.0), own) if opens else (own,)


def _title(lesson: Lesson, opens: bool, design: Design) -> tuple[tuple[Item, ...], int]:
    """The lesson's heading, under the title of the part where it opens that; rows they take."""
    items: list[Item] = []
    y = OPENING * design.depth
    if opens:
        part, y = chapter_title(design.words.pages.how_to_solve, design)
        items += part
        y += 1.8 * design.faces.heading.leading
    lines, face = fit(lesson.title, design.faces.heading, design, MOST_TITLE_LINES)
    items.append(heading(stacked(lines, face.leading, 0.0, y)))
    y += (len(lines) - 1) * face.leading
    return tuple(items), rows_below(y, design.faces.prose, 1.8)


def _example_width(lesson: Lesson, room: float, design: Design) -> float:
    """Half the measure, or less where the room under the words is small or cells were large."""
    puzzle, _ = solved(lesson.example)
    half = (design.measure - 1.5 * design.page.gap) / 2
    return design.board_width(puzzle, half, room, design.page.cells.largest)


def _example_room(lesson: Lesson, top: float, design: Design) -> float:
    """How deep the example's grids may be, or nothing where they came out too small."""
    room = design.depth - top - 2.5 * design.faces.note.leading
    puzzle, _ = solved(lesson.example)
    whole = _example_width(lesson, room=design.depth, design=design)
    enough = LEAST_EXAMPLE * design.board_height(puzzle, whole)
    return room if room >= enough else 0.0


@cache
def solved(manifest: str) -> tuple[Puzzle, Answer]:
    """An example and its answer."""
    puzzle = puzzle_from_text(manifest)
    return puzzle, prove(puzzle).answers[0]


def _draw(
    title: Sequence[Item], body: _Body, shown: Lesson | None, design: Design, labels: Labels
) -> Iterator[Item]:
    yield from title
    yield from row_items(body.rows, body.first, design.faces.prose)
    if shown is not None:
        yield from _example(shown, body.example_top(design), design)


def _example(lesson: Lesson, top: float, design: Design) -> Iterator[Item]:
    """The example and its answer side by side, each with a word under it."""
    puzzle, answer = solved(lesson.example)
    width = _example_width(lesson, _example_room(lesson, top, design), design)
    words, note = design.words.pages, design.faces.note
    foot = top + design.board_height(puzzle, width)
    symbols = all_symbols(puzzle.symbols, design.words)
    right = design.measure - width
    for x, filled, said in (
        (0.0, None, fill(words.example, symbols=symbols)),
        (right, answer, words.example_answer),
    ):
        yield board_at(puzzle, x, top, width, design, filled)
        under = foot + 0.75 * note.size + cap(note)
        yield from stacked(set_words(said, note, width), note.leading, x, under)
