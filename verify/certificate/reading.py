"""The files of a certificate, read without trust: DIMACS CNF, DRAT text, and JSON.

This file shares nothing with what writes certificates, and imports only the standard library
(and the word for a refusal). It takes one clause a line, as all common writers give them, and
refuses whatever else the formats allow.
"""

import json
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

from verify.certificate.refused import Refused

Clause: TypeAlias = list[int]

MOST_BYTES: Final = 32 << 20
"""The largest file of a certificate."""

MOST_VARIABLES: Final = 1_000_000
MOST_CLAUSES: Final = 3_000_000
MOST_LITERALS: Final = 8_000_000
"""Literals in one file. The worst that fits its bounds takes some 1.2 GiB while it is checked."""

BETWEEN_LOOKS: Final = 4096
"""Lines of a formula between two looks at the clock."""

_CLAUSE: Final = re.compile(rb"(?:-?[1-9][0-9]{0,6} +)*0")
_PROBLEM: Final = re.compile(rb"p cnf (0|[1-9][0-9]{0,6}) (0|[1-9][0-9]{0,6})")
_NAME: Final = re.compile(
    rb"c (r[1-9][0-9]{0,2}c[1-9][0-9]{0,2})=([1-9][0-9]?) is ([1-9][0-9]{0,6})"
)


@dataclass(frozen=True, slots=True)
class Cnf:
    """A formula: `names` give the cell and the digit of a variable; `lines` are the clauses'."""

    variables: int
    clauses: list[Clause]
    lines: list[int]
    names: Mapping[int, tuple[str, int]]


@dataclass(frozen=True, slots=True)
class Step:
    """A line of a proof: a clause that is learned, or one that is deleted."""

    line: int
    deletes: bool
    clause: Clause


@dataclass(frozen=True, slots=True)
class Statement:
    """What a certificate says of itself.

    `model` holds the variables that are true in the answer; `digests` are SHA-256 in hexadecimal,
    by the kind of file (`cnf`, `drat`).
    """

    puzzle: str
    manifest: str
    answer: Mapping[str, int]
    model: tuple[int, ...]
    digests: Mapping[str, str]


def read_cnf(data: bytes, file: str, look: Callable[[], None] = lambda: None) -> Cnf:
    """A formula in DIMACS CNF; `look` is called now and then, and may raise. Raises Refused."""
    names: dict[int, tuple[str, int]] = {}
    clauses: list[Clause] = []
    at: list[int] = []
    asked: tuple[int, int] | None = None
    left = MOST_LITERALS
    for number, line in _lines(data, file):
        if number % BETWEEN_LOOKS == 0:
            look()
        if line.startswith(b"c"):
            _note_name(line, names, file, number)
        elif asked is None:
            asked = _problem_line(line, file, number)
        else:
            clauses.append(_clause(line, asked[0], file, number))
            at.append(number)
            left -= len(clauses[-1])
            if left < 0 or len(clauses) > asked[1]:
                raise Refused(
                    file, number, f"found more than {asked[1]} clauses, or too many literals"
                )
    if asked is None:
        raise Refused(file, 1, 'found no problem line, expected "p cnf VARIABLES CLAUSES"')
    if len(clauses) < asked[1]:
        message = f"found {len(clauses)} clauses, expected {asked[1]} as the problem line says"
        raise Refused(file, at[-1] if at else 1, message)
    return Cnf(asked[0], clauses, at, names)


def read_proof(data: bytes, file: str, variables: int) -> Iterator[Step]:
    """The steps of a proof in DRAT text, one after another. Raises Refused as they are read."""
    left = MOST_LITERALS
    for number, line in _lines(data, file):
        if line.startswith(b"c"):
            continue
        deletes = line.startswith(b"d ")
        clause = _clause(line[2:] if deletes else line, variables, file, number)
        left -= len(clause)
        if left < 0:
            raise Refused(file, number, f"found more than {MOST_LITERALS} literals")
        yield Step(number, deletes, clause)


def _lines(data: bytes, file: str) -> Iterator[tuple[int, bytes]]:
    """The lines of a file, numbered; each must have its end."""
    if len(data) > MOST_BYTES:
        raise Refused(file, 1, f"found more than {MOST_BYTES >> 20} MiB")
    if not data.endswith(b"\n"):
        raise Refused(file, data.count(b"\n") + 1, "the file breaks off within a line")
    start, number = 0, 0
    while start < len(data):
        end = data.index(b"\n", start)
        number += 1
        yield number, data[start:end]
        start = end + 1


