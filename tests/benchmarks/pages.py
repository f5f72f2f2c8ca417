"""Books of 100, 300 and 1,000 graded puzzles, beside a bare reportlab script that draws as much.

    python -m tests.benchmarks.pages [--puzzles 100 300 1000] [--rounds 3]

Both set one puzzle a page and six answers a page, in the same run, turn by turn, each in a child
process. The bare script draws what a page shows, lines, shapes and text, at fixed places: it
breaks no line, kerns nothing, and knows no page numbers. Told are seconds of the processor, by
puzzle too, as they should not grow, and by how much the child's memory grows at its peak. What it
takes to read the file back, as `make` does, is told apart: the bare script has nothing like it.
"""

import argparse
import io
import resource
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import TypeAlias

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from layout.language.words import read_words
from layout.pages.book.pagination import paginate
from layout.pages.common.book import Book, Imprint, Numbered, Section
from layout.pages.common.format import Trim
from layout.preflight.against.against import Ordered, against
from layout.preflight.against.naming import Sayings
from layout.preflight.against.placing import Expected
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.opening import read_finished
from layout.style.style import read_style
from layout.type.fonts import font
from layout.writers.pdf import pdf_of_document
from tests.benchmarks.verdicts.rows import minimal_plain
from tests.support.sowing import random_minimal
from verify.board import Cell
from verify.marks import Trail
from verify.proof.verdict import prove
from verify.walk.report.grade import grade
from verify.walk.walk import walk

SENTENCES = (
    "Each row, column and box holds the digits 1 to 9 once.",
    "Along each thermometer the digits grow from the bulb.",
)


def numbered(count: int) -> tuple[Numbered, ...]:
    """As many puzzles, half of them classics, half with thermometers, from ten of each."""
    thermometers = [random_minimal("thermometer", 9, seed) for seed in range(10)]
    made = [*(minimal_plain(9, seed) for seed in range(10)), *thermometers]
    known = [(each, prove(each).answers[0], grade(walk(each, reasons=False))) for each in made]
    several = [known[index % len(known)] for index in range(count)]
    return tuple(
        Numbered(
            number,
            replace(
                puzzle,
                id=f"p{number}",
                credits=replace(puzzle.credits, title="High Water", constructor="Ida Marsh"),
            ),
            answer,
            None,
            graded,
        )
        for number, (puzzle, answer, graded) in enumerate(several, start=1)
    )


def ours(puzzles: tuple[Numbered, ...]) -> bytes:
    """Pages and file as the book's job makes them."""
    book = Book("Tides", "", "Ida Marsh", Imprint(), (Section("High", "", puzzles, 1),), 6)
    trim = Trim(152.4, 228.6, 3)
    return pdf_of_document(
        paginate(book, read_style("paperback"), read_words("en"), "en", trim).document
    )


def read_again(path: Path, puzzles: tuple[Numbered, ...]) -> bytes:
    """The file read back, and each of its digits held against the puzzles; gives nothing."""
    pages = read_words("en").pages
    sayings = Sayings((pages.hints_on, pages.answer_on), (pages.puzzle_on, pages.on_page))
    file = read_finished(path, path.name)
    expected = [Expected(each.puzzle, each.answer) for each in puzzles]
    found = [*preflight(file, Terms()), *against(file, Ordered(expected, "High", sayings))]
    assert not found, found
    return b""


def bare(puzzles: Sequence[Numbered]) -> bytes:
    """The same lines, digits and words with reportlab alone."""
    for name, family in (("digits", "Fira Sans Medium"), ("words", "Spectral Regular")):
        pdfmetrics.registerFont(TTFont(name, str(font(family).path)))
    file = io.BytesIO()
    # Its types say that the name of a font is a number.
    canvas = Canvas(file, pagesize=(432, 648), initialFontName="words")  # type: ignore[arg-type]
    for each in puzzles:
        _words(canvas, each)
        _shapes(canvas, each)
        _grid(canvas, 50, 150, 36, each.puzzle.givens, 18)
        canvas.showPage()
    for start in range(0, len(puzzles), 6):
        for place, each in enumerate(puzzles[start : start + 6]):
            x, y = 50 + place % 2 * 190, 450 - place // 2 * 180
            canvas.setFont("words", 8)
            canvas.drawString(x, y + 142, each.puzzle.title)
            canvas.drawString(x, y - 8, f"puzzle on page {each.number}")
            _grid(canvas, x, y, 15, each.answer, 7)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def _words(canvas: Canvas, each: Numbered) -> None:
    canvas.setFont("words", 25)
    canvas.drawString(50, 560, each.puzzle.title)
    canvas.setFont("words", 10)
    for x, y, text in (
        (50, 545, each.puzzle.credits.constructor),
        (350, 560, str(each.number)),
        (50, 110, SENTENCES[0]),
        (50, 96, SENTENCES[1]),
        (50, 40, str(each.number)),
        (300, 40, "answer on page 100"),
        (50, 620, "Tides"),
    ):
        canvas.drawString(x, y, text)


