"""What a book teaches: a lesson for each rule that it uses, with an example that has one answer.

Rows, columns and boxes, which most puzzles have, share the first lesson.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from layout.language.words import Words
from layout.pages.common.book import Book
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import Answer, prove
from verify.puzzle import Puzzle
from verify.rules import BY_NAME, RULES

PLAIN: Final = ("rows", "columns", "boxes")
"""The rules that are taught together."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """What is taught, of which rules; `example` is a manifest."""

    title: str
    rules: tuple[str, ...]
    teach: str
    example: str

    @property
    def anchor(self) -> str:
        """Where it stands."""
        return "rule-" + "-".join(self.rules)


def lessons(book: Book, words: Words) -> tuple[Lesson, ...]:
    """A lesson for each rule of the book, in the order of the catalogue."""
    return lessons_for((numbered.puzzle for numbered in book.puzzles()), words)


def lessons_for(puzzles: Iterable[Puzzle], words: Words) -> tuple[Lesson, ...]:
    """A lesson for each rule of some puzzles, in the order of the catalogue."""
    used = {use.rule.name for puzzle in puzzles for use in puzzle.uses}
    plain = [name for name in PLAIN if name in used]
    others = [rule.name for rule in RULES if rule.name in used and rule.name not in PLAIN]
    first = (_plain_lesson(plain, words),) if plain else ()
    return (*first, *(_lesson(name, words) for name in others))


def _lesson(name: str, words: Words) -> Lesson:
    said = words.rules[name]
    return Lesson(said.title, (name,), said.teach, BY_NAME[name].example)


def _plain_lesson(names: Sequence[str], words: Words) -> Lesson:
    """One lesson for rows, columns and boxes, as far as the book has them."""
    houses = words.houses
    plurals = {"rows": houses.rows, "columns": houses.columns, "boxes": houses.boxes}
    title = words.lists.join([plurals[name] for name in names])
    each = " ".join(words.rules[name].teach for name in names)
    return Lesson(
        title[:1].upper() + title[1:],
        tuple(names),
        "\n\n".join((houses.teach, each, houses.start)),
        BY_NAME[names[-1]].example,
    )


@cache
def solved(manifest: str) -> tuple[Puzzle, Answer]:
    """An example and its answer."""
    puzzle = puzzle_from_text(manifest)
    return puzzle, prove(puzzle).answers[0]
