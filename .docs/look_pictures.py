"""What the groups of a style sheet's keys are seen on: boards, a step, pages, a day of a column."""

from collections.abc import Iterator, Mapping
from datetime import date

from layout import draw, svg
from layout.board.step import draw_step
from layout.commands.draw_scenes import step_scene
from layout.language.words import read_words
from layout.pages.book.pagination import Paginated, paginate
from layout.pages.column.column import ColumnDay, column_picture
from layout.pages.common.book import Book, Imprint, Numbered, Section
from layout.pages.common.format import Trim
from layout.picture.items import Picture, Stroke
from layout.picture.shapes import rectangle
from layout.style.style import REFERENCE, Style, read_style
from verify import RULES, grade, prove, read_puzzle, walk
from verify.budget import NEVER
from verify.walk.told.path import told_path

SHOWN = "thermometer"
"""The rule whose example is seen on all of them."""

STEP = 2
WIDTH = 62.0
TRIM = Trim(148, 210)

PICTURES: Mapping[tuple[str, ...], tuple[str, ...]] = {
    ("board", "lines"): ("board",),
    ("board", "digits"): ("board", "answer"),
    ("board", "answer"): ("answer",),
    ("board", "steps"): ("step",),
    ("page",): ("opener", "puzzle", "lesson", "answers"),
    ("column",): ("column",),
}
"""What a group of keys is seen on, by where it stands in a sheet."""


def look_pictures() -> dict[str, str]:
    """All pictures, by their names."""
    puzzle = read_puzzle(next(rule.example for rule in RULES if rule.name == SHOWN))
    (answer,) = prove(puzzle).answers
    style = read_style(REFERENCE)
    scene = step_scene(puzzle, STEP, NEVER)
    assert not isinstance(scene, str), scene  # noqa: S101 - its walk has so many steps
    graded = grade(walk(puzzle))
    numbered = Numbered(1, puzzle, answer, told_path(puzzle), graded)
    day = ColumnDay("Slack Water", date(2027, 3, 1), 218, puzzle, graded.band, answer)
    drawn = {
        "board": draw(puzzle, width=WIDTH),
        "answer": draw(puzzle, width=WIDTH, answer=answer),
        "step": draw_step(puzzle, style.board, WIDTH, scene),
        "column": column_picture(day, read_style("newsprint"), read_words("en"), 52.0),
        **dict(_pages(numbered, style)),
    }
    return {f"styles/look-{name}.svg": svg(picture) for name, picture in drawn.items()}


def _pages(numbered: Numbered, style: Style) -> Iterator[tuple[str, Picture]]:
    """Some pages of a small book, each with the line of its edge."""
    section = Section("Low Water", "The creeks have drained.", (numbered,), 1)
    book = Book("Low Water", "", "", Imprint(), (section,), 4)
    laid = paginate(book, style, read_words("en"), "en", TRIM)
    anchors = {
        "opener": "section-1",
        "puzzle": numbered.puzzle_anchor,
        "lesson": "how-to-solve",
        "answers": "answers",
    }
    for name, anchor in anchors.items():
        yield name, _page_with(laid, anchor, f"A page: {name}")


def _page_with(laid: Paginated, anchor: str, title: str) -> Picture:
    label = laid.labels[anchor]
    leaf = next(each for each in laid.document.leaves if each.label == label)
    edge = Stroke((rectangle(0, 0, leaf.width, leaf.height),), 0.2, 0.6)
    return Picture(leaf.width, leaf.height, (*leaf.items, edge), title)
