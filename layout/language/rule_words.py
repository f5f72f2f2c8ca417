"""Words of rules: symbols, houses, and what each rule says."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Annotated, Final

from layout.language.sentence import Sentence, SentenceValue
from verify.reading.record import Word
from verify.rule import Saying

UNSAID: Final = Sentence("", "")


@dataclass(frozen=True, slots=True)
class SymbolWords:
    """What a symbol of a grid is called, several of them, and all of them in one phrase.

    `the` names one of them as a thing of its own, with its article where there is one.
    """

    one: str
    many: str
    all: str
    the: str = "{symbol}"


@dataclass(frozen=True, slots=True)
class SymbolSetWords:
    """Words for grids of digits, of letters, of both, of drawn shapes, and of anything else."""

    digits: SymbolWords
    letters: SymbolWords
    digits_and_letter: SymbolWords
    digits_and_letters: SymbolWords
    shapes: SymbolWords
    others: SymbolWords


@dataclass(frozen=True, slots=True)
class HouseWords:
    """Words for rows, columns, boxes and regions, which are told in one sentence."""

    each: str
    each_to_its_size: str
    each_its_own: str
    each_of_several: str
    each_with_holes: str
    using: str
    none: str
    row: str
    column: str
    box: str
    region: str
    rows: str
    columns: str
    boxes: str
    teach: str
    start: str


@dataclass(frozen=True, slots=True)
class RuleWords:
    """A rule's title, what is taught about it (light markup), and its sentences by their key.

    `called` names one of its marks in a walk, `called_branch` one of several that begin in one
    cell; houses have names of their own. `push` says what a mark asks for, as a walk gives it for
    a reason, and `push_bare` the same of a place where a mark would stand and none does; `by` and
    `by_bare` name it in passing, once its rule has been told. `hint` says what to ask of a mark;
    without it a mark is hinted at as any other.
    """

    title: str
    teach: Annotated[str, Word(4000)]
    says: Mapping[str, Annotated[Sentence, SentenceValue()]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    called: str = ""
    called_branch: str = ""
    push: str = ""
    push_bare: str = ""
    by: Annotated[Sentence, SentenceValue()] = UNSAID
    by_bare: Annotated[Sentence, SentenceValue()] = UNSAID
    hint: str = ""

    def sentence(self, saying: Saying) -> str:
        """The sentence of one of the rule's sayings, its values not yet filled in.

        Raises KeyError where the language has no such sentence; a test sees to it that it has.
        """
        return self.says[saying.key].of(saying.count)
