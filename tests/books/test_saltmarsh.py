"""The demo book's puzzles: each read, each proved, and together as varied as the book says."""

import csv
from collections import Counter
from functools import cache
from pathlib import Path

from tests.books.grades import pinned
from tests.support.checkout import BOOKS
from verify.compose.orbits import image
from verify.compose.series.plan import read_plan
from verify.compose.series.planned import planned
from verify.manifest.read import read_puzzle
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.walk.report.grade import GRADED, grade
from verify.walk.walk import walk

FOLDER = BOOKS / "saltmarsh" / "puzzles"
FILES = sorted(FOLDER.glob("*/*.yaml"))


@cache
def puzzles() -> tuple[Puzzle, ...]:
    return tuple(read_puzzle(path) for path in FILES)


def rules_of(puzzle: Puzzle) -> set[str]:
    return {use.rule.name for use in puzzle.uses}


def test_each_puzzle_has_one_answer() -> None:
    assert {puzzle.id: prove(puzzle).word for puzzle in puzzles()} == {
        puzzle.id: "one" for puzzle in puzzles()
    }


def test_there_are_as_many_as_the_subtitle_says() -> None:
    assert len(puzzles()) == 120


def test_rules_and_grades_are_varied() -> None:
    houses = {"rows", "columns", "boxes"}
    assert len(set().union(*map(rules_of, puzzles())) - houses) >= 30
    bands = Counter(line.split()[2] for line in pinned() if line.startswith("saltmarsh"))
    assert min(bands[band.value] for band in GRADED) >= 5


def test_enough_of_them_are_drawn_with_thermometers() -> None:
    drawn = [p for p in puzzles() if p.board.rows == 9 and "thermometer" in rules_of(p)]
    assert len(drawn) >= 16


def test_sizes_are_varied() -> None:
    assert {puzzle.board.rows for puzzle in puzzles()} >= {4, 6, 8, 9, 12}


def test_ids_and_titles_are_told_apart() -> None:
    assert len({puzzle.id for puzzle in puzzles()}) == len(puzzles())
    assert len({puzzle.title for puzzle in puzzles()}) == len(puzzles())


def test_each_manifest_says_who_made_it() -> None:
    assert all(puzzle.credits.title and puzzle.credits.constructor for puzzle in puzzles())


def test_no_given_stands_on_a_bulb() -> None:
    for puzzle in puzzles():
        bulbs = {
            constraint.cells[0]
            for use in puzzle.uses
            if use.rule.name in ("thermometer", "slow-thermometer")
            for constraint in use.constraints
        }
        assert not any(puzzle.givens[cell] for cell in bulbs), puzzle.id


def test_no_two_shapes_share_a_cell() -> None:
    for puzzle in puzzles():
        owner: dict[int, int] = {}
        for use in puzzle.uses:
            if use.rule.name in ("thermometer", "slow-thermometer"):
                for constraint in use.constraints:
                    bulb = constraint.cells[0]
                    assert all(owner.setdefault(cell, bulb) == bulb for cell in constraint.cells)


def test_the_lettered_puzzle_spells_its_word_in_a_row() -> None:
    (lettered,) = (puzzle for puzzle in puzzles() if puzzle.symbols[0] == "S")
    (answer,) = prove(lettered).answers
    assert "SLUICE" in lettered.rows_of(answer)


# Those that are composed.


def test_each_sketch_of_the_plan_has_a_puzzle_that_is_as_it_wants() -> None:
    graded = {tuple(line.split()[1:3]) for line in pinned() if line.startswith("saltmarsh")}
    plan = read_plan(FOLDER.parent / "plan.yaml")
    assert len(plan.sketches) == 78
    for placed in plan.sketches:
        sketch, want = placed.sketch, placed.sketch.want
        puzzle = read_puzzle(FOLDER / placed.into / Path(sketch.puzzle.file).name)
        given = {cell for cell, digit in enumerate(puzzle.givens) if digit}
        assert (puzzle.uses, puzzle.credits) == (sketch.puzzle.uses, sketch.puzzle.credits)
        assert given <= sketch.may, puzzle.id
        assert {image(puzzle.board, cell, want.symmetry) for cell in given} == given, puzzle.id
        assert (puzzle.id, want.grade) in graded


def test_what_is_composed_again_has_the_same_bytes() -> None:
    plan = read_plan(FOLDER.parent / "plan.yaml")
    pieces = planned(plan, plan.seed, 600.0)
    for piece in pieces[:1] + pieces[35:36]:
        found = piece.composable.compose().setting
        assert found is not None
        assert found.text.encode("utf-8") == (FOLDER / piece.file).read_bytes()


def test_the_ledger_says_what_each_of_them_is() -> None:
    text = (FOLDER / "ledger.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    plan = read_plan(FOLDER.parent / "plan.yaml")
    assert [row["file"] for row in rows] == [str(each.file) for each in planned(plan, 5, 1.0)]
    assert all(row["as-wanted"] == "yes" for row in rows)
    assert len({row["canonical"] for row in rows}) == len(rows)


# What the introductions say of the puzzles.


@cache
def scores(section: str) -> tuple[float, ...]:
    """How hard the puzzles of a section are, in the order in which they are printed."""
    paths = (path for path in FILES if path.parent.name == section)
    found = (grade(walk(read_puzzle(path), reasons=False)).score for path in paths)
    return tuple(score for score in found if score is not None)


def test_dry_shod_begins_calm_and_its_last_is_its_hardest() -> None:
    *others, last = scores("dry-shod")
    assert max(others[:6]) < 2
    assert max(others) < last


def test_the_lock_cottage_opens_calm_and_ends_with_its_most_obstinate_padlock() -> None:
    first, *others, padlock = scores("lock-cottage")
    assert first < 2
    assert max(others) < padlock < 4


def test_the_last_of_slack_water_is_its_hardest() -> None:
    *others, streams = scores("slack-water")
    assert max(others) < streams


def test_one_puzzle_of_the_flood_has_six_digits_and_no_more() -> None:
    flood = (read_puzzle(path) for path in FILES if path.parent.name == "the-flood")
    assert sorted(sum(map(bool, puzzle.givens)) for puzzle in flood)[:2] == [6, 7]


def test_three_pictures_of_low_water_carry_marks_of_another_kind() -> None:
    low = (read_puzzle(path) for path in FILES if path.parent.name == "low-water")
    drawn = {"thermometer", "slow-thermometer", "rows", "columns", "boxes"}
    assert sum(bool(rules_of(puzzle) - drawn) for puzzle in low) == 3
