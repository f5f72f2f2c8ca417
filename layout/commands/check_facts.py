"""What the JSON of `reglet check` says of a puzzle."""

from typing import Any

from layout.commands.told_reasons import many_facts, minimal_facts, none_facts, spare_facts
from verify.check import Finding


def facts(finding: Finding, same: str = "") -> dict[str, Any]:
    """A finding in words; `same` names the puzzle that it is in disguise."""
    found = _facts(finding)
    if finding.kept:
        found["kept"] = finding.kept
    if same:
        found["same"] = same
    return found


def _facts(finding: Finding) -> dict[str, Any]:
    found: dict[str, Any] = {"file": finding.file}
    if finding.verdict == "unreadable":
        return {**found, "verdict": "unreadable", "errors": _errors(finding)}
    if finding.place:
        found |= {"line": finding.place.line, "column": finding.place.column}
    found |= {"id": finding.id, "title": finding.title, "verdict": finding.verdict}
    if finding.verdict == "one":
        found["answer"] = finding.answers[0]
    if finding.verdict == "many":
        found |= {"answers": list(finding.answers), "differs": list(finding.differs)}
        found["differs_all"] = finding.differs_all
    if finding.why_none:
        found |= none_facts(finding.why_none)
    if finding.why_many:
        found |= many_facts(finding.why_many)
    if finding.spared:
        found |= spare_facts(finding.spared)
    if finding.minimal:
        found |= minimal_facts(finding.minimal)
    if finding.contradicts:
        found["contradicts"] = list(finding.contradicts)
    if finding.problems:
        found["errors"] = _errors(finding)
    found["seconds"] = round(finding.seconds, 6)
    if finding.grade:
        found["grade"] = {"band": finding.grade.band.value, "score": finding.grade.score}
    return found


def _errors(finding: Finding) -> list[dict[str, Any]]:
    return [
        {"line": problem.place.line, "column": problem.place.column, "message": problem.message}
        for problem in finding.problems
    ]
