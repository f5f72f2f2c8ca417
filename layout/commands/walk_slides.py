"""`reglet walk PUZZLE.yaml --slides DIR`: images for a wall, and notes of what is said."""

import json
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.console import counted, tell

if TYPE_CHECKING:
    from layout.output.write import Check
    from layout.pages.walk.slides import Slide
    from layout.pages.walk.walk_pages import PrintedWalk
    from layout.picture.items import Picture
    from layout.style.style import Style
    from verify.puzzle import Puzzle

IMAGES: Final = ("svg", "png")
EACH: Final = ("paragraph", "sentence")

NOTES: Final = "notes.json"

DPI: Final = 144
"""A slide then has 1920 by 1080 pixels."""

_OURS: Final = re.compile(r"slide-\d{3,}\.(svg|png)")


def write_slides(
    path: "PrintedWalk",
    style: "Style",
    language: str,
    place: Path,
    images: str,
    *,
    by_sentence: bool,
    inputs: Sequence[Path],
    quiet: bool,
) -> None:
    """Writes all images and the notes, or none of them; older slides in the folder go.

    Raises CannotDraw where something can't be drawn, and OutputError where it can't be written,
    or is one of the `inputs`.
    """
    from layout.language.words import read_words
    from layout.output.files import refuse_inputs
    from layout.output.write import outputs_in
    from layout.pages.walk.slides import walk_slides

    words = read_words(language)
    slides = walk_slides(path, style, words, by_sentence=by_sentence)
    in_one = place.suffix.lower() == ".pdf"
    files = [place] if in_one else [place / _name(each, images) for each, _ in _numbered(slides)]
    for file in (*files, _notes_path(place)):
        refuse_inputs(file, inputs)
    folder = place.parent if in_one else place
    with outputs_in([folder], f"slides of {path.puzzle.id}", lambda told: tell(told, quiet)) as out:
        if in_one:
            out.write_all(_document(path, slides, place, language))
        else:
            out.write_all(_images(path.puzzle, slides, place, images), _older(place))
    tell(f"{place}: {counted(len(slides), 'slide')}", quiet)


def _notes_path(place: Path) -> Path:
    """Where the notes are written: in the folder, or beside the one file."""
    return place.with_suffix(f".{NOTES}") if place.suffix.lower() == ".pdf" else place / NOTES


def _numbered(slides: "Sequence[Slide]") -> "Iterator[tuple[int, Slide]]":
    return enumerate(slides, start=1)


def _document(
    path: "PrintedWalk", slides: "Sequence[Slide]", place: Path, language: str
) -> "Iterator[tuple[Path, bytes, Check | None]]":
    """The slides in one file, read back, and their notes."""
    from layout.jobs.common.read_back import read_back
    from layout.language.words import read_words
    from layout.pages.walk.slides import slides_document
    from layout.writers.pdf import pdf_of_document

    document = slides_document([(path, slides)], read_words(language))
    yield place, pdf_of_document(document), lambda beside: read_back(beside, document)
    names = [f"{place.name}#page={number}" for number, _ in _numbered(slides)]
    yield _notes_path(place), _notes(path.puzzle, slides, names), None


def _images(
    puzzle: "Puzzle", slides: "Sequence[Slide]", folder: Path, images: str
) -> "Iterator[tuple[Path, bytes, Check | None]]":
    """A file for each slide, and the notes."""
    names = [_name(number, images) for number, _ in _numbered(slides)]
    for name, slide in zip(names, slides, strict=True):
        yield folder / name, _image(slide.picture, images), None
    yield folder / NOTES, _notes(puzzle, slides, names), None


def _image(picture: "Picture", images: str) -> bytes:
    from layout.writers.raster import png_of_picture
    from layout.writers.svg import svg_of_picture

    return png_of_picture(picture, DPI) if images == "png" else svg_of_picture(picture)


def _name(number: int, images: str) -> str:
    return f"slide-{number:03}.{images}"


def _older(folder: Path) -> list[Path]:
    """Slides of an earlier run, which its notes stand beside."""
    if not (folder / NOTES).is_file():
        return []
    return sorted(path for path in folder.iterdir() if _OURS.fullmatch(path.name))


def _notes(puzzle: "Puzzle", slides: "Sequence[Slide]", names: Sequence[str]) -> bytes:
    """What is said with each slide, for subtitles and for whoever speaks."""
    board = puzzle.board
    told: list[dict[str, Any]] = [
        {
            "number": number,
            "image": name,
            "words": slide.words,
            "places": {board.name(cell): puzzle.symbol(digit) for cell, digit in slide.places},
        }
        for (number, slide), name in zip(_numbered(slides), names, strict=True)
    ]
    document = {"title": puzzle.title, "slides": told}
    return (json.dumps(document, ensure_ascii=False, indent=2) + "\n").encode()
