"""The ledger of a series: what was asked for, and what each puzzle is.

A CSV file (RFC 4180, lines that end with CR LF) with a line for each puzzle of the plan, in its
order, those without a file too. A line of a bank is told as jobs name it: `easy.txt#12`.
"""

import csv
from collections import Counter
from collections.abc import Iterator, Sequence
from io import StringIO
from pathlib import Path, PurePosixPath
from typing import Final

from layout.commands.composing import MoreFiles, Piece
from layout.output.write import OutputFile
from verify.compose.composed import Composed
from verify.compose.series.planned import Planned

FILE_NAME: Final = "ledger.csv"

HEAD: Final = (
    *("file", "title", "kind", "size", "motif", "asked", "grade", "score", "givens"),
    *("symmetry", "as-wanted", "seed", "canonical"),
)


def ledger(folder: Path, series: Sequence[Planned]) -> MoreFiles:
    """What writes the ledger beside the manifests of a series."""

    def files(found: Sequence[tuple[Piece, Composed]]) -> Iterator[OutputFile]:
        text = StringIO()
        writer = csv.writer(text, lineterminator="\r\n")
        writer.writerow(HEAD)
        lines: Counter[PurePosixPath] = Counter()
        for piece, (_, each) in zip(series, found, strict=False):
            lines[piece.file] += each.setting is not None
            number = f"#{lines[piece.file]}" if piece.is_banked else ""
            writer.writerow(_line(piece, f"{piece.file}{number}", each))
        yield folder / FILE_NAME, text.getvalue().encode("utf-8"), None

    return files


def _line(piece: Planned, name: str, found: Composed) -> tuple[object, ...]:
    setting = found.setting
    wanted = "yes" if found.as_wanted else "no"
    if setting is None:
        asked = (piece.kind, piece.size, "", piece.grade or "")
        return "", "", *asked, "", "", "", piece.symmetry, wanted, found.seed, ""
    credit, grade = setting.puzzle.credits, setting.grade
    asked = (piece.kind, piece.size, credit.theme, piece.grade or "")
    got = (grade.band.value, grade.score, setting.givens)
    end = (piece.symmetry, wanted, found.seed, setting.canonical)
    return name, credit.title, *asked, *got, *end
