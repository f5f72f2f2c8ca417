"""Pictures of steps: marks in fixed places, clear of lines, labels and each other."""

import pytest

from layout.board.step import MOST_BOXED, draw_step, spoken_marks, step_lattice
from layout.marks.label import ink_box
from layout.picture.items import Fill, Stroke, Text
from layout.style.style import read_style
from layout.writers.svg import svg_of_picture
from tests.support.drawn import STYLES, board_style, cell, glyphs, plain_puzzle, points, svg_of
from tests.support.drawn_marks import EVERY_MARK, with_marks
from verify.board import Outside
from verify.manifest.read import puzzle_from_text
from verify.marks import Cage, Clue
from verify.rules import BY_NAME
from verify.walk.facts.step import Consequence, DeadEnd, Link
from verify.walk.report.replay import Scene


def everything(puzzle):
    return tuple((2 << puzzle.board.digits) - 2 for _ in puzzle.board.places)


def scene_of(puzzle, **more):
    return Scene(everything(puzzle), puzzle.givens, **more)


def drawn(puzzle, style="paperback", width=90, every_mark=True, **more):
    scene = scene_of(puzzle, **more)
    return draw_step(puzzle, board_style(style), width, scene, every_mark=every_mark)


def texts(picture):
    return [item for item in picture.items if isinstance(item, Text)]


