"""How a newspaper's puzzle column looks: what a style sheet says under `column`."""

from dataclasses import dataclass
from typing import Annotated

from layout.lengths import Length
from layout.type.face import Face, Voices


@dataclass(frozen=True, slots=True)
class ColumnFaces:
    """The faces of everything that is said around one day's puzzle."""

    heading: Face
    date: Face
    number: Face
    constructor: Face
    grade: Face
    rules: Voices
    answer: Face
    answer_date: Face
    """What stands by the answer of an earlier day."""

    note: Face


@dataclass(frozen=True, slots=True)
class ColumnStyle:
    """Everything about the look of a column but its cells, which are those of pages.

    `top` is the width of the line above it all, `rule` that of the others. `gap` is the white
    between its parts, `gutter` that between a grid and the words beside it; these take at
    least `beside`, else they stand below.
    """

    top: Annotated[float, Length(0.05, 10)]
    rule: Annotated[float, Length(0.05, 10)]
    gap: Annotated[float, Length(0.5, 20)]
    gutter: Annotated[float, Length(0.5, 30)]
    beside: Annotated[float, Length(10, 200)]
    faces: ColumnFaces
