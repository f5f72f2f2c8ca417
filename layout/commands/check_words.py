"""What `reglet check` says of a puzzle at the terminal."""

from collections.abc import Iterator
from typing import Final

from layout.commands.told_reasons import many_lines, minimal_lines, none_words, spare_lines
from layout.console import first_of
from verify.check import Finding

MOST_CELLS_NAMED: Final = 12


def lines(finding: Finding, same: str = "") -> Iterator[str]:
    """A finding for a reader; `same` names the puzzle that it is in disguise."""
    if finding.verdict == "unreadable":
        yield from map(str, finding.problems)
        return
    where, twin = finding.place or finding.file, f", in disguise the same as {same}" if same else ""
    yield f"{where}: {finding.id}: {finding.verdict}{_more(finding)}{twin}"
    if finding.why_many:
        yield from (f"  {line}" for line in many_lines(finding.why_many))
    if finding.spared:
        yield from (f"  {line}" for line in spare_lines(finding.spared))
    if finding.minimal:
        yield from (f"  {line}" for line in minimal_lines(finding.minimal))
    yield from map(str, finding.problems)


def _more(finding: Finding) -> str:
    """What stands behind the verdict."""
    if finding.differs:
        cells = first_of(finding.differs, MOST_CELLS_NAMED)
        rest = "" if finding.differs_all else "; undecided in this time whether in others"
        return f" answers, which differ in {cells}{rest}"
    if finding.contradicts:
        cells = first_of(finding.contradicts, MOST_CELLS_NAMED)
        return f" answer, but the manifest's own is another in {cells}"
    if finding.verdict == "none":
        return none_words(finding.why_none)
    if finding.grade:
        cut_short = " in this time" if finding.cut_short else ""
        return f", {finding.grade.band.value}{cut_short}"
    return ""
