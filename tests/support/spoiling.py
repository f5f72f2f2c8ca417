"""A finished book, and ways to spoil its file: each does what goes wrong on the way to a press."""

from collections.abc import Callable, Iterator
from functools import cache
from io import BytesIO
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

import pikepdf

from layout.command import main
from layout.preflight.reading.content import Faces
from layout.preflight.reading.faces import Face
from verify.rules import RULES

JOB: Final = """\
job: book
title: The Small Almanac
author: Edited by Ida Marsh
trim: 6x9in
bleed: 3mm
sections:
  - title: Low Water
    puzzles: [thermometer.yaml, cage.yaml]
  - title: High Water
    puzzles: [dots.yaml, sandwich.yaml]
    per-page: 2
back:
  answers: {per-page: 4}
output:
  pdf: book.pdf
"""

PRINTED: Final = ("thermometer", "cage", "dots", "sandwich")
"""The rules whose examples are the puzzles of the book."""


def write_desk(folder: Path) -> Path:
    """The job and its puzzles in a folder; gives the path of the job."""
    for rule in RULES:
        if rule.name in PRINTED:
            (folder / f"{rule.name}.yaml").write_text(rule.example, encoding="utf-8")
    job = folder / "book.yaml"
    job.write_text(JOB, encoding="utf-8")
    return job


@cache
def finished() -> bytes:
    """The file of the book, made once."""
    with TemporaryDirectory() as folder:
        job = write_desk(Path(folder))
        assert main(["make", str(job), "--quiet"]) == 0
        return (job.parent / "book.pdf").read_bytes()


def spoiled(spoil: Callable[[Any], None]) -> bytes:
    """The file after something was done to it."""
    with pikepdf.open(BytesIO(finished())) as pdf:
        spoil(pdf)
        data = BytesIO()
        pdf.save(data, force_version=pdf.pdf_version, preserve_pdfa=False)
        return data.getvalue()


Instruction = tuple[list[Any], str]


def read(page: Any) -> list[Instruction]:
    """The operators of a page with what they are given."""
    return [
        (list(each.operands), str(each.operator)) for each in pikepdf.parse_content_stream(page)
    ]


def write(pdf: Any, page: Any, instructions: list[Instruction]) -> None:
    """Puts operators on a page in place of its own."""
    told = [(operands, pikepdf.Operator(name)) for operands, name in instructions]
    page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(told))


def texts(page: Any, instructions: list[Instruction]) -> Iterator[tuple[int, Face, str]]:
    """Where text is shown, its font and the text."""
    face, faces = None, Faces()
    for at, (operands, name) in enumerate(instructions):
        if name == "Tf":
            face = faces.face(page.Resources.Font[operands[0]])
        elif name in ("Tj", "TJ"):
            assert face is not None
            parts = operands[0] if name == "TJ" else operands
            shown = (bytes(each) for each in parts if isinstance(each, pikepdf.String))
            codes = (code for part in shown for code in face.codes(part))
            yield at, face, "".join(face.glyph(code).text for code in codes)


def place(page: Any, instructions: list[Instruction], text: str, nth: int = 0) -> tuple[int, Face]:
    """Where a page shows just this text, for the nth time."""
    found = [(at, face) for at, face, shown in texts(page, instructions) if shown == text]
    return found[nth]


def page_with(pdf: Any, text: str, nth: int = 0) -> Any:
    """The page that shows just this text, the nth of them."""
    pages = (page for page in pdf.pages if any(each[2] == text for each in texts(page, read(page))))
    return next(islice(pages, nth, None))


def say(pdf: Any, page: Any, old: str, new: str, nth: int = 0) -> None:
    """Shows other words in the place of some."""
    instructions = read(page)
    at, face = place(page, instructions, old, nth)
    codes = {glyph.text: code for code, glyph in face.glyphs.items() if glyph.drawn}
    instructions[at] = [pikepdf.String(bytes(codes[char] for char in new))], "Tj"
    write(pdf, page, instructions)


def add(pdf: Any, page: Any, content: str) -> None:
    """Paints something more on a page."""
    page.contents_add(pdf.make_stream(content.encode()))


def move(pdf: Any, page: Any, text: str, right: float, up: float = 0.0, nth: int = 0) -> None:
    """Shows some words elsewhere."""
    instructions = read(page)
    at, _ = place(page, instructions, text, nth)
    begin = max(index for index in range(at) if instructions[index][1] == "Tm")
    matrix = [float(number) for number in instructions[begin][0]]
    matrix[4:] = [matrix[4] + right, matrix[5] + up]
    instructions[begin] = matrix, "Tm"
    write(pdf, page, instructions)


def paths(page: Any) -> list[tuple[int, int]]:
    """Where each path of a page begins among its operators, and where it is painted."""
    found, begin = [], 0
    for at, (_, name) in enumerate(read(page)):
        if name == "n":
            begin = at
        elif name in ("S", "f"):
            found.append((begin, at))
    return found


def corners(instructions: list[Instruction], path: tuple[int, int]) -> list[tuple[float, float]]:
    """The points of a path."""
    numbers = [
        float(each) for told, name in instructions[slice(*path)] if name != "re" for each in told
    ]
    return list(zip(numbers[::2], numbers[1::2], strict=False))


def shift(
    pdf: Any, page: Any, which: Callable[[list[tuple[float, float]]], bool], right: float, up: float
) -> int:
    """Moves the paths that are asked for; says how many there were."""
    instructions, count = read(page), 0
    for path in paths(page):
        if which(corners(instructions, path)):
            count += 1
            for at in range(*path):
                told, name = instructions[at]
                if name in ("m", "l", "c"):
                    moved = [
                        float(each) + (up if index % 2 else right)
                        for index, each in enumerate(told)
                    ]
                    instructions[at] = moved, name
    write(pdf, page, instructions)
    return count
