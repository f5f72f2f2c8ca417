"""From files to findings: reads and proves each puzzle, and says what an editor must know."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import groupby
from pathlib import Path
from time import monotonic
from typing import Final, Literal, TypeAlias

from verify.budget import Budget, BudgetSpent, Deadline
from verify.certificate.checking import CertificateFiles
from verify.certificate.manifest import manifest_bytes
from verify.certificate.writing import write_certificate
from verify.disguise.canonical import canonical
from verify.manifest.bank import kept_of, puzzle_of
from verify.manifest.bank_line import BankLine, Kept, bank_lines
from verify.manifest.find import Found
from verify.manifest.read import read_puzzle
from verify.manifest.words import id_from
from verify.minimal import Minimal, minimal
from verify.proof.verdict import Verdict, Word, prove
from verify.puzzle import Puzzle, Rows
from verify.reading.node import Place
from verify.reading.problems import MOST_PROBLEMS, Problem, Unreadable
from verify.reasons import Spared, Wanted, WhyMany, WhyNone, spared, why_many, why_none
from verify.settled_lines import SettledLine, settled_lines
from verify.walk.report.grade import Grade
from verify.walk.report.kept import GradeKeeper, grade_of
from verify.work import CHUNK, in_batches

Item: TypeAlias = Found | BankLine | Puzzle | Unreadable
"""A manifest or a line still to be read, a puzzle, or what could not be read as one."""


TOGETHER: Final = 1024
"""Lines of a bank that are looked at together where only verdicts are asked for."""

ENOUGH: Final = Budget().conflicts
"""Conflicts that suffice for all that arrays settle. With fewer each line is proved by itself: what
comes of it must not depend on how many there are."""

USUALLY_WANTED: Final = Wanted()


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of each puzzle beside its verdict.

    `graded` asks for its grade, which `keeper` may know already; `formed` for its canonical form;
    `certified` for a certificate of each that has one answer; `wanted` for reasons, None for none.
    """

    graded: bool = False
    formed: bool = False
    certified: bool = False
    wanted: Wanted | None = USUALLY_WANTED
    keeper: GradeKeeper | None = None

    @property
    def verdict_alone(self) -> bool:
        """Whether nothing more is asked of a puzzle that has one answer."""
        more = self.graded or self.formed or self.certified
        return not (more or (self.wanted and (self.wanted.spare or self.wanted.minimal)))


USUAL: Final = Asked()
"""The verdict, and the reason where it is not `one`."""


