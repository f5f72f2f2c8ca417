"""Job files: read whole, or every problem told with its place."""

import json

import jsonschema
import pytest
import yaml

from layout.jobs.book.book_job import MOST_WALKS
from layout.jobs.read_job import read_job
from layout.jobs.schema import SHIPPED, job_schema, schema_text
from tests.support.books import JOB
from tests.support.checkout import BOOKS
from verify.reading.problems import Unreadable


def job(tmp_path, text=JOB):
    path = tmp_path / "book.yaml"
    path.write_text(text, encoding="utf-8")
    return read_job(path)


def problems(tmp_path, text):
    with pytest.raises(Unreadable) as raised:
        job(tmp_path, text)
    return [
        (problem.place.line, problem.place.column, problem.message)
        for problem in raised.value.problems
    ]


def test_a_whole_job(tmp_path):
    book = job(tmp_path).values
    assert (book.title, book.author, book.order) == (
        "The Small Almanac",
        "Edited by Ida Marsh",
        "as-listed",
    )
    assert (book.trim.width, book.bleed) == pytest.approx((152.4, 3))
    assert book.imprint.isbn == "979-4-1706-0345-1"
    assert [(section.title, section.per_page) for section in book.sections] == [
        ("Low Water", 1),
        ("High Water", 2),
    ]
    assert book.back.answers.per_page == 4
    assert book.output.pdf == "build/book.pdf"


def test_places_of_what_stands_in_a_job(tmp_path):
    read = job(tmp_path)
    lines = JOB.splitlines()
    at = read.place(("sections", 1, "title")).line
    assert lines[at - 1] == "  - title: High Water"
    assert read.place(("subtitle",)).line == 3
    assert read.place(("no", "such", 4)).line == 1


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("job: book", "job: bok", 'did you mean "book"?'),
        ("bleed: 3mm", "order: by-grad", 'unknown order "by-grad"; did you mean "by-grade"?'),
        ("bleed: 3mm", "ungraded: prin", 'did you mean "print"?'),
        ("{per-page: 4}", "{per-page: 4}\n  hints: 6", "a whole number from 0 to 5"),
        ("{per-page: 4}", "{per-page: 4}\n  walk: reed-1", "expected a list of ids of puzzles"),
        ("build/book.pdf", "book.pdf\n  screen: s.svg", "s.svg"),
        ("build/book.pdf", "book.pdf\n  signature: 10", "expected 4, 8, 12"),
        ("build/book.pdf", "book.pdf\n  caliper: 0.1", "expected a length from 0.03mm to 0.4mm"),
        ("build/book.pdf", "book.pdf\n  standard: pdfx", 'did you mean "pdfx-1a"?'),
        ("build/book.pdf", "book.pdf\n  condition: FOGRA5", 'did you mean "FOGRA51"?|FOGRA52'),
        ("subtitle:", "subtitel:", 'did you mean "subtitle"?'),
        ("per-page: 2", "per-page: 3", "expected 1, 2, 4 or 6"),
        ("{per-page: 4}", "{per-page: 5}", "expected 1, 2, 4, 6, 9 or 12"),
        ("6x9in", "6x9", "a page size such as"),
        ("3mm", "30mm", "from 0mm to 10mm"),
        ("0345-1", "0345-7", "expected 1"),
        ("title: The Small Almanac", "title: ''", "expected text"),
        ("puzzles: [high/*.yaml]", "puzzles: []", "a list of puzzles"),
        ("build/book.pdf", "build/book.doc", "ends in .pdf"),
    ],
)
def test_what_is_wrong_is_told_at_its_line(tmp_path, old, new, expected):
    assert old in JOB
    text = JOB.replace(old, new, 1)
    found = problems(tmp_path, text)
    assert len(found) == 1
    line, _, message = found[0]
    assert any(each in message for each in expected.split("|"))
    wanted = new.split("\n")[-1].strip().split(":")[0]
    assert wanted in text.splitlines()[line - 1]


def test_nothing_asked_for_is_not_too_much(tmp_path):
    text = JOB.replace("{per-page: 4}", "{per-page: 4}\n  hints: 0\n  walk: []")
    assert job(tmp_path, text).values.back.answers.per_page == 4


def test_a_list_of_walks_has_an_end(tmp_path):
    text = JOB.replace("{per-page: 4}", f"{{per-page: 4}}\n  walk: [{'a, ' * MOST_WALKS}a]")
    ((_, _, message),) = problems(tmp_path, text)
    assert f"at most {MOST_WALKS}" in message


def test_all_problems_are_told_at_once(tmp_path):
    text = JOB.replace("6x9in", "6x9").replace("per-page: 2", "per-page: 3").replace("3mm", "x")
    assert len(problems(tmp_path, text)) == 3


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", "found an empty file"),
        ("[]", "a job, which begins with job: book"),
        ("kind: sudoku\nsize: 4\n", "`reglet check` is for puzzles"),
        ("title: x", "a job, which says job: book"),
        ("job: [book", "found"),
        ("job: &a book\ntitle: *a\n", "alias"),
    ],
)
def test_files_that_are_no_job(tmp_path, text, expected):
    assert any(expected in message for _, _, message in problems(tmp_path, text))


def test_a_missing_key_is_told(tmp_path):
    text = JOB.replace("trim: 6x9in\n", "").replace("output:\n  pdf: build/book.pdf\n", "")
    messages = [message for _, _, message in problems(tmp_path, text)]
    assert messages == ['the key "output" is missing', 'the key "trim" is missing']


def test_the_shipped_schema_is_the_one_that_is_read_by():
    assert SHIPPED.read_text(encoding="utf-8") == schema_text()
    jsonschema.Draft202012Validator.check_schema(job_schema())


def test_the_schema_takes_a_job_and_refuses_others():
    schema = json.loads(schema_text())
    jsonschema.validate(yaml.safe_load(JOB), schema)
    for old, new in (
        ("per-page: 2", "per-page: 3"),
        ("6x9in", "6 by 9"),
        ("subtitle:", "subtitel:"),
        ("{per-page: 4}", "{per-page: 4}\n  hints: 6"),
        ("trim: 6x9in\n", ""),
    ):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(yaml.safe_load(JOB.replace(old, new, 1)), schema)


def test_the_schema_takes_a_column():
    schema = json.loads(schema_text())
    column = (BOOKS / "daily" / "daily.yaml").read_text(encoding="utf-8")
    # Editors' programs see days as the text that they are.
    jsonschema.validate(as_typed(column), schema)
    for old, new in (("from: 2027-03-01", "from: 1 March"), ("fri-sat: steep", "fri: step")):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(as_typed(column.replace(old, new, 1)), schema)


def as_typed(text):
    """A job as JSON has it, days as texts."""
    return json.loads(json.dumps(yaml.safe_load(text), default=str))
