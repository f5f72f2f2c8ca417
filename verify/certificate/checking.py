"""A certificate held against itself: that its formula has one model, as far as cells go.

What is checked here needs no puzzle: the answer is a model of the formula without its last
clause, the last clause rules out that answer and no other, and the proof shows that the whole has
no model. Whether the formula is that of a manifest is asked in `binding`. Like the files it calls
(`reading`, `refutation`) this one imports nothing of the house but these, and shares no code with
what writes certificates.
"""

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from time import monotonic

from verify.certificate.reading import Cnf, Statement, read_cnf, read_proof, read_statement
from verify.certificate.refused import Refused
from verify.certificate.refutation import check_refutation


@dataclass(frozen=True, slots=True)
class CertificateFiles:
    """The bytes of a certificate's three files, which are called `name`.cnf, .drat and .json."""

    name: str
    cnf: bytes
    drat: bytes
    json: bytes

    def called(self, kind: str) -> str:
        """The name of one of the files."""
        return f"{self.name}.{kind}"


@dataclass(frozen=True, slots=True)
class Checked:
    """A certificate that holds: what it says, and how many lemmas its proof took."""

    statement: Statement
    lemmas: int


def check_certificate(files: CertificateFiles, seconds: float) -> Checked:
    """Checks all of a certificate that needs no manifest.

    Raises Refused with the file and line of what is wrong, also where the seconds are over.
    """
    look = _clock(files.called("drat"), seconds)
    statement = read_statement(files.json, files.called("json"))
    _check_digests(files, statement)
    cnf = read_cnf(files.cnf, files.called("cnf"), look)
    look()
    _check_model(cnf, statement, files)
    look()
    steps = read_proof(files.drat, files.called("drat"), cnf.variables)
    return Checked(statement, check_refutation(cnf, steps, files.called("drat"), look))


def _clock(file: str, seconds: float) -> Callable[[], None]:
    end = monotonic() + seconds

    def look() -> None:
        if monotonic() > end:
            raise Refused(file, 1, f"it can't be checked in {seconds:g} seconds")

    return look


def _check_digests(files: CertificateFiles, statement: Statement) -> None:
    for kind, data in (("cnf", files.cnf), ("drat", files.drat)):
        if hashlib.sha256(data).hexdigest() != statement.digests[kind]:
            message = f"it is not the file that {files.called('json')} was written with"
            raise Refused(files.called(kind), 1, message)


def _check_model(cnf: Cnf, statement: Statement, files: CertificateFiles) -> None:
    """Holds the answer against each clause, and against the last one."""
    said, written = files.called("json"), files.called("cnf")
    true = frozenset(statement.model)
    if not cnf.clauses:
        raise Refused(
            written, 1, "found no clauses, expected one at the end that rules out the answer"
        )
    if any(variable > cnf.variables for variable in true):
        raise Refused(said, 1, f"the model has a variable above {cnf.variables}")
    placed = _placed(cnf.names, true, said)
    if placed != statement.answer:
        raise Refused(said, 1, f"the answer and the model differ{_where(placed, statement.answer)}")
    for clause, line in zip(cnf.clauses[:-1], cnf.lines, strict=False):
        if not any((abs(literal) in true) == (literal > 0) for literal in clause):
            raise Refused(written, line, "the answer does not satisfy this clause")
    block = {-variable for variable in cnf.names if variable in true}
    if set(cnf.clauses[-1]) != block:
        message = "the last clause is not that which rules out the answer, and only it"
        raise Refused(written, cnf.lines[-1], message)


def _placed(
    names: Mapping[int, tuple[str, int]], true: frozenset[int], file: str
) -> dict[str, int]:
    """The digit of each cell in the model; each must have one and only one."""
    placed: dict[str, int] = {}
    for variable, (cell, digit) in names.items():
        if variable in true:
            if cell in placed:
                raise Refused(file, 1, f"the model has two digits in {cell}")
            placed[cell] = digit
    for cell, _ in names.values():
        if cell not in placed:
            raise Refused(file, 1, f"the model has no digit in {cell}")
    return placed


def _where(one: Mapping[str, int], other: Mapping[str, int]) -> str:
    """The first cell that is not the same in both."""
    cells = [cell for cell in (*one, *other) if one.get(cell) != other.get(cell)]
    return f" in {cells[0][:20]}" if cells else ""