def _note_name(line: bytes, names: dict[int, tuple[str, int]], file: str, number: int) -> None:
    """Notes what a comment says of a variable; other comments are words."""
    found = _NAME.fullmatch(line)
    if found is None:
        return
    variable = int(found[3])
    if variable in names or variable > MOST_VARIABLES:
        raise Refused(file, number, f"found another meaning of variable {variable}, expected one")
    names[variable] = (found[1].decode(), int(found[2]))


def _problem_line(line: bytes, file: str, number: int) -> tuple[int, int]:
    found = _PROBLEM.fullmatch(line)
    if found is None:
        message = f'found {_shown(line)}, expected "p cnf VARIABLES CLAUSES"'
        raise Refused(file, number, message)
    variables, clauses = int(found[1]), int(found[2])
    if variables > MOST_VARIABLES or clauses > MOST_CLAUSES:
        most = f"{MOST_VARIABLES} variables and {MOST_CLAUSES} clauses"
        raise Refused(file, number, f"found {_shown(line)}, expected at most {most}")
    return variables, clauses


def _clause(line: bytes, variables: int, file: str, number: int) -> Clause:
    """The literals of a line."""
    if not _CLAUSE.fullmatch(line):
        raise Refused(file, number, f"found {_shown(line)}, expected literals and a 0 at the end")
    literals = list(map(int, line.split()))
    literals.pop()
    if literals and max(max(literals), -min(literals)) > variables:
        raise Refused(file, number, f"found a literal of a variable above {variables}")
    return literals


def _shown(line: bytes) -> str:
    """The beginning of a line, for a message."""
    text = line[:40].decode("ascii", "backslashreplace")
    return f'"{text}…"' if len(line) > 40 else f'"{text}"'


def read_statement(data: bytes, file: str) -> Statement:
    """What a certificate's JSON file says. Raises Refused."""
    if len(data) > MOST_BYTES:
        raise Refused(file, 1, f"found more than {MOST_BYTES >> 20} MiB")
    try:
        said = json.loads(data.decode("utf-8"))
    except json.JSONDecodeError as error:
        raise Refused(file, error.lineno, f"it is no JSON: {error.msg}") from None
    except (ValueError, RecursionError):
        raise Refused(file, 1, "it is no JSON that can be read") from None
    if not isinstance(said, dict) or said.get("certificate") != 1:
        raise Refused(file, 1, 'expected an object with "certificate": 1')
    return Statement(
        _text(said, "puzzle", file),
        _digest(said.get("manifest"), "manifest", file),
        _answer(said.get("answer"), file),
        _model(said.get("model"), file),
        _digests(said.get("digests"), file),
    )


def _text(said: Mapping[str, Any], key: str, file: str) -> str:
    text = said.get(key)
    if not isinstance(text, str) or not 0 < len(text) <= 300:
        raise Refused(file, 1, f'expected a short text at "{key}"')
    return text


def _digest(found: object, key: str, file: str) -> str:
    if not isinstance(found, str) or not re.fullmatch("[0-9a-f]{64}", found):
        raise Refused(file, 1, f'expected a SHA-256 of 64 hexadecimal digits at "{key}"')
    return found


def _digests(found: object, file: str) -> dict[str, str]:
    if not isinstance(found, dict) or found.keys() != {"cnf", "drat"}:
        raise Refused(file, 1, 'expected "cnf" and "drat" at "digests"')
    return {key: _digest(value, key, file) for key, value in found.items()}


def _answer(found: object, file: str) -> dict[str, int]:
    if not isinstance(found, dict) or not all(type(each) is int for each in found.values()):
        raise Refused(file, 1, 'expected a digit for each cell at "answer"')
    return found


def _model(found: object, file: str) -> tuple[int, ...]:
    if (
        not isinstance(found, list)
        or len(found) > MOST_VARIABLES
        or not all(type(each) is int and 0 < each <= MOST_VARIABLES for each in found)
    ):
        raise Refused(file, 1, 'expected the numbers of true variables at "model"')
    return tuple(found)
