"""How pages look: what a style sheet says under `page`."""

from dataclasses import dataclass
from typing import Annotated, TypeAlias

from layout.record import Length, Share
from layout.type.face import Face, Voices

OfTrim: TypeAlias = Annotated[float, Share(2, 30)]
"""A margin as a share of the trim: of its width at the sides, of its height above and below."""

Ink: TypeAlias = Annotated[float, Share(0, 100)]


@dataclass(frozen=True, slots=True)
class Margins:
    """What stays free around the words and grids of a page.

    `inside` is next to the spine. The running head stands in the top margin and the folio in
    the foot margin: `head` and `folio` are how far their baselines lie from the trim.
    """

    inside: OfTrim
    outside: OfTrim
    top: OfTrim
    foot: OfTrim
    head: OfTrim
    folio: OfTrim


@dataclass(frozen=True, slots=True)
class Cells:
    """Bounds for a cell's side: to write in it, and to read it in an answer."""

    smallest: Annotated[float, Length(1, 50)]
    largest: Annotated[float, Length(1, 100)]
    smallest_in_answers: Annotated[float, Length(1, 50)]
    largest_in_answers: Annotated[float, Length(1, 100)]


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
    """Titles of sections, of the contents and of other parts of the book."""

    heading: Face
    """Titles of pages inside a part."""

    title: Face
    """A puzzle's title where it has the page to itself."""

    lesser_title: Face
    """A puzzle's title where it shares the page."""

    number: Face
    credit: Face
    rules: Voices
    """The rule text beside a puzzle."""

    note: Face
    """What is said about a puzzle: its answer's page."""

    caption: Face
    """Title and page of an answer."""

    caption_number: Face
    entry: Face
    """A line of the contents."""

    index: Face
    head: Face
    """The running head."""

    folio: Face


@dataclass(frozen=True, slots=True)
class PageStyle:
    """Everything about the look of a page.

    `least` is the smallest letter that may come out where a title has to shrink. `measure`
    is the widest column of prose, `gap` what is kept between puzzles side by side, `hairline`
    the width of the few lines that pages draw themselves.
    """

    margins: Margins
    cells: Cells
    least: Annotated[float, Length(1.4, 20)]
    measure: Annotated[float, Length(20, 400)]
    gap: Annotated[float, Length(1, 50)]
    hairline: Annotated[float, Length(0.08, 2)]
    faces: Faces
