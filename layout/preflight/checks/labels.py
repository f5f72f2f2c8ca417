"""Page labels against the numbers that are printed, the folios."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from layout.preflight.checks.finding import Finding
from layout.preflight.reading.finished import FinishedFile, Leaf
from layout.preflight.reading.labels import roman
from layout.preflight.reading.phrases import Phrase

NUMERAL: Final = re.compile(r"[0-9]{1,5}|[ivxlcdm]{1,12}")

NUMBERS: Final = {roman(number): number for number in range(1, 5000)}

SAME: Final = 1.0
"""Points by which the folios of two pages may stand higher or lower."""


def check_labels(file: FinishedFile) -> Iterator[Finding]:
    """Folios that differ from the label, and labels that do not run on."""
    height = _folio_height(file.leaves)
    if height is not None:
        for leaf in file.leaves:
            folio = folio_at(leaf, height)
            if folio is None or folio.text == leaf.label:
                continue
            said = f"the file calls it {leaf.label!r}" if file.labelled else "it has no label"
            yield Finding("labels", leaf.number, f"the page number printed is {folio.text}; {said}")
    yield from _order(file)


def _order(file: FinishedFile) -> Iterator[Finding]:
    """Labels that begin anew, or skip, elsewhere than where their style changes."""
    if not file.labelled:
        return
    for before, leaf in zip(file.leaves, file.leaves[1:], strict=False):
        (style, number), (next_style, following) = _value(before.label), _value(leaf.label)
        if style == next_style and style and following != number + 1:
            words = f"the label {leaf.label!r} follows {before.label!r}"
            yield Finding("labels", leaf.number, words)


def _value(label: str) -> tuple[str, int]:
    if label.isascii() and label.isdigit():
        return "arabic", int(label)
    return ("roman", NUMBERS[label]) if label in NUMBERS else ("", 0)


def _folio_height(leaves: Sequence[Leaf]) -> float | None:
    """How high over the trim's foot page numbers stand, if the file has any.

    It is where most pages have a number at the outer edge of their first or last line that grows
    with the pages, whatever these are called.
    """
    runs: Counter[tuple[int, str, int]] = Counter()
    for leaf in leaves:
        for phrase in _outermost(leaf):
            style, number = _value(phrase.text)
            if style:
                height = round(phrase.baseline - leaf.trim.bottom)
                runs[height, style, number - leaf.number] += 1
    if not runs:
        return None
    (height, _, _), count = runs.most_common(1)[0]
    return float(height) if count >= 2 else None


def folio_at(leaf: Leaf, height: float) -> Phrase | None:
    """The number that stands at the outer edge of a page at the height of folios."""
    line = [
        phrase
        for phrase in leaf.phrases
        if abs(phrase.baseline - leaf.trim.bottom - height) <= SAME
    ]
    if not line:
        return None
    outer = max(line, key=lambda each: each.box.right if leaf.is_recto else -each.box.left)
    return outer if NUMERAL.fullmatch(outer.text) else None


def _outermost(leaf: Leaf) -> Iterator[Phrase]:
    """What stands at the outer edge in the first line and in the last."""
    for end in (leaf.phrases[:1], leaf.phrases[-1:]):
        for phrase in end:
            line = [each for each in leaf.phrases if abs(each.baseline - phrase.baseline) <= SAME]
            yield max(line, key=lambda each: each.box.right if leaf.is_recto else -each.box.left)
