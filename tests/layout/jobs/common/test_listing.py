"""The puzzles that a job lists: patterns, places, doubles."""

import os

import pytest

from layout.jobs.book.make_book import book_groups
from layout.jobs.common.listing import listed_files
from layout.jobs.common.reading import read_listed
from layout.jobs.read_job import read_job
from tests.support.books import JOB, manifest, write_job
from verify.reading.problems import Unreadable


def listed(path, root=None):
    job = read_job(path)
    return listed_files(job, book_groups(job.values), root)


def read(path, root=None, workers=1):
    job = read_job(path)
    groups = book_groups(job.values)
    files = listed_files(job, groups, root)
    return read_listed(job, groups, files, workers, lambda done: None)


def messages(path, root=None):
    with pytest.raises(Unreadable) as raised:
        read(path, root)
    return [str(problem) for problem in raised.value.problems]


def test_patterns_give_files_in_natural_order(tmp_path):
    path = write_job(tmp_path, low=11, high=1)
    names = [each.path.name for each in listed(path)]
    assert names == [f"reed-{n}.yaml" for n in range(1, 13)]
    assert [each.group for each in listed(path)] == [0] * 11 + [1]


def test_names_in_a_list_keep_its_order(tmp_path):
    path = write_job(tmp_path, JOB.replace("[low/*.yaml]", "[low/reed-3.yaml, low/reed-1.yaml]"))
    assert [each.path.name for each in listed(path)][:2] == ["reed-3.yaml", "reed-1.yaml"]


def test_a_pattern_that_matches_nothing(tmp_path):
    path = write_job(tmp_path, JOB.replace("low/*.yaml", "lo/*.yaml"))
    (message,) = messages(path)
    line = next(n for n, text in enumerate(path.read_text().splitlines(), 1) if "lo/*" in text)
    assert message.startswith(f"{path.as_posix()}:{line}:15: ")
    assert 'no file for "lo/*.yaml"' in message


@pytest.mark.parametrize(
    "pattern", ["../low/*.yaml", "/etc/*", "low/../../x.yaml", "x/**/**/*.yaml"]
)
def test_patterns_that_lead_out_of_the_folder(tmp_path, pattern):
    path = write_job(tmp_path, JOB.replace("low/*.yaml", pattern))
    (message,) = messages(path)
    assert "inside the folder of the job" in message


def test_a_link_out_of_the_folder(tmp_path):
    path = write_job(tmp_path / "job")
    outside = tmp_path / "outside.yaml"
    outside.write_text(manifest(9))
    os.symlink(outside, tmp_path / "job" / "low" / "reed-0.yaml")
    (message,) = messages(path)
    assert "leads out of the folder" in message


def test_another_root(tmp_path):
    path = write_job(tmp_path / "job")
    other = tmp_path / "bank"
    write_job(other)
    found = listed(path, other)
    assert all(each.path.is_relative_to(other) for each in found)
    assert len(found) == 6


def test_two_puzzles_with_one_id(tmp_path):
    path = write_job(tmp_path)
    (tmp_path / "high" / "reed-1.yaml").write_text(manifest(8))
    (message,) = messages(path)
    assert "high/reed-1.yaml" in message
    assert "low/reed-1.yaml" in message
    assert '"reed-1"' in message


def test_two_puzzles_that_are_given_one_id_are_told_where_it_stands(tmp_path):
    path = write_job(tmp_path)
    for name in ("high/reed-8.yaml", "high/reed-9.yaml"):
        (tmp_path / name).write_text(manifest(8) + "id: heron\n")
    (message,) = messages(path)
    line = manifest(8).count("\n") + 1
    assert f"reed-9.yaml:{line}:5: " in message
    assert "high/reed-8.yaml already" in message


def test_a_puzzle_in_two_sections(tmp_path):
    path = write_job(tmp_path, JOB.replace("[high/*.yaml]", "[high/*.yaml, low/reed-2.yaml]"))
    (message,) = messages(path)
    assert "low/reed-2.yaml is listed already in line" in message


def test_problems_of_all_puzzles_together(tmp_path):
    path = write_job(tmp_path)
    (tmp_path / "low" / "reed-1.yaml").write_text("kind: sudoku\nsize: 26\n")
    (tmp_path / "high" / "reed-4.yaml").write_text("kind: sudoko\nsize: 4\n")
    (tmp_path / "high" / "reed-7.yaml").mkdir()
    found = "\n".join(messages(path))
    assert "low/reed-1.yaml:2" in found
    assert "high/reed-4.yaml:1" in found
    assert "high/reed-7.yaml" in found
    assert "folder" in found


def test_worker_processes_read_the_same(tmp_path):
    path = write_job(tmp_path, low=30, high=3)
    one, two = ([each.puzzle for each in read(path, workers=workers)] for workers in (1, 2))
    assert [puzzle.id for puzzle in one] == [puzzle.id for puzzle in two]
    assert [puzzle.givens for puzzle in one] == [puzzle.givens for puzzle in two]
