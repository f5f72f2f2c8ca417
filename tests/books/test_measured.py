"""The pages of the demo books, set without answers and measured on the finished PDF; so are days
of the demo column. Classrooms' sheets are measured where they are made.
"""

import re
import shutil

import pytest

from layout.command import main
from layout.jobs.book.make_book import book_groups
from layout.jobs.book.rehearsal import rehearse
from layout.jobs.common.listing import listed_files
from layout.jobs.common.reading import read_listed
from layout.jobs.read_job import read_job
from layout.pages.common.format import Trim
from layout.preflight.reading.opening import read_bytes
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_document
from tests.support.books import book_of, manifest, printed
from tests.support.checkout import BOOKS
from tests.support.measured import troubles

SHARE = {"saltmarsh": 3, "gallery": 1}
"""Of so many puzzles of a book one is set."""


@pytest.mark.parametrize("book", ["saltmarsh", "gallery"])
def test_nothing_is_too_small_too_thin_over_another_or_half_empty(book):
    job = read_job(BOOKS / book / "book.yaml")
    groups = book_groups(job.values)
    listed = read_listed(job, groups, listed_files(job, groups, None), 1, lambda _: None)
    listed = [each for at, each in enumerate(listed) if at % SHARE[book] == 0]
    style = read_style(job.values.style)
    laid = rehearse(job, listed, style)
    file = read_bytes(pdf_of_document(laid.document), book)
    assert troubles(file, least=style.page.least * 72 / 25.4) == []


def test_days_of_the_column_are_no_worse(tmp_path):
    folder = tmp_path / "daily"
    shutil.copytree(BOOKS / "daily", folder, ignore=shutil.ignore_patterns("build"))
    job = folder / "daily.yaml"
    text = job.read_text(encoding="utf-8").replace("from: 2027-03-01", "from: 2027-03-06")
    text = re.sub("until: .*", "until: 2027-03-08", text)
    job.write_text(re.sub("formats: .*", "formats: [pdf]", text), encoding="utf-8")
    assert main(["make", str(job), "--quiet", "--jobs", "1"]) == 0
    days = sorted((folder / "build/daily").glob("*.pdf"))
    assert len(days) == 3
    least = read_style("newsprint").page.least * 72 / 25.4
    for day in days:
        # A column has no margin: it stands in one, and ink may reach its edge.
        assert troubles(read_bytes(day.read_bytes(), day.name), least, safe=-0.2) == []


def test_letters_of_cells_are_no_smaller_than_a_style_allows():
    book = book_of([("Low Water", "", [manifest(1)], 1)])
    pdf, _ = printed(book, "large-print", Trim(210, 297))
    chars = [char for at in range(len(pdf)) for char in pdf.chars(at) if char.text.isalpha()]
    assert min(char.size for char in chars) > 18 * 25.4 / 72 - 0.01
