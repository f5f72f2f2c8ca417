"""Words of a book's own pages: headings, grades and hints."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from layout.language.sentence import Sentence, SentenceValue
from verify.reading.record import Word


@dataclass(frozen=True, slots=True)
class BookWords:
    """What pages say about themselves."""

    contents: str
    how_to_solve: str
    hints: str
    answers: str
    walks: str
    walks_note: str
    walks_intro: Annotated[str, Word(4000)]
    foreword: str
    afterword: str
    about: str
    constructors: str
    constructors_note: str
    hint_tiers: tuple[str, ...]
    hints_on: str
    hints_on_pages: str
    answer_on: str
    answers_on: str
    answers_on_pages: str
    puzzle_on: str
    on_page: str
    one_puzzle: str
    puzzles: str
    puzzles_of_grade: str
    example: str
    example_answer: str
    isbn: str
    proved: str
    draft: str
    colophon_fonts: str
    colophon_proved: Annotated[Sentence, SentenceValue()]
    colophon_checksum: str


@dataclass(frozen=True, slots=True)
class GradeWords:
    """What the bands are called, by their English words; how a gauge of marks is told aloud.

    `range` goes from the easiest to the hardest of some puzzles.
    """

    bands: Mapping[str, str]
    gauge: str
    range: str


@dataclass(frozen=True, slots=True)
class SoFarWords:
    """What is said of a grid that somebody has filled in part, before the hint at the next step.

    `which` names the cells that are wrong; `done` is for a full grid, `no_way` where no technique
    gets on, `time_over` where none was found in time.
    """

    right: str
    wrong: Annotated[Sentence, SentenceValue()]
    which: str
    done: str
    no_way: str
    time_over: str


@dataclass(frozen=True, slots=True)
class HintWords:
    """What stands over the hints, and what each technique is hinted at with, in several ways.

    `at_once`, `after_singles` and `later` say when to look at a place: a mark, a house, a cell.
    """

    intro: Annotated[str, Word(4000)]
    at_once: str
    after_singles: str
    later: str
    at_mark: str
    at_house: str
    at_cell: str
    so_far: SoFarWords
    says: Mapping[str, tuple[str, ...]]
