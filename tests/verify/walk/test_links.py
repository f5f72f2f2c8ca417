"""Cells that see each other through a mark: the mark is a reason, and without it there is none."""

from dataclasses import replace

import pytest

from tests.support.boards import plain
from tests.support.reasons import unproved
from verify.pencil import every_digit
from verify.rule import Use
from verify.rules.houses import anti_knight
from verify.rules.workings.apart import Apart
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Technique
from verify.walk.techniques.colours import colour_chains
from verify.walk.techniques.locked import locked
from verify.walk.techniques.wings import wings

BOARD = plain(9).board


def at(name):
    return BOARD.cell(int(name[1]) - 1, int(name[3]) - 1)


def sheet(leaps, marks):
    """The sheet of a 9x9 Latin square with some leaps between cells, and pencil marks by name."""
    apart = tuple(Apart(tuple(map(at, leap.split()))) for leap in leaps)
    notes = Notes(plain(9, None, (), Use(anti_knight.RULE, apart)))
    for name, digits in marks.items():
        kept = sum(1 << int(digit) for digit in digits)
        notes.strike(at(name), every_digit(9) & ~kept)
    return notes


def only_step(notes, find, technique):
    (step,) = find(notes)
    assert step.technique is technique
    assert unproved(notes.puzzle.board, notes.pencil, step) == []
    return step


def leaps_of(step):
    return {tuple(map(BOARD.name, link.constraint.cells)) for link in step.because.links}


def needs_each_link(notes, step):
    """Whether the step no longer follows where any one of its marks is left out."""
    links = step.because.links
    return all(
        unproved(
            notes.puzzle.board,
            notes.pencil,
            replace(step, because=replace(step.because, links=(*links[:at], *links[at + 1 :]))),
        )
        for at in range(len(links))
    )


# A wing of r1c2 (1 or 2), r2c4 (1 or 3) and r1c7 (2 or 3): whichever the first takes, one of the
# others is 3.


@pytest.mark.parametrize(
    ("leaps", "removed", "links"),
    [
        # The pivot sees one of the cells by a leap; what loses its 3 sees both by its lines.
        (["r1c2 r2c4"], "r1c4 r2c7", {("r1c2", "r2c4")}),
        # One of the cells is seen by a leap, too, from the cell that loses its 3.
        (
            ["r1c2 r2c4", "r1c7 r3c4"],
            "r1c4 r2c7 r3c4",
            {("r1c2", "r2c4"), ("r1c7", "r3c4")},
        ),
    ],
)
def test_a_wing_names_the_leaps_by_which_its_cells_see_each_other(leaps, removed, links):
    notes = sheet(leaps, {"r1c2": "12", "r2c4": "13", "r1c7": "23"})
    step = only_step(notes, wings, Technique.WING)
    assert step.removes == tuple((at(name), 1 << 3) for name in removed.split())
    assert leaps_of(step) == links
    assert needs_each_link(notes, step)


def test_a_wing_of_three_candidates_names_them_too():
    """The pivot may hold the 3 itself: what loses it sees all three."""
    leaps = ["r1c2 r2c4", "r1c4 r3c9"]
    notes = sheet(leaps, {"r1c2": "123", "r2c4": "13", "r1c7": "23"})
    step = only_step(notes, wings, Technique.WING)
    assert step.removes == ((at("r1c4"), 1 << 3),)
    assert leaps_of(step) == {("r1c2", "r2c4")}
    assert needs_each_link(notes, step)


def test_without_the_leap_there_is_no_wing():
    assert list(wings(sheet([], {"r1c2": "12", "r2c4": "13", "r1c7": "23"}))) == []


def test_locked_candidates_name_the_leaps_of_what_they_strike():
    elsewhere = {f"r1c{column}": "12346789" for column in (1, 2, 4, 5, 6, 7, 8)}
    notes = sheet(["r1c3 r4c6", "r1c9 r4c6"], elsewhere)
    step = only_step(notes, locked, Technique.LOCKED)
    assert step.removes == ((at("r4c6"), 1 << 5),)
    assert leaps_of(step) == {("r1c3", "r4c6"), ("r1c9", "r4c6")}
    assert needs_each_link(notes, step)


def test_a_colour_chain_names_the_leaps_of_what_it_strikes():
    """The 5 of row 1 and that of row 7 stand in column 2, or in columns 6 and 8, by turns."""
    pairs = {1: (2, 6), 7: (2, 8)}
    elsewhere = {
        f"r{row}c{column}": "12346789"
        for row, kept in pairs.items()
        for column in range(1, 10)
        if column not in kept
    }
    column = {f"r{row}c2": "12346789" for row in (2, 3, 4, 5, 6, 8, 9)}
    notes = sheet(["r1c6 r3c5", "r7c8 r3c5"], elsewhere | column)
    step = only_step(notes, colour_chains, Technique.COLOUR_CHAIN)
    removed = {BOARD.name(cell) for cell, _ in step.removes}
    assert "r3c5" in removed
    assert leaps_of(step) == {("r1c6", "r3c5"), ("r7c8", "r3c5")}
    assert needs_each_link(notes, step)
