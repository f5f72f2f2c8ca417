"""The sentences that pages print, in the language of the job.

One file of `styles/words` is one language.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from types import MappingProxyType
from typing import Annotated, Any, Final

from layout.shipped import shipped_words
from layout.type.typography import Quotes
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Node, Text
from verify.reading.problems import Problems
from verify.reading.record import Record, Word, read_record
from verify.rule import Saying


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence about one mark, and about several."""

    one: str
    many: str

    def of(self, count: int) -> str:
        """The sentence in the right number."""
        return self.one if count == 1 else self.many


class SentenceValue:
    """A sentence for any number, or `{one: ..., many: ...}`."""

    def read(self, node: Node, problems: Problems) -> Sentence | None:
        """The sentence in both numbers."""
        if isinstance(node, Text):
            text = Word().read(node, problems)
            return None if text is None else Sentence(text, text)
        return read_record(node, Sentence, problems)

    def schema(self) -> Mapping[str, Any]:
        """Text or an object."""
        return {"oneOf": [Word().schema(), Record(Sentence).schema()]}


@dataclass(frozen=True, slots=True)
class Pages:
    """What pages say about themselves."""

    contents: str
    how_to_solve: str
    hints: str
    answers: str
    walks: str
    walks_note: str
    walks_intro: Annotated[str, Word(4000)]
    constructors: str
    constructors_note: str
    hints_on: str
    answer_on: str
    puzzle_on: str
    on_page: str
    one_puzzle: str
    puzzles: str
    puzzles_of_grade: str
    example: str
    example_answer: str
    isbn: str
    proved: str


@dataclass(frozen=True, slots=True)
class Dates:
    """How a day is written, with its year and without; Monday and January come first."""

    full: str
    short: str
    weekdays: tuple[str, ...]
    months: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DailyWords:
    """What stands around one day's puzzle in a newspaper."""

    number: str
    constructor: str
    previous: str


@dataclass(frozen=True, slots=True)
class BoardWords:
    """A board in words: `boxed` and `grid` say how large it is, with boxes and without.

    `held` is a digit in its place; `arrow_in` and `arrow_out` are arrows outside the board.
    """

    grid: str
    boxed: str
    row: str
    held: str
    empty: str
    arrow_in: str
    arrow_out: str


@dataclass(frozen=True, slots=True)
class WebWords:
    """What stands around a day's puzzle on a web page, or in a text without pictures."""

    rules: str
    answer: str


@dataclass(frozen=True, slots=True)
class GradeWords:
    """What the bands are called, by their English words; how a gauge of marks is told aloud.

    `range` goes from the easiest to the hardest of some puzzles.
    """

    bands: Mapping[str, str]
    gauge: str
    range: str


class Spaced(Word):
    """Text that keeps the spaces around it."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """The text as it stands."""
        return None if Word.read(self, node, problems) is None else getattr(node, "text", None)


@dataclass(frozen=True, slots=True)
class Lists:
    """What stands between the things of a list, and before its last.

    A semicolon parts things that are lists themselves.
    """

    comma: Annotated[str, Spaced()]
    and_: Annotated[str, Spaced()]
    or_: Annotated[str, Spaced()]
    semicolon: Annotated[str, Spaced()]

    def join(self, things: Sequence[str]) -> str:
        """The things of a list in running text."""
        return self._joined(things, self.and_)

    def either(self, things: Sequence[str]) -> str:
        """The things of a list, of which one will do."""
        return self._joined(things, self.or_)

    def _joined(self, things: Sequence[str], before_last: str) -> str:
        *others, last = things
        return self.comma.join(others) + before_last + last if others else last


@dataclass(frozen=True, slots=True)
class SymbolWords:
    """What a symbol of a grid is called, several of them, and all of them in one phrase."""

    one: str
    many: str
    all: str


@dataclass(frozen=True, slots=True)
class Symbols:
    """Words for grids of digits, of letters, of both, of drawn shapes, and of anything else."""

    digits: SymbolWords
    letters: SymbolWords
    digits_and_letter: SymbolWords
    digits_and_letters: SymbolWords
    shapes: SymbolWords
    others: SymbolWords


@dataclass(frozen=True, slots=True)
class Houses:
    """Words for rows, columns, boxes and regions, which are told in one sentence."""

    each: str
    each_to_its_size: str
    each_its_own: str
    each_of_several: str
    each_with_holes: str
    using: str
    none: str
    row: str
    column: str
    box: str
    region: str
    rows: str
    columns: str
    boxes: str
    teach: str
    start: str


@dataclass(frozen=True, slots=True)
class RuleWords:
    """A rule's title, what is taught about it (light markup), and its sentences by their key.

    `called` names one of its marks in a walk; houses have names of their own. `hint` says what
    to ask of a mark; without it a mark is hinted at as any other.
    """

    title: str
    teach: Annotated[str, Word(4000)]
    says: Mapping[str, Annotated[Sentence, SentenceValue()]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    called: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class YoungHouses:
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
    houses: YoungHouses
    says: Mapping[str, Annotated[Sentence, SentenceValue()]]


@dataclass(frozen=True, slots=True)
class WorksheetWords:
    """What worksheets and their keys say.

    `task` is for one puzzle or several, `cross_out` for the small digits in the cells. `step`
    and `cells` stand beside the worked examples. `shapes` names each drawn shape.
    """

    name: str
    date: str
    task: Annotated[Sentence, SentenceValue()]
    cross_out: str
    work: str
    form: str
    page: str
    key: str
    first: str
    first_note: str
    example: str
    step: str
    shapes: Mapping[str, str]
    young: YoungWords


@dataclass(frozen=True, slots=True)
class HousePlaces:
    """Where a house is, as a phrase that starts with its preposition.

    `nine_boxes` are those of a board with three rows of three boxes, in reading order. Rows and
    columns are told by their number, or by their ends where several grids lie on a board.
    """

    row: str
    column: str
    row_of_grid: str
    column_of_grid: str
    box: str
    nine_boxes: tuple[str, ...]
    region: str
    window: str
    extra_region: str
    disjoint_group: str
    falling_diagonal: str
    rising_diagonal: str
    falling_wrapped_diagonal: str
    rising_wrapped_diagonal: str
    cage: str
    renban: str


@dataclass(frozen=True, slots=True)
class SidePlaces:
    """Where a clue outside the board stands."""

    top: str
    bottom: str
    left: str
    right: str
    diagonal: str


@dataclass(frozen=True, slots=True)
class TechniqueWords:
    """A technique's name and its sentence; several placements have one sentence together.

    `strikes` tells what goes where that is shorter than what stays. `range` tells a thermometer
    cell by cell, `with_house` what a mark needs in a house, `with_chain` what follows from what
    is supposed, `with_asides` what is tried on the way as well.
    """

    name: str
    says: Annotated[Sentence, SentenceValue()]
    strikes: str = ""
    range: str = ""
    with_house: str = ""
    with_chain: str = ""
    with_asides: str = ""


@dataclass(frozen=True, slots=True)
class AsideWords:
    """What is tried and refuted on the way of a deep "if"; `others` where there are more."""

    says: str
    with_chain: str
    others: str


@dataclass(frozen=True, slots=True)
class DeadEnds:
    """How an "if" fails: nothing fits a cell, a digit fits nowhere, or a digit must and can't."""

    empty: str
    homeless: str
    clash: str


