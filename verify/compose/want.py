"""What is wanted of a puzzle that is to be set: the field `want` of a sketch."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final, Literal, TypeAlias

from verify.reading.node import Fields, Node, Place
from verify.reading.problems import Problems
from verify.reading.record import Choice, Every, Number, Record
from verify.walk.facts.step import Technique
from verify.walk.report.grade import BAND_WIDTH, EFFORT, GRADED, Band

SymmetryName: TypeAlias = Literal["half-turn", "mirror", "none"]
GradeName: TypeAlias = Literal["calm", "steady", "stiff", "steep", "severe"]

MOST_GIVENS: Final = 625
"""The cells of the largest board."""

_TECHNIQUES: Final = Every(Choice(tuple(each.value for each in Technique), "technique"))


@dataclass(frozen=True, slots=True)
class Want:
    """What is wanted of a puzzle; None or empty where that is left open.

    `givens` is the most there may be. `uses` are techniques that its walk must need, `avoids`
    those that it must not. `reads` has the symbol of each cell whose digit in the answer is fixed.
    """

    grade: Annotated[GradeName | None, "the band that it must fall into"] = None
    givens: Annotated[
        int | None, Number(0, MOST_GIVENS, whole=True), "the most givens, counting fixed ones"
    ] = None
    symmetry: Annotated[SymmetryName, "how the cells with givens lie"] = "none"
    uses: Annotated[tuple[str, ...], _TECHNIQUES, "techniques that its walk must need"] = ()
    avoids: Annotated[tuple[str, ...], _TECHNIQUES, "techniques that its walk must not need"] = ()
    reads: Annotated[Mapping[str, str] | None, "cells, and what they read in the answer"] = None
    bare: Annotated[bool, "whether no given but fixed ones may stand on a line or an arrow"] = False

    @property
    def band(self) -> Band | None:
        """The band that it must fall into."""
        return None if self.grade is None else Band(self.grade)


def read_want(node: Node | None, problems: Problems) -> Want:
    """What a sketch wants; nothing in particular where it has no such field.

    Wants that exclude each other are problems.
    """
    if node is None:
        return Want()
    want: Want | None = Record(Want).read(node, problems)
    if want is None or not isinstance(node, Fields):
        return Want()
    _check_techniques(want, node, problems)
    _check_band(want, node, problems)
    return want


def _check_techniques(want: Want, node: Fields, problems: Problems) -> None:
    """Notes techniques that are both needed and not, and those beyond the band."""
    for name in want.uses:
        if name in want.avoids:
            problems.expected(
                place_in(node, "avoids"), f'"{name}" in uses, too', "it in one of them"
            )
        effort = EFFORT[Technique(name)]
        if want.band is not None and want.band is not GRADED[-1]:
            end = (GRADED.index(want.band) + 1) * BAND_WIDTH
            if effort >= end:
                band = GRADED[min(int(effort // BAND_WIDTH), len(GRADED) - 1)]
                found = f'"{name}" in a puzzle that is to be {want.grade}'
                expected = f"a technique that it can have: this one makes it {band.value}"
                problems.expected(place_in(node, "uses"), found, expected)


def _check_band(want: Want, node: Fields, problems: Problems) -> None:
    """Notes a band that is out of reach without the techniques that are avoided.

    Toil, tightness and length move a puzzle by one band at most; marks alone make it stiff.
    """
    if want.band not in GRADED[2:]:
        return
    least = BAND_WIDTH * (GRADED.index(want.band) - 1)
    able = [each.value for each in Technique if EFFORT[each] >= least]
    if want.band is Band.STIFF:
        able.append(Technique.MARK.value)
    if all(name in want.avoids for name in able):
        found = f"all techniques that make a puzzle {want.grade}"
        problems.expected(place_in(node, "avoids"), found, "one of them left")


def place_in(node: Fields, name: str) -> Place:
    """Where the value of a field stands."""
    value = node.get(name)
    return node.place if value is None else value.place
