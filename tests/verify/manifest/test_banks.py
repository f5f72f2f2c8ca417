import os
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

import pytest

from verify.manifest.bank import bank_from_lines, kept_of, puzzle_of, read_bank
from verify.manifest.bank_line import LONGEST_LINE, BankLine, bank_lines
from verify.puzzle import Puzzle
from verify.reading.problems import MOST_PROBLEMS, Problem, Unreadable

GIVENS = "1" + "." * 79 + "9"
CASES = os.environ.get("REGLET_CASES")


def told(*lines: str) -> list[str]:
    """What is found in each line: an id, or a problem."""
    found = bank_from_lines(lines, "low/tide.txt")
    return [puzzle.id if isinstance(puzzle, Puzzle) else str(puzzle) for puzzle in found]


def only(line: str) -> Puzzle:
    (found,) = bank_from_lines([line])
    assert isinstance(found, Puzzle)
    return found


def test_a_line_is_a_classic_puzzle() -> None:
    puzzle = only(GIVENS)
    assert puzzle.givens == (1, *[0] * 79, 9)
    assert puzzle.board.boxes == (3, 3)
    assert [use.rule.name for use in puzzle.uses] == ["rows", "columns", "boxes"]
    assert puzzle.symbols == tuple("123456789")
    assert puzzle.answer is None


def test_zero_and_point_are_open_cells() -> None:
    assert only(GIVENS.replace(".", "0")).givens == only(GIVENS).givens


def test_smaller_boards_have_shorter_lines() -> None:
    assert only("1" + "." * 15).board.boxes == (2, 2)
    assert only("6" + "." * 35).board.boxes == (2, 3)


def test_names_numbers_notes_and_blank_lines_are_passed_over() -> None:
    lines = ["# list line puzzle", "", f"easy50 2 {GIVENS}", "  ", f"{GIVENS} 4.5 # calm"]
    assert told(*lines) == ["tide-3", "tide-5"]


def test_a_number_of_16_digits_is_no_board_beside_a_larger_one() -> None:
    assert only(f"{'7' * 16} {GIVENS}").board.digits == 9


@pytest.mark.parametrize(
    ("line", "problem"),
    [
        ("1" * 80, "1: found 80 cells, expected 256, 81, 36 or 16"),
        (f"ebb {'1' * 82}", "5: found 82 cells, expected 256, 81, 36 or 16"),
        ("1" * 80 + "x", '81: found "x", expected a digit, . or 0'),
        (f"{GIVENS} {GIVENS}", "83: found a second grid in one line, expected one a line"),
        (f"ebb {'.' * 35}7", '40: found "7", expected 1 to 6, . or 0'),
        ("9" + "." * 15, '1: found "9", expected 1 to 4, . or 0'),
        ("Slack Water", "1: found 5 cells, expected 256, 81, 36 or 16"),
        ("٣" * 81, '1: found "٣", expected a digit, . or 0'),
        ("x" * 2000, f"1: found more than {LONGEST_LINE} characters, expected a short line"),
    ],
)
def test_a_line_that_is_none_is_told_and_the_others_are_read(line: str, problem: str) -> None:
    assert told(GIVENS, line, GIVENS) == ["tide-1", f"low/tide.txt:2:{problem}", "tide-3"]


def test_a_file_that_is_no_bank_is_given_up() -> None:
    found = list(bank_from_lines(["x"] * 1000))
    assert len(found) == MOST_PROBLEMS + 1
    assert str(found[-1]).endswith("too many problems; the rest was not read")


def test_a_bank_is_read_as_it_is_asked_for() -> None:
    def lines() -> Iterator[str]:
        for _ in range(3):
            yield GIVENS
        raise AssertionError("a line too many was read")

    assert len(list(islice(bank_from_lines(lines()), 3))) == 3


def test_a_file_of_any_system_is_a_bank(tmp_path: Path) -> None:
    path = tmp_path / "tide.txt"
    path.write_bytes(
        b"\xef\xbb\xbf" + f"{GIVENS}\r\nebb\xff {GIVENS}\r\n{GIVENS}".encode("latin-1")
    )
    found = list(read_bank(path, "tide.txt"))
    assert [puzzle.id for puzzle in found if isinstance(puzzle, Puzzle)] == [
        "tide-1",
        "tide-2",
        "tide-3",
    ]
    assert {puzzle.file for puzzle in found if isinstance(puzzle, Puzzle)} == {"tide.txt"}


def test_a_line_without_end_is_not_kept(tmp_path: Path) -> None:
    path = tmp_path / "tide.txt"
    path.write_bytes(b"1" * 5_000_000 + b"\n" + GIVENS.encode())
    problem, puzzle = read_bank(path)
    assert isinstance(problem, Problem)
    assert isinstance(puzzle, Puzzle)
    assert puzzle.id == "tide-2"


def test_a_missing_bank_is_told(tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="f:1:1: no such file"):
        list(read_bank(tmp_path / "none.txt", "f"))


@pytest.mark.skipif(CASES is None, reason="REGLET_CASES names no folder of published cases")
@pytest.mark.parametrize(("name", "count"), [("classic17.txt", 4916), ("classic-lists.txt", 833)])
def test_published_lists_are_banks(name: str, count: int) -> None:
    """The counts are those that the folder's own README gives."""
    found = list(read_bank(Path(CASES or "") / name))
    assert len(found) == count
    assert all(isinstance(puzzle, Puzzle) for puzzle in found)
    if name == "classic17.txt":
        assert {sum(map(bool, puzzle.givens)) for puzzle in found} == {17}


