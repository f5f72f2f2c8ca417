from collections.abc import Callable
from typing import Any

import pytest

from verify.board import Board
from verify.manifest.yaml_text import tree_of
from verify.reading.node import Node
from verify.reading.problems import Problems
from verify.reading.reader import Reader

NINE = Board(9, 9, 9, (3, 3))
WIDE = Board(2, 12, 12)
CELL_OR_STEP = "a cell such as r4c7 or a step such as 3ne"


def read(
    text: str, how: Callable[[Reader, Node], object], board: Board = NINE
) -> tuple[object, list[str]]:
    """What a reader makes of a YAML text, and the problems as `line:column: message`."""
    problems = Problems()
    reader = Reader(board, problems)
    value = how(reader, tree_of(text, "f", problems))
    return value, [str(problem).removeprefix("f:") for problem in problems.found]


def names(cells: object, board: Board = NINE) -> list[str] | None:
    return [board.name(cell) for cell in cells] if isinstance(cells, tuple) else None


def path(text: str, board: Board = NINE) -> tuple[list[str] | None, list[str]]:
    cells, problems = read(text, Reader.path, board)
    return names(cells, board), problems


def group(text: str, board: Board = NINE) -> tuple[list[str] | None, list[str]]:
    cells, problems = read(text, Reader.group, board)
    return names(cells, board), problems


def test_a_cell_is_a_row_and_a_column_in_either_case() -> None:
    assert read("r4c7", Reader.cell) == (NINE.cell(3, 6), [])
    assert read("R4C7", Reader.cell) == (NINE.cell(3, 6), [])
    assert read("'r4c7'", Reader.cell) == (NINE.cell(3, 6), [])


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("r10c1", "1:1: found r10c1, expected a cell from r1c1 to r9c9"),
        ("r0c1", "1:1: found r0c1, expected a cell from r1c1 to r9c9"),
        ("c4r7", '1:1: found "c4r7", expected r7c4'),
        ("r4", '1:1: found "r4", expected a cell such as r4c7'),
        ("r1c1 r1c2", '1:1: found "r1c1 r1c2", expected a cell such as r4c7'),
        ("[r1c1]", "1:1: found a list, expected a cell such as r4c7"),
        ("''", "1:1: found nothing, expected a cell such as r4c7"),
        ("r٣c1", '1:1: found "r٣c1", expected a cell such as r4c7'),
    ],
)
def test_what_is_no_cell_is_told(text: str, problem: str) -> None:
    assert read(text, Reader.cell) == (None, [problem])


def test_the_manifest_pages_trail_is_five_cells() -> None:
    assert path("r9c2 3n ne") == (["r9c2", "r8c2", "r7c2", "r6c2", "r5c3"], [])


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("r2c1 e e se e", "r2c1 r2c2 r2c3 r3c4 r3c5"),
        ("[r9c9, r8c9, r7c8]", "r9c9 r8c9 r7c8"),
        ("- r9c9\n- r8c9", "r9c9 r8c9"),
        ("r5c5 n r4c6 2N", "r5c5 r4c5 r4c6 r3c6 r2c6"),
        ("r1c1   SE\te", "r1c1 r2c2 r2c3"),
        ("r1c1 1e\n  2s", "r1c1 r1c2 r2c2 r3c2"),
        ("|\n  r1c1 e\n  s", "r1c1 r1c2 r2c2"),
        ("r5c5", "r5c5"),
    ],
)
def test_trails_and_lists_are_paths(text: str, cells: str) -> None:
    assert path(text) == (cells.split(), [])


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        (
            "r1c7 s 3e n",
            [
                '1:8: step 3 of "3e" leaves the board from r2c9; '
                "expected to stay between r1c1 and r9c9"
            ],
        ),
        (
            "r1c1 e n",
            ['1:8: step "n" leaves the board from r1c2; expected to stay between r1c1 and r9c9'],
        ),
        ("r1c1 2nn", ['1:6: unknown direction in "2nn"; did you mean "n"?']),
        ("r1c1 north", ['1:6: unknown direction in "north"; did you mean "n"?']),
        ("r1c1 3southwest", ['1:6: unknown direction in "3southwest"; did you mean "sw"?']),
        ("r1c1 x", ['1:6: unknown direction in "x"; known: n ne e se s sw w nw']),
        ("r1c1 0e", ['1:6: found "0e", expected a count of 1 or more']),
        ("r1c1 e3", ['1:6: found "e3", expected ' + CELL_OR_STEP]),
        ("r1c1, e", ['1:1: found "r1c1,", expected ' + CELL_OR_STEP]),
        ("2e r1c1", ['1:1: found "2e", expected a cell to start from, such as r4c7']),
        ("r1c1 r1c3", ["1:6: found r1c3, expected a cell that touches r1c1"]),
        ("[r1c1, r3c3]", ["1:8: found r3c3, expected a cell that touches r1c1"]),
        ("r1c1 e w", ['1:8: found r1c1 a second time by "w", expected each cell once']),
        ("r2c2 e s w 2n", ['1:12: found r2c2 a second time by "2n", expected each cell once']),
        ("[r1c1, r1c2, r1c1]", ["1:14: found r1c1 a second time, expected each cell once"]),
        ("[r1c1, e]", ['1:8: found "e", expected a cell such as r4c7']),
        ("[r1c1, [r1c2]]", ["1:8: found a list, expected a cell such as r4c7"]),
        ("[]", ["1:1: found an empty list, expected a path such as r9c2 3n ne"]),
        ("''", ["1:1: found nothing, expected a path such as r9c2 3n ne"]),
        ("{a: b}", ["1:1: found a mapping, expected a path such as r9c2 3n ne"]),
        ("r1c1..r1c3", ['1:1: found "r1c1..r1c3", expected ' + CELL_OR_STEP]),
        ("r1c1 9999999999e", ['1:6: found "9999999999e", expected ' + CELL_OR_STEP]),
    ],
)
def test_what_is_no_path_is_told_at_the_word(text: str, problems: list[str]) -> None:
    assert path(text) == (None, problems)


