"""What was found, for a terminal and for a program."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from layout.preflight.checks.finding import CHECKS, NEED_JOB, OTHER_CHECKS, Finding
from layout.preflight.checks.inks import coverage, spot_inks
from layout.preflight.checks.standard import claims_of
from layout.preflight.kinds import CHECKS_OF, Kind
from layout.preflight.reading.finished import FinishedFile


def finding_lines(file: FinishedFile, findings: Sequence[Finding]) -> Iterator[str]:
    """A line for each finding, with the page as it is counted and as it is called."""
    for finding in findings:
        where = f" page {finding.page}" if finding.page else ""
        label = _label(file, finding)
        called = f" ({label})" if label and label != str(finding.page) else ""
        yield f"{file.name}:{where}{called}: {finding.check}: {finding.words}".replace("::", ":")


def table(kind: Kind, findings: Sequence[Finding], with_job: bool) -> Iterator[str]:
    """A line for each check: how much it found, and what it looked at."""
    counts = Counter(finding.check for finding in findings)
    width = max(map(len, CHECKS_OF[kind]))
    every = {**CHECKS, **OTHER_CHECKS}
    for check in CHECKS_OF[kind]:
        asked = with_job or check not in NEED_JOB
        told = (str(counts[check]) if counts[check] else "clean") if asked else "-"
        yield f"{check:<{width}}  {told:>5}  {every[check]}"


def document(
    file: FinishedFile, kind: Kind, findings: Sequence[Finding], with_job: bool
) -> dict[str, Any]:
    """The JSON document: counts of all checks that were made, and each finding."""
    counts = Counter(finding.check for finding in findings)
    return {
        "file": file.name,
        "kind": kind,
        "pages": len(file.leaves),
        "claims": claims_of(file),
        "inks": {"spot": spot_inks(file), "most": round(coverage(file), 4)},
        "checks": {
            each: counts[each] for each in CHECKS_OF[kind] if with_job or each not in NEED_JOB
        },
        "findings": [
            {
                "check": finding.check,
                "page": finding.page,
                "label": _label(file, finding),
                "message": finding.words,
            }
            for finding in findings
        ],
    }


def _label(file: FinishedFile, finding: Finding) -> str:
    return file.leaves[finding.page - 1].label if finding.page else ""
