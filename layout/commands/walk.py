"""`reglet walk PUZZLE.yaml`: the solve path in words."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from layout.console import answer, answer_json, tell

if TYPE_CHECKING:
    from layout.telling.telling import Telling, Told
    from verify.puzzle import Puzzle
    from verify.walk.walk import Walk

USUAL_LANGUAGE: Final = "en"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("puzzle", type=Path, metavar="PUZZLE", help="a manifest")
    parser.add_argument(
        "--language", type=_language, default=USUAL_LANGUAGE, metavar="CODE", help="such as de"
    )


def _language(text: str) -> str:
    from layout.type.words import languages

    if text not in languages():
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {' or '.join(languages())}")
    return text


def run(options: argparse.Namespace) -> int:
    """Prints the walk; 1 where the known techniques do not lead to its end.

    Raises Unreadable where the manifest can't be read.
    """
    from layout.telling.telling import tell_walk
    from layout.type.words import read_words
    from verify.manifest.read import read_puzzle
    from verify.walk.walk import walk

    puzzle = read_puzzle(options.puzzle)
    walked = walk(puzzle)
    telling = tell_walk(puzzle, walked, read_words(options.language))
    if options.json:
        answer_json(document(puzzle, telling, walked))
    else:
        answer(_text(puzzle, telling))
    state = "finished" if walked.finished else "not finished"
    tell(f"{options.puzzle}: {state}, {len(telling.steps)} steps", options.quiet)
    return 0 if walked.finished else 1


def _text(puzzle: "Puzzle", telling: "Telling") -> str:
    """Title, summary, numbered paragraphs, and why it goes no further where it does not."""
    numbered = [f"{each.number}. {each.words}" for each in telling.paragraphs]
    end = ["", telling.end] if telling.end else []
    return "\n".join([puzzle.title, "", telling.summary, "", *numbered, *end])


def document(puzzle: "Puzzle", telling: "Telling", walked: "Walk") -> dict[str, Any]:
    """The JSON document of a walk."""
    from verify import __version__
    from verify.walk.grade import grade

    graded = grade(walked)

    return {
        "reglet": __version__,
        "file": puzzle.file,
        "id": puzzle.id,
        "finished": walked.finished,
        "grade": {
            "band": graded.band.value,
            "score": graded.score,
            "hardest": graded.hardest.value if graded.hardest else None,
        },
        "steps": [_facts(puzzle, told) for told in telling.steps],
    }


def _facts(puzzle: "Puzzle", told: "Told") -> dict[str, Any]:
    """A step, its digits by number."""
    from verify.pencil import digits_of

    name, because = puzzle.board.name, told.step.because
    return {
        "technique": told.step.technique.value,
        "rule": told.step.rule,
        "places": {name(cell): digit for cell, digit in told.step.places},
        "removes": {name(cell): list(digits_of(mask)) for cell, mask in told.removes},
        "because": {
            "cells": list(map(name, because.cells)),
            "digits": list(digits_of(because.digits)),
        },
        "words": told.words,
    }
