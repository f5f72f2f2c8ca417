"""Which groups can be clones, which letters they bear, and what they take from each other."""

import pytest

from tests.support.boards import plain
from verify.manifest.read import puzzle_from_text
from verify.marks import Area
from verify.pencil import bit, every_digit
from verify.proof.propagate import propagate
from verify.proof.verdict import prove
from verify.reading.problems import Unreadable
from verify.rule import Saying
from verify.rules.cells import clone
from verify.rules.cells.clone import Clone

START = "kind: {kind}\nsize: 9\nrules:\n  clone:\n"


def puzzle(*entries, kind="sudoku"):
    lines = "".join(f"    - {entry}\n" for entry in entries)
    return puzzle_from_text(START.format(kind=kind) + lines, "a.yaml")


def read(*entries):
    return puzzle(*entries).uses[-1].constraints


def test_groups_are_matched_cell_by_cell_however_they_are_written():
    (one,) = read("[r1c1 e s, r5c6 n w]")
    assert one.shapes == ((0, 1, 10), (31, 32, 41))


def test_more_than_two_groups_are_all_alike():
    (three,) = read("[r1c1 e, r4c4 e, [r7c7, r7c8]]")
    assert three.shapes == ((0, 1), (30, 31), (60, 61))
    assert three.cells == (0, 1, 30, 31, 60, 61)


def test_a_clone_may_be_a_single_cell_and_need_not_hang_together():
    single, scattered = read("[r1c1, r9c9]", "[r1c2 r3c3, r5c6 r7c7]")
    assert single.shapes == ((0,), (80,))
    assert scattered.shapes == ((1, 20), (41, 60))


@pytest.mark.parametrize(
    ("entry", "column", "message"),
    [
        ("[r1c1 e, r4c4 s]", 16, "found another shape than the first group's"),
        ("[r1c1 e, r4c4]", 16, "found another shape than the first group's"),
        ("[r1c8 e e s, r4c4]", 15, "leaves the board"),
        ("[r1c8..r2c9, r4c9 r5c1..r5c3]", 20, "not turned"),
        ("[r1c1 e, r1c2 e]", 16, "found r1c2 in two groups of a clone"),
        ("[r1c1 e, r1c1 e]", 16, "found r1c1 in two groups of a clone"),
        ("[r1c1 e, r4c4 e, r4c5 e]", 24, "found r4c5 in two groups of a clone"),
        ("[r1c1 e]", 7, "found one group, expected two groups or more"),
        ("r1c1 e", 7, "expected a list of two groups"),
        ("[]", 7, "found an empty list"),
    ],
)
def test_what_is_no_clone_is_refused_in_its_place(entry, column, message):
    with pytest.raises(Unreadable) as refused:
        read("[r9c1 e, r7c8 e]", entry)
    (problem,) = refused.value.problems
    assert (problem.place.line, problem.place.column) == (6, column)
    assert message in problem.message


def test_letters_only_where_there_is_more_than_one_set():
    alone = clone.RULE.draw(plain(9).board, read("[r1c1 e, r4c4 e]"))
    assert alone == (Area("clone", (0, 1)), Area("clone", (30, 31)))
    both = clone.RULE.draw(plain(9).board, read("[r1c1 e, r4c4 e]", "[r9c1, r8c4, r7c7]"))
    assert [mark.label for mark in both] == ["A", "A", "B", "B", "B"]


def test_the_sentence_speaks_of_letters_where_there_are_some():
    """Its key tells, not its number: several grids of one set each share a page without any."""
    alone, both = read("[r1c1 e, r4c4 e]"), read("[r1c1 e, r4c4 e]", "[r9c1, r8c4]")
    assert clone.RULE.says(alone) == (Saying("clone"),)
    assert clone.RULE.says(both) == (Saying("clone-letters", 2),)


def test_letters_do_not_run_out():
    marks = clone.RULE.draw(
        plain(9).board, [Clone(((cell,), (cell + 1,))) for cell in range(0, 160, 2)]
    )
    labels = list(dict.fromkeys(mark.label for mark in marks))
    assert len(labels) == 80
    assert labels[:2] + labels[25:28] + labels[52:53] == ["A", "B", "Z", "AA", "BB", "AAA"]


def test_twins_keep_what_all_of_them_can_hold():
    pencil = [every_digit(4), bit(1) | bit(2), bit(2) | bit(3), every_digit(4)]
    assert propagate([Clone(((0,), (1,), (2,)))], pencil)
    assert pencil == [bit(2), bit(2), bit(2), every_digit(4)]


def test_twins_in_one_house_leave_no_answer_but_may_be_where_there_are_no_houses():
    assert prove(puzzle("[r1c1 r2c1, r1c5 r2c5]")).word == "none"
    assert prove(puzzle("[r1c1 r2c1, r1c5 r2c5]", kind="blank")).word == "many"
