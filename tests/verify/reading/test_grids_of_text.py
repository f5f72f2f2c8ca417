import pytest

from verify.board import Board
from verify.manifest.yaml_text import tree_of
from verify.reading.grid import GridText, read_grid
from verify.reading.problems import Problems

FOUR = Board(4, 4, 4, (2, 2))
VALUES = {"1": 1, "2": 2, "3": 3, "4": 4, ".": 0}
TWO = Board(2, 2, 2)
WORDS = {"ebb": 1, "flo": 2, ".": 0}
PLAIN = (0, 0, 3, 0, 1, 2, 3, 4, 0, 0, 0, 0, 4, 0, 0, 1)


def grid(
    text: str, board: Board = FOUR, values: dict[str, int] = VALUES
) -> tuple[GridText | None, list[str]]:
    problems = Problems()
    found = read_grid(tree_of(text, "f", problems), board, values, "the givens", problems)
    return found, [str(problem).removeprefix("f:") for problem in sorted(problems.found)]


@pytest.mark.parametrize(
    "text",
    [
        "|\n  . . 3 .\n  1 2 3 4\n  . . . .\n  4 . . 1\n",
        "|\n  ..3.\n  1234\n  ....\n  4..1\n",
        "|\n  . . | 3 .\n  1 2 | 3 4\n  ----+----\n  . . | . .\n  4 . | . 1\n",
        "|\n  ..|3.\n  12|34\n  --+--\n  ..|..\n  4.|.1\n",
        "|\n  +----+----+\n  |..|3.|\n  |12|34|\n  +----+----+\n  |..|..|\n  |4.|.1|\n  +---+\n",
        "|\n  .. 3.\n\n  12 34\n\n  .. ..\n  4. .1\n",
        "|-\n  ..3.\n  1\t2 3 4\n  ....\n  4..1",
        ">\n  ..3.\n  1234\n  ....\n  4..1\n",
        "|2\n    ..3.\n    1234\n    ....\n    4..1\n",
        "\n  ..3.\n  1234\n  ....\n  4..1\n",
        "'..3.\n  1234\n  ....\n  4..1'\n",
        '"..3.\\n1234\\n....\\n4..1\\n"\n',
        '"..3.\\n\\\n  1234\\n\\\n  ....\\n4..1"\n',
    ],
)
def test_layouts_of_one_grid_mean_the_same(text: str) -> None:
    found, problems = grid(text)
    assert problems == []
    assert found is not None
    assert found.digits == PLAIN


def test_symbols_of_several_characters_stand_apart() -> None:
    found, _ = grid("|\n ebb | .\n . | flo\n", TWO, WORDS)
    assert found is not None
    assert found.digits == (1, 0, 0, 2)


def test_a_symbol_of_several_characters_counts_once_in_a_row_that_is_too_short() -> None:
    found, problems = grid("|\n ebb\n . | flo\n", TWO, WORDS)
    assert found is None
    assert problems == ["2:2: found 1 cell in row 1, expected 2"]


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        (
            "|\n  . . 3 x\n  1 2 3 4\n  . 5 . .\n  4 . . 1\n",
            [
                '2:9: found "x", expected . or one of 1 2 3 4',
                '4:5: found "5", expected . or one of 1 2 3 4',
            ],
        ),
        ("|\n  ..3.\n  12|0.\n  ....\n  ....\n", ['3:6: found "0", expected . or one of 1 2 3 4']),
        (
            "|\n  . . 3 10\n  ....\n  ....\n  ....\n",
            ['2:9: found "10", expected . or one of 1 2 3 4'],
        ),
        (
            "|\n  . . 3 .\n   1 2 3\n  . . . . .\n  4 . . 1\n",
            ["3:4: found 3 cells in row 2, expected 4", "4:3: found 5 cells in row 3, expected 4"],
        ),
        ("|\n  ....\n  ....\n  ....\n", ["4:3: found 3 rows, expected 4"]),
        ("|\n ....\n ....\n ---\n ....\n ....\n ....\n ....\n", ["7:2: found 6 rows, expected 4"]),
        (
            "|\n  ...\n",
            ["2:3: found 1 row, expected 4", "2:3: found 3 cells in row 1, expected 4"],
        ),
        (
            "|\n  ..x.\n  ..y\n",
            [
                '2:5: found "x", expected . or one of 1 2 3 4',
                "3:3: found 2 rows, expected 4",
                "3:3: found 3 cells in row 2, expected 4",
            ],
        ),
        ("|\n  ----\n", ["1:1: found 0 rows, expected 4"]),
        ("[a]", ["1:1: found a list, expected the givens: 4 rows of 4 cells"]),
    ],
)
def test_what_does_not_fit_is_told_at_its_place(text: str, problems: list[str]) -> None:
    assert grid(text) == (None, problems)


def test_unknown_words_stand_where_they_begin() -> None:
    _, problems = grid("|\n ebb | .\n . | eb\n", TWO, WORDS)
    assert problems == ['3:6: found "eb", expected . or one of ebb flo']


def test_a_place_can_be_asked_for_every_cell() -> None:
    found, _ = grid("|\n  . . | 3 .\n  1 2 | 3 4\n  ----+----\n  ..|..\n  4.|.1\n")
    assert found is not None
    places = [found.place_of(cell) for cell in (0, 2, 4, 7, 8, 15)]
    assert [(place.line, place.column) for place in places] == [
        (2, 3),
        (2, 9),
        (3, 3),
        (3, 11),
        (5, 3),
        (6, 7),
    ]


def test_a_board_of_one_cell() -> None:
    one = Board(1, 1, 1)
    assert grid("1", one, {"1": 1, ".": 0})[0] is not None
    assert grid("2", one, {"1": 1}) == (None, ['1:1: found "2", expected 1'])
