"""Words of worksheets, and short sentences for young readers."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from layout.language.sentence import Sentence, SentenceValue


@dataclass(frozen=True, slots=True)
class YoungHouseWords:
    """What young readers are told of rows, columns, boxes and regions, in short sentences."""

    each: str
    each_to_its_size: str
    each_its_own: str
    each_of_several: str
    each_with_holes: str
    using: str
    none: str
    teach: str
    start: str


@dataclass(frozen=True, slots=True)
class YoungWords:
    """Short sentences for young readers; a saying that is not here is told as to anybody."""

    task: Annotated[Sentence, SentenceValue()]
    cross_out: str
    houses: YoungHouseWords
    says: Mapping[str, Annotated[Sentence, SentenceValue()]]


@dataclass(frozen=True, slots=True)
class BeginWords:
    """How a digit is placed, told to somebody who has never done it; by the way it is found."""

    last_cell: str
    hidden_single: str
    naked_single: str


@dataclass(frozen=True, slots=True)
class WorksheetWords:
    """What worksheets and their keys say.

    `task` is for one puzzle or several, `cross_out` for the small digits in the cells; `givens`
    counts those of a rung, `strips` and `pupils` head parts of the key. `step` stands beside the
    worked examples, where first-timers are told of a marked `cell` how to `begin`. `shapes` names
    each drawn shape.
    """

    name: str
    date: str
    task: Annotated[Sentence, SentenceValue()]
    cross_out: str
    notes: str
    form: str
    page: str
    key: str
    givens: Annotated[Sentence, SentenceValue()]
    strips: str
    pupils: str
    first: str
    first_note: str
    example: str
    step: str
    cell: str
    begin: BeginWords
    shapes: Mapping[str, str]
    young: YoungWords
