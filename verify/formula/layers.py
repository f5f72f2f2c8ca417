"""Layers: all ways through some cells by a note, with digits that must differ, as arrays.

A note (`verify.formula.scan`) knows nothing of houses. Layers are the same diagram times the
digits used so far in each group of cells that must differ, as long as a cell of the group is still
to come. One pass forwards and one back tell which candidates stand in some way.
"""

from collections.abc import Hashable, Sequence
from typing import TYPE_CHECKING, Any, Final, NamedTuple, TypeAlias

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.formula.scan import Scan
from verify.pencil import Mask, Pencil, bit, digits_of

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

    Numbers: TypeAlias = NDArray[numpy.int64]
    Flags: TypeAlias = NDArray[numpy.bool_]

MOST_EDGES: Final = 400_000
"""Edges of all layers together past which they would take longer than a solver does."""

MOST_AT_ONCE: Final = 1_000_000
"""Edges, times sheets, that are looked at together."""

WORTH_NARROWING: Final = 2
"""Edges that are dead are let go when there are so many times as many as live ones."""


class Layer(NamedTuple):
    """The edges over one cell: the state before, the state after, and the digit as a bit.

    There are `states` before it.
    """

    states: int
    before: "Numbers"
    after: "Numbers"
    digits: "Numbers"

    def only(self, live: "Flags") -> "Layer":
        """Some of its edges."""
        return Layer(self.states, self.before[live], self.after[live], self.digits[live])


