"""Results of `reglet check` as lines of a file: JSON Lines, or a table.

Nothing in them depends on the run, such as its seconds: the same puzzles give the same bytes.
"""

import argparse
import csv
import io
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final

from layout.commands.check_facts import facts
from layout.commands.check_same import label_of
from layout.commands.seconds import budget_of
from layout.output.results import ReadLine, Record
from verify.check import Finding
from verify.manifest.find import Found
from verify.manifest.source import source_digest
from verify.walk.report.kept import code_digest

COLUMNS: Final = (
    "file",
    "line",
    "id",
    "verdict",
    "answer",
    "differs",
    "contradicts",
    "band",
    "score",
    "form",
    "same",
    "errors",
    "kept",
)


@dataclass(frozen=True, slots=True)
class LineFormat:
    """How a finding becomes a line and is read back; `head` is the first line, or nothing."""

    head: bytes
    line: Callable[[Finding, str], bytes]
    read: ReadLine

    @staticmethod
    def label(record: Record) -> str:
        """What the puzzle of a line is called."""
        return label_of(str(record["file"]), record.get("line"))


def format_of(ending: str) -> LineFormat:
    """The format for a name that ends with `.csv` or `.jsonl`."""
    if ending == ".csv":
        return LineFormat(_row(COLUMNS), _table_line, _read_row)
    return LineFormat(b"", _json_line, _read_object)


def run_of(
    options: argparse.Namespace, found: Sequence[Found], others: Sequence[Found]
) -> dict[str, Any]:
    """All that makes the lines what they are: the code, what is asked for, every byte read."""
    budget = budget_of(options, options.conflicts)
    return {
        "code": code_digest().hex(),
        "asked": [budget.conflicts, budget.seconds, options.grade, options.same is not None],
        "read": [[each.name, source_digest(each.path, each.name)] for each in found],
        "others": [[each.name, source_digest(each.path, each.name)] for each in others],
    }


def _record(finding: Finding, same: str) -> dict[str, Any]:
    record = facts(finding, same)
    record.pop("seconds", None)
    if finding.form:
        record["form"] = finding.form
    return record


def _json_line(finding: Finding, same: str) -> bytes:
    return _json(_record(finding, same)).encode() + b"\n"


def _json(value: object) -> str:
    """JSON with its letters as they are, unless one is none by itself."""
    text = json.dumps(value, ensure_ascii=False)
    try:
        text.encode()
    except UnicodeEncodeError:
        return json.dumps(value)
    return text


def _read_object(line: bytes) -> Record:
    found = json.loads(line)
    if not isinstance(found, dict) or not {"file", "verdict"} <= found.keys():
        raise ValueError("not a result")
    return found


def _table_line(finding: Finding, same: str) -> bytes:
    record = _record(finding, same)
    grade = record.get("grade") or {}
    errors = record.get("errors", ())
    line = record.get("line") or (finding.problems[0].place.line if errors else "")
    kept = record.get("kept", "")
    fields = record | {
        "line": line,
        "answer": _cells(record.get("answer", ())),
        "differs": " ".join(record.get("differs", ())),
        "contradicts": " ".join(record.get("contradicts", ())),
        "band": grade.get("band", ""),
        "score": grade.get("score"),
        "errors": "; ".join(each["message"] for each in errors),
        "kept": kept if isinstance(kept, str) else _json(kept),
    }
    return _row([fields.get(column, "") for column in COLUMNS])


def _cells(rows: Sequence[str | list[str]]) -> str:
    """An answer in one line: all cells, with spaces between where a symbol is longer."""
    words = (row if isinstance(row, str) else f"{' '.join(row)} " for row in rows)
    return "".join(words).rstrip()


def _row(fields: Sequence[object]) -> bytes:
    """A line of a table; no field breaks it."""
    text = io.StringIO()
    words = [str("" if each is None else each).replace("\n", " ") for each in fields]
    csv.writer(text, lineterminator="\r\n").writerow(words)
    return text.getvalue().encode()


def _read_row(line: bytes) -> Record:
    try:
        fields = next(csv.reader([line.decode()], strict=True))
    except (csv.Error, StopIteration) as error:
        raise ValueError("not a row") from error
    if len(fields) != len(COLUMNS):
        raise ValueError("not a result")
    return dict(zip(COLUMNS, fields, strict=True))
