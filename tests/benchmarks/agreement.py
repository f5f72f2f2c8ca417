"""Whether verdicts and answers are CP-SAT's, on random puzzles of every rule.

    python -m tests.benchmarks.agreement [--puzzles 5000] [--from 0] [--seconds 60] [--out FILE]

The rules take turns. A puzzle has random marks of its rule, more or fewer of them, and random
givens of an answer that keeps them; one in eight has a given that may not. So there are puzzles
with one answer, with many and with none. What differs is printed, and the exit code is 1 then.
What CP-SAT leaves open in its time is counted apart. `--out` notes a line for each puzzle, so that
a long run may be made in slices.
"""

import argparse
import json
import os
import random
import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Final

from tests.support.models import puzzle_answers
from tests.support.sowing import sown
from verify.proof.verdict import prove
from verify.puzzle import Puzzle
from verify.rules import BY_NAME, GROUND

SIZES: Final = (6, 6, 6, 9)
"""Sizes of boards, in turn."""

SHARES: Final = (0.2, 0.3, 0.4, 0.5)
"""Shares of the cells that are given."""

WRONG: Final = 8
"""In one of so many puzzles a given is drawn anew."""

SECONDS: Final = 60.0
"""Seconds that CP-SAT gets for a puzzle, unless told."""

OPEN: Final = "left open by CP-SAT"

WORDS: Final = ("none", "one", "many")
"""The word by how many answers were found."""


def random_puzzle(name: str, number: int) -> Puzzle:
    """A puzzle with marks of a rule and some givens, the same for the same number."""
    dice = random.Random(f"{name} {number}")
    puzzle, answer = sown(name, SIZES[number % len(SIZES)], number)
    uses = []
    for use in puzzle.uses:
        marks = use.constraints
        if use.rule.name == name not in GROUND and len(marks) > 1:
            marks = tuple(dice.sample(marks, dice.randint(1, len(marks))))
        uses.append(replace(use, constraints=marks))
    share = dice.choice(SHARES)
    givens = [digit if dice.random() < share else 0 for digit in answer]
    if dice.randrange(WRONG) == 0:
        givens[dice.randrange(len(givens))] = dice.randint(1, puzzle.board.digits)
    return replace(puzzle, uses=tuple(uses), givens=tuple(givens))


def difference(puzzle: Puzzle, seconds: float) -> tuple[str, str]:
    """Our word on a puzzle, and what CP-SAT says otherwise; nothing where it agrees."""
    verdict = prove(puzzle)
    try:
        theirs = puzzle_answers(puzzle, seconds=seconds)
    except TimeoutError:
        return verdict.word, OPEN
    word = WORDS[len(theirs)]
    if word != verdict.word:
        return verdict.word, f"{verdict.word} instead of {word}"
    if word == "one" and theirs != [verdict.answers[0]]:
        return word, "another answer"
    return word, ""


def main() -> int:
    """Proves the puzzles, and prints what differs and how many words there were of each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--puzzles", type=int, default=5000)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--seconds", type=float, default=SECONDS)
    parser.add_argument("--out", type=Path, default=os.devnull)
    options = parser.parse_args()
    names, words, remarks = list(BY_NAME), Counter[str](), Counter[str]()
    with open(options.out, "a", encoding="utf-8") as out:
        for index in range(options.first, options.first + options.puzzles):
            name, number = names[index % len(names)], index // len(names)
            word, remark = difference(random_puzzle(name, number), options.seconds)
            words[word] += 1
            if remark:
                remarks[remark] += 1
                print(f"{name} {number}: {remark}", flush=True)
            print(json.dumps([index, name, number, word, remark]), file=out, flush=True)
    left_open = remarks.pop(OPEN, 0)
    differ = remarks.total()
    print(f"{options.puzzles} puzzles, {differ} differ, {left_open} {OPEN}; {dict(words)}")
    return 1 if differ else 0


if __name__ == "__main__":
    sys.exit(main())
