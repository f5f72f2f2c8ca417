"""A puzzle's board in the words of a language, for a reader who can't see it."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from layout.board.board import shown_marks
from layout.language.words import Words, fill
from layout.telling.names import Names
from verify.board import Board, Cell
from verify.marks import Border, Clue, Mark, Ray, Sign, Tint, Trail
from verify.pencil import Grid
from verify.puzzle import Puzzle


def board_in_words(puzzle: Puzzle, words: Words, answer: Grid | None = None) -> tuple[str, ...]:
    """Sentences: the size of the grid, its rows as far as they are given, and its marks.

    With an `answer` every row is filled in, and the marks are left out.
    """
    told = size_in_words(puzzle, words)
    if answer is not None:
        return told, *_rows(puzzle, answer, words)
    rows = tuple(_rows(puzzle, puzzle.givens, words)) or (words.board.empty,)
    return told, *rows, *marks_in_words(puzzle, words)


def size_in_words(puzzle: Puzzle, words: Words) -> str:
    """How large the grid is, and its boxes."""
    board = puzzle.board
    size = words.board.boxed if board.boxes else words.board.grid
    down, across = board.boxes or (0, 0)
    return fill(size, rows=board.rows, columns=board.columns, down=down, across=across)


def _rows(puzzle: Puzzle, grid: Grid, words: Words) -> Iterator[str]:
    """What stands in each row that is not empty."""
    board = puzzle.board
    for row in range(board.rows):
        cells = [board.columns * row + column for column in range(board.columns)]
        held = [
            fill(words.board.held, digit=puzzle.symbol(grid[cell]), column=column)
            for column, cell in enumerate(cells, start=1)
            if cell not in board.absent and grid[cell]
        ]
        if len(held) == board.columns:
            full = " ".join(puzzle.symbol(grid[cell]) for cell in cells)
            yield fill(words.board.row, number=row + 1, cells=full)
        elif held:
            yield fill(words.board.row, number=row + 1, cells=words.lists.comma.join(held))


def letters_in_words(board: Board, letters: Mapping[Cell, str], words: Words) -> str:
    """Where letters stand that words call cells by, row by row."""
    told = []
    for row in range(board.rows):
        held = [
            fill(words.board.held, digit=letters[cell], column=board.place(cell)[1] + 1)
            for cell in sorted(letters)
            if board.place(cell)[0] == row
        ]
        if held:
            told.append(fill(words.board.row, number=row + 1, cells=words.lists.comma.join(held)))
    return " ".join(told)


def marks_in_words(puzzle: Puzzle, words: Words) -> Iterator[str]:
    """The marks of each rule that has any; borders that are the board's own boxes are none."""
    names = Names(puzzle, words)
    for use in puzzle.uses:
        marks = shown_marks(replace(puzzle, uses=(use,)))
        told = [
            _mark(mark, names, puzzle.board)
            for mark in marks
            if not (isinstance(mark, Border) and puzzle.board.boxes)
        ]
        if told:
            own = words.rules.get(use.rule.name)
            title = use.rule.name if own is None else own.title
            yield f"{title}: {words.lists.semicolon.join(told)}."


def _mark(mark: Mark, names: Names, board: Board) -> str:
    """One mark: what is written on it, and its cells."""

    def run(cells: tuple[Cell, ...]) -> str:
        return " ".join(map(board.name, cells))

    if isinstance(mark, Trail):
        ring = f"({run(mark.ring)}) " if mark.ring else ""
        return ring + names.words.lists.comma.join(map(run, mark.branches))
    if isinstance(mark, Clue):
        return _clue(mark, names)
    if isinstance(mark, Sign):
        return f"{board.name(mark.cells[0])} > {board.name(mark.cells[1])}"
    if isinstance(mark, Ray):
        return f"{board.name(mark.cells[0])} – {board.name(mark.cells[-1])}"
    if isinstance(mark, Tint):
        return board.name(mark.cell)
    label = "" if isinstance(mark, Border) or not mark.label else f"{mark.label} "
    return label + run(mark.cells)


def _clue(mark: Clue, names: Names) -> str:
    """A clue outside: what it says, and where it stands."""
    words = names.words.board
    arrow = {"in": words.arrow_in, "out": words.arrow_out}.get(mark.arrow)
    return f"{arrow or mark.label} {names.outside(mark.outside)}"
