"""Product arrows: the digits on the shaft multiply to the circled number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from math import prod

from verify.board import Cell
from verify.formula.formula import Formula
from verify.formula.scan import Scan
from verify.move import Disguise, Move
from verify.pencil import Grid, Mask, Pencil, Strike, bit, digits_of, every_digit, highest
from verify.reading.grammar import Placed
from verify.reading.reader import Reader
from verify.rule import Rule
from verify.rules.workings.arrow_shapes import (
    ARROWS,
    Arrows,
    Shape,
    arrows_say,
    draw_arrows,
    number_terms,
    shapes,
    total_stays,
)
from verify.rules.workings.lines import count_of, unkept


@dataclass(frozen=True, slots=True)
class ProductArrow:
    """The digits of `shaft` multiply to the number that the cells of `total` make."""

    total: tuple[Cell, ...]
    shaft: tuple[Cell, ...]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The circled cells, then the shaft."""
        return self.total + self.shaft

    def clauses(self, formula: Formula) -> None:
        """Multiplied along the shaft, then taken off figure by figure until nothing is left."""
        formula.scan(self.note(formula.pencil))

    def note(self, pencil: Pencil) -> Scan[int]:
        """The same scan."""
        weights = [weight for _, weight in number_terms(self.total)]
        largest = sum(w * highest(pencil[cell] or 1) for cell, w in number_terms(self.total))
        shaft = len(self.shaft)

        def step(so_far: int, index: int, digit: int) -> int | None:
            if index < shaft:
                return so_far * digit if so_far * digit <= largest else None
            weight = weights[index - shaft]
            left = so_far - weight * digit
            return left if 0 <= left < weight else None

        return Scan(self.shaft + self.total, 1, step, lambda left: left == 0)

    def holds(self, grid: Grid) -> bool:
        """The digits of the shaft multiply to the number in the circle."""
        number = int("".join(str(grid[cell]) for cell in self.total))
        return prod(grid[cell] for cell in self.shaft) == number

    def strikes(self, pencil: Pencil) -> Iterator[Strike]:
        """Digits that stand in no product which the total can be: all that the arrow removes."""
        shaft = [pencil[cell] for cell in self.shaft]
        total = [pencil[cell] for cell in self.total]
        products = _products(shaft, total)
        numbers = {product for product in products[-1] if _reads(product, total)}
        kept = _kept_on_shaft(shaft, products, numbers) + _kept_in_total(total, numbers)
        return unkept(dict(zip(self.shaft + self.total, kept, strict=True)), pencil)

    def moved(self, move: Move) -> "ProductArrow":
        """The cells moved."""
        return ProductArrow(move.all(self.total), move.all(self.shaft))


def _products(shaft: Sequence[Mask], total: Sequence[Mask]) -> list[set[int]]:
    """What no cells, the first cell, the first two ... of a shaft can multiply to.

    Only products that the total is large enough for: those are few, however long the shaft.
    """
    largest = 0
    for mask in total:
        largest = 10 * largest + (highest(mask) if mask else 0)
    products = [{1}]
    for mask in shaft:
        after = {product * digit for product in products[-1] for digit in digits_of(mask)}
        products.append({product for product in after if product <= largest})
    return products


def _figures(number: int, count: int) -> list[int]:
    """The figures of a number in so many cells; the first takes all that the others leave."""
    figures: list[int] = []
    for _ in range(count - 1):
        number, figure = divmod(number, 10)
        figures.append(figure)
    return [number, *reversed(figures)]


def _reads(number: int, total: Sequence[Mask]) -> bool:
    """Whether the cells of a total can hold the figures of a number."""
    figures = _figures(number, len(total))
    return all(mask >> figure & 1 for mask, figure in zip(total, figures, strict=True))


def _kept_on_shaft(
    shaft: Sequence[Mask], products: Sequence[set[int]], numbers: set[int]
) -> list[Mask]:
    """For each cell of a shaft, the digits in some product that is one of the numbers."""
    kept = []
    wanted = numbers
    for mask, before in zip(reversed(shaft), reversed(products[:-1]), strict=True):
        ways = [
            (digit, product // digit)
            for digit in digits_of(mask)
            for product in wanted
            if product % digit == 0 and product // digit in before
        ]
        kept.append(sum(map(bit, {digit for digit, _ in ways})))
        wanted = {product for _, product in ways}
    return kept[::-1]


def _kept_in_total(total: Sequence[Mask], numbers: set[int]) -> list[Mask]:
    """For each cell of a total, the figures that one of the numbers has there."""
    figures = [_figures(number, len(total)) for number in numbers]
    return [sum(map(bit, {each[place] for each in figures})) for place in range(len(total))]


def make(arrows: Placed[Arrows], reader: Reader) -> tuple[ProductArrow, ...]:
    """Arrows whose shaft can multiply to a number that fits the circled cells."""
    sound = []
    for place, shape in shapes(arrows, reader):
        if _can_be(shape, reader.board.digits):
            sound.append(ProductArrow(shape.total, shape.shaft))
        else:
            found = f"a shaft of {count_of(len(shape.shaft))}"
            expected = f"one that can multiply to a number in {count_of(len(shape.total))}"
            reader.problems.expected(place, found, expected)
    return tuple(sound)


def _can_be(shape: Shape, digits: int) -> bool:
    shaft, total = ([every_digit(digits)] * len(cells) for cells in (shape.shaft, shape.total))
    return any(_reads(product, total) for product in _products(shaft, total)[-1])


RULE = Rule(
    name="product-arrow",
    meaning="The digits on the shaft multiply to the number in the circle.",
    marks="a list of paths from the circle, or of `{total: PATH, shaft: PATH}`",
    grammar=ARROWS,
    make=make,
    draw=partial(draw_arrows, "product-arrow"),
    says=partial(arrows_say, "product-arrow"),
    survives=frozenset({Disguise.TURN}),
    example="""\
title: Breeding herons
kind: sudoku
size: 6
rules:
  product-arrow:
    - r1c4 w sw s se
    - r4c4 n ne n
    - r3c6 sw se
    - {total: r6c2 e, shaft: r5c4 se e}
givens: |
  4 . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
  -------------
  . . . | . . .
  . . . | . . .
""",
    stays=total_stays,
)
