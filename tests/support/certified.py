"""Certificates for tests, ways to spoil them, and two other judges of proofs."""

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from pysat.solvers import Solver

from verify.budget import NEVER
from verify.certificate.binding import check_binding
from verify.certificate.checking import CertificateFiles, Checked, check_certificate
from verify.certificate.writing import write_certificate
from verify.manifest.read import read_puzzle
from verify.proof.verdict import prove
from verify.puzzle import Puzzle

Clause = Sequence[int]
SECONDS = 600.0


@cache
def certified(path: Path) -> tuple[Puzzle, CertificateFiles]:
    """The puzzle of a manifest and its certificate."""
    puzzle = read_puzzle(path)
    answer = prove(puzzle).answers[0]
    return puzzle, write_certificate(puzzle, answer, path.read_bytes(), NEVER)


def accepted(files: CertificateFiles, puzzle: Puzzle, manifest: bytes) -> Checked:
    """What the checker says of a certificate that is held against its manifest; or it raises."""
    checked = check_certificate(files, SECONDS)
    check_binding(files, checked.statement, puzzle, manifest, NEVER)
    return checked


def sealed(
    files: CertificateFiles, cnf: bytes | None = None, drat: bytes | None = None, **said: Any
) -> CertificateFiles:
    """The certificate with other files or words, and digests that agree with them."""
    new = replace(files, cnf=cnf or files.cnf, drat=files.drat if drat is None else drat)
    digests = {
        "cnf": hashlib.sha256(new.cnf).hexdigest(),
        "drat": hashlib.sha256(new.drat).hexdigest(),
    }
    return replace(
        new, json=json.dumps({**json.loads(files.json), "digests": digests, **said}).encode()
    )


def clauses_in(dimacs: bytes) -> list[list[int]]:
    """The clauses of a DIMACS file, or the lemmas of a proof without deletions."""
    lines = [line for line in dimacs.split(b"\n") if line[:1] not in (b"", b"c", b"p")]
    return [[int(word) for word in line.split()][:-1] for line in lines]


def proves(clauses: Iterable[Clause], lemmas: Iterable[Clause]) -> bool:
    """Whether each lemma up to the empty clause follows, by another program's propagation."""
    with Solver(name="minisat22", bootstrap_with=clauses) as solver:
        for lemma in lemmas:
            sound, _ = solver.propagate(assumptions=[-literal for literal in lemma])
            if sound:
                return False
            if not lemma:
                return True
            solver.add_clause(lemma)
    return False


def naive_closure(clauses: Iterable[Clause], supposed: Iterable[int]) -> set[int] | None:
    """The literals that follow by unit propagation, found by looking at all clauses again.

    None at a contradiction.
    """
    true = set(supposed)
    changed = True
    while changed:
        changed = False
        if any(-literal in true for literal in true):
            return None
        for clause in clauses:
            if any(literal in true for literal in clause):
                continue
            open_ = {literal for literal in clause if -literal not in true}
            if not open_:
                return None
            if len(open_) == 1:
                true |= open_
                changed = True
    return true


def lines_of(data: bytes) -> list[bytes]:
    """The lines of a file with their ends."""
    return data.splitlines(keepends=True)