def test_a_board_of_16_has_letters_past_9() -> None:
    cells = "G" + "." * 253 + "0a"
    assert only(cells).board.boxes == (4, 4)
    assert (only(cells).givens[0], only(cells).givens[-1]) == (16, 10)
    assert only(cells).symbols[15] == "G"
    assert told("H" + "." * 255) == [
        'low/tide.txt:1:1: found "H", expected a digit, A to G, . or 0'
    ]


def read(path: Path, text: str) -> list[BankLine | Problem]:
    path.write_text(text, encoding="utf-8")
    return list(bank_lines(path, path.name))


def test_what_stands_beside_the_cells_is_kept_as_it_is(tmp_path: Path) -> None:
    (line,) = read(tmp_path / "tide.txt", f"ebb {GIVENS} 4.5  # two  words\n")
    assert isinstance(line, BankLine)
    assert kept_of(line) == "ebb  4.5  # two  words"


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_a_table_has_a_column_of_puzzles(tmp_path: Path, delimiter: str) -> None:
    rows = [
        ["name", "puzzle"],
        ['"Low, water"', GIVENS],
        [],
        ["ebb", "1"],
        ["x"],
        ['"open', GIVENS],
    ]
    text = "\n".join(delimiter.join(row) for row in rows)
    first, second, *problems = read(tmp_path / "tide.csv", text)
    assert isinstance(first, BankLine)
    assert isinstance(second, BankLine)
    assert first.kept == {"name": "Low, water"}
    assert isinstance(puzzle_of(first), Puzzle)
    assert str(puzzle_of(second)) == "tide.csv:4:5: found 1 cells, expected 256, 81, 36 or 16"
    assert [str(each).partition(", ")[0] for each in problems] == [
        "tide.csv:5:1: found 1 columns",
        "tide.csv:6:1: unexpected end of data",
    ]


def test_a_table_without_such_a_column_is_told_once(tmp_path: Path) -> None:
    (problem,) = read(tmp_path / "tide.csv", f"name,puzle\nebb,{GIVENS}\n")
    assert 'did you mean "puzle"?' in str(problem)


def test_an_object_a_line_has_a_key_for_the_puzzle(tmp_path: Path) -> None:
    lines = [
        f'{{"puzzle": "{GIVENS}", "rank": 7, "by": ["Ida", null]}}',
        "[1]",
        '{"puzle": "1"}',
        '{"puzzle": 17}',
        "{",
        "[" * 50_000,
        '{"puzzle": "1", "rank": NaN}',
    ]
    first, *problems = read(tmp_path / "tide.jsonl", "\n".join(lines))
    assert isinstance(first, BankLine)
    assert first.kept == {"rank": 7, "by": ["Ida", None]}
    assert isinstance(puzzle_of(first), Puzzle)
    assert [each.place.line for each in problems] == [2, 3, 4, 5, 6, 7]


def test_all_formats_give_the_same_puzzles(tmp_path: Path) -> None:
    texts = {"a.txt": GIVENS, "a.csv": f"puzzle\n{GIVENS}", "a.jsonl": f'{{"puzzle":"{GIVENS}"}}'}
    givens = set()
    for name, text in texts.items():
        (tmp_path / name).write_text(text)
        (puzzle,) = read_bank(tmp_path / name)
        assert isinstance(puzzle, Puzzle)
        givens.add(puzzle.givens)
    assert givens == {only(GIVENS).givens}


SAID = ("heron-3", "Slack Water", "Ida Marsh")


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("tide.txt", "\t".join([GIVENS, *SAID])),
        ("tide.csv", f"title;id;puzzle;constructor\nSlack Water;heron-3;{GIVENS};Ida Marsh"),
        (
            "tide.jsonl",
            f'{{"id": "heron-3", "title": "Slack  Water", "constructor": "Ida Marsh", '
            f'"puzzle": "{GIVENS}"}}',
        ),
    ],
)
def test_a_line_may_name_its_puzzle(tmp_path: Path, name: str, text: str) -> None:
    (line,) = read(tmp_path / name, text)
    assert isinstance(line, BankLine)
    puzzle = puzzle_of(line)
    assert isinstance(puzzle, Puzzle)
    assert (puzzle.id, puzzle.credits.title, puzzle.credits.constructor) == SAID
    assert puzzle.givens == only(GIVENS).givens


def test_what_a_line_leaves_out_is_its_number(tmp_path: Path) -> None:
    assert told(f"{GIVENS} heron", f"{GIVENS}\t\tSlack Water", f"{GIVENS}\t") == [
        f"tide-{number}" for number in (1, 2, 3)
    ]
    (line,) = read(tmp_path / "low.tide.jsonl", f'{{"puzzle": "{GIVENS}", "id": null}}')
    assert isinstance(line, BankLine)
    assert line.id == "low.tide-1"


@pytest.mark.parametrize(
    ("words", "problem"),
    [
        ("-heron", "id -heron, expected letters, digits, - _ and . only"),
        (f"x\t{'x' * 201}", "201 characters in title, expected at most 200"),
    ],
)
def test_words_that_can_not_be_printed_cost_their_line_alone(words: str, problem: str) -> None:
    first, second, third = told(GIVENS, f"{GIVENS}\t{words}", GIVENS)
    assert (first, third) == ("tide-1", "tide-3")
    assert second.startswith("low/tide.txt:2:1: found ")
    assert problem.replace("-heron", '"-heron"') in second
