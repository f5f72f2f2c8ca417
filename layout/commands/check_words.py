"""What `reglet check` says of a puzzle at the terminal."""

from collections.abc import Iterator
from typing import Final

from layout.console import first_of
from verify.check import Finding

MOST_CELLS_NAMED: Final = 12


def lines(finding: Finding, same: str = "") -> Iterator[str]:
    """A finding for a reader; `same` names the puzzle that it is in disguise."""
    if finding.verdict == "unreadable":
        yield from map(str, finding.problems)
        return
    more = ""
    if finding.differs:
        more = f" answers, which differ in {first_of(finding.differs, MOST_CELLS_NAMED)}"
    elif finding.contradicts:
        cells = first_of(finding.contradicts, MOST_CELLS_NAMED)
        more = f" answer, but the manifest's own is another in {cells}"
    elif finding.grade:
        more = f", {finding.grade.band.value}" + (" in this time" if finding.cut_short else "")
    if same:
        more += f", in disguise the same as {same}"
    yield f"{finding.place or finding.file}: {finding.id}: {finding.verdict}{more}"
    yield from map(str, finding.problems)
