"""Makes puzzles for tests, benchmarks and the demo books: a random answer, then fewest givens.

    python -m tests.support.maker SKETCH.yaml --seed 7 [--half-turn] [--keep 4]

reads a manifest whose rules are drawn and writes the same text with givens that leave one
answer. `--half-turn` takes givens away in pairs that map onto each other by a half turn;
`--keep` then puts so many back, so that the puzzle is kinder.
"""

import argparse
import random
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from verify.budget import BudgetSpent
from verify.pencil import digits_of
from verify.proof.propagate import penciled, propagate
from verify.proof.solver import Allowance
from verify.proof.verdict import first_answers
from verify.puzzle import Puzzle

CONFLICTS = 20_000


def with_givens(puzzle: Puzzle, givens: Sequence[int]) -> Puzzle:
    """The same puzzle with other givens."""
    return replace(puzzle, givens=tuple(givens))


def answers(puzzle: Puzzle) -> tuple[tuple[int, ...], ...]:
    """Up to two answers."""
    return first_answers(puzzle, Allowance(CONFLICTS))


def random_answer(puzzle: Puzzle, dice: random.Random) -> tuple[int, ...] | None:
    """An answer to rules and givens, drawn by placing random digits while an answer is left."""
    found = answers(puzzle)
    while len(found) > 1:
        givens = list(puzzle.givens)
        marks = penciled(puzzle)
        propagate(list(puzzle.constraints()), marks)
        cell = dice.choice([cell for cell, digit in enumerate(givens) if not digit])
        digits = list(digits_of(marks[cell]))
        dice.shuffle(digits)
        for digit in digits:
            givens[cell] = digit
            tried = with_givens(puzzle, givens)
            found = answers(tried)
            if found:
                puzzle = tried
                break
    return found[0] if found else None


def half_turn(puzzle: Puzzle, cell: int) -> tuple[int, ...]:
    """A cell and its image by a half turn of the board."""
    return tuple({cell, len(puzzle.givens) - 1 - cell})


def minimal(
    puzzle: Puzzle, answer: Sequence[int], dice: random.Random, *, symmetric: bool = False
) -> Puzzle:
    """Givens from the answer of which none (no pair, where symmetric) can be spared.

    What the budget can't decide counts as needed.
    """
    givens = list(answer)
    order = list(range(len(givens)))
    dice.shuffle(order)
    for cell in order:
        cells = half_turn(puzzle, cell) if symmetric else (cell,)
        fewer = [0 if at in cells else digit for at, digit in enumerate(givens)]
        if fewer != givens and _has_one(with_givens(puzzle, fewer)):
            givens = fewer
    return with_givens(puzzle, givens)


def _has_one(puzzle: Puzzle) -> bool:
    """Whether there is one answer, as far as the budget reaches."""
    try:
        return len(answers(puzzle)) == 1
    except BudgetSpent:
        return False


def kinder(
    puzzle: Puzzle, answer: Sequence[int], dice: random.Random, more: int, symmetric: bool
) -> Puzzle:
    """The same puzzle with `more` givens put back."""
    givens = list(puzzle.givens)
    for _ in range(more):
        empty = [cell for cell, digit in enumerate(givens) if not digit]
        for cell in half_turn(puzzle, dice.choice(empty)) if symmetric else (dice.choice(empty),):
            givens[cell] = answer[cell]
    return with_givens(puzzle, givens)


def make(puzzle: Puzzle, seed: int, *, symmetric: bool = False, keep: int = 0) -> Puzzle:
    """A puzzle with these rules and givens that leave one answer.

    Raises ValueError where there is none.
    """
    dice = random.Random(seed)
    answer = random_answer(with_givens(puzzle, [0] * len(puzzle.givens)), dice)
    if answer is None:
        raise ValueError("these rules leave no answer")
    least = minimal(puzzle, answer, dice, symmetric=symmetric)
    return kinder(least, answer, dice, keep, symmetric)


def givens_text(puzzle: Puzzle) -> str:
    """The givens as a manifest writes them, with boxes set off."""
    board = puzzle.board
    height, width = board.boxes or (board.rows, board.columns)
    lines = ["givens: |"]
    rows = puzzle.rows_of(puzzle.givens)
    for row in range(board.rows):
        if row and row % height == 0:
            lines.append("  " + "-" * (2 * board.columns + 2 * (board.columns // width) - 3))
        cells = list(rows[row])
        parts = [" ".join(cells[at : at + width]) for at in range(0, board.columns, width)]
        lines.append("  " + " | ".join(parts))
    return "\n".join(lines) + "\n"


def main() -> int:
    """Reads the command line and prints the finished manifest."""
    from verify.manifest.read import read_puzzle

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("sketch", type=Path)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--half-turn", action="store_true")
    parser.add_argument("--keep", type=int, default=0)
    options = parser.parse_args()
    sketch = read_puzzle(options.sketch)
    try:
        made = make(sketch, options.seed, symmetric=options.half_turn, keep=options.keep)
    except ValueError as error:
        print(error, file=sys.stderr)
        return 1
    text = options.sketch.read_text(encoding="utf-8").split("givens:")[0]
    print(text.rstrip("\n") + "\n" + givens_text(made), end="")
    return 0


if __name__ == "__main__":
    sys.exit(main())
