"""Composed puzzles: as they are wanted, and with one answer by CP-SAT."""

import pickle
from dataclasses import replace

import pytest

from tests.support.models import puzzle_answers
from verify.budget import Deadline
from verify.compose.answers import Others
from verify.compose.classic import SIZES, classic_sketch
from verify.compose.composed import Commission, composed, search_for
from verify.compose.several import compose_each
from verify.compose.sketch import sketch_from_text
from verify.compose.thinning import Thinner
from verify.manifest.read import puzzle_from_text
from verify.reading.problems import Unreadable
from verify.walk.report.grade import grade
from verify.walk.walk import walk

REEDS = """\
# reeds
title: Reeds
kind: sudoku
size: 6
rules:
  thermometer:   # two stalks
    - r2c2 s s
    - r5c5 n n
want: {WANT}
givens: |
  ? ? ? | ? ? .
  ? ? ? | ? 6 ?
  -------------
  ? ? ? | ? ? ?
  ? ? ? | ? ? ?
  -------------
  ? ? ? | ? ? ?
  . ? ? | ? ? ?
"""

SKETCHES = [
    classic_sketch(4, "calm", "mirror"),
    classic_sketch(8, "steady", "half-turn"),
    classic_sketch(9, "stiff", "half-turn"),
    classic_sketch(9, "steep", "none"),
    REEDS.replace("WANT", "grade: calm, symmetry: half-turn, reads: {r1c1: 2, r6c6: 5}"),
    REEDS.replace("WANT", "givens: 7, grade: steady, avoids: [naked pair]"),
    REEDS.replace("WANT", "uses: [mark alone]"),
    "kind: latin\nsize: 5\nholes: [r2c2, r4c4]\nrules:\n  cage: [{cells: r1c1 e, sum: 4}]\n"
    "want: {symmetry: half-turn}\n",
    "kind: sudoku\nsize: 6\nsymbols: TIDESW\nrules: {arrow: [r3c1 e e]}\nwant: {grade: calm}\n",
]


def image(board, cell, symmetry):
    """Where a symmetry lays a cell, counted here once more."""
    row, column = divmod(cell, board.columns)
    if symmetry == "half-turn":
        return board.rows * board.columns - 1 - cell
    return row * board.columns + board.columns - 1 - column if symmetry == "mirror" else cell


def of(text, seed="19", seconds=60.0):
    return Commission(sketch_from_text(text, "sketch.yaml"), seed, seconds)


@pytest.mark.parametrize("text", SKETCHES)
def test_a_puzzle_is_as_it_is_wanted(text):
    """Fixed givens, open cells, digits that are read; the symmetry, the band and the number."""
    commission = of(text)
    found = commission.compose()
    assert found.as_wanted
    sketch, want = commission.sketch, commission.sketch.want
    puzzle = puzzle_from_text(found.setting.text)
    (answer,) = puzzle_answers(puzzle)
    path = walk(puzzle)
    used = {each.technique.value for each in path.rounds}
    given = {cell for cell, digit in enumerate(puzzle.givens) if digit}
    assert path.finished
    assert want.band in (None, grade(path).band)
    assert used >= set(want.uses)
    assert used.isdisjoint(want.avoids)
    assert want.givens is None or len(given) <= want.givens
    assert sketch.fixed <= given <= sketch.fixed | sketch.may
    assert all(sketch.puzzle.givens[cell] in (0, answer[cell]) for cell in given)
    assert all(answer[cell] == digit for cell, digit in sketch.reads)
    assert {image(puzzle.board, cell, want.symmetry) for cell in given} == given
    assert puzzle.uses == sketch.puzzle.uses
    assert commission.compose().setting.text == found.setting.text


def test_a_text_keeps_its_lines_and_comments_also_in_another_process():
    text = pickle.loads(pickle.dumps(of(SKETCHES[4]))).compose().setting.text
    assert text.startswith(REEDS[: REEDS.index("want:")])
    assert "want" not in text
    assert "?" not in text
    assert text.endswith("\n")


def test_puzzles_are_none_of_them_another_in_disguise():
    one = of(classic_sketch(4, "calm", "half-turn"))
    texts = [each.setting for each in compose_each([one, one, one], 1)]
    assert len({each.canonical for each in texts}) == 3
    again = [each.setting.text for each in compose_each([one, one, one], 2)]
    assert again == [each.text for each in texts]


class Undecided(Others):
    """A solver that never finds out."""

    def __init__(self):
        pass

    def apart(self, givens):
        return frozenset()


