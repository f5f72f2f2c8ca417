"""Random paths and groups of cells, drawn by hypothesis or by dice."""

import random
from collections.abc import Callable, Collection

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from verify.board import COMPASS, Board, Cell


def around(board: Board, cell: Cell, edges: bool = False) -> list[Cell]:
    """The cells that touch a cell; with `edges` only those that share an edge."""
    steps = (board.step(cell, direction) for direction in COMPASS)
    near = sorted({step for step in steps if step is not None})
    return [step for step in near if board.share_edge(cell, step)] if edges else near


@st.composite
def walks(draw: DrawFn, board: Board, least: int, most: int) -> tuple[Cell, ...]:
    """A path of touching cells, none twice; shorter than `most` where it runs into itself."""
    path = [draw(st.sampled_from(board.cells))]
    for _ in range(draw(st.integers(least, most)) - 1):
        free = [cell for cell in around(board, path[-1]) if cell not in path]
        if not free:
            break
        path.append(draw(st.sampled_from(free)))
    return tuple(path)


def walk(draw: DrawFn, board: Board, most: int, least: int = 2) -> tuple[Cell, ...]:
    """A path of at least `least` cells, drawn anew until it is that long."""
    drawn = walks(board, least, max(least, most)).filter(lambda path: len(path) >= least)
    return draw(drawn)


def edge_pair(draw: DrawFn, board: Board) -> tuple[Cell, Cell]:
    """Two cells that share an edge."""
    one = draw(st.sampled_from(board.cells))
    return one, draw(st.sampled_from(around(board, one, edges=True)))


@st.composite
def blobs(draw: DrawFn, board: Board, least: int, most: int) -> tuple[Cell, ...]:
    """Cells that hang together by their edges, sorted."""
    cells = {draw(st.sampled_from(board.cells))}
    for _ in range(draw(st.integers(least, most)) - 1):
        near = {next_to for cell in cells for next_to in around(board, cell, edges=True)} - cells
        if not near:
            break
        cells.add(draw(st.sampled_from(sorted(near))))
    return tuple(sorted(cells))


def random_walk(
    board: Board, dice: random.Random, length: int, taken: Collection[Cell] = ()
) -> tuple[Cell, ...]:
    """A path of up to `length` touching cells off the taken ones; empty where all are taken."""
    free = [cell for cell in board.cells if cell not in taken]
    path = [dice.choice(free)] if free else []
    while path and len(path) < length:
        on = [cell for cell in around(board, path[-1]) if cell not in taken and cell not in path]
        if not on:
            break
        path.append(dice.choice(on))
    return tuple(path)


def random_blob(
    board: Board, dice: random.Random, size: int, taken: Collection[Cell] = ()
) -> tuple[Cell, ...]:
    """Up to `size` cells that hang together by their edges, off the taken ones; sorted."""
    free = [cell for cell in board.cells if cell not in taken]
    cells = {dice.choice(free)} if free else set()
    while cells and len(cells) < size:
        near = {at for cell in cells for at in around(board, cell, edges=True)}
        near -= cells | set(taken)
        if not near:
            break
        cells.add(dice.choice(sorted(near)))
    return tuple(sorted(cells))


def sown_paths(
    board: Board,
    dice: random.Random,
    fits: Callable[[tuple[Cell, ...]], bool],
    lengths: tuple[int, int],
    most: int = 7,
    tries: int = 4000,
) -> list[tuple[Cell, ...]]:
    """Up to `most` paths that share no cell and that `fits` lets pass, the longer ones first."""
    found: list[tuple[Cell, ...]] = []
    taken: set[Cell] = set()
    longest, least = lengths[1], lengths[0]
    for attempt in range(tries):
        length = longest - (longest - least) * attempt // tries
        path = random_walk(board, dice, length, taken)
        if len(path) >= least and fits(path):
            found.append(path)
            taken.update(path)
        if len(found) == most:
            break
    return found
