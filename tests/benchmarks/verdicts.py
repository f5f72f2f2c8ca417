"""Verdicts a second, beside OR-tools CP-SAT with one worker on the same puzzles in the same run.

    python -m tests.benchmarks.verdicts [--puzzles 100] [--rounds 5]

Each round proves every puzzle with the one, then with the other; the ratio is taken round by
round, so that it holds when the machine's speed drifts. Our solver keeps what it learns about
the houses, so it is made to forget before each round.
"""

import argparse
import random
import statistics
import time
from collections.abc import Callable, Sequence

from tests.support import maker
from tests.support.boards import plain
from tests.support.models import puzzle_answers
from verify.board import COMPASS, Board
from verify.proof.solver import forget
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.rules import thermometer
from verify.rules.rule import Use
from verify.rules.thermometer import Thermometer


def random_shapes(board: Board, dice: random.Random, most: int = 7) -> tuple[Thermometer, ...]:
    """Thermometers of three to eight cells that share no cell."""
    taken: set[int] = set()
    shapes: list[Thermometer] = []
    for _ in range(60):
        path = [dice.choice(board.cells)]
        for _ in range(dice.randrange(2, 8)):
            steps = {board.step(path[-1], direction) for direction in COMPASS}
            free = sorted({s for s in steps if s is not None} - taken - set(path))
            if not free:
                break
            path.append(dice.choice(free))
        if len(path) > 2 and not taken & set(path):
            taken.update(path)
            shapes.append(Thermometer(tuple(path)))
        if len(shapes) == most:
            break
    return tuple(shapes)


def minimal_classics(count: int) -> list[Puzzle]:
    """Random classic puzzles of which no given can be spared."""
    made = (maker.make(plain(9, (3, 3)), seed) for seed in range(count))
    return [puzzle for puzzle in made if puzzle is not None]


def minimal_thermometers(count: int) -> list[Puzzle]:
    """Random thermometer puzzles of which no given can be spared."""
    puzzles: list[Puzzle] = []
    seed = 0
    while len(puzzles) < count:
        seed += 1
        sketch = plain(9, (3, 3))
        shapes = random_shapes(sketch.board, random.Random(seed))
        made = maker.make(plain(9, (3, 3), (), Use(thermometer.RULE, shapes)), seed)
        if made is not None:
            puzzles.append(made)
    return puzzles


def seconds(task: Callable[[Puzzle], object], puzzles: Sequence[Puzzle]) -> float:
    """The time for all puzzles, one after another."""
    forget()
    started = time.perf_counter()
    for puzzle in puzzles:
        task(puzzle)
    return time.perf_counter() - started


def compare(name: str, puzzles: Sequence[Puzzle], rounds: int) -> None:
    """Prints one line of the table: verdicts a second of both, and the ratio."""
    for puzzle in puzzles:
        assert prove(puzzle).word == "one"
        assert len(puzzle_answers(puzzle)) == 1
    pairs = [(seconds(prove, puzzles), seconds(puzzle_answers, puzzles)) for _ in range(rounds)]
    ours, theirs = (statistics.median(side) for side in zip(*pairs, strict=True))
    ratio = statistics.median(their / our for our, their in pairs)
    count = len(puzzles)
    print(f"{name:<12} {count / ours:>10.0f} {count / theirs:>10.0f} {ratio:>8.1f}")


def main() -> None:
    """Makes the puzzles and prints the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--puzzles", type=int, default=100)
    parser.add_argument("--rounds", type=int, default=5)
    options = parser.parse_args()
    print(f"{'puzzles':<12} {'ours/s':>10} {'CP-SAT/s':>10} {'ratio':>8}")
    compare("classic", minimal_classics(options.puzzles), options.rounds)
    compare("thermometer", minimal_thermometers(options.puzzles), options.rounds)


if __name__ == "__main__":
    main()