def test_a_trail_tells_all_its_unknown_words() -> None:
    _, problems = path("r1c1 nn e e r8c8 e 2e x")
    assert problems == [
        '1:6: unknown direction in "nn"; did you mean "n"?',
        '1:20: step 1 of "2e" leaves the board from r8c9; expected to stay between r1c1 and r9c9',
        '1:23: unknown direction in "x"; known: n ne e se s sw w nw',
    ]


def test_a_huge_count_ends_at_the_edge() -> None:
    _, problems = path("r1c1 999999999e")
    assert problems == [
        '1:6: step 9 of "999999999e" leaves the board from r1c9; '
        "expected to stay between r1c1 and r9c9"
    ]


def test_words_of_a_block_keep_their_own_lines() -> None:
    _, problems = path("|\n    r1c1 e\n     s  n\n")
    assert problems == ['3:9: found r1c2 a second time by "n", expected each cell once']


def test_a_wide_board_has_its_own_last_cell() -> None:
    assert path("r1c11 e", WIDE) == (["r1c11", "r1c12"], [])
    assert path("r3c1", WIDE) == (None, ["1:1: found r3c1, expected a cell from r1c1 to r2c12"])


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("r1c1..r2c3", "r1c1 r1c2 r1c3 r2c1 r2c2 r2c3"),
        ("r2c3..r1c1", "r1c1 r1c2 r1c3 r2c1 r2c2 r2c3"),
        ("r2c1..r1c2", "r1c1 r1c2 r2c1 r2c2"),
        ("r9c9 r1c1", "r1c1 r9c9"),
        ("[r9c9, r1c1..r1c2, r5c5 2n]", "r1c1 r1c2 r3c5 r4c5 r5c5 r9c9"),
        ("r1c1..r3c1 r3c1..r3c3", "r1c1 r2c1 r3c1 r3c2 r3c3"),
        ("- r2c2\n- r2c1", "r2c1 r2c2"),
    ],
)
def test_groups_are_sorted_cells(text: str, cells: str) -> None:
    assert group(text) == (cells.split(), [])


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("r1c1 r1c1", '1:6: found "r1c1" with no new cell, expected each cell once'),
        (
            "r1c1..r2c2 r1c2..r2c2",
            '1:12: found "r1c2..r2c2" with no new cell, expected each cell once',
        ),
        ("r1c1..r10c2", "1:7: found r10c2, expected a cell from r1c1 to r9c9"),
        ("r1c1..", '1:7: found "", expected a cell such as r4c7'),
        ("r1c1...r2c2", '1:7: found ".r2c2", expected a cell such as r4c7'),
        ("r1c1..r1c2 e", '1:12: found "e", expected a cell to start from, such as r4c7'),
        ("[r1c1, e]", '1:8: found "e", expected a cell to start from, such as r4c7'),
        ("[]", "1:1: found an empty list, expected cells such as r1c1 r1c2 or r1c1..r2c3"),
        ("{}", "1:1: found an empty mapping, expected cells such as r1c1 r1c2 or r1c1..r2c3"),
        ("[[r1c1]]", "1:2: found a list, expected cells such as r1c1 r1c2 or r1c1..r2c3"),
    ],
)
def test_what_is_no_group_is_told_at_the_word(text: str, problem: str) -> None:
    assert group(text) == (None, [problem])


