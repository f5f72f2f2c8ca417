"""Certificates of the demo books are accepted; spoiled ones are refused."""

import json
import os
from dataclasses import replace

import pytest

from tests.support.certified import (
    SECONDS,
    accepted,
    certified,
    clauses_in,
    lines_of,
    proves,
    sealed,
)
from tests.support.checkout import BOOKS
from verify.budget import NEVER, Budget, BudgetSpent, Deadline
from verify.certificate.checking import check_certificate
from verify.certificate.encoding import encode
from verify.certificate.refused import Refused
from verify.certificate.writing import write_certificate
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import ProofFault, prove

ALL = sorted(
    path
    for book in ("saltmarsh", "gallery")
    for path in (BOOKS / book / "puzzles").glob("*/*.yaml")
)
THOROUGH = os.environ.get("REGLET_TESTS") == "thorough"
SOME = ALL if THOROUGH else ALL[::9]

SUMS = BOOKS / "gallery/puzzles/cells/03-calculation.yaml"
"""A small puzzle whose proof has lemmas."""

OTHER = BOOKS / "saltmarsh/puzzles/dry-shod/07-dinghy.yaml"
CAGES = BOOKS / "gallery/puzzles/cells/01-cage.yaml"
HOLES = BOOKS / "gallery/puzzles/houses/15-holes.yaml"
GRIDS = BOOKS / "gallery/puzzles/houses/14-two-grids.yaml"


def held(path):
    return (*certified(path), path.read_bytes())


def refused(files, path=SUMS):
    """What is said of a certificate that must be refused."""
    puzzle, _, manifest = held(path)
    with pytest.raises(Refused) as why:
        accepted(files, puzzle, manifest)
    assert why.value.line >= 1
    return str(why.value)


@pytest.mark.parametrize("path", sorted({*SOME, SUMS, HOLES, GRIDS}), ids=lambda path: path.stem)
def test_a_demo_puzzle_s_certificate_is_accepted(path):
    puzzle, files, manifest = held(path)
    checked = accepted(files, puzzle, manifest)
    assert checked.statement.puzzle == puzzle.id
    if b"d " not in files.drat and checked.lemmas < 200:
        assert proves(clauses_in(files.cnf), clauses_in(files.drat))


def test_the_same_puzzle_has_the_same_certificate():
    puzzle, files, manifest = held(CAGES)
    assert write_certificate(puzzle, prove(puzzle).answers[0], manifest, NEVER) == files


def test_a_formula_says_what_its_variables_mean():
    puzzle, files, _ = held(SUMS)
    lines = files.cnf.decode().split("\n")
    assert "c r1c1=5 is 5" in lines
    assert "c r6c6=6 is 216" in lines
    answer = json.loads(files.json)["answer"]
    block = {-((int(cell[1]) - 1) * 36 + (int(cell[3]) - 1) * 6 + d) for cell, d in answer.items()}
    assert set(map(int, lines[-2].split())) == block | {0}
    givens = [cell * 6 + given for cell, given in enumerate(puzzle.givens) if given]
    assert all(f"{given} 0" in lines for given in givens)


def test_a_proof_needs_no_deletions():
    assert b"d" not in certified(CAGES)[1].drat


