"""Minimal puzzles, beside CP-SAT trying each thing that could still be left out."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import maker
from tests.support.effort import effort
from tests.support.models import model_answers
from verify.budget import NEVER, Budget
from verify.lesser import lessers, without
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.manifest.yaml_text import tree_of
from verify.minimal import minimal
from verify.pencil import every_digit
from verify.proof.verdict import prove
from verify.reading.node import Fields
from verify.reading.problems import Problems
from verify.reasons import spared
from verify.rules import BY_NAME

BOARDS = [
    "kind: sudoku\nsize: 4\n",
    "kind: sudoku\nsize: 4\nrules:\n  thermometer: [r1c1 se s, r4c2 e, r2c4 s s]\n",
    "kind: sudoku\nsize: 4\nrules:\n  diagonals: both\n",
    "kind: latin\nsize: 4\nholes: [r2c3]\nrules:\n  cage: [{cells: r1c1 e, sum: 4}]\n",
    "kind: latin\nsize: 4\nrules:\n  odd: [r1c1, r2c2]\n  greater: [r3c3 > r3c4]\n",
    "kind: sudoku\nsize: 4\nrules:\n  quad:\n    - {at: r1c1, digits: [1, 2]}\n",
]


def answers(puzzle):
    """Up to two answers by CP-SAT."""
    full = every_digit(puzzle.board.digits)
    pencil = [1 << digit if digit else full for digit in puzzle.givens]
    for cell in puzzle.board.absent:
        pencil[cell] = 1
    return model_answers(puzzle.board, pencil, list(puzzle.constraints()))


def less_by_one(puzzle, text, answer):
    """The puzzle without each given, and with each way to say less."""
    for cell, digit in enumerate(puzzle.givens):
        if digit:
            yield maker.with_givens(puzzle, [*puzzle.givens[:cell], 0, *puzzle.givens[cell + 1 :]])
    rules = tree_of(text, "puzzle.yaml", Problems()).get("rules")
    if isinstance(rules, Fields):
        for lesser in lessers(puzzle, rules, answer, set(), NEVER):
            yield without(puzzle, rules, lesser)[0]


def least_of(path, first="givens", deadline=NEVER):
    puzzle = read_puzzle(path)
    (answer,) = prove(puzzle).answers
    return answer, minimal(puzzle, answer, path, first, deadline)


@effort(0.4)
@given(
    text=st.sampled_from(BOARDS),
    seed=st.integers(0, 10**6),
    keep=st.integers(0, 5),
    first=st.sampled_from(["givens", "marks"]),
)
def test_nothing_more_can_be_left_out(tmp_path_factory, text, seed, keep, first):
    path = tmp_path_factory.mktemp("minimal") / "puzzle.yaml"
    made = maker.make(puzzle_from_text(text), seed, keep=keep)
    path.write_text(text + maker.givens_text(made), encoding="utf-8")
    answer, least = least_of(path, first)
    assert least.whole
    read = puzzle_from_text(least.text)
    assert (read.uses, read.givens) == (least.puzzle.uses, least.puzzle.givens)
    places = read.board.cells
    (alone,) = answers(read)
    assert [alone[cell] for cell in places] == [answer[cell] for cell in places]
    assert all(len(answers(fewer)) > 1 for fewer in less_by_one(read, least.text, answer))


@pytest.mark.parametrize("name", sorted(BY_NAME))
def test_minimal_in_every_rule(tmp_path, name):
    """What is left has the same one answer, and can lose nothing more."""
    path = tmp_path / "puzzle.yaml"
    path.write_text(BY_NAME[name].example, encoding="utf-8")
    answer, least = least_of(path, "marks")
    path.write_text(least.text, encoding="utf-8")
    read = read_puzzle(path)
    verdict = prove(read)
    assert verdict.answers == (answer,)
    for fewer in less_by_one(read, least.text, answer):
        assert prove(fewer).word == "many"
    if "all-shown" not in least.text:  # there a mark can't be left out but for its opposite
        nothing = spared(read, verdict, path, NEVER)
        assert (nothing.parts, nothing.undecided) == ((), ())


REEDS = """\
# a sketch of reeds
title: Reeds, "two"
kind: sudoku    # the usual
size: 4
rules:
  # the reeds
  thermometer:
    - r1c1 e e   # not needed
  diagonals: both   # neither are these
# the givens
givens: |
  1 2 | 3 4
  3 4 | . 2
  ---------
  4 . | . 1
  2 1 | . 3
# the end
"""


def test_parts_are_left_out_in_the_order_told_and_lines_keep_their_comments(tmp_path):
    path = tmp_path / "reeds.yaml"
    path.write_text(REEDS, encoding="utf-8")
    _, least = least_of(path)
    said = list(map(str, least.left_out))
    givens = [each for each in said if " in " in each]
    assert said[: len(givens)] == givens
    assert givens == sorted(givens, key=lambda each: each.partition(" in ")[2])
    assert said[0].endswith("in r1c1 (line 12)")
    assert least.text.startswith(REEDS[: REEDS.index("rules:")])
    assert "# the givens\ngivens: |\n" in least.text
    assert least.text.endswith("# the end\n")


def test_marks_first_leaves_out_all_marks_where_givens_suffice(tmp_path):
    path = tmp_path / "reeds.yaml"
    path.write_text(REEDS, encoding="utf-8")
    _, least = least_of(path, "marks")
    said = list(map(str, least.left_out))
    assert said[0] == "thermometer r1c1 (line 8)"
    assert {each.partition(" ")[0] for each in said[1:3]} == {"diagonals"}
    assert "rules" not in least.text
    assert "# the givens" in least.text


def test_a_cage_keeps_its_cells_and_loses_its_sum(tmp_path):
    path = tmp_path / "puzzle.yaml"
    path.write_text(
        "kind: latin\nsize: 3\nrules:\n  cage:\n    - {cells: r1c1 e s, sum: 6}  # low\n"
        "  thermometer: [r3c1 e e]\n",
        encoding="utf-8",
    )
    _, least = least_of(path)
    assert list(map(str, least.left_out)) == ["sum of cage r1c1 (line 5)"]
    assert "    - {cells: r1c1 e s}\n  thermometer: [r3c1 e e]\n" in least.text


def test_a_thermometer_loses_an_end(tmp_path):
    _, least = least_of(Path("books/saltmarsh/puzzles/low-water/06-heron.yaml"))
    said = list(map(str, least.left_out))
    assert said[-2:] == ["r2c3 of thermometer r2c3 (line 7)", "r7c5 of thermometer r9c5 (line 11)"]
    assert "\n    - [r2c2, r2c1]\n    - r2c3 ne e\n" in least.text


def test_a_manifest_in_one_line_is_written_anew(tmp_path):
    path = tmp_path / "puzzle.yaml"
    path.write_text(
        '{kind: latin, size: 2, title: "A: b", rules: {odd: [r1c1], even: [r1c2]},'
        ' givens: "1 .\\n. ."}',
        encoding="utf-8",
    )
    _, least = least_of(path)
    read = puzzle_from_text(least.text)
    assert read.credits.title == "A: b"
    assert len(least.left_out) == 2
    assert len(answers(read)) == 1


def test_past_the_deadline_the_puzzle_stays_and_that_is_told(tmp_path):
    path = tmp_path / "reeds.yaml"
    path.write_text(REEDS, encoding="utf-8")
    _, least = least_of(path, deadline=Budget(seconds=-1.0).deadline())
    assert not least.whole
    assert least.left_out == ()
    assert least.puzzle == read_puzzle(path)
