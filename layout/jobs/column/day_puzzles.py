"""The puzzles that a column draws from: manifests, and the lines of banks."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from layout.jobs.column.ledger import LedgerEntry
from layout.jobs.common.listing import ListedFile
from layout.jobs.common.reading import Listed, check_ids, read_manifests, span_lines
from verify.check import Item
from verify.manifest.bank import LineCells, cells_of
from verify.manifest.bank_line import BankLine
from verify.puzzle import Puzzle
from verify.reading.node import Place
from verify.reading.problems import Problem, Problems, Unreadable


@dataclass(frozen=True, slots=True)
class DayPuzzles:
    """Manifests, which are read, and banks, whose lines are read as they are asked for.

    `composed` are those that the job composes.
    """

    files: Sequence[ListedFile]
    manifests: Mapping[Path, Puzzle]
    composed: Sequence[Listed] = ()

    def with_composed(self, composed: Sequence[Listed]) -> "DayPuzzles":
        """The same with composed ones. Raises Unreadable where one has the id of a manifest."""
        if not composed:
            return self
        problems = Problems()
        check_ids([*_listed(self.files, self.manifests), *composed], problems)
        problems.raise_if_any()
        return replace(self, composed=composed)

    def whole(self) -> Iterator[Puzzle]:
        """The puzzles that are no lines of banks."""
        yield from self.manifests.values()
        yield from (each.puzzle for each in self.composed)

    def unused(self, kind: int, published: Sequence[LedgerEntry]) -> Iterator[Item]:
        """What the days of a kind may have, in the order of the list, as far as is seen at once.

        A manifest is known by its id, a line by its cells: others in disguise are not seen here.
        """
        ids = {entry.puzzle for entry in published}
        cells = set(map(_givens, published))
        for file in (each for each in self.files if each.group == kind):
            if file.is_bank:
                yield from _lines(file, cells)
            elif (puzzle := self.manifests[file.path]).id not in ids:
                yield puzzle
        for each in self.composed:
            if each.file.group == kind and each.puzzle.id not in ids:
                yield each.puzzle

    def lines(self) -> Iterator[BankLine]:
        """All lines of all banks that can be read."""
        for file in self.files:
            if file.is_bank:
                yield from (line for line in span_lines(file) if isinstance(line, BankLine))


def _lines(file: ListedFile, without: Iterable[bytes]) -> Iterator[Item]:
    """The lines of a bank but for those with such givens."""
    for line in span_lines(file):
        if isinstance(line, Problem):
            yield Unreadable([line])
            continue
        cells = cells_of(line)
        if not isinstance(cells, LineCells) or cells.givens not in without:
            yield line


def _givens(entry: LedgerEntry) -> bytes:
    """The givens of a published puzzle; none where the ledger does not hold them."""
    cells = cells_of(BankLine(Place("", 1, 1), "", entry.cells))
    return cells.givens if isinstance(cells, LineCells) else b""


def read_day_puzzles(
    files: Sequence[ListedFile], workers: int | None, progress: Callable[[int], None]
) -> DayPuzzles:
    """Reads the manifests. Raises Unreadable with the problems of all of them together."""
    problems = Problems()
    manifests = read_manifests(files, workers, progress, problems)
    check_ids(_listed(files, manifests), problems)
    problems.raise_if_any()
    return DayPuzzles(files, manifests)


def _listed(files: Sequence[ListedFile], manifests: Mapping[Path, Puzzle]) -> Iterator[Listed]:
    return (Listed(each, manifests[each.path]) for each in files if each.path in manifests)