def test_what_is_undecided_keeps_its_givens():
    thinner = Thinner(Undecided())
    assert not thinner.suffice({1, 2})
    assert thinner.thinned({1, 2}, [(1,), (2,)]) == {1, 2}


FULL = "kind: latin\nsize: 2\nwant: {symmetry: none}\n"


def test_where_there_is_no_other_puzzle_that_is_told():
    found = list(compose_each([of(FULL)] * 2, 1))
    assert found[0].as_wanted
    assert found[1].setting is None
    assert "disguises" in found[1].lacking[0].message


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (classic_sketch(4, "stiff", "none"), "4:15: found calm at the nearest, expected stiff"),
        (
            "kind: sudoku\nsize: 4\nwant:\n  uses: [wing]\n",
            '4:9: found no such puzzle with "wing", expected one',
        ),
        (
            "kind: sudoku\nsize: 6\nwant:\n  givens: 5\n",
            "givens at the fewest, expected at most 5",
        ),
        (
            "kind: sudoku\nsize: 4\ngivens: |\n  1 ? . .\n  . . . .\n  . . . .\n  . . . .\n",
            "found several answers with a given wherever one may stand",
        ),
    ],
)
def test_what_stands_in_the_way_is_told_at_its_line(text, said):
    try:
        messages = list(map(str, replace(of(text), most_answers=5).compose().lacking))
    except Unreadable as unreadable:
        messages = list(map(str, unreadable.problems))
    assert said in "\n".join(messages)


def test_a_sketch_without_an_answer_tells_what_can_not_stand_together():
    text = (
        "kind: sudoku\nsize: 4\nrules:\n  thermometer: [r1c1 e e e]\nwant:\n  reads:\n    R1C1: 2\n"
    )
    found = of(text).compose()
    assert found.setting is None
    assert list(map(str, found.why_none.parts)) == ["2 in r1c1 (line 7)", "thermometer r1c1"]


def test_where_the_time_is_over_the_best_so_far_is_kept():
    commission = of(classic_sketch(4, "stiff", "none"))
    ticks = iter(range(10**6))
    search = search_for(commission)
    search.deadline = Deadline(300, lambda: next(ticks))
    search.run()
    assert search.spent
    found = composed(commission, search)
    assert found.setting.grade.band.value == "calm"
    assert not found.as_wanted


@pytest.mark.parametrize(
    ("want", "said"),
    [
        ("grade: calm, uses: [wing]", '"wing" in a puzzle that is to be calm'),
        ("uses: [wing], avoids: [wing]", '"wing" in uses, too'),
        ("givens: 0", "found at most 0 givens, expected 1 or more: so many are fixed"),
        ("symmetry: mirror, givens: 1", "found at most 1 givens, expected 2 or more"),
        ("symmetry: half-turn", "found a given in r2c5 and none allowed in r5c2"),
        ("grade: calmer", 'did you mean "calm"'),
        ("reads: {r1c1: 9}", 'found "9" in r1c1, expected one of 1 2 3 4 5 6'),
        ("reads: {r2c5: 1}", 'found that r2c5 reads "1", expected "6", which stands there'),
        ("reads: {r1c1: 1, R1C1: 2}", "R1C1, which stands here twice"),
        ("reads: {r7c1: 1}", "r7c1"),
        (
            "grade: severe, avoids: [wing, colour chain, three-line fish, four-line fish,"
            " short if, long if, either way, deep if]",
            "found all techniques that make a puzzle severe",
        ),
    ],
)
def test_wants_that_exclude_each_other(want, said):
    text = REEDS.replace("WANT", want)
    text = text.replace("? ? ? | ? ? ?\n  . ? ?", "? . ? | ? ? ?\n  . ? ?")
    with pytest.raises(Unreadable) as caught:
        sketch_from_text(text, "sketch.yaml")
    assert said in str(caught.value)


def test_no_classic_puzzle_is_asked_for_with_too_few_givens():
    text = "kind: sudoku\nsize: 9\nwant: {givens: 16}\n"
    with pytest.raises(Unreadable, match=r"3:16: found at most 16 givens, expected 17 or more"):
        sketch_from_text(text, "sketch.yaml")
    sketch_from_text(text.replace("size: 9", "size: 9\nrules: {diagonals: both}"), "sketch.yaml")


def test_classic_sketches_of_every_size_read():
    for size in SIZES:
        assert sketch_from_text(classic_sketch(size, None, "none"), "x.yaml").want.grade is None
