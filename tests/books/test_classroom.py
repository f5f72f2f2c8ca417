"""The classroom's demo jobs: made whole, and read back."""

import shutil
from collections import Counter
from pathlib import Path

import pytest

from layout.jobs.read_job import read_job
from layout.preflight.reading.opening import read_bytes
from layout.style.style import read_style
from tests.support.books import Printed
from tests.support.checkout import BOOKS
from tests.support.measured import troubles
from tests.support.worksheets import A4, LETTER, made
from verify.compose.series.plan import read_plan
from verify.manifest.read import read_puzzle
from verify.proof.verdict import prove

FOLDER = BOOKS / "classroom"
LEAST = read_style("classroom").page.least * 72 / 25.4
PUZZLES = sorted(FOLDER.glob("puzzles/*/*.yaml"))


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """A copy of the folder, so that nothing is written among the sources."""
    folder = tmp_path_factory.mktemp("classroom")
    shutil.copytree(FOLDER, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("build"))
    return folder


def test_each_puzzle_has_one_answer_and_says_who_made_it():
    for puzzle in map(read_puzzle, PUZZLES):
        assert prove(puzzle).word == "one", puzzle.id
        assert puzzle.credits.title
        assert puzzle.credits.constructor


def test_boards_of_three_sizes_are_shown():
    assert {read_puzzle(path).board.rows for path in PUZZLES} == {4, 6, 9}


def test_there_are_ten_sheets_two_for_each_of_five_levels():
    jobs = [read_job(path).values for path in FOLDER.glob("*.yaml") if path.stem != "plan"]
    levels = Counter(job.class_.split()[1][0] for job in jobs)
    assert levels == {"1": 2, "3": 2, "4": 2, "6": 2, "7": 2}


def test_pictures_of_the_plan_are_as_their_sketches_want():
    plan = read_plan(FOLDER / "plan.yaml")
    for sketch, into in ((each.sketch, each.into) for each in plan.sketches):
        puzzle = read_puzzle(FOLDER / "puzzles" / into / Path(sketch.puzzle.file).name)
        given = {cell for cell, digit in enumerate(puzzle.givens) if digit}
        assert (puzzle.uses, puzzle.credits) == (sketch.puzzle.uses, sketch.puzzle.credits)
        assert given <= sketch.may


@pytest.mark.parametrize(
    ("job", "trim", "pages", "key", "said"),
    [
        ("sluice", A4, 8, 1, ("Form A", "Form B", "Form C", "How it works")),
        ("shapes", A4, 5, 0, ("drop", "Answers", "Look at cell")),
        ("gauge", LETTER, 6, 1, ("•", "••", "•••")),
        ("rock-pools", A4, 3, 0, ("Pool 1", "Pool 6", "Answers")),
    ],
)
def test_each_job_is_made(desk, job, trim, pages, key, said):
    facts = made(desk / f"{job}.yaml").facts
    assert (facts["pages"], facts["key_pages"]) == (pages, key)
    pdf = Printed((desk / "build" / f"{job}.pdf").read_bytes(), trim)
    for file in (desk / "build").glob(f"{job}*.pdf"):
        assert troubles(read_bytes(file.read_bytes(), file.name), LEAST) == []
    text = "\n".join(pdf.text(index) for index in range(len(pdf)))
    assert all(each in text for each in said)
    bands = [[each["grade"]["band"] for each in sheet["puzzles"]] for sheet in facts["sheets"]]
    if job == "gauge":
        assert bands == [["calm"] * 2, ["steady"] * 2, ["stiff"] * 2]
    else:
        assert all(each == bands[0] for each in bands)
