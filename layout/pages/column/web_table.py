"""A grid as a table of a web page, for a reader who can't see the drawing beside it.

A screen reader walks it cell by cell, and says the row and the column of each. It takes no room on
the page: it is clipped, as a table that is not displayed would not be read.
"""

import re
from collections.abc import Iterator
from html import escape
from typing import Final

from layout.language.words import Words, fill
from layout.telling.board_in_words import marks_in_words, size_in_words
from layout.telling.names import Names
from verify.pencil import Grid
from verify.puzzle import Puzzle

CLIPPED: Final = (
    "position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%)"
)
"""What a reader who sees does not see; the article around it must be positioned."""

_CELL: Final = re.compile(r"\br\d+c\d+\b")


def told_board(puzzle: Puzzle, title: str, words: Words, answer: Grid | None = None) -> str:
    """The table with its title, and the marks in words where no answer is shown."""
    grid = puzzle.givens if answer is None else answer
    marks = () if answer is not None else tuple(marks_in_words(puzzle, words))
    said = "".join(f"<p>{escape(each)}</p>\n" for each in (*marks, *cells_explained(marks, words)))
    caption = escape(f"{title}. {size_in_words(puzzle, words)}")
    return (
        f'<div style="{CLIPPED}">\n'
        f"<table>\n<caption>{caption}</caption>\n"
        f"<thead>{''.join(_head(puzzle, words))}</thead>\n"
        f"<tbody>\n{''.join(_rows(puzzle, grid, words))}</tbody>\n</table>\n"
        f"{said}</div>\n"
    )


def cells_explained(told: tuple[str, ...], words: Words) -> tuple[str, ...]:
    """What names such as r8c2 mean, where one of some sentences has such a name."""
    found = next((match for each in told if (match := _CELL.search(each))), None)
    if found is None:
        return ()
    row, column = re.findall(r"\d+", found[0])
    meant = fill(words.walk.cell_in_words, row=row, column=column)
    return (fill(words.web.cells, cell=found[0], meant=meant),)


def _head(puzzle: Puzzle, words: Words) -> Iterator[str]:
    yield "<tr><td></td>"
    for column in range(1, puzzle.board.columns + 1):
        yield f'<th scope="col">{escape(fill(words.web.column, number=column))}</th>'
    yield "</tr>"


def _rows(puzzle: Puzzle, grid: Grid, words: Words) -> Iterator[str]:
    board, names = puzzle.board, Names(puzzle, words)
    for row in range(board.rows):
        cells = range(row * board.columns, (row + 1) * board.columns)
        held = [
            "" if cell in board.absent or not grid[cell] else names.digit(grid[cell])
            for cell in cells
        ]
        told = "".join(f"<td>{escape(each)}</td>" for each in held)
        head = escape(fill(words.web.row, number=row + 1))
        yield f'<tr><th scope="row">{head}</th>{told}</tr>\n'