def by_cell(puzzle, picture, style="paperback"):
    lattice = step_lattice(puzzle, board_style(style), picture.width)
    found = {}
    for text in texts(picture):
        left, top, right, bottom = ink_box(text)
        column = int(((left + right) / 2 - lattice.left) // lattice.side)
        row = int(((top + bottom) / 2 - lattice.top) // lattice.side)
        if puzzle.board.holds(row, column):
            found.setdefault(puzzle.board.cell(row, column), []).append(text)
    return lattice, found


@pytest.mark.parametrize("style", ["paperback", "large-print"])
@pytest.mark.parametrize("size", [4, 6, 8, 9, 12, 16, 20])
def test_marks_of_every_size_keep_clear_of_the_lines_and_of_each_other(style, size):
    puzzle = plain_puzzle(size)
    lattice, found = by_cell(puzzle, drawn(puzzle, style, 7 * size), style)
    boxes = [ink_box(text) for text in found[0]]
    line = board_style(style).lines.box.at(lattice.side)
    assert len(boxes) == size
    for left, top, right, bottom in boxes:
        assert lattice.left + line < left < right < lattice.left + lattice.side - line
        assert lattice.top + line < top < bottom < lattice.top + lattice.side - line
    for one in boxes:
        assert not any(overlap(one, other) for other in boxes if other is not one)


def overlap(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def test_a_digit_has_the_same_place_in_every_cell():
    puzzle = plain_puzzle(9)
    lattice, found = by_cell(puzzle, drawn(puzzle))
    places = {
        (text.text, round((text.x - lattice.left) % lattice.side, 3))
        for marks in found.values()
        for text in marks
    }
    assert len(places) == 9


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("size", [6, 9])
def test_marks_stand_clear_under_a_label(style, size):
    label = Cage("cage", (0, 1), "45")
    puzzle = with_marks(plain_puzzle(size), [label])
    _, found = by_cell(puzzle, drawn(puzzle, style), style)
    (caption,) = [text for text in found[0] if text.text == "45"]
    foot = ink_box(caption)[3]
    marks = [text for text in found[0] if text is not caption]
    assert len(marks) == size
    assert all(ink_box(text)[1] > foot for text in marks)
    assert len({text.size for text in marks} | {text.size for text in found[2]}) == 1


@pytest.mark.parametrize("style", STYLES)
def test_marks_stand_clear_of_what_sits_on_edges_and_corners(style):
    """No ground of a badge, which is white and lies lower, touches the ink of a mark."""
    for mark in EVERY_MARK:
        if type(mark).__name__ != "Badge" and getattr(mark, "shape", "") not in HEADS:
            continue
        puzzle = with_marks(plain_puzzle(9), [mark])
        picture = drawn(puzzle, style)
        first = next(i for i, item in enumerate(picture.items) if isinstance(item, Text))
        pencil = [ink_box(text) for text in texts(picture)][-729:]
        for item in picture.items[first - 8 :]:
            if isinstance(item, Fill) and len(item.path) <= 4:
                for contour in item.path:
                    xs, ys = zip(*points((contour,)), strict=True)
                    box = (min(xs), min(ys), max(xs), max(ys))
                    assert not any(overlap(box, ink) for ink in pencil), mark.role


HEADS = ("inward", "outward")


def strokes_over_marks(picture):
    """The strokes that are painted after the last letter."""
    last = max(i for i, item in enumerate(picture.items) if isinstance(item, Text))
    return [item for item in picture.items[last:] if isinstance(item, Stroke)]


def test_each_struck_mark_has_a_stroke_of_its_own_and_no_other_has():
    puzzle = plain_puzzle(9)
    picture = drawn(puzzle, struck=((0, 0b1010), (10, 0b10)))
    strokes = strokes_over_marks(picture)
    assert len(strokes) == 3
    struck = set()
    for stroke in strokes:
        (x1, y1), (x2, y2) = points(stroke.path)
        for text in texts(picture):
            left, top, right, bottom = ink_box(text)
            if left <= (x1 + x2) / 2 <= right and top <= (y1 + y2) / 2 <= bottom:
                struck.add((text.text, round(text.x, 3)))
    assert sorted(name for name, _ in struck) == ["1", "1", "3"]


def test_reasons_have_a_ground_and_a_line_that_stays_without_greys():
    puzzle = plain_puzzle(9)
    plain, shaded = drawn(puzzle).items, drawn(puzzle, grounds=(0, 1, 9)).items
    added = [item for item in shaded if item not in plain]
    (ground,) = [item for item in added if isinstance(item, Fill)]
    (line,) = [item for item in added if isinstance(item, Stroke)]
    assert 0 < 1 - ground.grey < 0.25
    assert line.grey == 0
    assert len(line.path) == 1


def test_what_is_placed_stands_large_and_alone_in_a_square():
    puzzle = plain_puzzle(9)
    picture = drawn(puzzle, placed=((0, 7),))
    lattice, found = by_cell(puzzle, picture)
    (text,) = found[0]
    assert (text.text, text.font) == ("7", "Fira Sans Bold")
    assert text.size > 2 * found[1][0].size
    squares = [
        item
        for item in picture.items
        if isinstance(item, Stroke) and len(item.path) == 1 and item.path[0].closed
    ]
    around = [list(points(square.path)) for square in squares]
    left, _, right, _ = ink_box(text)
    assert any(
        min(x for x, _ in square)
        < left
        < right
        < max(x for x, _ in square)
        < lattice.left + lattice.side
        for square in around
    )


@pytest.mark.parametrize("every_mark", [False, True])
def test_what_follows_from_an_if_is_numbered_but_for_what_is_supposed(every_mark):
    puzzle = plain_puzzle(9)
    chain = tuple(Consequence(at, digit) for at, digit in ((0, 1), (4, 2), (8, 3)))
    end = DeadEnd(cell=8, digit=3)
    picture = drawn(puzzle, every_mark=every_mark, struck=((0, 0b10),), chain=chain, dead_end=end)
    _, found = by_cell(puzzle, picture)
    assert [text.text for text in found[0]] == ["1"]
    assert sorted(text.text for text in found[4]) == ["1", "2"]
    assert sorted(text.text for text in found[8]) == ["2", "3"]
    digit, number = sorted(found[4], key=lambda text: -text.size)
    assert (digit.text, number.text) == ("2", "1")
    assert not overlap(ink_box(digit), ink_box(number))
    ((left, _), (right, _)) = points(strokes_over_marks(picture)[-1].path)
    assert left < (found[0][0].x + ink_box(found[0][0])[2]) / 2 < right


def test_givens_and_digits_written_before_are_told_apart():
    puzzle = plain_puzzle(4, "1 . . .\n. . . .\n. . . .\n. . . .")
    written = (1, 2, *(0 for _ in range(14)))
    scene = Scene(everything(puzzle), written)
    fonts = {
        text.text: text.font for text in texts(draw_step(puzzle, board_style(), 40, scene))[-2:]
    }
    assert fonts == {"1": "Fira Sans Medium", "2": "Fira Sans Light"}


def test_the_words_name_what_is_struck_and_placed():
    puzzle = plain_puzzle(9)
    words = drawn(puzzle, struck=((cell("r2c3"), 0b110),), pushing=(0,)).description
    assert "In rings: r1c1." in words
    assert "Struck: 1 2 in r2c3." in words


def test_nothing_of_a_step_leaves_the_picture():
    puzzle = with_marks(plain_puzzle(9), EVERY_MARK)
    picture = drawn(puzzle, struck=((80, 0b1111111110),), pushing=(72, 80), placed=((0, 9),))
    for left, top, right, bottom in glyphs(svg_of(svg_of_picture(picture))):
        assert left >= 0
        assert top >= 0
        assert right <= picture.width
        assert bottom <= picture.height


def test_rows_and_columns_are_numbered_outside_the_board():
    puzzle = plain_puzzle(6)
    picture = drawn(puzzle)
    lattice = step_lattice(puzzle, board_style(), picture.width)
    above = [text for text in texts(picture) if text.y < lattice.top]
    beside = [text for text in texts(picture) if text.x < lattice.left and text not in above]
    assert [text.text for text in above] == [text.text for text in beside] == list("123456")
    assert len({round(text.y, 6) for text in above}) == 1
    for column, text in enumerate(above):
        left, _, right, _ = ink_box(text)
        assert (left + right) / 2 == pytest.approx(lattice.left + (column + 0.5) * lattice.side)


def test_beside_clues_there_are_no_numbers_that_could_be_taken_for_more_of_them():
    clue = Clue("outside", Outside(-1, 2, "s"), "17")
    puzzle = with_marks(plain_puzzle(6), [clue])
    assert len(texts(drawn(puzzle))) == len(texts(drawn(plain_puzzle(6)))) - 12 + 1


def needed(puzzle, **more):
    return drawn(puzzle, every_mark=False, **more)


def test_only_cells_of_which_something_is_said_have_words_in_them():
    puzzle = plain_puzzle(9)
    told = ((0, 0b0001111000), (1, 0b110), (2, 0b1110111110), (3, 0b10))
    _, found = by_cell(puzzle, needed(puzzle, told=told, pushing=(0, 2), concluded=(1, 3)))
    said = {cell: [text.text for text in texts_in] for cell, texts_in in found.items()}
    assert said == {0: ["3\u20136"], 1: ["1", "2"], 2: ["6"], 3: ["1"]}
    assert found[3][0].size > 1.5 * found[1][0].size


def squares_and_rings(puzzle, picture):
    """The cells that frames stand in: four corners, or round."""
    lattice = step_lattice(puzzle, board_style(), picture.width)
    found = {"square": set(), "ring": set()}
    for item in picture.items:
        if not isinstance(item, Stroke) or item.width > 0.05 * lattice.side:
            continue
        for contour in item.path:
            xs, ys = zip(*points((contour,)), strict=True)
            size = max(xs) - min(xs)
            if contour.closed and 0.7 * lattice.side < size < 0.9 * lattice.side:
                row = int(((min(ys) + max(ys)) / 2 - lattice.top) // lattice.side)
                column = int(((min(xs) + max(xs)) / 2 - lattice.left) // lattice.side)
                kind = "square" if all(len(each) == 2 for each in contour.segments) else "ring"
                found[kind].add(puzzle.board.cell(row, column))
    return found


def test_what_pushes_stands_in_rings_and_what_follows_in_squares():
    puzzle = plain_puzzle(9, "\n".join(["12.......", *["........."] * 8]))
    told = ((4, 0b11111000), (5, 0b11110000))
    picture = needed(puzzle, pushing=(0, 4), told=told, concluded=(5,), placed=((80, 3),))
    assert squares_and_rings(puzzle, picture) == {"square": {5, 80}, "ring": {0, 4}}


def test_what_is_placed_and_pushes_on_stands_in_a_square_alone():
    puzzle = plain_puzzle(9)
    picture = needed(puzzle, pushing=(7,), placed=((7, 3),))
    assert squares_and_rings(puzzle, picture) == {"square": {7}, "ring": set()}


def test_what_follows_and_pushes_on_stands_in_a_square_alone():
    puzzle = plain_puzzle(9)
    picture = needed(puzzle, pushing=(4,), told=((4, 0b11111000),), concluded=(4,))
    assert squares_and_rings(puzzle, picture) == {"square": {4}, "ring": set()}


def test_many_digits_at_once_are_told_by_their_font_alone():
    puzzle = plain_puzzle(9)
    placed = tuple((cell, 1 + cell % 9) for cell in range(MOST_BOXED + 1))
    picture = needed(puzzle, placed=placed)
    assert squares_and_rings(puzzle, picture)["square"] == set()
    assert {text.font for text in texts(picture)[-len(placed) :]} == {"Fira Sans Bold"}


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("told", [0b0001111000, 0b110, 0b1010101010, 0b1010101000, 0b0111110110])
def test_what_is_said_keeps_within_its_square_and_to_the_least_size(style, told):
    puzzle = plain_puzzle(9)
    look, cells = board_style(style).steps, read_style(style).page
    width = cells.cells.smallest_in_steps * 9.7
    picture = drawn(puzzle, style, width, every_mark=False, told=((40, told),), concluded=(40,))
    lattice, found = by_cell(puzzle, picture, style)
    x, y = lattice.centre(40)
    half = look.box_size * lattice.side / 2
    for text in found[40]:
        left, top, right, bottom = ink_box(text)
        assert x - half < left < right < x + half
        assert y - half < top < bottom < y + half
        assert text.size >= 0.98 * cells.least


def test_the_mark_at_work_has_all_its_ink_and_the_others_are_pale():
    puzzle = puzzle_from_text(BY_NAME["thermometer"].example)
    (use,) = [use for use in puzzle.uses if use.rule.name == "thermometer"]
    at_work = Link("thermometer", use.constraints[1])
    look = board_style()

    def ink(speaking):
        picture = needed(puzzle, speaking=speaking)
        grey = 1 - look.marks.trails["thermometer"].ink
        pale = 1 - look.marks.trails["thermometer"].ink * look.steps.shapes
        fills = [item for item in picture.items if isinstance(item, Fill | Stroke)]
        full = [item for item in fills if item.grey == pytest.approx(grey)]
        return len(full), len([item for item in fills if item.grey == pytest.approx(pale)])

    none, one = ink(()), ink((at_work,))
    every = ink(tuple(Link("thermometer", each) for each in use.constraints))
    assert none[0] == 0
    assert 0 < one[0] < every[0]
    assert none[1] > one[1] > every[1] == 0


def test_of_a_shape_that_forks_the_branch_at_work_alone_is_dark():
    fork = "rules:\n  thermometer:\n    - r3c3 w w\n    - r3c3 e e\n"
    puzzle = plain_puzzle(9, more=fork)
    (use,) = [use for use in puzzle.uses if use.rule.name == "thermometer"]
    scene = scene_of(puzzle, speaking=(Link("thermometer", use.constraints[0]),))
    (mark,) = spoken_marks(puzzle, scene)
    assert mark.branches == (use.constraints[0].cells,)


def test_labels_are_no_lower_than_marks_however_small_the_board():
    puzzle = with_marks(plain_puzzle(9), [Cage("cage", (0, 1), "45")])
    least = read_style("paperback").page.least
    picture = drawn(puzzle, width=60, every_mark=False)
    assert min(text.size for text in texts(picture)) >= 0.99 * least


def test_digits_stand_clear_under_labels():
    puzzle = with_marks(plain_puzzle(9), [Cage("cage", (0, 1), "45")])
    picture = drawn(puzzle, width=60, every_mark=False, placed=((0, 8), (2, 8)))
    _, found = by_cell(puzzle, picture)
    label, digit = sorted(found[0], key=lambda text: text.size)
    assert ink_box(label)[3] < ink_box(digit)[1]
    (other,) = found[2]
    assert other.size == digit.size
    assert other.y < digit.y
