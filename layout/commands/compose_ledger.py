"""The ledger of a series: what was asked for, and what each puzzle is.

A CSV file (RFC 4180, lines that end with CR LF) with a line for each puzzle of the plan, in its
order, those without a file too.
"""

import csv
from collections.abc import Iterator, Sequence
from io import StringIO
from pathlib import Path
from typing import Final

from layout.commands.composing import MoreFiles, Piece
from layout.output.write import OutputFile
from verify.compose.composed import Composed
from verify.compose.series.series import SeriesPiece

FILE_NAME: Final = "ledger.csv"

HEAD: Final = (
    *("file", "title", "kind", "size", "motif", "asked", "grade", "score", "givens"),
    *("symmetry", "as-wanted", "seed", "canonical"),
)


def ledger(folder: Path, series: Sequence[SeriesPiece]) -> MoreFiles:
    """What writes the ledger beside the manifests of a series."""

    def files(found: Sequence[tuple[Piece, Composed]]) -> Iterator[OutputFile]:
        text = StringIO()
        writer = csv.writer(text, lineterminator="\r\n")
        writer.writerow(HEAD)
        for piece, (written, each) in zip(series, found, strict=False):
            writer.writerow(_line(piece, written.path.name, each))
        yield folder / FILE_NAME, text.getvalue().encode("utf-8"), None

    return files


def _line(piece: SeriesPiece, name: str, found: Composed) -> tuple[object, ...]:
    line, setting = piece.line, found.setting
    wanted = "yes" if found.as_wanted else "no"
    if setting is None:
        asked = (line.kind, line.size, "", line.grade or "")
        return "", "", *asked, "", "", "", line.symmetry, wanted, found.seed, ""
    credit, grade = setting.puzzle.credits, setting.grade
    asked = (line.kind, line.size, credit.theme, line.grade or "")
    got = (grade.band.value, grade.score, setting.givens)
    end = (line.symmetry, wanted, found.seed, setting.canonical)
    return name, credit.title, *asked, *got, *end
