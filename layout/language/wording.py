"""The rule text of puzzles, put together from the rules that they use."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Final

from layout.language.rule_words import SymbolWords
from layout.language.words import Words, fill
from layout.picture.shape_symbols import are_shapes
from layout.type.markup import NOTE
from verify.puzzle import Puzzle
from verify.rule import Saying
from verify.rules import RULES

HOUSES: Final = ("row", "column", "box", "region")

_ORDER: Final = {rule.name: index for index, rule in enumerate(RULES)}
"""Rules are told in the order of the catalogue, in whatever order a manifest lists them."""


@dataclass(frozen=True, slots=True)
class _ToldSaying:
    """A saying of a rule of one puzzle, what its symbols are called, and those that it names.

    `order` says where it stands among others; it is `drawn` where marks show which puzzle it
    is true of.
    """

    rule: str
    order: tuple[int, int]
    saying: Saying
    symbols: SymbolWords
    chosen: tuple[str, ...]
    drawn: bool

    def sentence(self, words: Words, count: int | None = None) -> str:
        """The saying in words, for as many marks as it speaks of or for `count`."""
        values = {key.replace("-", "_"): value for key, value in self.saying.values}
        saying = self.saying if count is None else replace(self.saying, count=count)
        if self.chosen:
            values["chosen"] = words.lists.join(list(self.chosen))
        named = {"digit": self.symbols.one, "digits": self.symbols.many}
        return fill(words.rules[self.rule].sentence(saying), **named, **values)


def in_brackets(text: str) -> str:
    """Words with their notes in brackets, for places that have no foot of a page."""
    return NOTE.sub(r" (\1)", text)


def rule_sentences(puzzle: Puzzle, words: Words) -> tuple[str, ...]:
    """What is printed beside a puzzle: its own words, or a sentence for every rule."""
    if puzzle.words:
        return (in_brackets(puzzle.words),)
    told = (each.sentence(words) for each in _told(puzzle, words))
    return tuple(dict.fromkeys((_houses_sentence(puzzle, words), *told)))


def shared_sentences(
    puzzles: Sequence[Puzzle], words: Words
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """What is said once for puzzles that share a page, and what remains to be said of each.

    Once is enough for what holds for all of them, and for what marks in a grid show to hold
    there. A puzzle with words of its own keeps all to themselves.
    """
    if any(puzzle.words for puzzle in puzzles):
        return (), [rule_sentences(puzzle, words) for puzzle in puzzles]
    houses, own_houses = _shared_houses(puzzles, words)
    said, own = _shared_sayings(puzzles, words)
    each = [(*house, *rest) for house, rest in zip(own_houses, own, strict=True)]
    return (*houses, *said), each


def sentences_together(
    puzzles: Sequence[Puzzle], words: Words
) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """What is said of puzzles that share a page, each sentence once, and of which puzzles.

    These are told by their indices. A puzzle with words of its own has no other sentence.
    """
    told: dict[str, set[int]] = {}
    plain = [at for at, puzzle in enumerate(puzzles) if not puzzle.words]
    shared = _shared_houses([puzzles[at] for at in plain], words) if plain else ((), [])
    houses, own = shared
    for sentence in houses:
        told.setdefault(sentence, set()).update(plain)
    for at, sentences in zip(plain, own, strict=True):
        for sentence in sentences:
            told.setdefault(sentence, set()).add(at)
    for sentence, about in _sayings_together({at: puzzles[at] for at in plain}, words):
        told.setdefault(sentence, set()).update(about)
    for at, puzzle in enumerate(puzzles):
        if puzzle.words:
            told.setdefault(in_brackets(puzzle.words), set()).add(at)
    return tuple((sentence, tuple(sorted(about))) for sentence, about in told.items())


def _sayings_together(
    puzzles: Mapping[int, Puzzle], words: Words
) -> Iterator[tuple[str, list[int]]]:
    """The other rules, in their order: marks of several puzzles are spoken of as several."""
    alike: dict[object, list[tuple[int, _ToldSaying]]] = {}
    for at, puzzle in puzzles.items():
        for each in _told(puzzle, words):
            saying = each.saying
            key = (each.rule, saying.key, saying.values, each.chosen, each.symbols)
            alike.setdefault(key, []).append((at, each))
    for group in sorted(alike.values(), key=lambda group: group[0][1].order):
        count = sum(each.saying.count for _, each in group)
        yield group[0][1].sentence(words, count), [at for at, _ in group]


def _shared_houses(
    puzzles: Sequence[Puzzle], words: Words
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """What is said of rows, columns, boxes and regions: once for all puzzles, and of each.

    One sentence does for all where they have the same houses and symbols. Where only the symbols
    differ, each puzzle's own are told beside it. Else each puzzle has its whole sentence.
    """
    nothing: list[tuple[str, ...]] = [() for _ in puzzles]
    said = {_houses_sentence(puzzle, words) for puzzle in puzzles}
    if len(said) == 1:
        return tuple(said), nothing
    houses = {_houses(puzzle) for puzzle in puzzles}
    whole = not any(puzzle.board.absent for puzzle in puzzles)
    if len(houses) > 1 or not all(houses) or not whole:
        return (), [(_houses_sentence(puzzle, words),) for puzzle in puzzles]
    names = words.lists.join([getattr(words.houses, house) for house in _houses(puzzles[0])])
    if all(puzzle.symbols == _digits(len(puzzle.symbols)) for puzzle in puzzles):
        return (fill(words.houses.each_to_its_size, houses=names),), nothing
    general = fill(words.houses.each_its_own, houses=names)
    using = words.houses.using
    return (general,), [
        (fill(using, symbols=all_symbols(puzzle.symbols, words)),) for puzzle in puzzles
    ]


def _shared_sayings(
    puzzles: Sequence[Puzzle], words: Words
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """The other rules: once where drawn marks tell whom they mean, or where all have them."""
    told = [_told(puzzle, words) for puzzle in puzzles]
    every = [each for sayings in told for each in sayings]
    counts: Counter[str] = Counter()
    for each in every:
        counts[each.saying.key] += each.saying.count
    apart = _told_apart(every)
    shown = {
        each.sentence(words, counts[each.saying.key]): each.order
        for each in every
        if each.saying.key not in apart
    }
    own = [
        {each.sentence(words): each.order for each in sayings if each.saying.key in apart}
        for sayings in told
    ]
    alike = set.intersection(*map(set, own))
    once = shown | {sentence: order for sentence, order in own[0].items() if sentence in alike}
    rest = [tuple(sentence for sentence in each if sentence not in alike) for each in own]
    return tuple(sorted(once, key=lambda sentence: once[sentence])), rest


def _told_apart(told: Sequence[_ToldSaying]) -> set[str]:
    """The keys of what is to be told of each puzzle by itself.

    That is what marks do not show, and what is true of marks that look alike with one value
    here and with another there.
    """
    values: dict[str, set[object]] = {}
    for each in told:
        values.setdefault(each.saying.key, set()).add((each.saying.values, each.chosen))
    hidden = {each.saying.key for each in told if not each.drawn}
    return hidden | {key for key, found in values.items() if len(found) > 1}


def _told(puzzle: Puzzle, words: Words) -> list[_ToldSaying]:
    """The sayings of a puzzle's rules, but for the houses, in the order in which they are told."""
    symbols = symbol_words(puzzle.symbols, words)
    told = (
        _ToldSaying(
            use.rule.name,
            (_ORDER[use.rule.name], index),
            saying,
            symbols,
            tuple(puzzle.symbol(digit) for digit in saying.digits),
            bool(use.marks(puzzle.board)) and not saying.everywhere,
        )
        for use in puzzle.uses
        for index, saying in enumerate(use.sayings())
        if saying.key != "houses"
    )
    return sorted(told, key=lambda each: each.order)