def _middle(cell: Cell) -> tuple[float, float]:
    return 50 + 36 * (cell % 9 + 0.5), 150 + 36 * (8.5 - cell // 9)


def _shapes(canvas: Canvas, each: Numbered) -> None:
    """A line, an edge and a bulb for each thermometer, as many strokes as its drawer makes."""
    for mark in each.puzzle.marks():
        if not isinstance(mark, Trail):
            continue
        for width, grey in ((12, 1.0), (10, 0.4), (8, 0.8)):
            canvas.setLineWidth(width)
            canvas.setStrokeGray(grey)
            canvas.setFillGray(grey)
            for branch in mark.branches:
                path = canvas.beginPath()
                path.moveTo(*_middle(branch[0]))
                for cell in branch[1:]:
                    path.lineTo(*_middle(cell))
                canvas.drawPath(path)
            canvas.circle(*_middle(mark.branches[0][0]), 13, stroke=0, fill=1)
    canvas.setStrokeGray(0)
    canvas.setFillGray(0)


def _grid(
    canvas: Canvas, x: float, y: float, side: float, digits: Sequence[int], size: float
) -> None:
    for line in range(10):
        canvas.setLineWidth(0.45 if line % 3 else 1.3)
        canvas.line(x, y + line * side, x + 9 * side, y + line * side)
        canvas.line(x + line * side, y, x + line * side, y + 9 * side)
    canvas.setFont("digits", size)
    for cell, digit in enumerate(digits):
        if digit:
            column, row = cell % 9, 8 - cell // 9
            canvas.drawString(x + (column + 0.3) * side, y + (row + 0.3) * side, str(digit))


Task: TypeAlias = Callable[[tuple[Numbered, ...]], bytes]


@dataclass(frozen=True, slots=True)
class Cost:
    """What one run takes: seconds of the processor, and MiB that its peak lies over its start."""

    seconds: float
    memory: float


def cost(task: Task, puzzles: tuple[Numbered, ...]) -> Cost:
    """The cost of a run in a child process, which begins with all that this one has loaded."""
    with ProcessPoolExecutor(1, get_context("fork")) as child:
        return child.submit(_measured, task, puzzles).result()


def _measured(task: Task, puzzles: tuple[Numbered, ...]) -> Cost:
    before, started = _peak(), time.process_time()
    task(puzzles)
    return Cost(time.process_time() - started, _peak() - before)


def _peak() -> float:
    """The most memory that this process has had, in MiB (Linux counts it in KiB)."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> None:
    """Prints a line for each number of puzzles, medians over the rounds."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--puzzles", type=int, nargs="+", default=[100, 300, 1000])
    parser.add_argument("--rounds", type=int, default=3)
    options = parser.parse_args()
    every = numbered(max(options.puzzles))
    for warm in (ours, bare):
        warm(every[:20])
    print("puzzles  ours s  a puzzle ms  bare s  ratio  ours MiB  bare MiB  read s  read MiB")
    for count in options.puzzles:
        puzzles = every[:count]
        pairs = [(cost(ours, puzzles), cost(bare, puzzles)) for _ in range(options.rounds)]
        our, theirs = (median(each.seconds for each in side) for side in zip(*pairs, strict=True))
        ratio = median(one.seconds / other.seconds for one, other in pairs)
        with TemporaryDirectory() as folder:
            path = Path(folder) / "book.pdf"
            path.write_bytes(ours(puzzles))
            again = cost(partial(read_again, path), puzzles)
        room, floor = (median(each.memory for each in side) for side in zip(*pairs, strict=True))
        print(
            f"{count:7}  {our:6.2f}  {1000 * our / count:11.2f}  {theirs:6.2f}  {ratio:5.2f}  "
            f"{room:8.0f}  {floor:8.0f}  {again.seconds:6.2f}  {again.memory:8.0f}",
            flush=True,
        )


if __name__ == "__main__":
    main()