def test_true_is_the_only_flag() -> None:
    assert read("true", Reader.flag) == (True, [])
    assert read("True", Reader.flag) == (True, [])
    assert read("yes", Reader.flag) == (False, ['1:1: found "yes", expected true'])
    assert read("'true'", Reader.flag) == (False, ['1:1: found "true", expected true'])
    assert read("[]", Reader.flag) == (False, ["1:1: found an empty list, expected true"])
    assert read("false", Reader.flag) == (
        False,
        ['1:1: found "false", expected true; leave the rule out where it is not wanted'],
    )


def test_a_list_is_asked_for_by_name() -> None:
    def each(reader: Reader, node: Node) -> object:
        return len(reader.each(node, "a list of paths"))

    assert read("[a, b]", each) == (2, [])
    assert read("a", each) == (0, ['1:1: found "a", expected a list of paths'])
    assert read("[]", each) == (0, ["1:1: found an empty list, expected a list of paths"])


def test_whole_numbers_have_bounds() -> None:
    def total(reader: Reader, node: Node) -> object:
        return reader.whole(node, 3, 45, "the sum")

    assert read("17", total) == (17, [])
    assert read("45", total) == (45, [])
    for text in ("2", "46", "1.5", "0x10", "1_0", "ten", "9" * 5000, "-5", "٣"):
        value, problems = read(text, total)
        assert value is None
        assert problems[0].endswith("expected a whole number from 3 to 45 as the sum")


def test_fields_are_required_optional_or_unknown() -> None:
    def cage(reader: Reader, node: Node) -> object:
        fields = reader.fields(node, ["cells"], ["sum"])
        return None if fields is None else [key.text for key in fields.keys()]  # noqa: SIM118

    assert read("{cells: r1c1, sum: 3}", cage) == (["cells", "sum"], [])
    assert read("{cells: r1c1, sums: 3}", cage) == (
        ["cells"],
        ['1:15: unknown field "sums"; did you mean "sum"?'],
    )
    assert read("sum: 3", cage) == (None, ['1:1: missing field "cells"'])
    assert read("r1c1", cage) == (None, ['1:1: found "r1c1", expected a mapping with cells'])


def test_a_choice_tells_the_nearest() -> None:
    def which(reader: Reader, node: Node) -> object:
        return reader.choice(node, ["both", "falling", "rising"], "diagonals")

    assert read("both", which) == ("both", [])
    assert read("raising", which) == (
        None,
        ['1:1: unknown diagonals "raising"; did you mean "rising"?'],
    )
    assert read("[both]", which) == (
        None,
        ["1:1: found a list, expected one of both, falling, rising"],
    )


def test_words_have_places_through_quotes_and_lines() -> None:
    def words(reader: Reader, node: Any) -> object:
        return [(place.line, place.column, word) for place, word in reader.word_places(node)]

    assert read("r1c1  > r1c2", words)[0] == [(1, 1, "r1c1"), (1, 7, ">"), (1, 9, "r1c2")]
    assert read("' a b'", words)[0] == [(1, 3, "a"), (1, 5, "b")]
    assert read("x:\n  a\n   b c\n", lambda r, n: words(r, n.get("x")))[0] == [
        (2, 3, "a"),
        (3, 4, "b"),
        (3, 6, "c"),
    ]


def test_letter_maps_are_one_letter_a_cell() -> None:
    three = Board(2, 3, 3)
    assert read("|\n A A B\n A B B\n", Reader.letter_map, three) == (tuple("AABABB"), [])
    assert read("|\n AA|B\n ---\n ABB\n", Reader.letter_map, three) == (tuple("AABABB"), [])
    assert read("|\n A A B\n A BB B\n", Reader.letter_map, three) == (
        None,
        ['3:4: found "BB", expected one letter a cell'],
    )
    assert read("|\n A A .\n A B B C\n", Reader.letter_map, three) == (
        None,
        ["3:2: found 4 cells in row 2, expected 3", '2:6: found ".", expected one letter a cell'],
    )
    assert read("|\n A A .\n A B B\n", Reader.letter_map, three) == (
        None,
        ['2:6: found ".", expected one letter a cell'],
    )
