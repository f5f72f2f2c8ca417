"""What `reglet compose` does with puzzles to be composed, whatever they come from."""

import argparse
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from layout.commands.told_reasons import none_facts, none_words
from layout.console import answer, answer_json, counted, progress, status, tell
from layout.output.write import OutputFile, outputs_in, write_whole
from verify import __version__
from verify.compose.composed import Commission, Composed, composed, search_for
from verify.compose.measure import Candidate
from verify.compose.several import Composable, compose_each
from verify.manifest.bank import bank_text


@dataclass(frozen=True, slots=True)
class Piece:
    """A puzzle to be composed, and the file that it goes to; a line of it where that is a bank."""

    path: Path
    composable: Composable
    is_banked: bool = False


MoreFiles = Callable[[Sequence[tuple[Piece, Composed]]], Iterator[OutputFile]]
"""Files beside the manifests, made from what was found."""


def numbers(count: int) -> Iterator[str]:
    """Numbers from 1, with as many figures as the last one, at least two."""
    width = max(2, len(str(count)))
    return (f"{number:0{width}}" for number in range(1, count + 1))


def compose_single(path: Path, commission: Commission, options: argparse.Namespace) -> int:
    """Composes and writes one puzzle; after Ctrl-C the best so far.

    Raises KeyboardInterrupt then, once it is written.
    """
    interrupted = False
    with status("composing", options.quiet) as say:
        search = search_for(commission, lambda best, tries: say(_so_far(best, tries)))
        try:
            search.run()
        except KeyboardInterrupt:
            interrupted = True
    found = composed(commission, search)
    written = []
    if found.setting is not None:
        write_whole(path, found.setting.text.encode("utf-8"))
        written.append(path)
    _report([(Piece(path, commission), found)], written, options)
    if interrupted:
        raise KeyboardInterrupt
    return _exit_code([found])


def _so_far(best: Candidate | None, tries: int) -> str:
    drawn = counted(tries, "answer")
    if best is None:
        return f"composing: {drawn} tried"
    return f"composing: {drawn} tried, best {best.grade.band.value} with {best.givens} givens"


def compose_pieces(
    pieces: Sequence[Piece],
    folder: Path,
    options: argparse.Namespace,
    more: MoreFiles = lambda found: iter(()),
) -> int:
    """Composes many, and writes those that were found, all in one step.

    Raises KeyboardInterrupt after Ctrl-C, once what was found until then is written.
    """
    found: list[tuple[Piece, Composed]] = []
    interrupted = False
    folders = dict.fromkeys([folder, *(piece.path.parent for piece in pieces)])
    with outputs_in(list(folders), "compose", partial(tell, quiet=options.quiet)) as outputs:
        try:
            with progress("composing", len(pieces), options.quiet) as done:
                every = [piece.composable for piece in pieces]
                each = compose_each(every, options.jobs, done)
                found.extend(zip(pieces, each, strict=True))
        except KeyboardInterrupt:
            interrupted = True
        written = outputs.write_all([*_manifests(found), *_banks(found), *more(found)])
    _report(found, written, options)
    if interrupted:
        raise KeyboardInterrupt
    return _exit_code([each for _, each in found])


def _manifests(found: Sequence[tuple[Piece, Composed]]) -> Iterator[OutputFile]:
    for piece, each in found:
        if each.setting is not None and not piece.is_banked:
            yield piece.path, each.setting.text.encode("utf-8"), None


def _banks(found: Sequence[tuple[Piece, Composed]]) -> Iterator[OutputFile]:
    """Each bank with a line for each puzzle that was found for it, in their order."""
    lines: dict[Path, list[str]] = {}
    for piece, each in found:
        if each.setting is not None and piece.is_banked:
            lines.setdefault(piece.path, []).append(bank_text(each.setting.puzzle) + "\n")
    for path, every in lines.items():
        yield path, "".join(every).encode("utf-8"), None


def _exit_code(found: Sequence[Composed]) -> int:
    return 0 if all(each.as_wanted for each in found) else 1


def _report(
    found: Sequence[tuple[Piece, Composed]], written: Sequence[Path], options: argparse.Namespace
) -> None:
    """What was found, and what stands in the way of the rest."""
    if options.json:
        puzzles = [_facts(piece, each) for piece, each in found]
        names = [path.as_posix() for path in written]
        answer_json({"reglet": __version__, "puzzles": puzzles, "written": names})
    else:
        for piece, each in found:
            for line in _lines(piece, each):
                answer(line)
    wanted = sum(each.as_wanted for _, each in found)
    tell(f"{len(found)} composed: {wanted} as wanted, {len(written)} written", options.quiet)


def _lines(piece: Piece, found: Composed) -> Iterator[str]:
    setting = found.setting
    if setting is not None:
        band = setting.grade.band.value
        nearest = "" if found.as_wanted else ", the nearest found"
        yield f"{piece.path}: one, {band}, {counted(setting.givens, 'given')}{nearest}"
    for problem in found.lacking:
        is_none = setting is None and found.why_none is not None
        yield f"{problem}{none_words(found.why_none) if is_none else ''}"
    if found.spent and setting is not None:
        yield f"{found.file}: the time was over first; --seconds gives more"


def _facts(piece: Piece, found: Composed) -> dict[str, Any]:
    """A puzzle of the JSON document."""
    setting = found.setting
    facts: dict[str, Any] = {"seed": found.seed, "tries": found.tries}
    facts["as_wanted"] = found.as_wanted
    if setting is not None:
        facts |= {"file": piece.path.as_posix(), "title": setting.puzzle.title, "verdict": "one"}
        facts["grade"] = {"band": setting.grade.band.value, "score": setting.grade.score}
        facts["givens"] = setting.givens
    if found.why_none is not None:
        facts |= none_facts(found.why_none)
    if found.lacking:
        facts["spent"] = found.spent
        facts["errors"] = [
            {"line": each.place.line, "column": each.place.column, "message": each.message}
            for each in found.lacking
        ]
    return facts
