"""The demo's column: a quarter of days, each with its puzzle, none twice."""

from collections import Counter
from itertools import chain

import pytest

from layout.jobs.column.make_column import column_groups
from layout.jobs.column.season import kind_of, kinds_of, schedule_of
from layout.jobs.common.choosing import Known, know
from layout.jobs.common.listing import listed_files
from layout.jobs.common.reading import read_listed
from layout.jobs.read_job import read_job
from tests.support.checkout import BOOKS

JOB = read_job(BOOKS / "daily" / "daily.yaml")


@pytest.fixture(scope="module")
def supply() -> list[tuple[int, Known]]:
    kinds = column_groups(JOB.values)
    read = read_listed(JOB, kinds, listed_files(JOB, kinds, None), 1, lambda done: None)
    return [
        (each.file.group, known) for each in read if isinstance(known := know(each.puzzle), Known)
    ]


def test_every_puzzle_has_one_answer_and_none_is_another_in_disguise(supply) -> None:
    banks = "".join(path.read_text() for path in JOB.folder.glob("bank/*.txt")).splitlines()
    puzzles = sum(not line.startswith("#") for line in banks)
    assert len(supply) == puzzles + len(list(JOB.folder.glob("sundays/*.yaml")))
    assert len({known.canonical for _, known in supply}) == len(supply)


def test_the_banks_hold_what_the_quarter_needs(supply) -> None:
    schedule = schedule_of(JOB)
    wanted = Counter(
        (kind_of(day, JOB.values), *(schedule.wish(day) or ("any",))) for day in schedule.days()
    )
    held = Counter((kind, known.grade.value) for kind, known in supply)
    assert sum(wanted.values()) == 13 * 7 - 1
    for (kind, grade), count in wanted.items():
        assert (
            sum(held[at, each] for at, each in held if at == kind and grade in ("any", each))
            >= count
        )


def test_sundays_are_wider_and_of_another_kind(supply) -> None:
    weekday, sunday = kinds_of(JOB)
    assert sunday.width > weekday.width
    rules: dict[int, set[str]] = {0: set(), 1: set()}
    for kind, known in supply:
        rules[kind] |= {use.rule.name for use in known.puzzle.uses}
    lines = {
        "thermometer",
        "slow-thermometer",
        "arrow",
        "double-arrow",
        "whisper",
        "crest",
        "renban",
    }
    assert rules[1] - rules[0] == lines


def test_no_given_stands_on_a_bulb(supply) -> None:
    for known in (known for kind, known in supply if kind == 1):
        uses = [use for use in known.puzzle.uses if use.rule.name == "thermometer"]
        marks = chain.from_iterable(use.constraints for use in uses)
        assert not any(known.puzzle.givens[mark.cells[0]] for mark in marks), known.puzzle.id