class Layers:
    """All ways through cells that were left when they were made; state 0 is start and end."""

    def __init__(self, cells: Sequence[Cell], layers: Sequence[Layer]) -> None:
        self.cells = tuple(cells)
        self._layers = list(layers)

    @property
    def edges(self) -> int:
        """How many edges there are."""
        return sum(len(layer.before) for layer in self._layers)

    def kept(self, pencil: Pencil) -> list[Mask]:
        """For each cell, the candidates that stand in a way which the marks leave."""
        import numpy

        flags, ends = self._forwards(pencil)
        found: list[Mask] = []
        fine = numpy.ones(1, bool) & ends
        edges = live_edges = 0
        for index in reversed(range(len(self._layers))):
            layer, live = self._layers[index], flags[index]
            live &= fine[layer.after]
            held = layer.digits[live]
            found.append(int(numpy.bitwise_or.reduce(held)) if len(held) else 0)
            fine = numpy.zeros(layer.states, bool)
            fine[layer.before[live]] = True
            edges += len(live)
            live_edges += len(held)
        if live_edges * WORTH_NARROWING < edges:
            pairs = zip(self._layers, flags, strict=True)
            self._layers = [layer.only(live) for layer, live in pairs]
        return found[::-1]

    def have_ways(self, sheets: "Numbers") -> "Flags":
        """Whether marks leave any way, for several sheets: columns, with a row for each cell."""
        import numpy

        widest = max((len(layer.before) for layer in self._layers), default=1)
        step = max(1, MOST_AT_ONCE // max(1, widest))
        parts = [sheets[:, at : at + step] for at in range(0, sheets.shape[1], step)]
        return numpy.concatenate([numpy.zeros(0, bool), *map(self._have_ways, parts)])

    def _have_ways(self, sheets: "Numbers") -> "Flags":
        import numpy

        reached = numpy.ones((1, sheets.shape[1]), bool)
        following = [*(layer.states for layer in self._layers[1:]), 1]
        for held, layer, states in zip(sheets, self._layers, following, strict=True):
            live = layer.digits[:, None] & held != 0
            live &= reached[layer.before]
            edges, sheet = live.nonzero()
            reached = numpy.zeros((states, sheets.shape[1]), bool)
            reached[layer.after[edges], sheet] = True
        found: Flags = reached[0]
        return found

    def has_way(self, pencil: Pencil) -> bool:
        """Whether the marks leave any way."""
        return bool(self._forwards(pencil)[1])

    def _forwards(self, pencil: Pencil) -> "tuple[list[Flags], bool]":
        """The edges of each layer that are reached from the start, and whether the end is."""
        import numpy

        reached = numpy.ones(1, bool)
        flags = []
        following = [*(layer.states for layer in self._layers[1:]), 1]
        for cell, layer, states in zip(self.cells, self._layers, following, strict=True):
            live = layer.digits & pencil[cell] != 0
            live &= reached[layer.before]
            reached = numpy.zeros(states, bool)
            reached[layer.after[live]] = True
            flags.append(live)
        return flags, bool(reached[0])


def layers_of(
    scan: Scan[Any],
    groups: Sequence[Sequence[Cell]],
    pencil: Pencil,
    deadline: Deadline = NEVER,
    most: int = MOST_EDGES,
) -> Layers | None:
    """The ways through a scan in which each group holds different digits.

    None where they have more than `most` edges. Cells of a group that are not in the scan don't
    count. Raises BudgetSpent after the deadline.
    """
    at = {cell: index for index, cell in enumerate(scan.cells)}
    inside = [sorted(at[cell] for cell in group if cell in at) for group in groups]
    making = _Making(scan, [group for group in inside if len(group) > 1], pencil)
    for index in range(len(scan.cells)):
        deadline.check()
        if not making.goes_on(index, most):
            return None
    return Layers(scan.cells, making.leading_on())


class _Making:
    """Goes through the cells of a scan, with all states that can be reached.

    A state is a note, by its number in `_notes`, and the digits that each group has used. What no
    cell of the group to come can hold is forgotten: states that differ in nothing else are one.
    """

    def __init__(self, scan: Scan[Any], groups: Sequence[Sequence[int]], pencil: Pencil) -> None:
        import numpy

        self._scan = scan
        self._groups = groups
        self._held = [pencil[cell] for cell in scan.cells]
        self._notes: list[Hashable] = [scan.start]
        self._note = numpy.zeros(1, numpy.int64)
        self._used = numpy.zeros((len(groups), 1), numpy.int64)
        self._layers: list[Layer] = []
        self._edges = 0

    def goes_on(self, index: int, most: int) -> bool:
        """Adds all edges over the next cell, and the states behind it, up to so many edges.

        Whether there is room for them.
        """
        import numpy

        within = [at for at, group in enumerate(self._groups) if index in group]
        used = numpy.bitwise_or.reduce(self._used[within], axis=0)
        digits = list(digits_of(self._held[index]))
        following, steps = self._steps(index, digits)
        parts = [(numpy.zeros(0, numpy.int64),) * 3]
        for digit, step in zip(digits, steps, strict=True):
            before = numpy.flatnonzero((step[self._note] >= 0) & (used >> digit & 1 == 0))
            self._edges += len(before)
            if self._edges > most:
                return False
            parts.append((before, step[self._note[before]], numpy.full(len(before), bit(digit))))
        before, note, bits = map(numpy.concatenate, zip(*parts, strict=True))
        after = self._used[:, before]
        after[within] |= bits
        after &= self._to_come(index)[:, None]
        numbers, first = _numbered([note, *after])
        self._layers.append(Layer(len(self._note), before, numbers, bits))
        self._notes, self._note, self._used = following, note[first], after[:, first]
        return True

    def _steps(self, index: int, digits: Sequence[int]) -> "tuple[list[Hashable], Numbers]":
        """The notes behind a cell; for each digit and note before it, which of them; or -1."""
        import numpy

        following: dict[Hashable, int] = {}
        steps = numpy.full((len(digits), len(self._notes)), -1)
        for number in numpy.unique(self._note).tolist():
            for row, digit in enumerate(digits):
                after = self._scan.step(self._notes[number], index, digit)
                if after is not None:
                    steps[row, number] = following.setdefault(after, len(following))
        return list(following), steps

    def _to_come(self, index: int) -> "Numbers":
        """For each group, the digits that its cells behind this one can hold."""
        import numpy

        found = numpy.zeros(len(self._groups), numpy.int64)
        for number, group in enumerate(self._groups):
            for at in group:
                if at > index:
                    found[number] |= self._held[at]
        return found

    def leading_on(self) -> list[Layer]:
        """The edges that lead to a fine end, all of which are one; states numbered anew."""
        import numpy

        fine = numpy.array([bool(self._scan.ends(note)) for note in self._notes], bool)[self._note]
        numbers = numpy.zeros(len(fine), numpy.int64)
        layers = []
        for layer in reversed(self._layers):
            live = layer.only(fine[layer.after])
            fine = numpy.zeros(layer.states, bool)
            fine[live.before] = True
            after, numbers = numbers[live.after], numpy.cumsum(fine) - 1
            states = max(1, int(fine.sum()))
            layers.append(Layer(states, numbers[live.before], after, live.digits))
        return layers[::-1]


def _numbered(columns: "Sequence[Numbers]") -> "tuple[Numbers, Numbers]":
    """A number for each row that some columns have, and where each number stands first."""
    import numpy

    _, first, numbers = numpy.unique(columns[0], return_index=True, return_inverse=True)
    for column in columns[1:]:
        both = numbers << 32 | column
        _, first, numbers = numpy.unique(both, return_index=True, return_inverse=True)
    return numbers, first
