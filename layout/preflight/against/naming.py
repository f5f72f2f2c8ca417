"""What names pages in words beside puzzles and answers, against where these are."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from layout.preflight.against.placing import Printed
from layout.preflight.checks.contents import has_words
from layout.preflight.checks.finding import Finding
from layout.preflight.checks.references import named_pages, pages_named_together
from layout.preflight.reading.finished import FinishedFile
from layout.preflight.reading.grids import Grid
from verify.puzzle import Puzzle


@dataclass(frozen=True, slots=True)
class Sayings:
    """How pages are named, with `{page}` for the number: beside a puzzle, beside an answer.

    `together` are those beside puzzles that share a page, with `{page}` or `{pages}`: each page
    of an answer is named once.
    """

    puzzles: Collection[str]
    answers: Collection[str]
    together: Collection[str] = ()


def check_naming(file: FinishedFile, printed: Printed, sayings: Sayings) -> Iterator[Finding]:
    """Pages of puzzles that do not name that of the answer, and the other way round."""
    found = [(each.expected.puzzle, each.grid, each.answer) for each in printed.placed]
    there = [(puzzle, one, other) for puzzle, one, other in found if one and other]
    yield from _of_pages(file, there, sayings.puzzles, sayings.together)
    back = [(puzzle, other, one) for puzzle, one, other in there]
    yield from _of_pages(file, back, sayings.answers, ())


def _of_pages(
    file: FinishedFile,
    pairs: Sequence[tuple[Puzzle, Grid, Grid]],
    sayings: Collection[str],
    together: Collection[str],
) -> Iterator[Finding]:
    """Each page is to name the page of every other grid, and else only pages with its titles."""
    by_label = {leaf.label: leaf for leaf in file.leaves}
    for number in dict.fromkeys(one.leaf.number for _, one, _ in pairs):
        here = [(puzzle, other) for puzzle, one, other in pairs if one.leaf.number == number]
        phrases = file.leaves[number - 1].phrases
        named = [label for phrase in phrases for label in named_pages(phrase, sayings)]
        shared = [label for each in phrases for label in pages_named_together(each, together)]
        if not (named or shared):
            continue
        missing = [other.leaf.label for _, other in here if other.leaf.label not in shared]
        for label in (*named, *shared):
            if label in missing:
                missing.remove(label)
            elif label in by_label and not any(
                has_words(by_label[label], puzzle.title) for puzzle, _ in here
            ):
                told = f"page {label} is named, which has nothing of what stands here"
                yield Finding("cross references", number, told)
        if missing:
            told = f"page {missing[0]} is not named, where “{here[0][0].title}” goes on"
            yield Finding("cross references", number, told)
