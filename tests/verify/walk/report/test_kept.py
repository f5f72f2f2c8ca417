"""A grade is kept by all that can change a walk, and by nothing else."""

from dataclasses import replace

import pytest

from tests.support.boards import plain
from verify.board import Board
from verify.budget import NEVER, Deadline
from verify.manifest.bank import bank_from_lines
from verify.manifest.read import puzzle_from_text
from verify.puzzle import Credits, Puzzle
from verify.rules import RULES
from verify.walk.facts.step import Technique
from verify.walk.report import kept
from verify.walk.report.grade import Band, Grade
from verify.walk.report.kept import grade_of, walk_digest

CELLS = "1234341221434.21"


class Keeper:
    """Keeps grades in memory, and knows how often it was asked."""

    def __init__(self):
        self.known, self.asked = {}, 0

    def recall(self, digest):
        self.asked += 1
        return self.known.get(digest)

    def keep(self, digest, known):
        self.known[digest] = known


def classic(cells=CELLS):
    (puzzle,) = bank_from_lines([cells])
    assert isinstance(puzzle, Puzzle)
    return puzzle


def test_every_rule_has_its_own_digest():
    examples = [puzzle_from_text(rule.example, "example.yaml") for rule in RULES]
    assert len({walk_digest(each) for each in examples}) == len(examples)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_puzzle_with_a_mark_less_has_another_digest(rule):
    puzzle = puzzle_from_text(rule.example, "example.yaml")
    use = next(use for use in puzzle.uses if use.rule is rule)
    less = replace(use, constraints=use.constraints[1:])
    uses = tuple(less if each is use else each for each in puzzle.uses)
    assert walk_digest(replace(puzzle, uses=uses)) != walk_digest(puzzle)


def test_words_and_symbols_do_not_count():
    puzzle = classic()
    other = replace(
        puzzle, id="ebb", file="b.txt", credits=Credits("Ebb"), symbols=tuple("abcd"), line=9
    )
    assert walk_digest(other) == walk_digest(puzzle)


def test_givens_and_the_board_count():
    puzzle = classic()
    others = [
        classic("." + CELLS[1:]),
        replace(puzzle, board=Board(4, 4, 4)),
        replace(puzzle, uses=puzzle.uses[:2]),
    ]
    assert len({walk_digest(each) for each in [puzzle, *others]}) == 4


def test_the_code_counts(monkeypatch):
    before = walk_digest(classic())
    monkeypatch.setattr(kept, "code_digest", lambda: b"another")
    assert walk_digest(classic()) != before


def test_the_same_puzzle_is_walked_once(monkeypatch):
    keeper, puzzle = Keeper(), plain(9)
    first = grade_of(puzzle, NEVER, keeper)
    monkeypatch.setattr(kept, "walk", None)
    assert grade_of(puzzle, NEVER, keeper) == first
    assert (keeper.asked, len(keeper.known)) == (2, 1)


def test_what_is_known_is_believed():
    keeper, known = Keeper(), Grade(Band.STEEP, 7.7, Technique.LONG_IF)
    keeper.known[walk_digest(classic())] = known
    assert grade_of(classic(), NEVER, keeper).grade == known


def test_a_walk_that_is_cut_short_is_not_kept():
    keeper = Keeper()
    found = grade_of(puzzle_from_text(RULES[-1].example, "x.yaml"), Deadline(-1.0), keeper)
    assert (found.cut_short, keeper.known) == (True, {})


def test_values_that_differ_have_other_words():
    values: list[object] = [
        (),
        ((),),
        (1,),
        ("1",),
        ("1 2",),
        ("1", "2"),
        (1, 2),
        ((1,), 2),
        (1, (2,)),
        None,
    ]
    values += [frozenset({1, 2}), frozenset({(1, 2)}), True, "True", "(", ("(", ")")]
    words = [tuple(kept._parts(each)) for each in values]
    assert len(set(words)) == len(values)


def test_a_value_without_stable_words_is_refused():
    with pytest.raises(TypeError, match="stable"):
        list(kept._parts([1]))
