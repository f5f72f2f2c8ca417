"""How pages look: what a style sheet says under `page`."""

from dataclasses import dataclass
from typing import Annotated, TypeAlias

from layout.lengths import Length, Share
from layout.type.face import Face, Voices

OfTrim: TypeAlias = Annotated[float, Share(2, 30, "the trim")]
"""A margin as a share of the trim: of its width at the sides, of its height above and below."""


@dataclass(frozen=True, slots=True)
class Margins:
    """What stays free around the words and grids of a page.

    `inside` is all of it in a thin booklet; in a thicker book the back hides some more (`Binding`).
    The running head stands in the top margin and the folio in the foot margin.
    """

    inside: Annotated[OfTrim, "the margin next to the spine, by the width; a thick book adds some"]
    outside: Annotated[OfTrim, "the margin away from the spine, by the width"]
    top: Annotated[OfTrim, "the margin above, by the height"]
    foot: Annotated[OfTrim, "the margin below, by the height"]
    head: Annotated[OfTrim, "how far the running head's baseline is from the trim, by the height"]
    folio: Annotated[OfTrim, "how far the folio's baseline is from the trim, by the height"]


@dataclass(frozen=True, slots=True)
class Binding:
    """How much of an inside margin the back of a book hides, so that it is added.

    A book of many leaves opens less. By these bounds no leaf adds more than 0.2 mm.
    """

    leaf: Annotated[float, Length(0.03, 0.4), "how thick one leaf is"]
    hidden: Annotated[float, Share(0, 50, "the book's thickness"), "what goes under in the fold"]
    most: Annotated[float, Length(0, 25), "the most that is added for it"]


@dataclass(frozen=True, slots=True)
class Cells:
    """Bounds for a cell's side."""

    smallest: Annotated[float, Length(1, 50), "the least side of a cell to write in"]
    largest: Annotated[float, Length(1, 100), "the largest side of a cell to write in"]
    smallest_in_answers: Annotated[float, Length(1, 50), "the least side of a cell in an answer"]
    largest_in_answers: Annotated[float, Length(1, 100), "the largest side of a cell in an answer"]
    smallest_in_steps: Annotated[float, Length(1, 50), "the least side with pencil marks in it"]
    largest_in_steps: Annotated[float, Length(1, 100), "the largest side with pencil marks in it"]


@dataclass(frozen=True, slots=True)
class Faces:
    """The faces of everything that is said on a page."""

    prose: Annotated[Voices, "introductions and what is taught"]
    half_title: Annotated[Face, "the title on the first page"]
    book_title: Annotated[Face, "the title on the title page"]
    subtitle: Annotated[Face, "what stands under it"]
    author: Annotated[Face, "the author on the title page"]
    imprint: Annotated[Face, "who publishes the book"]
    chapter: Annotated[Face, "titles of sections, of the contents and of other parts of the book"]
    heading: Annotated[Face, "what a page of the rules teaches"]
    entry: Annotated[Face, "a part's line in the contents"]
    index: Annotated[Face, "a name in the index"]
    title: Annotated[Face, "the title of a puzzle that has the page to itself"]
    number: Annotated[Face, "its number"]
    credit: Annotated[Face, "who made it"]
    rules: Annotated[Voices, "its rules"]
    note: Annotated[Face, "notes beside it: its answer's page, how hard it is"]
    lesser_title: Annotated[Face, "the title of a puzzle that shares the page"]
    lesser_number: Annotated[Face, "its number"]
    lesser_credit: Annotated[Face, "who made it"]
    lesser_rules: Annotated[Voices, "its rules"]
    lesser_note: Annotated[Face, "the note that names its answer's page"]
    caption: Annotated[Face, "the title of an answer"]
    caption_number: Annotated[Face, "its number"]
    caption_note: Annotated[Face, "the note that names its puzzle's page"]
    head: Annotated[Face, "the running head"]
    folio: Annotated[Face, "the number of the page"]


@dataclass(frozen=True, slots=True)
class PageStyle:
    """Everything about the look of a page."""

    margins: Annotated[Margins, "what stays free around the words and grids"]
    binding: Annotated[Binding, "what the back of a thick book hides"]
    cells: Annotated[Cells, "bounds for a cell's side"]
    least: Annotated[float, Length(1.4, 20), "the smallest letter where a title has to shrink"]
    measure: Annotated[float, Length(20, 400), "the widest column of prose"]
    justified: Annotated[bool, "whether lines of prose are justified, or end ragged"]
    gap: Annotated[float, Length(1, 50), "what is kept between puzzles side by side"]
    faces: Annotated[Faces, "the fonts and sizes of everything that is said"]
    coordinates: Annotated[
        bool, "whether rows and columns of puzzles are numbered, small and grey, outside the frame"
    ] = False
    heads_in_ink: Annotated[
        bool, "whether titles in books are in the spot ink that `board` tells, instead of black"
    ] = False
