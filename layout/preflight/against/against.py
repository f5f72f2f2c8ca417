"""A finished book against its job: every check of what is printed in its grids."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from layout.preflight.against.around import check_clues
from layout.preflight.against.digits import check_answers, check_diagrams, check_givens
from layout.preflight.against.frames import check_frames
from layout.preflight.against.labels import check_labels
from layout.preflight.against.naming import Sayings, check_naming
from layout.preflight.against.placing import Expected, check_grids, check_titles, place_all
from layout.preflight.against.shapes import check_shapes
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile


@dataclass(frozen=True, slots=True)
class Ordered:
    """What a job asks a book to hold: puzzles in their order, behind the page of a section."""

    expected: Sequence[Expected]
    section: str
    sayings: Sayings


def against(file: FinishedFile, ordered: Ordered) -> Iterator[Finding]:
    """What the pages print otherwise than the manifests and the proofs say."""
    printed = place_all(file, ordered.expected, ordered.section)
    yield from check_grids(printed)
    yield from check_titles(printed)
    yield from check_givens(printed)
    yield from check_answers(printed)
    yield from check_diagrams(printed)
    yield from check_frames(printed)
    yield from check_shapes(printed)
    yield from check_labels(printed)
    yield from check_clues(printed)
    yield from check_naming(file, printed, ordered.sayings)
