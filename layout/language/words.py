"""All words that pages print, in the language of the job.

One file of `styles/words` is one language; its parts are in the other files of this folder.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from layout.language.book_words import BookWords, GradeWords, HintWords
from layout.language.column_words import BoardWords, DailyWords, DateWords, WebWords
from layout.language.list_words import ListWords
from layout.language.press_words import PressWords
from layout.language.rule_words import HouseWords, RuleWords, SymbolSetWords
from layout.language.walk_words import WalkWords
from layout.language.worksheet_words import WorksheetWords
from layout.shipped import shipped_words
from layout.type.typography import Quotes
from verify.manifest.yaml_text import read_tree
from verify.reading.problems import Problems
from verify.reading.record import read_record


@dataclass(frozen=True, slots=True)
class QuoteMarks:
    """Opening and closing quotes, double and single."""

    double: tuple[str, ...]
    single: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """All the words of a language; `sorting` is what a letter counts as where names are sorted.

    `language` may name a region, which then has its own names of months, dates and hyphens. A
    number after one of the words `counted` stays on its line.
    """

    language: str
    quotes: QuoteMarks
    counted: tuple[str, ...]
    sorting: Mapping[str, str]
    pages: BookWords
    press: PressWords
    daily: DailyWords
    dates: DateWords
    board: BoardWords
    web: WebWords
    lists: ListWords
    symbols: SymbolSetWords
    houses: HouseWords
    worksheet: WorksheetWords
    grades: GradeWords
    walk: WalkWords
    hints: HintWords
    rules: Mapping[str, RuleWords]

    @property
    def quote_marks(self) -> Quotes:
        """The quotes, and the words that hold a number, for typography."""
        (a, b), (c, d) = self.quotes.double, self.quotes.single
        return Quotes((a, b), (c, d), self.counted)


_HOLE: Final = re.compile(r"\{([a-z-]+)\}")


def fill(sentence: str, **values: object) -> str:
    """A sentence with what stands in braces filled in; KeyError where a value is not told."""
    return _HOLE.sub(lambda hole: str(values[hole[1].replace("-", "_")]), sentence)


def languages() -> tuple[str, ...]:
    """The languages that pages can speak."""
    return tuple(sorted(path.stem for path in shipped_words().glob("*.yaml")))


def words_for(language: str) -> Words:
    """The words of a language that may name a region: `en-GB` has those of `en`."""
    return replace(read_words(language.partition("-")[0]), language=language)


@cache
def read_words(language: str) -> Words:
    """The words of one of `languages()`. Raises Unreadable where its file is at fault."""
    name = f"{language}.yaml"
    problems = Problems()
    node = read_tree(shipped_words() / name, name, problems)
    words = read_record(node, Words, problems)
    problems.raise_if_any()
    assert words is not None, "without problems there is a record"  # noqa: S101
    return words
