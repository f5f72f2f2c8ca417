"""The files of one day: drawn, written, and read back, in any process."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Final, TypeAlias

from layout.jobs.column.column_job import IN_PIXELS
from layout.jobs.column.season import DayKind
from layout.jobs.common.read_back import POINTS, FaultyFile
from layout.language.wording import rule_sentences
from layout.language.words import Words, fill, words_for
from layout.pages.column.column import Arrangement, ColumnDay, ShowItem, column_picture
from layout.pages.column.fragment import in_words, web_fragment
from layout.pages.common.misfit import Misfit, Misfits
from layout.picture.cannot import CannotDraw
from layout.picture.items import Picture
from layout.style.style import Style
from layout.writers.captions import Caption, with_caption
from layout.writers.pdf import pdf_of_picture
from layout.writers.raster import pixels, png_of_picture, tiff_of_picture
from layout.writers.svg import svg_of_picture

IN_PICTURES: Final = ("svg", "pdf", *IN_PIXELS)
"""Formats that show the whole column."""

TOLERANCE: Final = 0.1
"""Points that a page may be off by rounding."""


@dataclass(frozen=True, slots=True)
class ColumnDesign:
    """What all days of a paper have in common; `dpi` and `one_bit` are for pixels.

    `profile` tells how the press prints greys; it is empty where nobody asks.
    """

    style: Style
    language: str
    show: tuple[ShowItem, ...]
    dpi: int
    one_bit: bool
    arrange: Arrangement = "best"
    credit: str = ""
    profile: bytes = b""


@dataclass(frozen=True, slots=True)
class DayTask:
    """A day, how it is printed, and the format of each of its files by name."""

    day: ColumnDay
    kind: DayKind
    files: Mapping[str, str]
    design: ColumnDesign


DayFiles: TypeAlias = Mapping[str, bytes]


def day_files(task: DayTask) -> DayFiles | tuple[Misfit, ...]:
    """The bytes of each file by its name, or what does not fit: errors don't travel.

    Raises FaultyFile where a finished file is not what it should be.
    """
    try:
        return dict(zip(task.files, _bytes(task), strict=True))
    except Misfits as misfits:
        return misfits.found
    except CannotDraw as fault:
        return (Misfit(str(fault), puzzle=task.day.puzzle),)


def undrawn(task: DayTask) -> tuple[Misfit, ...]:
    """What is told of a day that no process lived to draw."""
    return (Misfit(f"{task.day.puzzle.id} could not be drawn in the memory there is"),)


def day_picture(day: ColumnDay, kind: DayKind, design: ColumnDesign) -> Picture:
    """The day as a paper prints it. Raises Misfits and CannotDraw for what does not fit."""
    words = words_for(design.language)
    width, depth = kind.width, kind.depth
    return column_picture(day, design.style, words, width, depth, design.show, design.arrange)


def _bytes(task: DayTask) -> Sequence[bytes]:
    """The bytes of each file, in the order of the task."""
    setting = task.design
    wanted = task.files.values()
    words = words_for(setting.language)
    data: dict[str, bytes] = {}
    if any(format_ in IN_PICTURES for format_ in wanted):
        picture = day_picture(task.day, task.kind, setting)
        for format_ in IN_PICTURES:
            if format_ in wanted:
                written = _written(picture, format_, setting)
                data[format_] = with_caption(written, caption_of(task.day, words, setting), format_)
    if "html" in wanted:
        width = task.kind.width
        text = web_fragment(task.day, setting.style, words, setting.language, width)
        data["html"] = text.encode("utf-8")
    if "txt" in wanted:
        data["txt"] = in_words(task.day, words).encode("utf-8")
    return [data[format_] for format_ in wanted]


def caption_of(day: ColumnDay, words: Words, setting: ColumnDesign) -> Caption:
    """What the day's images say of themselves."""
    title = day.heading
    if day.number is not None:
        title = words.lists.comma.join((title, fill(words.daily.number, number=day.number)))
    return Caption(
        title.replace("\u00a0", " "),
        " ".join(rule_sentences(day.puzzle, words)).replace("\u00a0", " "),
        day.puzzle.credits.constructor,
        setting.credit,
        day.date.isoformat() if day.date else "",
    )


def _written(picture: Picture, format_: str, setting: ColumnDesign) -> bytes:
    """A picture in one format, read back where a press takes it."""
    if format_ == "svg":
        return svg_of_picture(picture)
    if format_ == "pdf":
        data = pdf_of_picture(picture, profile=setting.profile)
        _check_page(data, picture)
        return data
    write = png_of_picture if format_ == "png" else tiff_of_picture
    data = write(picture, setting.dpi, one_bit=setting.one_bit, profile=setting.profile)
    _check_pixels(data, picture, setting.dpi)
    return data


def _check_page(data: bytes, picture: Picture) -> None:
    """One page, as large as the picture."""
    import pypdfium2

    pdf = pypdfium2.PdfDocument(data)
    try:
        sizes = [page.get_size() for page in pdf]
    finally:
        pdf.close()
    wanted = (picture.width * POINTS, picture.height * POINTS)
    if len(sizes) != 1 or any(
        abs(a - b) > TOLERANCE for a, b in zip(sizes[0], wanted, strict=True)
    ):
        raise FaultyFile(f"a finished page has the size {sizes}, not {wanted}")


def _check_pixels(data: bytes, picture: Picture, dpi: int) -> None:
    """As many pixels as the resolution asks for, and that resolution in the file."""
    from PIL import Image

    with Image.open(BytesIO(data)) as image:
        found = (*image.size, *(round(float(each)) for each in image.info["dpi"]))
    wanted = (pixels(picture.width, dpi), pixels(picture.height, dpi), dpi, dpi)
    if found != wanted:
        raise FaultyFile(f"a finished image has {found} for size and resolution, not {wanted}")
