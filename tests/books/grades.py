"""The grades of the demo books' puzzles, and the table in which they are pinned.

    python -m tests.books.grades

writes `grades.txt` anew. A grade in that table is one that is in print: a change that moves any
belongs under Changes in DEVELOPERS.md.
"""

from collections.abc import Iterator
from pathlib import Path

from tests.support.checkout import BOOKS
from verify.check import items_of, puzzle_of_item
from verify.manifest.find import find_puzzles
from verify.puzzle import Puzzle
from verify.walk.report.grade import grade
from verify.walk.walk import walk

TABLE = Path(__file__).with_name("grades.txt")
FOLDERS = (
    "classroom/puzzles",
    "classroom/puzzles/bank",
    "daily/bank",
    "daily/sundays",
    "gallery/puzzles",
    "saltmarsh/puzzles",
)


def puzzles_of(folder: str) -> Iterator[Puzzle]:
    """Every puzzle under a folder of the demo books, in the order in which books take them."""
    paths = sorted((BOOKS / folder).glob("*.txt")) or [BOOKS / folder]
    for item in items_of(find_puzzles(paths)):
        yield puzzle_of_item(item)


def lines_of(folder: str) -> list[str]:
    """A line for each puzzle: folder, id, band, score, hardest technique."""
    return [line(folder, puzzle) for puzzle in puzzles_of(folder)]


def line(folder: str, puzzle: Puzzle) -> str:
    """A line of the table; the walk needs no reasons for it."""
    found = grade(walk(puzzle, reasons=False))
    hardest = found.hardest.value if found.hardest else "-"
    return f"{folder:<18} {puzzle.id:<20} {found.band.value:<9} {found.score or '-':>4}  {hardest}"


def pinned() -> list[str]:
    """The lines of the table as it stands."""
    return TABLE.read_text(encoding="utf-8").splitlines()


def main() -> None:
    """Writes the table and says which lines are new."""
    before = set(pinned()) if TABLE.exists() else set()
    found = [each for folder in FOLDERS for each in lines_of(folder)]
    TABLE.write_text("\n".join(found) + "\n", encoding="utf-8")
    for each in found:
        if each not in before:
            print(each)


if __name__ == "__main__":
    main()
