"""How a newspaper's puzzle column looks: what a style sheet says under `column`."""

from dataclasses import dataclass
from typing import Annotated

from layout.lengths import Length
from layout.type.face import Face, Voices


@dataclass(frozen=True, slots=True)
class ColumnFaces:
    """The faces of everything that is said around one day's puzzle."""

    heading: Annotated[Face, "the column's title"]
    date: Annotated[Face, "the day"]
    number: Annotated[Face, "the puzzle's number"]
    constructor: Annotated[Face, "who made it"]
    grade: Annotated[Face, "how hard it is"]
    rules: Annotated[Voices, "its rules"]
    answer: Annotated[Face, "the title of an earlier day's answer"]
    answer_date: Annotated[Face, "what stands by the answer of an earlier day"]
    note: Annotated[Face, "the paper's own note"]


@dataclass(frozen=True, slots=True)
class ColumnStyle:
    """Everything about the look of a column but its cells, which are those of pages."""

    top: Annotated[float, Length(0.05, 10), "the width of the line above it all"]
    rule: Annotated[float, Length(0.05, 10), "the width of the other lines"]
    gap: Annotated[float, Length(0.5, 20), "the white between its parts"]
    gutter: Annotated[float, Length(0.5, 30), "the white between a grid and the words beside it"]
    beside: Annotated[
        float, Length(10, 200), "how wide words beside a grid are at least; else they stand below"
    ]
    faces: Annotated[ColumnFaces, "the fonts and sizes of everything that is said"]
