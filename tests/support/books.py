"""Small jobs and books for the tests, and ways to read a finished book back."""

from collections.abc import Iterable
from ctypes import c_double, create_string_buffer
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pypdfium2
from pypdfium2 import raw

from layout.language.words import read_words
from layout.pages.book.pagination import Paginated, paginate
from layout.pages.common.book import Book, Imprint, Numbered, Section
from layout.pages.common.format import Trim
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_document
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.rules import RULES
from verify.walk.report.grade import Grade, grade
from verify.walk.told.path import ToldPath, told_path
from verify.walk.walk import walk

POINT = 25.4 / 72
SIX_BY_NINE = Trim(152.4, 228.6, 3.0)

GRID = ("1234", "3412", "2341", "4123")
OPEN = ("1..4", "..1.", "2...", "...3")
"""A 4x4 puzzle with one answer, and that answer, which reads otherwise however it is turned."""


def manifest(
    number: int, title: str | None = None, constructor: str = "Ida Marsh", answers: int = 1
) -> str:
    """A 4x4 puzzle of its own for each number; with `answers` not 1 it has many, or none."""
    order = "1234"[number % 4 :] + "1234"[: number % 4]
    rows = {1: OPEN, 2: ("....", "....", "2...", "...3"), 0: ("11..", *OPEN[1:])}[answers]
    grid = "\n".join("  " + row.translate(str.maketrans("1234", order)) for row in rows)
    lines = [f'title: "{title or f"Reed {number}"}"', "kind: sudoku", "size: 4"]
    lines += [f"constructor: {constructor}"] if constructor else []
    return "\n".join([*lines, "givens: |", grid, ""])


JOB = """\
job: book
title: The Small Almanac
subtitle: Puzzles for low tide
author: Edited by Ida Marsh
imprint: {publisher: Tidewrack Press, edition: First edition, isbn: 979-4-1706-0345-1}
trim: 6x9in
bleed: 3mm
sections:
  - title: Low Water
    intro: |
      The creeks have drained, and the herons stand about like posts.
    puzzles: [low/*.yaml]
    per-page: 1
  - title: High Water
    puzzles: [high/*.yaml]
    per-page: 2
back:
  answers: {per-page: 4}
output:
  pdf: build/book.pdf
"""


def write_job(folder: Path, job: str = JOB, low: int = 3, high: int = 3) -> Path:
    """A job with its puzzles in a folder; gives the path of the job."""
    number = 0
    for name, count in (("low", low), ("high", high)):
        (folder / name).mkdir(parents=True, exist_ok=True)
        for _ in range(count):
            number += 1
            (folder / name / f"reed-{number}.yaml").write_text(manifest(number))
    path = folder / "book.yaml"
    path.write_text(job, encoding="utf-8")
    return path


@cache
def solved(text: str) -> tuple[Puzzle, tuple[int, ...], ToldPath, Grade]:
    """The puzzle of a manifest's text, its answer, its path and its grade."""
    puzzle = puzzle_from_text(text)
    graded = grade(walk(puzzle, reasons=False))
    return puzzle, prove(puzzle).answers[0], told_path(puzzle), graded


def book_of(
    sections: Iterable[tuple[str, str, Iterable[str], int]],
    title: str = "The Small Almanac",
    answers: int = 4,
) -> Book:
    """A book from `(title, intro, manifests, per_page)`; ids are made from the numbers."""
    number, made = 0, []
    for name, intro, texts, per_page in sections:
        puzzles = []
        for text in texts:
            number += 1
            puzzles.append(Numbered(number, *solved(f"id: reed-{number}\n{text}")))
        made.append(Section(name, intro, tuple(puzzles), per_page))
    imprint = Imprint("Tidewrack Press", "First edition", "979-4-1706-0345-1")
    return Book(title, "Low tide", "Ida Marsh", imprint, tuple(made), answers)


def rule_examples() -> list[str]:
    """The example of every rule, as the manifests of a section."""
    return [rule.example for rule in RULES]


def printed(
    book: Book, style: str = "paperback", trim: Trim = SIX_BY_NINE, language: str = "en-GB"
) -> tuple["Printed", Paginated]:
    """A book set and written, and read back; with the labels that pagination gave."""
    words = read_words(language.partition("-")[0])
    laid = paginate(book, read_style(style), words, language, trim)
    return Printed(pdf_of_document(laid.document), trim), laid


def targets(reader: Any, at: int) -> set[int]:
    """Pages that the links of a page lead to, by pypdf."""
    ids = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages)}
    return {
        ids[note.get_object()["/Dest"][0].idnum] for note in reader.pages[at].get("/Annots") or ()
    }


