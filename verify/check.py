"""From files to findings: reads and proves each puzzle, and says what an editor must know."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Final, Literal, TypeAlias

from verify.budget import Budget, BudgetSpent, Deadline
from verify.certificate.checking import CertificateFiles
from verify.certificate.manifest import manifest_bytes
from verify.certificate.writing import write_certificate
from verify.manifest.bank import read_bank
from verify.manifest.find import Found
from verify.manifest.read import read_puzzle
from verify.manifest.words import id_from
from verify.minimal import Minimal, minimal
from verify.proof.verdict import Verdict, Word, prove
from verify.puzzle import Puzzle, Rows
from verify.reading.node import Place
from verify.reading.problems import Problem, Unreadable
from verify.reasons import Spared, Wanted, WhyMany, WhyNone, spared, why_many, why_none
from verify.walk.report.grade import Grade, grade
from verify.walk.walk import walk
from verify.work import in_order

Item: TypeAlias = Found | Puzzle | Unreadable
"""A manifest still to be read, a puzzle, or what could not be read as one."""


USUALLY_WANTED: Final = Wanted()


@dataclass(frozen=True, slots=True)
class Finding:
    """What is known of one puzzle.

    `answers` are rows of symbols; `differs` and `contradicts` are names of cells: those not
    the same in every answer, and those where the constructor's answer is another. `problems` say
    what can't be read, or why it is undecided if not for its budget. Where it is `cut_short`, its
    time was over before its walk told how hard it is. `place` is where to look: at the answer that
    is contradicted, or the line of a bank; None where the whole file is the puzzle. `certificate`
    is there where one was asked for, the word is `one`, and its budget sufficed.
    """

    file: str
    id: str
    title: str
    verdict: Word | Literal["unreadable"]
    answers: tuple[Rows, ...] = ()
    differs: tuple[str, ...] = ()
    differs_all: bool = True
    contradicts: tuple[str, ...] = ()
    seconds: float = 0.0
    problems: tuple[Problem, ...] = ()
    why_none: WhyNone | None = None
    why_many: WhyMany | None = None
    spared: Spared | None = None
    minimal: Minimal | None = None
    grade: Grade | None = None
    cut_short: bool = False
    place: Place | None = None
    certificate: CertificateFiles | None = None

    @property
    def printable(self) -> bool:
        """Whether the puzzle may be printed as it is."""
        return self.verdict == "one" and not self.contradicts


def check(
    items: Sequence[Item],
    budget: Budget,
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    wanted: Wanted = USUALLY_WANTED,
    *,
    certified: bool = False,
) -> Iterator[Finding]:
    """A finding for each item, in order; reading, proof, reasons and walk share its budget.

    With `certified`, each puzzle with one answer gets a certificate, before its walk.
    """
    finding = partial(_finding, budget=budget, wanted=wanted, certified=certified)
    return in_order(finding, items, workers, progress, lost=_unfinished)


def items_of(files: Iterable[Found]) -> Iterator[Item]:
    """What is to be checked: each manifest, and each line of each bank."""
    for found in files:
        if found.is_bank:
            yield from _lines_of(found)
        else:
            yield found


def _lines_of(found: Found) -> Iterator[Item]:
    try:
        for line in read_bank(found.path, found.name):
            yield line if isinstance(line, Puzzle) else Unreadable([line])
    except Unreadable as unreadable:
        yield unreadable


def _finding(item: Item, budget: Budget, wanted: Wanted, certified: bool) -> Finding:
    deadline = budget.deadline()
    try:
        if isinstance(item, Unreadable):
            raise item
        puzzle = read_puzzle(item.path, item.name) if isinstance(item, Found) else item
        verdict = prove(puzzle, budget, deadline)
        certificate = None
        if certified and verdict.word == "one":
            source = item.path if isinstance(item, Found) else Path(puzzle.file)
            certificate = _certificate(puzzle, verdict, source, deadline)
    except Unreadable as unreadable:
        return _unreadable(unreadable)
    path = item.path if isinstance(item, Found) else None
    finding = _told(puzzle, verdict, deadline, certificate)
    if verdict.word == "none":
        return replace(finding, why_none=why_none(puzzle, path, budget, deadline))
    if verdict.word == "many":
        many = why_many(puzzle, verdict, wanted.count, budget, deadline)
        return replace(finding, why_many=many)
    if verdict.word == "one" and wanted.spare:
        finding = replace(finding, spared=spared(puzzle, verdict, path, deadline))
    if verdict.word == "one" and wanted.minimal and path is not None:
        least = minimal(puzzle, verdict.answers[0], path, wanted.minimal, deadline)
        finding = replace(finding, minimal=least)
    return finding


def _certificate(
    puzzle: Puzzle, verdict: Verdict, path: Path, deadline: Deadline
) -> CertificateFiles | None:
    """The certificate of a puzzle with one answer, or None where its budget does not suffice."""
    try:
        data = manifest_bytes(puzzle, path)
        return write_certificate(puzzle, verdict.answers[0], data, deadline)
    except BudgetSpent:
        return None


def _unreadable(unreadable: Unreadable) -> Finding:
    file = unreadable.problems[0].place.file
    return Finding(file, "", "", "unreadable", problems=unreadable.problems)


def _unfinished(item: Item) -> Finding:
    """What is known of an item whose worker ended, and another's too."""
    if isinstance(item, Unreadable):
        return _unreadable(item)
    if isinstance(item, Found):
        file, its_id, title = item.name, id_from(item.name), ""
    else:
        file, its_id, title = item.file, item.id, item.title
    place = _place_of(item, contradicted=False) if isinstance(item, Puzzle) else None
    problem = Problem(
        place or Place(file, 1, 1), "the work on it broke off twice; is there enough memory?"
    )
    return Finding(file, its_id, title, "undecided", problems=(problem,), place=place)


def _place_of(puzzle: Puzzle, *, contradicted: bool) -> Place | None:
    """Where to look in a file that holds more than what is told of."""
    return puzzle.place_of("answer") if contradicted or puzzle.line else None


def _told(
    puzzle: Puzzle, verdict: Verdict, deadline: Deadline, certificate: CertificateFiles | None
) -> Finding:
    name, path = puzzle.board.name, None
    if verdict.word == "one":
        path = walk(puzzle, reasons=False, deadline=deadline)
    return Finding(
        puzzle.file,
        puzzle.id,
        puzzle.title,
        verdict.word,
        tuple(puzzle.rows_of(answer) for answer in verdict.answers),
        tuple(map(name, verdict.differs)),
        verdict.differs_all,
        tuple(map(name, verdict.contradicts)),
        verdict.seconds,
        grade=grade(path) if path else None,
        cut_short=path.cut_short if path else False,
        place=_place_of(puzzle, contradicted=bool(verdict.contradicts)),
        certificate=certificate,
    )
