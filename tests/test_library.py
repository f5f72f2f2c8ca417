"""Reglet as a library: what `verify` and `layout` give to other programs, and what it costs."""

import doctest
import inspect
import pickle
import subprocess
import sys
from pathlib import Path

import pytest

import layout
import verify
from tests.support.checkout import ROOT
from verify.manifest.read import puzzle_from_text

HEAVY = ["numpy", "pysat", "reportlab", "svgwrite", "uharfbuzz", "PIL", "yaml", "verify.rules"]

EXAMPLE = verify.RULES[0].example


def fresh(code):
    """What a program of its own prints."""
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return done.stdout


@pytest.mark.parametrize("package", [verify, layout])
def test_every_public_function_is_shown_at_work(package):
    functions = {name for name in package.__all__ if inspect.isfunction(getattr(package, name))}
    assert functions == set(package.library.__all__)
    for module in (package, package.library):
        shown = {each.name for each in doctest.DocTestFinder().find(module) if each.examples}
        own = functions if module is package.library else [""]
        assert shown == {f"{module.__name__}.{name}".rstrip(".") for name in own}
        assert doctest.testmod(module).failed == 0


@pytest.mark.parametrize("package", [verify, layout])
def test_every_public_name_is_there_and_others_are_not(package):
    for name in package.__all__:
        assert getattr(package, name).__class__ is not type(package)
    with pytest.raises(AttributeError, match="no attribute 'wolk'"):
        _ = package.wolk


@pytest.mark.parametrize("package", ["verify", "layout"])
def test_checkers_are_told_of_types(package):
    assert (ROOT / package / "py.typed").is_file()


def test_names_are_imported_without_what_they_need_later():
    heavy = fresh(
        "import sys\n"
        "from layout import draw, svg, pdf\n"
        "from verify import read_puzzle, prove, walk, grade\n"
        f"print([name for name in {HEAVY} if name in sys.modules])"
    )
    assert heavy == "[]\n"


def test_where_the_command_begins_nothing_comes_before_the_signals():
    """`layout.start` sees to them as it is imported, and `layout` before it."""
    code = (
        "import sys; old = set(sys.modules); import layout; print(sorted(set(sys.modules) - old))"
    )
    assert fresh(code) == "['layout', 'layout.library']\n"


@pytest.mark.parametrize(
    "imports",
    [
        "import verify.walk.walk",
        "from verify.walk.walk import Walk",
        "from verify import walk",
        "import verify.walk.facts.notes as notes; import verify",
        "from verify.walk import report; import verify",
        "import importlib, verify; importlib.reload(verify); from verify import walk",
    ],
)
def test_walk_is_the_function_and_its_folder_is_found_by_dots(imports):
    """However a program begins, the one name serves both."""
    told = fresh(
        f"{imports}\n"
        "import verify.walk.walk as file, verify.walk.report.grade, verify, sys\n"
        "print(type(verify.walk).__name__, file is sys.modules['verify.walk.walk'])\n"
        "print(verify.walk.report.grade.grade.__module__, verify.walk.walk.walk.__module__)"
    )
    assert told == "function True\nverify.walk.report.grade verify.walk.walk\n"


def test_walk_goes_to_worker_processes():
    assert pickle.loads(pickle.dumps(verify.walk)) is verify.walk


def test_a_path_is_a_file_and_a_str_is_text(tmp_path):
    path = tmp_path / "heron.yaml"
    path.write_text(EXAMPLE, encoding="utf-8")
    puzzle = verify.read_puzzle(path)
    assert puzzle.id == "heron"
    assert puzzle.givens == puzzle_from_text(EXAMPLE).givens == verify.read_puzzle(EXAMPLE).givens
    with pytest.raises(verify.Unreadable, match=r'found "heron\.yaml", expected fields'):
        verify.read_puzzle("heron.yaml")
    with pytest.raises(verify.Unreadable, match="no such file"):
        verify.read_puzzle(Path("heron.yaml"))


def test_a_spent_budget_is_told():
    puzzle, budget = verify.read_puzzle("kind: sudoku\nsize: 9"), verify.Budget(seconds=-1)
    assert verify.prove(puzzle, budget).word == "undecided"
    assert verify.prove(puzzle).word == "many"
    walk = verify.walk(puzzle, budget)
    assert walk.cut_short
    assert verify.grade(walk).band.value == "ungraded"


def test_a_sheet_of_ones_own_is_a_path(tmp_path):
    sheet = tmp_path / "mine.yaml"
    sheet.write_text("like: newsprint\n", encoding="utf-8")
    puzzle = verify.read_puzzle(EXAMPLE)
    assert layout.draw(puzzle, sheet) == layout.draw(puzzle, str(sheet))
    assert layout.draw(puzzle, sheet) == layout.draw(puzzle, "newsprint") != layout.draw(puzzle)
    with pytest.raises(verify.Unreadable, match='did you mean "newsprint"'):
        layout.draw(puzzle, "newsprinted")


def test_an_answer_and_helpers_are_drawn():
    puzzle = verify.read_puzzle(EXAMPLE)
    answer = verify.prove(puzzle).answers[0]
    bare, filled = layout.draw(puzzle), layout.draw(puzzle, answer=answer)
    assert len(filled.items) == len(bare.items) + puzzle.givens.count(0)
    assert len(layout.draw(puzzle, helpers=True).items) > len(filled.items)


@pytest.mark.parametrize("width", [0, -1, float("inf"), float("nan")])
def test_a_width_that_is_none_is_told(width):
    with pytest.raises(ValueError, match=f"found the width {width}, expected millimetres"):
        layout.draw(verify.read_puzzle(EXAMPLE), width=width)


def test_an_answer_of_another_size_is_told():
    with pytest.raises(ValueError, match="found an answer of 3 digits, expected a digit for each"):
        layout.draw(verify.read_puzzle(EXAMPLE), answer=[1, 2, 3])
