"""What is said before a walk, where the verdict on its puzzle is not one answer."""

import pytest

from layout.language.words import languages, read_words
from layout.telling.telling import Telling, tell_walk
from layout.telling.verdicts import MOST_NAMED, with_verdict
from tests.support.boards import plain
from verify.pencil import bit
from verify.proof.verdict import Verdict, prove
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Because, Step, Technique
from verify.walk.told.path import ToldPath, as_told

PUZZLE = plain(4, (2, 2))
ENGLISH = read_words("en")


def told(path: ToldPath, verdict: Verdict, language: str = "en") -> Telling:
    words = read_words(language)
    return with_verdict(tell_walk(PUZZLE, path, words), path, PUZZLE, verdict, words)


def reaching(*cells: int) -> ToldPath:
    """A path that places 1 in each of some cells, true or not."""
    rows = [house for house in Notes(PUZZLE).houses if house.kind == "row"]
    because = [Because(rows[cell // 4].cells, bit(1), (rows[cell // 4],)) for cell in cells]
    steps = [
        Step(Technique.HIDDEN_SINGLE, reason, ((cell, 1),))
        for cell, reason in zip(cells, because, strict=True)
    ]
    return as_told(PUZZLE, steps)


def test_the_answers_part_where_all_open_cells_differ() -> None:
    path = reaching(0, 6)
    differ = tuple(cell for cell in PUZZLE.board.cells if cell not in (0, 6))
    assert told(path, Verdict("many", differs=differ)).end == (
        "Here the answers part; 14 cells are still open."
    )
    assert told(path, Verdict("many", differs=differ[1:])).end == (
        "Here the known techniques end; 14 cells are still open."
    )


def test_a_walk_that_is_cut_short_does_not_end_where_the_answers_part() -> None:
    path = ToldPath((), (), finished=False, cut_short=True)
    telling = told(path, Verdict("many", differs=tuple(PUZZLE.board.cells)))
    assert telling.verdict.startswith("This puzzle has several answers.")
    assert telling.end == "The time was over before the walk was found."


@pytest.mark.parametrize(
    ("more", "end"), [(0, "r3c3 and r3c4."), (1, "one more cell."), (2, "2 more cells.")]
)
def test_only_some_cells_are_named(more: int, end: str) -> None:
    verdict = Verdict("many", differs=tuple(range(MOST_NAMED + more)))
    assert told(reaching(), verdict).verdict.endswith(end)


def test_a_walk_need_not_show_that_there_is_no_answer() -> None:
    assert told(reaching(), Verdict("none")).verdict == ENGLISH.walk.verdicts.none_unseen


@pytest.mark.parametrize("language", languages())
def test_of_one_answer_nothing_is_said(language: str) -> None:
    telling = told(reaching(0), Verdict("one"), language)
    assert (telling.verdict, bool(telling.end)) == ("", True)
    assert told(reaching(0), Verdict("undecided"), language).verdict


def test_it_goes_by_the_proof() -> None:
    telling = told(reaching(), prove(PUZZLE))
    assert telling.verdict.endswith("and 4 more cells.")
    assert telling.end == "Here the answers part; 16 cells are still open."
