"""The rule text of puzzles, put together from the rules that they use."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from layout.type.words import SymbolWords, Words, fill
from verify.puzzle import Puzzle
from verify.rules.rule import Saying

HOUSES: Final = ("row", "column", "box", "region")


@dataclass(frozen=True, slots=True)
class Told:
    """A saying of one puzzle; `drawn` where marks show which puzzle it is true of."""

    saying: Saying
    drawn: bool


def rule_sentences(puzzle: Puzzle, words: Words) -> tuple[str, ...]:
    """What is printed beside a puzzle: its own words, or a sentence for every rule."""
    if puzzle.words:
        return (puzzle.words,)
    named = symbol_words(puzzle.symbols, words)
    told = (_sentence(each.saying, named, words) for each in _told(puzzle, words))
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


def _shared_houses(
    puzzles: Sequence[Puzzle], words: Words
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """Rows, columns, boxes and regions: the same for all, or so but for the symbols, or not."""
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
    counts: dict[str, int] = {}
    together: dict[tuple[Saying, SymbolWords], bool] = {}
    told = [(symbol_words(puzzle.symbols, words), _told(puzzle, words)) for puzzle in puzzles]
    for _, sayings in told:
        for each in sayings:
            counts[each.saying.key] = counts.get(each.saying.key, 0) + each.saying.count
    for named, sayings in told:
        for each in sayings:
            saying = replace(each.saying, count=counts[each.saying.key])
            together[saying, named] = together.get((saying, named), True) and each.drawn
    said = [_sentence(saying, named, words) for (saying, named), drawn in together.items() if drawn]
    own = [
        tuple(_sentence(each.saying, named, words) for each in sayings if not each.drawn)
        for named, sayings in told
    ]
    alike = set.intersection(*map(set, own))
    common = [sentence for sentence in own[0] if sentence in alike]
    rest = [tuple(sentence for sentence in each if sentence not in alike) for each in own]
    return tuple(dict.fromkeys((*said, *common))), rest


def _told(puzzle: Puzzle, words: Words) -> list[Told]:
    """The sayings of a puzzle's rules, but for the houses; digits by their symbols."""
    return [
        Told(_with_symbols(saying, puzzle, words), bool(use.marks(puzzle.board)))
        for use in puzzle.uses
        for saying in use.sayings()
        if saying.key != "houses"
    ]


def _with_symbols(saying: Saying, puzzle: Puzzle, words: Words) -> Saying:
    """The saying, its digits as values that hold the puzzle's own symbols."""
    shown = tuple(
        (key, words.lists.join([puzzle.symbol(digit) for digit in digits]))
        for key, digits in saying.digits
    )
    return replace(saying, values=(*saying.values, *shown), digits=())


def _sentence(saying: Saying, named: SymbolWords, words: Words) -> str:
    values = {key.replace("-", "_"): value for key, value in saying.values}
    return fill(words.sentence(saying), digit=named.one, digits=named.many, **values)


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
    joined = words.lists.join(names)
    if puzzle.board.grids:
        return fill(words.houses.each_of_several, houses=joined, symbols=symbols)
    if puzzle.board.absent:
        named = symbol_words(puzzle.symbols, words)
        values = {"digit": named.one, "digits": named.many, "symbols": symbols}
        return fill(words.houses.each_with_holes, houses=joined, **values)
    return fill(words.houses.each, houses=joined, symbols=symbols)


def symbol_words(symbols: tuple[str, ...], words: Words) -> SymbolWords:
    """What the symbols of a puzzle are called."""
    if symbols == _digits(len(symbols)):
        return words.symbols.digits
    if symbols == _letters(len(symbols)):
        return words.symbols.letters
    if symbols[:9] == _digits(9) and symbols[9:] == _letters(len(symbols) - 9):
        several = len(symbols) > len("123456789A")
        return words.symbols.digits_and_letters if several else words.symbols.digits_and_letter
    return words.symbols.others


def all_symbols(symbols: tuple[str, ...], words: Words) -> str:
    """The symbols of a puzzle in one phrase: "the digits 1 to 9"."""
    return fill(
        symbol_words(symbols, words).all,
        first=symbols[0],
        last=symbols[-1],
        digit="9",
        letter="A",
        list=words.lists.join(list(symbols)),
    )


def _digits(count: int) -> tuple[str, ...]:
    return tuple(str(digit) for digit in range(1, count + 1))


def _letters(count: int) -> tuple[str, ...]:
    return tuple(chr(ord("A") + index) for index in range(count))