@dataclass(frozen=True, slots=True)
class Finding:
    """What is known of one puzzle.

    `answers` are rows of symbols; `differs` and `contradicts` are names of cells: those not
    the same in every answer, and those where the constructor's answer is another. `problems` say
    what can't be read, or why it is undecided if not for its budget. Where it is `cut_short`, its
    time was over before its walk told how hard it is. `place` is where to look: at the answer that
    is contradicted, or the line of a bank; None where the whole file is the puzzle. `kept` is what
    that line says beside its puzzle, `form` the canonical form of a puzzle with one answer.
    `certificate` is there where one was asked for, the word is `one`, and its budget sufficed.
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
    kept: Kept = ""
    form: str = ""
    certificate: CertificateFiles | None = None

    @property
    def printable(self) -> bool:
        """Whether the puzzle may be printed as it is."""
        return self.verdict == "one" and not self.contradicts


def check(
    items: Iterable[Item],
    budget: Budget,
    workers: int | None = None,
    progress: Callable[[int], None] = lambda done: None,
    asked: Asked = USUAL,
    scheduler: str = "",
) -> Iterator[Finding]:
    """A finding for each item, in order; all that is asked of one puzzle shares its budget.

    Items are taken as they are needed, and findings are not kept: there may be any number. With the
    address of a `scheduler` a Dask cluster does the work, whose workers need not see any file.
    """
    task = partial(_findings, budget=budget, asked=asked)
    most = TOGETHER if asked.verdict_alone else CHUNK
    if scheduler:
        from verify.cluster import over_cluster

        sent = map(_read_here, items)
        return over_cluster(scheduler, task, sent, progress, lost=_unfinished, most=most)
    return in_batches(task, items, workers, progress, lost=_unfinished, most=most)


def _read_here(item: Item) -> Item:
    """An item that can be sent to another machine: a manifest as its puzzle."""
    if not isinstance(item, Found):
        return item
    try:
        return puzzle_of_item(item)
    except Unreadable as unreadable:
        return unreadable


def items_of(files: Iterable[Found]) -> Iterator[Item]:
    """What is to be checked: each manifest, and each line of each bank, as it is asked for."""
    for found in files:
        if found.is_bank:
            yield from _lines_of(found)
        else:
            yield found


def count_of(files: Iterable[Found]) -> int:
    """How many items there are: what they say is not looked at, but for the ends of their lines."""
    return sum(1 for _ in items_of(files))


def _lines_of(found: Found) -> Iterator[Item]:
    """A file whose first lines hold no puzzle at all is given up: it is no bank."""
    vain, is_bank = 0, False
    try:
        for line in bank_lines(found.path, found.name):
            yield line if isinstance(line, BankLine) else Unreadable([line])
            is_bank = is_bank or _holds_puzzle(line)
            vain += 1
            if vain == MOST_PROBLEMS and not is_bank:
                place = line.place
                message = "too many problems; the rest was not read"
                yield Unreadable([Problem(Place(place.file, place.line + 1, 1), message)])
                return
    except Unreadable as unreadable:
        yield unreadable


def _holds_puzzle(line: BankLine | Problem) -> bool:
    return isinstance(line, BankLine) and isinstance(puzzle_of(line), Puzzle)


def _findings(items: Sequence[Item], budget: Budget, asked: Asked) -> Iterator[Sequence[Finding]]:
    """The findings of some items, in order; those of lines settled together in one piece."""
    started = monotonic()
    in_arrays = asked.verdict_alone and budget.conflicts >= ENOUGH
    settled = settled_lines(items) if in_arrays else {}
    share = (monotonic() - started) / max(1, len(settled))
    for is_settled, some in groupby(enumerate(items), lambda each: each[0] in settled):
        if is_settled:
            yield [_settled(settled[number], share) for number, _ in some]
        else:
            yield from ([_finding(item, budget, asked)] for _, item in some)


def _settled(found: SettledLine, seconds: float) -> Finding:
    its_id, file, title = found.line.id, found.line.place.file, found.line.title or found.line.id
    place, answers = Place(file, found.line.place.line, 1), (found.rows,)
    return Finding(
        file, its_id, title, "one", answers, seconds=seconds, place=place, kept=found.kept
    )


def _finding(item: Item, budget: Budget, asked: Asked) -> Finding:
    deadline = budget.deadline()
    kept = kept_of(item) if isinstance(item, BankLine) else ""
    try:
        puzzle = puzzle_of_item(item)
        verdict = prove(puzzle, budget, deadline)
        finding = replace(_told(puzzle, verdict), kept=kept)
        if verdict.word == "one":
            return _with_all_asked(finding, item, puzzle, verdict, deadline, asked)
    except Unreadable as unreadable:
        return _unreadable(unreadable, kept)
    if asked.wanted and verdict.word == "none":
        path = item.path if isinstance(item, Found) else None
        return replace(finding, why_none=why_none(puzzle, path, budget, deadline))
    if asked.wanted and verdict.word == "many":
        many = why_many(puzzle, verdict, asked.wanted.count, budget, deadline)
        return replace(finding, why_many=many)
    return finding


def _with_all_asked(
    finding: Finding,
    item: Item,
    puzzle: Puzzle,
    verdict: Verdict,
    deadline: Deadline,
    asked: Asked,
) -> Finding:
    """What is asked of a puzzle with one answer: the certificate comes first, before the time ends.

    Raises Unreadable where the manifest of a certificate can't be read again.
    """
    path = item.path if isinstance(item, Found) else None
    if asked.certified:
        made = _certificate(puzzle, verdict, path or Path(puzzle.file), deadline)
        finding = replace(finding, certificate=made)
    if asked.graded:
        graded = grade_of(puzzle, deadline, asked.keeper)
        finding = replace(finding, grade=graded.grade, cut_short=graded.cut_short)
    if asked.formed:
        finding = replace(finding, form=canonical(puzzle, verdict.answers[0]))
    if asked.wanted and asked.wanted.spare:
        finding = replace(finding, spared=spared(puzzle, verdict, path, deadline))
    if asked.wanted and asked.wanted.minimal and path is not None:
        least = minimal(puzzle, verdict.answers[0], path, asked.wanted.minimal, deadline)
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


def puzzle_of_item(item: Item) -> Puzzle:
    """The puzzle of an item. Raises Unreadable where there is none."""
    if isinstance(item, Unreadable):
        raise item
    if isinstance(item, Found):
        return read_puzzle(item.path, item.name)
    found = puzzle_of(item) if isinstance(item, BankLine) else item
    if isinstance(found, Problem):
        raise Unreadable([found])
    return found


def _unreadable(unreadable: Unreadable, kept: Kept = "") -> Finding:
    file = unreadable.problems[0].place.file
    return Finding(file, "", "", "unreadable", problems=unreadable.problems, kept=kept)


def _unfinished(item: Item) -> Finding:
    """What is known of an item whose worker ended, and another's too."""
    if isinstance(item, Unreadable):
        return _unreadable(item)
    place: Place | None = None
    kept: Kept = ""
    if isinstance(item, Found):
        file, its_id, title = item.name, id_from(item.name), ""
    elif isinstance(item, BankLine):
        file, its_id, title = item.place.file, item.id, item.title or item.id
        place, kept = Place(file, item.place.line, 1), kept_of(item)
    else:
        file, its_id, title = item.file, item.id, item.title
        place = _place_of(item, contradicted=False)
    problem = Problem(
        place or Place(file, 1, 1), "the work on it broke off twice; is there enough memory?"
    )
    problems = (problem,)
    return Finding(file, its_id, title, "undecided", problems=problems, place=place, kept=kept)


def _place_of(puzzle: Puzzle, *, contradicted: bool) -> Place | None:
    """Where to look in a file that holds more than what is told of."""
    return puzzle.place_of("answer") if contradicted or puzzle.line else None


def _told(puzzle: Puzzle, verdict: Verdict) -> Finding:
    name = puzzle.board.name
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
        place=_place_of(puzzle, contradicted=bool(verdict.contradicts)),
    )
