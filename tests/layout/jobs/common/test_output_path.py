"""Where a job writes: inside its folder, and over nothing that it reads."""

from contextlib import nullcontext

import pytest

from layout.jobs.common.making import Making
from layout.jobs.make import make
from tests.support.books import JOB, manifest, write_job
from tests.support.worksheets import JOB as WORKSHEET
from tests.support.worksheets import asked, write_worksheet
from verify.reading.problems import Unreadable

SPELLINGS = ["marsh.pdf", "deep/../marsh.pdf", "soft.pdf", "hard.pdf", "Marsh.pdf"]


def refused(path):
    with pytest.raises(Unreadable) as raised:
        make(path, Making(None, 1, lambda label, total: nullcontext(lambda done: None)))
    (problem,) = raised.value.problems
    return problem


def other_names(file):
    """A folder beside a file, and two more names for it."""
    (file.parent / "deep").mkdir()
    (file.parent / "soft.pdf").symlink_to(file)
    (file.parent / "hard.pdf").hardlink_to(file)


@pytest.mark.parametrize("name", SPELLINGS)
def test_a_book_is_not_written_over_one_of_its_puzzles(tmp_path, name):
    job = JOB.replace("low/*.yaml", "low/*.yaml, marsh.pdf").replace("build/book.pdf", name)
    path = write_job(tmp_path, job)
    puzzle = tmp_path / "marsh.pdf"
    puzzle.write_text(manifest(9))
    other_names(puzzle)
    problem = refused(path)
    assert "expected another file than one that is read" in problem.message
    assert job.splitlines()[problem.place.line - 1].strip() == f"pdf: {name}"
    assert puzzle.read_text() == manifest(9)


@pytest.mark.parametrize("name", SPELLINGS)
def test_a_book_is_not_written_over_its_own_job(tmp_path, name):
    path = write_job(tmp_path, JOB.replace("build/book.pdf", name)).rename(tmp_path / "marsh.pdf")
    other_names(path)
    assert "expected another file than the job itself" in refused(path).message


@pytest.mark.parametrize("name", SPELLINGS)
def test_a_key_is_not_written_over_its_worksheets(tmp_path, name):
    (tmp_path / "marsh.pdf").write_bytes(b"the earlier worksheets")
    other_names(tmp_path / "marsh.pdf")
    job = asked(WORKSHEET, output=f"{{pdf: marsh.pdf, key: {name}}}")
    assert "expected two files" in refused(write_worksheet(tmp_path, job)).message
