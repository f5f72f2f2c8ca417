"""What names pages in words beside puzzles and answers, against where these are."""

from collections.abc import Collection, Iterator, Sequence

from layout.preflight.against.grids import Grid
from layout.preflight.against.placing import Printed
from layout.preflight.checks.contents import has_words
from layout.preflight.checks.finding import Finding
from layout.preflight.checks.references import named_pages
from layout.preflight.reading.finished import FinishedFile
from verify.puzzle import Puzzle


def check_naming(
    file: FinishedFile, printed: Printed, sayings: Collection[str]
) -> Iterator[Finding]:
    """Pages of puzzles that do not name that of the answer, and the other way round."""
    found = [(each.expected.puzzle, each.grid, each.answer) for each in printed.placed]
    there = [(puzzle, one, other) for puzzle, one, other in found if one and other]
    yield from _of_pages(file, there, sayings)
    yield from _of_pages(file, [(puzzle, other, one) for puzzle, one, other in there], sayings)


def _of_pages(
    file: FinishedFile, pairs: Sequence[tuple[Puzzle, Grid, Grid]], sayings: Collection[str]
) -> Iterator[Finding]:
    """Each page is to name the page of every other grid, and else only pages with its titles."""
    by_label = {leaf.label: leaf for leaf in file.leaves}
    for number in dict.fromkeys(one.leaf.number for _, one, _ in pairs):
        here = [(puzzle, other) for puzzle, one, other in pairs if one.leaf.number == number]
        phrases = file.leaves[number - 1].phrases
        named = [label for phrase in phrases for label in named_pages(phrase, sayings)]
        if not named:
            continue
        missing = [other.leaf.label for _, other in here]
        for label in named:
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