@dataclass(frozen=True)
class Char:
    """A character with its ink, in millimetres from the upper left corner of the trim."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    origin: tuple[float, float]
    size: float
    font: str

    @property
    def centre(self) -> tuple[float, float]:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2


@dataclass(frozen=True)
class Square:
    """The frame of a board, in millimetres from the upper left corner of the trim."""

    left: float
    top: float
    right: float
    bottom: float

    def holds(self, point: tuple[float, float]) -> bool:
        return self.left < point[0] < self.right and self.top < point[1] < self.bottom


class Printed:
    """A finished file, read back with pdfium."""

    def __init__(self, data: bytes, trim: Trim = SIX_BY_NINE) -> None:
        self.data, self.trim = data, trim
        self.pdf = pypdfium2.PdfDocument(data)
        self.pages = [self.pdf[index] for index in range(len(self.pdf))]

    def __len__(self) -> int:
        return len(self.pages)

    def label(self, index: int) -> str:
        return str(self.pdf.get_page_label(index))

    def labels(self) -> list[str]:
        return [self.label(index) for index in range(len(self))]

    def text(self, index: int) -> str:
        text = str(self.pages[index].get_textpage().get_text_range())
        return text.replace("\r\n", "\n").replace("\u00a0", " ").replace("\ufffe", "-")

    @cache  # noqa: B019 - a test's document, gone with it
    def chars(self, index: int) -> list[Char]:
        """The characters of a page that have ink."""
        page = self.pages[index].get_textpage()
        found = []
        for at in range(page.count_chars()):
            text = page.get_text_range(at, 1)
            if text.strip():
                found.append(self._char(page, at, text))
        return found

    def _char(self, page: Any, at: int, text: str) -> Char:
        left, bottom, right, top = (value * POINT for value in page.get_charbox(at))
        x, y = c_double(), c_double()
        raw.FPDFText_GetCharOrigin(page, at, x, y)
        name = create_string_buffer(200)
        raw.FPDFText_GetFontInfo(page, at, name, 200, None)
        size = raw.FPDFText_GetFontSize(page, at) * POINT
        bleed, height = self.trim.bleed, self.trim.height + self.trim.bleed
        return Char(
            text,
            left - bleed,
            height - top,
            right - bleed,
            height - bottom,
            (x.value * POINT - bleed, height - y.value * POINT),
            size,
            name.value.decode(),
        )

    @cache  # noqa: B019
    def boards(self, index: int) -> list[Square]:
        """The frames of a page's boards, row by row: the squares that lie in no other."""
        bleed, height = self.trim.bleed, self.trim.height + self.trim.bleed
        squares = []
        for thing in self.pages[index].get_objects(max_depth=3):
            if thing.type != raw.FPDF_PAGEOBJ_PATH:
                continue
            left, bottom, right, top = (value * POINT for value in thing.get_bounds())
            if abs((right - left) - (top - bottom)) < 0.2 and right - left > 8:
                box = (left - bleed, height - top, right - bleed, height - bottom)
                squares.append(Square(*box))
        outer = [
            one
            for one in squares
            if not any(
                two is not one
                and two.left <= one.left
                and two.top <= one.top
                and two.right >= one.right
                and two.bottom >= one.bottom
                for two in squares
            )
        ]
        return sorted(outer, key=lambda square: (round(square.top), square.left))

    def grid(self, index: int, board: Square, size: int, least: float = 0.3) -> list[str]:
        """What stands in the cells of a board: rows of texts, by where the ink's middle lies.

        Characters lower than `least` of a cell are labels and left out.
        """
        rows = [["."] * size for _ in range(size)]
        cell = (board.right - board.left) / size
        for char in self.chars(index):
            if board.holds(char.centre) and char.bottom - char.top > least * cell:
                x, y = char.centre
                rows[int((y - board.top) / cell)][int((x - board.left) / cell)] = char.text
        return ["".join(row) for row in rows]

    def lines(self, index: int) -> list[tuple[str, list[Char]]]:
        """The page's lines of text as `(text, characters)`, each on its baseline."""
        rows: dict[float, list[Char]] = {}
        for char in self.chars(index):
            rows.setdefault(round(char.origin[1], 1), []).append(char)
        ordered = [sorted(row, key=lambda char: char.left) for _, row in sorted(rows.items())]
        return [("".join(char.text for char in row), row) for row in ordered]

    def overlaps(self, index: int, slack: float = 0.12) -> list[tuple[object, ...]]:
        """Pairs of characters whose ink lies over one another, none in the same word."""
        found: list[tuple[object, ...]] = []
        chars = sorted(self.chars(index), key=lambda char: char.left)
        for at, one in enumerate(chars):
            for two in chars[at + 1 :]:
                if two.left >= one.right - slack:
                    break
                apart = min(one.bottom, two.bottom) - max(one.top, two.top) <= slack
                neighbours = one.origin[1] == two.origin[1] and two.left > one.left + slack
                if not apart and not neighbours:
                    found.append((one.text, two.text, one.origin, two.origin))
        return found

    def words_over_boards(self, index: int) -> list[Char]:
        """Characters whose ink crosses the frame of a board: neither inside nor outside."""
        return [
            char
            for char in self.chars(index)
            for board in self.boards(index)
            if board.left < char.right
            and char.left < board.right
            and board.top < char.bottom
            and char.top < board.bottom
            and not board.holds(char.centre)
        ]