def test_dropped_lemmas_are_seen_where_they_are_missed():
    puzzle, files, manifest = held(CAGES)
    lines = lines_of(files.drat)
    cnf, seen = clauses_in(files.cnf), 0
    for at in range(0, len(lines), len(lines) // 8):
        drat = b"".join(lines[:at] + lines[at + 30 :])
        spoiled = sealed(files, drat=drat)
        if proves(cnf, clauses_in(drat)):
            assert accepted(spoiled, puzzle, manifest)
        else:
            refused(spoiled, CAGES)
            seen += 1
    assert seen >= 4


def test_each_lemma_of_a_small_proof_dropped_or_flipped():
    puzzle, files, manifest = held(SUMS)
    cnf, lemmas = clauses_in(files.cnf), clauses_in(files.drat)
    proofs = [[*lemmas[:at], *lemmas[at + 1 :]] for at in range(len(lemmas))]
    for at, lemma in enumerate(lemmas):
        for place in range(len(lemma)):
            flipped = [-each if spot == place else each for spot, each in enumerate(lemma)]
            proofs.append([*lemmas[:at], flipped, *lemmas[at + 1 :]])
    seen = 0
    for proof in proofs:
        drat = "".join(" ".join(map(str, [*lemma, 0])) + "\n" for lemma in proof).encode()
        if proves(cnf, proof):
            assert accepted(sealed(files, drat=drat), puzzle, manifest)
        else:
            refused(sealed(files, drat=drat))
            seen += 1
    assert seen >= 30


def test_a_truncated_proof():
    files = certified(SUMS)[1]
    for end in range(0, len(files.drat) - 1, 9):
        why = refused(sealed(files, drat=files.drat[:end]))
        assert "03-calculation.drat" in why


def test_the_formula_without_one_of_its_clauses_or_with_a_literal_flipped():
    """Only the manifest tells of a clause too few; and then always."""
    _, files, _ = held(SUMS)
    lines = lines_of(files.cnf)
    head = next(at for at, line in enumerate(lines) if line.startswith(b"p"))
    count = len(lines) - head - 1
    for at in range(head + 1, len(lines), count // 40):
        problem = lines[head].replace(f" {count}\n".encode(), f" {count - 1}\n".encode())
        dropped = [*lines[:head], problem, *lines[head + 1 : at], *lines[at + 1 :]]
        refused(sealed(files, cnf=b"".join(dropped)))
        words = lines[at].split()
        words[0] = str(-int(words[0])).encode()
        flipped = [*lines[:at], b" ".join(words) + b"\n", *lines[at + 1 :]]
        refused(sealed(files, cnf=b"".join(flipped)))


def test_other_names_of_the_variables():
    _, files, _ = held(SUMS)
    swapped = files.cnf.replace(b"c r1c1=1 is 1\n", b"c r1c1=2 is 1\n", 1)
    swapped = swapped.replace(b"c r1c1=2 is 2\n", b"c r1c1=1 is 2\n", 1)
    refused(sealed(files, cnf=swapped))


def test_a_clause_that_rules_out_more_than_the_answer():
    """Seen without the manifest: else a puzzle with many answers would have a certificate."""
    _, files, _ = held(SUMS)
    lines = lines_of(files.cnf)
    for at in range(len(lines[-1].split()) - 1):
        words = lines[-1].split()
        del words[at]
        cnf = b"".join([*lines[:-1], b" ".join(words) + b"\n"])
        with pytest.raises(Refused, match="rules out the answer") as why:
            check_certificate(sealed(files, cnf=cnf), SECONDS)
        assert why.value.line == len(lines)


def test_a_changed_answer():
    _, files, _ = held(SUMS)
    said = json.loads(files.json)
    for cell, digit in said["answer"].items():
        assert cell in refused(sealed(files, answer={**said["answer"], cell: digit % 6 + 1}))
    for at, variable in enumerate(said["model"][:36]):
        model = [*said["model"][:at], *said["model"][at + 1 :]]
        assert "no digit" in refused(sealed(files, model=model))
        other = variable + 1 if variable % 6 else variable - 1
        refused(sealed(files, model=[*model, other]))
        assert "two digits" in refused(sealed(files, model=[*said["model"], other]))


def test_a_changed_answer_in_all_places():
    """Answer, model and last clause agree on another grid, which is no model."""
    _, files, _ = held(SUMS)
    said, lines = json.loads(files.json), lines_of(files.cnf)
    old = next(variable for variable in said["model"] if variable % 6 == 1)
    new, cell = old + 1, list(said["answer"])[(old - 1) // 6]
    cnf = b"".join([*lines[:-1], lines[-1].replace(b"%d " % -old, b"%d " % -new, 1)])
    model = [new if each == old else each for each in said["model"]]
    spoiled = sealed(files, cnf=cnf, answer={**said["answer"], cell: 2}, model=model)
    assert "does not satisfy" in refused(spoiled)


def test_another_puzzle_s_files():
    other = certified(OTHER)[1]
    files = certified(SUMS)[1]
    refused(sealed(files, drat=other.drat))
    refused(sealed(files, cnf=other.cnf))
    refused(replace(files, cnf=other.cnf))
    refused(replace(files, drat=other.drat))
    refused(replace(files, json=other.json))
    assert "another puzzle" in refused(other)
    assert "has changed since" in refused(
        replace(other, json=sealed(other, puzzle="03-calculation").json)
    )


def test_files_that_are_not_those_of_the_statement():
    files = certified(SUMS)[1]
    assert "was written with" in refused(replace(files, cnf=b"c\n" + files.cnf))
    assert "was written with" in refused(replace(files, drat=b"1 -1 0\n" + files.drat))


def test_a_changed_manifest():
    puzzle, files, manifest = held(SUMS)
    with pytest.raises(Refused, match="has changed since"):
        accepted(files, puzzle, manifest + b"\n")


def test_a_changed_puzzle_even_if_its_manifest_were_the_same():
    puzzle, files, manifest = held(OTHER)
    givens = [cell for cell, given in enumerate(puzzle.givens) if given]
    for cell in givens:
        fewer = [0 if each == cell else given for each, given in enumerate(puzzle.givens)]
        with pytest.raises(Refused, match="from this line on"):
            accepted(files, replace(puzzle, givens=tuple(fewer)), manifest)
    with pytest.raises(Refused, match="from this line on"):
        accepted(files, replace(puzzle, uses=puzzle.uses[:-1]), manifest)
    assert givens


def test_the_time_is_bounded():
    files = certified(CAGES)[1]
    with pytest.raises(Refused, match="can't be checked in"):
        check_certificate(files, 0.0)
    puzzle, _, manifest = held(SUMS)
    answer = prove(puzzle).answers[0]
    with pytest.raises(BudgetSpent):
        write_certificate(puzzle, answer, manifest, Budget(seconds=-1.0).deadline())


def test_nothing_is_written_of_an_answer_that_is_none_or_not_alone():
    puzzle, _, manifest = held(SUMS)
    answer = list(prove(puzzle).answers[0])
    answer[0], answer[1] = answer[1], answer[0]
    with pytest.raises(ProofFault, match="not one by the clauses"):
        write_certificate(puzzle, answer, manifest, NEVER)
    many = puzzle_from_text("kind: latin\nsize: 2")
    with pytest.raises(ProofFault, match="another answer"):
        write_certificate(many, (1, 2, 2, 1), b"", NEVER)


def test_holes_have_no_variables():
    puzzle = certified(HOLES)[0]
    encoding = encode(puzzle, prove(puzzle).answers[0], Deadline())
    assert len(encoding.names) == len(puzzle.board.cells) * puzzle.board.digits
    assert len(encoding.block) == len(puzzle.board.cells) < len(puzzle.board.places)
