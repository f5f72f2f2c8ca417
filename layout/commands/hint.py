"""`reglet hint PUZZLE.yaml --so-far GRID`: the best next step for somebody who is stuck."""

import argparse
import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.commands.language import add_language
from layout.commands.seconds import add_seconds, budget_of
from layout.console import answer, answer_json, tell

if TYPE_CHECKING:
    from layout.language.words import Words
    from verify.board import Cell
    from verify.budget import Deadline
    from verify.pencil import Grid
    from verify.proof.verdict import Verdict
    from verify.puzzle import Puzzle
    from verify.walk.facts.step import Step
    from verify.walk.told.path import ToldPath

TIERS: Final = (1, 2, 3)

OPTION: Final = "--so-far"

STDIN: Final = "-"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("puzzle", type=Path, metavar="PUZZLE", help="a manifest")
    parser.add_argument(
        OPTION,
        required=True,
        metavar="GRID",
        help="what stands there: a file, - for standard input, or the cells themselves, row by row",
    )
    parser.add_argument(
        "--tier",
        type=int,
        choices=TIERS,
        default=TIERS[0],
        help="1: where to look (the usual one), 2: what to look for, 3: what follows",
    )
    parser.add_argument("--show-wrong", action="store_true", help="say which cells are wrong")
    parser.add_argument(
        "--leave-wrong", action="store_true", help="hint all the same, from what is right"
    )
    add_language(parser)
    add_seconds(parser, "the proof and the next step")


@dataclass(frozen=True, slots=True)
class _Advice:
    """What is said to a solver.

    `wrong` are the cells that are not as in the answer; `path` is the next step, or None where
    none was sought; `hints` are those of all tiers.
    """

    wrong: tuple["Cell", ...] = ()
    is_full: bool = False
    path: "ToldPath | None" = None
    hints: tuple[str, ...] = ()

    @property
    def helps(self) -> bool:
        """Whether there is a hint, or no need of one."""
        return bool(self.hints) or (self.is_full and not self.wrong)


def run(options: argparse.Namespace) -> int:
    """Prints how the grid stands, and the hint; 1 where there is none that could be given.

    So it is where the puzzle has not exactly one answer, where something is wrong and is not to
    be left out, where no technique gets on, and where time is over. Raises Unreadable where the
    manifest or the grid can't be read.
    """
    from layout.commands.proved import answer_of
    from layout.language.words import read_words
    from verify.manifest.read import read_puzzle
    from verify.proof.verdict import prove

    deadline = budget_of(options).deadline()
    puzzle = read_puzzle(options.puzzle)
    so_far = _so_far(options.so_far, puzzle)
    words = read_words(options.language)
    verdict = prove(puzzle, deadline=deadline)
    solution = answer_of(puzzle, verdict)
    if solution is None:
        if options.json:
            answer_json(_document(puzzle, verdict, None, options))
        return 1
    advice = _advice(puzzle, so_far, solution, words, deadline, options)
    if options.json:
        answer_json(_document(puzzle, verdict, advice, options))
    else:
        answer("\n".join(_lines(puzzle, advice, words, options)))
    if advice.path is None and not advice.helps:
        ways_on = "--show-wrong names what is wrong, --leave-wrong hints from the rest"
        tell(f"{options.puzzle}: no hint while something is wrong; {ways_on}", options.quiet)
    return 0 if advice.helps else 1


def _so_far(given: str, puzzle: "Puzzle") -> tuple[int, ...]:
    """The grid of a file, of standard input, or of the argument itself. Raises Unreadable."""
    from verify.manifest.so_far import can_be_grid, no_grid, read_so_far
    from verify.manifest.source import shown_path, source_text, stream_text

    if given == STDIN:
        name = "standard input"
        stream = None if sys.stdin is None else getattr(sys.stdin, "buffer", None)
        return read_so_far(stream_text(stream, name), name, puzzle)
    if not os.path.lexists(given):
        if not can_be_grid(given, puzzle):
            raise no_grid(given, OPTION, puzzle)
        return read_so_far(given, OPTION, puzzle)
    path = Path(given)
    name = shown_path(path)
    return read_so_far(source_text(path, name), name, puzzle)