@dataclass(frozen=True, slots=True)
class ReportWords:
    """What an editor is told of a walk: sentences, the names of symmetries, and a count."""

    steps: str
    technique: str
    once: str
    no_break_in: str
    break_in_at_once: str
    break_in: Annotated[Sentence, SentenceValue()]
    placement: str
    no_placement: str
    tightest: Annotated[Sentence, SentenceValue()]
    spare_givens: Annotated[Sentence, SentenceValue()]
    every_given: str
    spare_marks: Annotated[Sentence, SentenceValue()]
    every_mark: str
    symmetry_of_givens: str
    symmetry_of_marks: str
    symmetries: Mapping[str, str]
    no_symmetry: str
    stop: str


@dataclass(frozen=True, slots=True)
class WalkWords:
    """A walk's sentences: its head and end, phrases for places, and what each technique says.

    `hardest` names the hardest technique, `step_caption` stands under a diagram.
    """

    hardest: str
    step_caption: str
    summary: Annotated[Sentence, SentenceValue()]
    summary_step: str
    no_summary: str
    follow: str
    rest: Annotated[Sentence, SentenceValue()]
    stuck: Annotated[Sentence, SentenceValue()]
    broken: str
    contradiction: str
    span: str
    digits_in_cells: str
    digit_at_house: str
    way: str
    houses: HousePlaces
    sides: SidePlaces
    techniques: Mapping[str, TechniqueWords]
    dead_ends: DeadEnds
    asides: AsideWords
    report: ReportWords


@dataclass(frozen=True, slots=True)
class HintWords:
    """What stands over the hints, and what each technique is hinted at with, in several ways."""

    intro: Annotated[str, Word(4000)]
    says: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class QuoteMarks:
    """Opening and closing quotes, double and single."""

    double: tuple[str, ...]
    single: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """All the words of a language; `sorting` is what a letter counts as where names are sorted."""

    language: str
    quotes: QuoteMarks
    sorting: Mapping[str, str]
    pages: Pages
    daily: DailyWords
    dates: Dates
    board: BoardWords
    web: WebWords
    lists: Lists
    symbols: Symbols
    houses: Houses
    worksheet: WorksheetWords
    grades: GradeWords
    walk: WalkWords
    hints: HintWords
    rules: Mapping[str, RuleWords]

    @property
    def quote_marks(self) -> Quotes:
        """The quotes, for typography."""
        (a, b), (c, d) = self.quotes.double, self.quotes.single
        return Quotes((a, b), (c, d))

    def sentence(self, saying: Saying) -> str:
        """The sentence of a saying, in the right number, its values not yet filled in.

        Raises KeyError where the language has no such sentence; a test sees to it that it has.
        """
        said = {
            key: sentence for rule in self.rules.values() for key, sentence in rule.says.items()
        }
        return said[saying.key].of(saying.count)


_HOLE: Final = re.compile(r"\{([a-z-]+)\}")


def fill(sentence: str, **values: object) -> str:
    """A sentence with what stands in braces filled in; KeyError where a value is not told."""
    return _HOLE.sub(lambda hole: str(values[hole[1].replace("-", "_")]), sentence)


def languages() -> tuple[str, ...]:
    """The languages that pages can speak."""
    return tuple(sorted(path.stem for path in shipped_words().glob("*.yaml")))


def words_for(language: str) -> Words:
    """The words of a language that may name a region: `en-GB` has those of `en`."""
    return read_words(language.partition("-")[0])


@cache
def read_words(language: str) -> Words:
    """The words of one of `languages()`. Raises Unreadable where its file is at fault."""
    name = f"{language}.yaml"
    problems = Problems()
    node = read_tree(shipped_words() / name, name, problems)
    words = read_record(node, Words, problems)
    problems.raise_if_any()
    assert words is not None, "without problems there is a record"  # noqa: S101
    return words