def _houses(puzzle: Puzzle) -> tuple[str, ...]:
    """Which of rows, columns, boxes and regions the puzzle has."""
    sayings = (saying for use in puzzle.uses for saying in use.sayings())
    used = {dict(saying.values)["house"] for saying in sayings if saying.key == "houses"}
    return tuple(house for house in HOUSES if house in used)


def _houses_sentence(puzzle: Puzzle, words: Words) -> str:
    """Rows, columns, boxes and regions in one sentence."""
    names = [getattr(words.houses, house) for house in _houses(puzzle)]
    symbols = all_symbols(puzzle.symbols, words)
    if not names:
        return fill(words.houses.none, symbols=symbols)
    each = words.houses.each
    if puzzle.board.grids:
        each = words.houses.each_of_several
    elif puzzle.board.absent:
        each = words.houses.each_with_holes
    return fill(each, houses=words.lists.join(names), symbols=symbols)


def symbol_words(symbols: tuple[str, ...], words: Words) -> SymbolWords:
    """What the symbols of a puzzle are called."""
    if symbols == _digits(len(symbols)):
        return words.symbols.digits
    if symbols == _letters(len(symbols)):
        return words.symbols.letters
    if are_shapes(symbols):
        return words.symbols.shapes
    if symbols[:9] == _digits(9) and symbols[9:] == _letters(len(symbols) - 9):
        several = len(symbols) > len("123456789A")
        return words.symbols.digits_and_letters if several else words.symbols.digits_and_letter
    return words.symbols.others


def all_symbols(symbols: tuple[str, ...], words: Words) -> str:
    """The symbols of a puzzle in one phrase: "the digits 1 to 9"."""
    named = [words.worksheet.shapes.get(symbol, symbol) for symbol in symbols]
    return fill(
        symbol_words(symbols, words).all,
        first=symbols[0],
        last=symbols[-1],
        digit="9",
        letter="A",
        list=words.lists.join(named),
    )


def young_words(words: Words) -> Words:
    """The same words, but short sentences for young readers where the language has them."""
    young = words.worksheet.young
    houses = replace(
        words.houses,
        **{each.name: getattr(young.houses, each.name) for each in fields(young.houses)},
    )
    rules = {
        name: replace(said, says={key: young.says.get(key, it) for key, it in said.says.items()})
        for name, said in words.rules.items()
    }
    worksheet = replace(words.worksheet, task=young.task, cross_out=young.cross_out)
    return replace(words, houses=houses, rules=rules, worksheet=worksheet)


def _digits(count: int) -> tuple[str, ...]:
    return tuple(str(digit) for digit in range(1, count + 1))


def _letters(count: int) -> tuple[str, ...]:
    return tuple(chr(ord("A") + index) for index in range(count))
