"""The checksum of a book: of its puzzles' manifests and their answers, in the job's order."""

import hashlib
from collections.abc import Iterable
from typing import Final

from layout.jobs.book.certificates import Proved
from verify.certificate.manifest import manifest_bytes

UNPROVED: Final = "0" * 64
"""What stands for it while nothing is proved."""


def checksum(proved: Iterable[Proved]) -> str:
    """SHA-256, in hexadecimal, of a line for each puzzle that ends with a line feed.

    The line is the SHA-256 of its manifest as certificates have it, a space, and the symbols of
    its answer cell by cell, row by row. Raises Unreadable where a manifest is gone.
    """
    whole = hashlib.sha256()
    for each in proved:
        manifest = hashlib.sha256(manifest_bytes(each.puzzle, each.path)).hexdigest()
        answer = "".join(map(each.puzzle.symbol, each.verdict.answers[0]))
        whole.update(f"{manifest} {answer}\n".encode())
    return whole.hexdigest()