def _advice(
    puzzle: "Puzzle",
    so_far: "Grid",
    solution: "Grid",
    words: "Words",
    deadline: "Deadline",
    options: argparse.Namespace,
) -> _Advice:
    """Holds a grid against the answer, and seeks the next step where it may."""
    from layout.telling.hints import rising_hints
    from verify.walk.told.next_step import next_step, with_placed

    wrong = tuple(
        cell
        for cell, (digit, right) in enumerate(zip(so_far, solution, strict=True))
        if digit not in (0, right)
    )
    is_full = all(so_far[cell] for cell in puzzle.board.cells)
    if (wrong and not options.leave_wrong) or (is_full and not wrong):
        return _Advice(wrong, is_full)
    right = [0 if cell in wrong else digit for cell, digit in enumerate(so_far)]
    sheet = with_placed(puzzle, right)
    path = next_step(sheet, deadline)
    return _Advice(wrong, is_full, path, rising_hints(sheet, path, words))


def _lines(
    puzzle: "Puzzle", advice: _Advice, words: "Words", options: argparse.Namespace
) -> Iterator[str]:
    """How the grid stands, and the hint of the tier that is asked for."""
    from layout.language.wording import symbol_words
    from layout.language.words import fill

    said, symbols = words.hints.so_far, symbol_words(puzzle.symbols, words)
    names = {"digit": symbols.one, "digits": symbols.many}
    count = len(advice.wrong)
    if count:
        yield fill(said.wrong.of(count), count=count, **names)
        if options.show_wrong:
            yield fill(said.which, cells=words.lists.join(_named(puzzle, advice.wrong)))
    elif advice.is_full:
        yield said.done
    else:
        yield said.right
    if advice.hints:
        yield advice.hints[options.tier - 1]
    elif advice.path is not None:
        yield said.time_over if advice.path.cut_short else said.no_way


def _named(puzzle: "Puzzle", cells: Sequence["Cell"]) -> list[str]:
    return [puzzle.board.name(cell) for cell in cells]


def _document(
    puzzle: "Puzzle", verdict: "Verdict", advice: _Advice | None, options: argparse.Namespace
) -> dict[str, Any]:
    """The JSON document; without advice the puzzle has not exactly one answer."""
    from verify import __version__

    facts: dict[str, Any] = {
        "reglet": __version__,
        "file": puzzle.file,
        "id": puzzle.id,
        "verdict": verdict.word,
    }
    if verdict.differs:
        facts["differs"] = _named(puzzle, verdict.differs)
    if verdict.contradicts:
        facts["contradicts"] = _named(puzzle, verdict.contradicts)
    if advice is None:
        return facts
    facts["wrong"] = len(advice.wrong)
    if options.show_wrong:
        facts["wrong_cells"] = _named(puzzle, advice.wrong)
    facts["full"] = advice.is_full
    facts["cut_short"] = advice.path is not None and advice.path.cut_short
    facts["hint"] = _hint_facts(puzzle, advice, options.tier)
    return facts


def _hint_facts(puzzle: "Puzzle", advice: _Advice, tier: int) -> dict[str, Any] | None:
    """The hint of a tier: its technique is told from the second on, its steps in the third."""
    if advice.path is None or not advice.hints:
        return None
    steps = [each.step for each in advice.path.steps]
    facts: dict[str, Any] = {"tier": tier, "words": advice.hints[tier - 1]}
    if tier > 1:
        facts["technique"] = steps[0].technique.value
    if tier == TIERS[-1]:
        facts["steps"] = [_step_facts(puzzle, step) for step in steps]
    return facts


def _step_facts(puzzle: "Puzzle", step: "Step") -> dict[str, Any]:
    """What a step does, its digits by number."""
    from layout.commands.walk_json import digits_of_cells

    return {
        "technique": step.technique.value,
        "rule": step.rule,
        "places": {puzzle.board.name(cell): digit for cell, digit in step.places},
        "removes": digits_of_cells(puzzle.board, step.removes),
    }
