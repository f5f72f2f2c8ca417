"""Right-hand pages: where parts open, and where blanks stand."""

from collections.abc import Iterator, Sequence

from layout.preflight.checks.contents import Entry, parts
from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf


def check_parity(file: FinishedFile, entries: Sequence[Entry]) -> Iterator[Finding]:
    """Parts that open on the left, blanks on the right, odd labels on the left."""
    for leaf in _parts(file, entries):
        if not leaf.is_recto:
            yield Finding("parity", leaf.number, "a part opens on a left-hand page")
    written = [leaf.number for leaf in file.leaves if not is_blank(leaf)]
    last = max(written, default=0)
    for leaf in file.leaves[:last]:
        if is_blank(leaf) and leaf.is_recto:
            yield Finding("parity", leaf.number, "a right-hand page is blank")
    if entries:
        yield from _sides(file)


def _sides(file: FinishedFile) -> Iterator[Finding]:
    """What a bound book needs besides."""
    for leaf in file.leaves:
        numbered = leaf.label.isascii() and leaf.label.isdigit()
        if numbered and leaf.is_recto and int(leaf.label) % 2 == 0:
            yield Finding("parity", leaf.number, f"a right-hand page is numbered {leaf.label}")
            break
    if len(file.leaves) % 2:
        yield Finding("parity", 0, f"found {len(file.leaves)} pages, expected an even number")


def is_blank(leaf: Leaf) -> bool:
    """Whether nothing stands on a page."""
    marks = leaf.marks
    return not (marks.letters or marks.paints or marks.images or leaf.fault)


def _parts(file: FinishedFile, entries: Sequence[Entry]) -> list[Leaf]:
    """Pages on which parts open, by the outline or by the contents: each once."""
    numbers = {line.target.page for line in file.outline if line.level == 0 and entries}
    numbers |= {entry.named.number for entry in parts(entries) if entry.named is not None}
    return [file.leaves[number - 1] for number in sorted(numbers) if number]
