"""Words of a walk: where things are, what each technique says, and the editor's report."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from layout.language.sentence import Sentence, SentenceValue


@dataclass(frozen=True, slots=True)
class HousePlaceWords:
    """Where a house is, as a phrase that starts with its preposition.

    `nine_boxes` are those of a board with three rows of three boxes, in reading order. Rows and
    columns are told by their number, several of them in one phrase, or by their ends where several
    grids lie on a board.
    """

    row: str
    rows: str
    column: str
    columns: str
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
class SidePlaceWords:
    """Where a clue outside the board stands."""

    top: str
    bottom: str
    left: str
    right: str
    diagonal: str


@dataclass(frozen=True, slots=True)
class ItsPlaceWords:
    """Where a cell sees a digit, by the kind of the house; `elsewhere` where it shares none."""

    row: Annotated[Sentence, SentenceValue()]
    column: Annotated[Sentence, SentenceValue()]
    box: Annotated[Sentence, SentenceValue()]
    region: Annotated[Sentence, SentenceValue()]
    window: Annotated[Sentence, SentenceValue()]
    extra_region: Annotated[Sentence, SentenceValue()]
    disjoint_group: Annotated[Sentence, SentenceValue()]
    falling_diagonal: Annotated[Sentence, SentenceValue()]
    rising_diagonal: Annotated[Sentence, SentenceValue()]
    cage: Annotated[Sentence, SentenceValue()]
    renban: Annotated[Sentence, SentenceValue()]
    elsewhere: Annotated[Sentence, SentenceValue()]


@dataclass(frozen=True, slots=True)
class KnownWords:
    """What is known of a cell, or of several; `few` names what is left, `is_not` what is gone.

    `seen` adds where one sees it: `by_digits` and the place, or `by_sight` for many digits.
    """

    is_: Annotated[Sentence, SentenceValue()]
    at_least: Annotated[Sentence, SentenceValue()]
    at_most: Annotated[Sentence, SentenceValue()]
    from_to: Annotated[Sentence, SentenceValue()]
    few: Annotated[Sentence, SentenceValue()]
    is_not: Annotated[Sentence, SentenceValue()]
    even: Annotated[Sentence, SentenceValue()]
    odd: Annotated[Sentence, SentenceValue()]
    seen: str
    by_digits: str
    by_sight: str


@dataclass(frozen=True, slots=True)
class PushWords:
    """How a mark pushes: what is known, why that counts, and what follows.

    `sums` adds the sums that are left to the reason, `within` the houses that count as well.
    The three `again` are for a mark that was told about just before. `by_the_way` is for a mark in
    passing, `next_by` where what pushes it was told just before, `all_by` where nothing does;
    `by_notes` adds the sums that are left, and `by_within` the houses that count as well.
    `needs` is for a mark that needs a digit in a house, `needs_by` for one in passing, `above` and
    `below` for cells of a house that all lie beyond one, `both` where there are two; `house_sum`
    and its arithmetic for whole houses less known sums.
    """

    pushed: str
    alone: str
    pushed_again: str
    alone_again: str
    next_again: str
    by_the_way: str
    next_by: str
    all_by: str
    by_notes: str
    by_within: str
    sums: str
    within: str
    needs: str
    needs_by: str
    above: str
    below: str
    both_above: str
    both_below: str
    house_sum: str


@dataclass(frozen=True, slots=True)
class PlacingWords:
    """How digits are placed: in a house, by what a cell sees, or as what is left.

    `rest` ends a walk: nothing but plain digits is left, and what is pushed on the way.
    """

    goes: str
    goes_first: str
    goes_next: str
    left: str
    left_next: str
    sees: str
    so: str
    rest: Annotated[Sentence, SentenceValue()]
    on_the_way: str


@dataclass(frozen=True, slots=True)
class HeadWords:
    """What a puzzle is about, before its walk: its idea, where to begin, and what is hardest."""

    mark: str
    first: str
    house: str
    singles: str
    both_at_once: str
    begin: str
    begin_and_crux: str


@dataclass(frozen=True, slots=True)
class TechniqueWords:
    """A technique's name, what it is to a first-timer, and its sentence, where it has one.

    `with_chain` tells what follows from what is supposed, `with_asides` what is tried on the way
    as well.
    """

    name: str
    explains: str
    says: str = ""
    with_chain: str = ""
    with_asides: str = ""


@dataclass(frozen=True, slots=True)
class AsideWords:
    """What is tried and refuted on the way of a deep "if"; `others` where there are more."""

    says: str
    with_chain: str
    others: str


@dataclass(frozen=True, slots=True)
class DeadEndWords:
    """How an "if" fails: nothing is left for a cell, or a digit has no place in a house.

    Or a digit must stand in a cell beside what rules it out (`clash`), or the one that stands
    there no longer fits.
    """

    empty: str
    homeless: str
    clash: str
    unfit: str


@dataclass(frozen=True, slots=True)
class EndWords:
    """Why a walk ends before its last cell.

    Where the puzzle has no answer, a digit has no place left (`homeless`) or stands where it can't
    (`clash`), a cell has none left (`empty`), or a full grid breaks a mark; `contradiction` is for
    what none of these shows.
    """

    stuck: Annotated[Sentence, SentenceValue()]
    time_over: str
    homeless: str
    clash: str
    empty: str
    broken_mark: str
    contradiction: str


@dataclass(frozen=True, slots=True)
class VerdictWords:
    """What is said before a walk whose puzzle has not exactly one answer.

    `many` names the cells that differ, of which `more` are left out; `parting` is then the end of
    the walk. `none_unseen` is for a walk that does not show why there is none.
    """

    many: str
    more: Annotated[Sentence, SentenceValue()]
    parting: Annotated[Sentence, SentenceValue()]
    none: str
    none_unseen: str
    undecided: str


@dataclass(frozen=True, slots=True)
class ReportWords:
    """What an editor is told of a walk.

    `symmetries` are their names by their English ones; `technique` tells how many steps one has.
    """

    steps: str
    technique: str
    once: str
    no_break_in: str
    break_in_at_once: str
    break_in: Annotated[Sentence, SentenceValue()]
    hard: Annotated[Sentence, SentenceValue()]
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
    head: HeadWords
    known: KnownWords
    its: ItsPlaceWords
    push: PushWords
    placing: PlacingWords
    ends: EndWords
    verdicts: VerdictWords
    span: str
    cell_in_words: str
    digits_in_cells: str
    consequence: str
    by_house: str
    by: str
    way: str
    houses: HousePlaceWords
    sides: SidePlaceWords
    techniques: Mapping[str, TechniqueWords]
    dead_ends: DeadEndWords
    asides: AsideWords
    report: ReportWords
