"""Writes a certificate: the puzzle's formula, a proof from the solver's log, and a statement."""

import hashlib
import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib.metadata import version
from typing import Any, Final

from verify import __version__
from verify.budget import BudgetSpent, Deadline
from verify.certificate.checking import CertificateFiles
from verify.certificate.encoding import Clause, Encoding, encode
from verify.certificate.reading import MOST_BYTES
from verify.proof.solver import limited
from verify.proof.verdict import ProofFault
from verify.puzzle import Puzzle

SOLVER: Final = "glucose4"
"""A solver that logs its proof and can be interrupted. Its proofs need no RAT."""

MOST_CONFLICTS: Final = 100_000
"""Conflicts of one proof: each makes a lemma, which someone else must be able to check."""


def write_certificate(
    puzzle: Puzzle, answer: Sequence[int], manifest: bytes, deadline: Deadline
) -> CertificateFiles:
    """The certificate of a puzzle with one answer, which has passed the plain check.

    `manifest` are the bytes that the puzzle was read from. The same input gives the same bytes.
    Raises BudgetSpent where time, conflicts or room are over, and ProofFault where the solver
    finds another answer, or not this one: a defect of this program.
    """
    encoding = encode(puzzle, answer, deadline)
    model = _model(puzzle, encoding, deadline)
    cnf, drat = encoding.dimacs(), _proof(puzzle, encoding, deadline)
    if max(len(cnf), len(drat)) > MOST_BYTES:
        raise BudgetSpent
    said = {
        "certificate": 1,
        "puzzle": puzzle.id,
        "manifest": digest(manifest),
        "answer": encoding.answer,
        "model": model,
        "digests": {"cnf": digest(cnf), "drat": digest(drat)},
        "versions": {"reglet": __version__, "python-sat": version("python-sat"), "solver": SOLVER},
    }
    return CertificateFiles(puzzle.id, cnf, drat, _json(said))


def digest(data: bytes) -> str:
    """SHA-256 in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def _json(said: dict[str, Any]) -> bytes:
    """An object with a line for each key."""
    lines = [f"{json.dumps(key)}: {json.dumps(value)}" for key, value in said.items()]
    return ("{\n" + ",\n".join(lines) + "\n}\n").encode("ascii")


@contextmanager
def _solver(clauses: Sequence[Clause], *, with_proof: bool) -> Iterator[Any]:
    from pysat.solvers import Solver

    solver = Solver(name=SOLVER, bootstrap_with=clauses, with_proof=with_proof)
    try:
        yield solver
    finally:
        solver.delete()


def _model(puzzle: Puzzle, encoding: Encoding, deadline: Deadline) -> list[int]:
    """The variables that are true in the answer, helpers among them."""
    with _solver(encoding.clauses, with_proof=False) as solver:
        found = limited(solver, encoding.placed, MOST_CONFLICTS, deadline)
        if found is None:
            raise BudgetSpent
        if not found:
            raise ProofFault(f"{puzzle.file}: the answer is not one by the clauses")
        return [literal for literal in solver.get_model() if literal > 0]


def _proof(puzzle: Puzzle, encoding: Encoding, deadline: Deadline) -> bytes:
    """The lemmas up to the empty clause, in DRAT text.

    Deletions are left out. The solver deletes clauses that gave it a literal and goes on using
    that, which some checkers take for a fault; and without deletions every lemma still follows.
    """
    with _solver([*encoding.clauses, encoding.block], with_proof=True) as solver:
        found = limited(solver, [], MOST_CONFLICTS, deadline)
        if found is None:
            raise BudgetSpent
        if found:
            raise ProofFault(f"{puzzle.file}: the clauses have another answer")
        logged = [line for line in solver.get_proof() if not line.startswith("d")]
    lemmas = logged[: logged.index("0")] if "0" in logged else logged
    return "".join(f"{lemma}\n" for lemma in (*lemmas, "0")).encode("ascii")
