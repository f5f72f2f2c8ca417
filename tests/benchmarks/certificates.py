"""Certificates of the demo books, all to be accepted, and spoiled ones, all to be refused.

    python -m tests.benchmarks.certificates [--spoiled 200] [BOOK ...]

A spoiled one lacks a clause or a lemma, has a literal flipped, or has a file of another puzzle;
its digests agree with its files again. What another program's propagation still takes for a proof
is one, and is spoiled anew.
"""

import argparse
import random
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from tests.support.certified import accepted, certified, clauses_in, lines_of, proves, sealed
from tests.support.checkout import BOOKS
from verify.certificate.checking import CertificateFiles
from verify.certificate.refused import Refused

SHORT: Final = 60
"""Lemmas of a proof that is spoiled and soon judged by another program."""


def clause_dropped(files: CertificateFiles, dice: random.Random) -> CertificateFiles | None:
    """The formula without one of its clauses, which the head knows."""
    lines = lines_of(files.cnf)
    head = next(at for at, line in enumerate(lines) if line.startswith(b"p"))
    count = len(lines) - head - 1
    del lines[dice.randrange(head + 1, len(lines))]
    lines[head] = lines[head].replace(b" %d\n" % count, b" %d\n" % (count - 1))
    return sealed(files, cnf=b"".join(lines))


def literal_flipped(files: CertificateFiles, dice: random.Random) -> CertificateFiles | None:
    """The formula with one literal of one clause negated."""
    lines = lines_of(files.cnf)
    head = next(at for at, line in enumerate(lines) if line.startswith(b"p"))
    at = dice.randrange(head + 1, len(lines))
    lines[at] = _flipped(lines[at], dice)
    return sealed(files, cnf=b"".join(lines))


def lemma_dropped(files: CertificateFiles, dice: random.Random) -> CertificateFiles | None:
    """The proof without one of its lemmas; None where it is still one."""
    lemmas = lines_of(files.drat)
    del lemmas[dice.randrange(len(lemmas))]
    return _with_proof(files, lemmas)


def lemma_flipped(files: CertificateFiles, dice: random.Random) -> CertificateFiles | None:
    """The proof with one literal of one lemma negated; None where it is still one."""
    lemmas = lines_of(files.drat)
    at = dice.randrange(len(lemmas))
    lemmas[at] = _flipped(lemmas[at], dice)
    return _with_proof(files, lemmas)


def _flipped(line: bytes, dice: random.Random) -> bytes:
    words = line.split()
    if len(words) > 1:
        at = dice.randrange(len(words) - 1)
        words[at] = b"%d" % -int(words[at])
    return b" ".join(words) + b"\n"


def _with_proof(files: CertificateFiles, lemmas: Sequence[bytes]) -> CertificateFiles | None:
    drat = b"".join(lemmas)
    if len(lemmas) > SHORT or proves(clauses_in(files.cnf), clauses_in(drat)):
        return None
    return sealed(files, drat=drat)


def another_s(
    files: CertificateFiles, other: CertificateFiles, dice: random.Random
) -> CertificateFiles:
    """The formula of another puzzle, or all that is said of it under this one's name."""
    if dice.randrange(2):
        return sealed(files, cnf=other.cnf)
    return other


SPOILERS: Final = (clause_dropped, literal_flipped, lemma_dropped, lemma_flipped)


def is_accepted(files: CertificateFiles, path: Path) -> bool:
    """Whether a certificate passes for the puzzle of a manifest."""
    try:
        accepted(files, certified(path)[0], path.read_bytes())
    except Refused:
        return False
    return True


def main() -> int:
    """Certifies every puzzle, spoils some, and prints what the checker says."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("books", nargs="*", metavar="BOOK", default=["saltmarsh", "gallery"])
    parser.add_argument("--spoiled", type=int, default=200)
    options = parser.parse_args()
    paths = [path for book in options.books for path in sorted((BOOKS / book).rglob("*/*.yaml"))]
    paths = [path for path in paths if "puzzles" in path.parts]
    bad = [path for path in paths if not is_accepted(certified(path)[1], path)]
    print(f"{len(paths)} certificates, {len(bad)} refused {bad or ''}", flush=True)
    dice, tried, passed = random.Random(14), Counter[str](), 0
    while tried.total() < options.spoiled:
        path, other = dice.sample(paths, 2)
        spoiler = dice.choice((*SPOILERS, None))
        files = certified(path)[1]
        if spoiler is None:
            spoiled: CertificateFiles | None = another_s(files, certified(other)[1], dice)
        else:
            spoiled = spoiler(files, dice)
        if spoiled is not None:
            tried[spoiler.__name__ if spoiler else "another's"] += 1
            passed += is_accepted(spoiled, path)
    print(f"{tried.total()} spoiled ones, {passed} accepted; {dict(tried)}")
    return 1 if bad or passed else 0


if __name__ == "__main__":
    sys.exit(main())
