"""Pages to be looked at before the book: drafts, and some pages of it, in files beside its own."""

from pathlib import Path

from layout.console import counted
from layout.jobs.book.book_job import BookJob
from layout.jobs.book.page_plan import page_plan
from layout.jobs.book.rehearsal import as_draft
from layout.jobs.common.job import Job
from layout.jobs.common.making import Outcome, Proof
from layout.jobs.common.placing import told_in_place
from layout.jobs.common.read_back import read_back
from layout.output.write import Outputs
from layout.pages.book.extract import NoSuchPage, extract
from layout.pages.book.pagination import Paginated
from layout.picture.document import Document
from layout.style.style import Style
from layout.writers.pdf import pdf_of_document
from verify.reading.problems import Problem, Unreadable


def write_draft(
    job: Job[BookJob],
    rehearsed: Paginated,
    style: Style,
    proof: Proof,
    output: Path,
    outputs: Outputs,
) -> Outcome:
    """The whole book, or some pages of it, unproved and marked so."""
    draft = as_draft(rehearsed, style, job.values.language)
    return write_pages(job, draft, proof, output, outputs)


def write_pages(
    job: Job[BookJob], laid: Paginated, proof: Proof, output: Path, outputs: Outputs
) -> Outcome:
    """The pages that are asked for. Raises Unreadable where the book has no such page."""
    with told_in_place(job):
        document = _chosen(job, laid.document, proof)
        data = pdf_of_document(document, job.values.output.press)
    path = output.with_stem(f"{output.stem}-{proof}")
    written = outputs.write_all([(path, data, lambda beside: read_back(beside, document))])
    pages = len(document.leaves)
    state = "not proved" if proof.draft else "each puzzle with one answer"
    summary = f"{path}: {counted(pages, 'page')}, {state}, not read back; "
    summary += "the book itself is not written"
    facts = {"pages": pages, "draft": proof.draft, "plan": page_plan(laid).facts()}
    return Outcome(tuple(written), facts, summary)


def _chosen(job: Job[BookJob], document: Document, proof: Proof) -> Document:
    if proof.pages is None:
        return document
    try:
        return extract(document, proof.pages)
    except NoSuchPage as missing:
        problem = Problem(job.place(("job",)), f"found --pages {proof.pages}; {missing}")
        raise Unreadable([problem]) from None
