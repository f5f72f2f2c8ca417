"""How pages look: what a style sheet says under `page`."""

from dataclasses import dataclass
from typing import Annotated, TypeAlias

from layout.lengths import Length, Share
from layout.type.face import Face, Voices

OfTrim: TypeAlias = Annotated[float, Share(2, 30)]
"""A margin as a share of the trim: of its width at the sides, of its height above and below."""

Ink: TypeAlias = Annotated[float, Share(0, 100)]


@dataclass(frozen=True, slots=True)
class Margins:
    """What stays free around the words and grids of a page.

    `inside` is next to the spine, and is all of it in a thin booklet; in a thicker book the
    back hides some more (`Binding`). The running head stands in the top margin and the folio in
    the foot margin: `head` and `folio` are how far their baselines lie from the trim.
    """

    inside: OfTrim
    outside: OfTrim
    top: OfTrim
    foot: OfTrim
    head: OfTrim
    folio: OfTrim


@dataclass(frozen=True, slots=True)
class Binding:
    """How much of an inside margin the back of a book hides, so that it is added.

    A book of many leaves opens less: `hidden` is what goes under in the fold, as a share of the
    book's thickness, up to `most` millimetres; `leaf` is how thick one leaf is. By these bounds
    no leaf adds more than 0.2 mm.
    """

    leaf: Annotated[float, Length(0.03, 0.4)]
    hidden: Annotated[float, Share(0, 50)]
    most: Annotated[float, Length(0, 25)]


@dataclass(frozen=True, slots=True)
class Cells:
    """Bounds for a cell's side: to write in it, to read it in an answer, and with pencil marks."""

    smallest: Annotated[float, Length(1, 50)]
    largest: Annotated[float, Length(1, 100)]
    smallest_in_answers: Annotated[float, Length(1, 50)]
    largest_in_answers: Annotated[float, Length(1, 100)]
    smallest_in_steps: Annotated[float, Length(1, 50)]
    largest_in_steps: Annotated[float, Length(1, 100)]


@dataclass(frozen=True, slots=True)
class Faces:
    """The faces of everything that is said on a page."""

    prose: Voices
    """Introductions and what is taught."""

    half_title: Face
    book_title: Face
    subtitle: Face
    author: Face
    imprint: Face
    chapter: Face
    """Titles of sections, of the contents and of the other parts of the book."""

    heading: Face
    """What a page of the rules teaches."""

    entry: Face
    index: Face
    """A part's line in the contents, and a name in the index."""

    title: Face
    number: Face
    credit: Face
    rules: Voices
    note: Face
    """A puzzle that has the page to itself; the note names its answer's page."""

    lesser_title: Face
    lesser_number: Face
    lesser_credit: Face
    lesser_rules: Voices
    lesser_note: Face
    """A puzzle that shares the page."""

    caption: Face
    caption_number: Face
    caption_note: Face
    """An answer; the note names its puzzle's page."""

    head: Face
    folio: Face


@dataclass(frozen=True, slots=True)
class PageStyle:
    """Everything about the look of a page.

    `least` is the smallest letter that may come out where a title has to shrink. `measure` is
    the widest column of prose, whose lines are `justified` or end ragged. `gap` is what is kept
    between puzzles side by side.
    """

    margins: Margins
    binding: Binding
    cells: Cells
    least: Annotated[float, Length(1.4, 20)]
    measure: Annotated[float, Length(20, 400)]
    justified: bool
    gap: Annotated[float, Length(1, 50)]
    faces: Faces
