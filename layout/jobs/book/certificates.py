"""The certificates of a book's puzzles, written together with the book."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from layout.jobs.book.book_job import BookJob
from layout.jobs.common.composition import Composition
from layout.jobs.common.job import Job
from layout.jobs.common.making import Making
from layout.jobs.common.output_path import output_folder
from layout.jobs.common.proving import MayNotBePrinted
from layout.output.certificates import CertificateFolder
from layout.output.write import OutputFile
from verify.budget import Budget, BudgetSpent
from verify.certificate.checking import CertificateFiles
from verify.certificate.manifest import manifest_bytes
from verify.certificate.writing import write_certificate
from verify.proof.verdict import Verdict
from verify.puzzle import Puzzle
from verify.reading.problems import Problem, Unreadable
from verify.work import in_order


@dataclass(frozen=True, slots=True)
class Proved:
    """A puzzle with one answer, and the file that it was read from."""

    path: Path
    puzzle: Puzzle
    verdict: Verdict


def certificates_folder(job: Job[BookJob]) -> Path | None:
    """Where the job wants certificates, if at all.

    Raises Unreadable for a place it can't have, and for puzzles that have no files: a certificate
    is bound to one.
    """
    wanted, path = job.values.output.certificates, ("output", "certificates")
    if wanted and any(isinstance(each.puzzles, Composition) for each in job.values.sections):
        found = "found certificates of puzzles that are composed with the book"
        message = f"{found}, expected files: reglet compose --series writes them"
        raise Unreadable([Problem(job.place(path), message)])
    return output_folder(job, path, wanted) if wanted else None


def certificate_files(
    folder: Path, proved: Sequence[Proved], making: Making
) -> Iterator[OutputFile]:
    """The files of every puzzle's certificate, one after another.

    Raises MayNotBePrinted for a puzzle that gets none in its time and room, and Unreadable where
    two would have the same name.
    """
    place = CertificateFolder(folder, [each.path for each in proved if each.puzzle.line])
    task = partial(_certificate, budget=making.budget)
    with making.progress("certifying", len(proved)) as done:
        made = in_order(task, proved, making.workers, done, lost=_uncertified)
        for each, certificate in zip(proved, made, strict=True):
            if isinstance(certificate, Problem):
                raise Unreadable([certificate])
            if certificate is None:
                raise _refusal(each.puzzle)
            yield from place.files(certificate, each.puzzle.place_of("id"))


def _certificate(each: Proved, budget: Budget) -> CertificateFiles | Problem | None:
    """A certificate; None where the budget does not suffice, or why the manifest is not read."""
    try:
        data = manifest_bytes(each.puzzle, each.path)
        answer = each.verdict.answers[0]
        return write_certificate(each.puzzle, answer, data, budget.deadline())
    except BudgetSpent:
        return None
    except Unreadable as unreadable:
        return unreadable.problems[0]


def _uncertified(each: Proved) -> None:
    """What is known of a puzzle whose certificate no process lived to make."""


def _refusal(puzzle: Puzzle) -> MayNotBePrinted:
    why = "no certificate can be made in its time and room; --seconds gives more time"
    facts = {"file": puzzle.file, "id": puzzle.id, "verdict": "one"}
    return MayNotBePrinted([f"{puzzle.source}: {puzzle.id}: {why}"], [facts])
