"""The pages of the demo books, set without answers and measured on the finished PDF."""

import pytest

from layout.jobs.book.make_book import book_groups
from layout.jobs.book.rehearsal import rehearse
from layout.jobs.common.listing import listed_files
from layout.jobs.common.reading import read_listed
from layout.jobs.read_job import read_job
from layout.preflight.reading.opening import read_bytes
from layout.style.style import read_style
from layout.writers.pdf import pdf_of_document
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
