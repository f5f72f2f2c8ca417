import subprocess
import sys
from pathlib import Path

import pytest

from verify.manifest.fields import DEFAULT_SYMBOLS, WORDS_FIELDS
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.puzzle import Credits, Puzzle
from verify.reading.problems import Unreadable

SLACK_WATER = """\
title: Slack Water
constructor: Ida Marsh
kind: sudoku
size: 4
rules:
  thermometer:
    - r2c1 e e
  diagonals: both
givens: |
  . . | 3 .
  . . | . .
  ----+----
  . . | . .
  . 1 | . .
answer: |
  1 4 3 2
  2 3 4 1
  4 2 1 3
  3 1 2 4
note: For the tide-table chapter
theme: a gauge
date: 2027-01-04
words: |
  Digits grow from the bulb.

  Both diagonals hold 1 to 4.
"""


def told(text: str, name: str = "f") -> list[str]:
    """Every problem of a manifest's text, as `line:column: message`."""
    with pytest.raises(Unreadable) as caught:
        puzzle_from_text(text, name)
    return [str(problem).removeprefix(f"{name}:") for problem in caught.value.problems]


def rules_of(puzzle: Puzzle) -> list[str]:
    return [use.rule.name for use in puzzle.uses]


def with_lines(*lines: str, kind: str = "sudoku", size: int = 4) -> str:
    return "\n".join([f"kind: {kind}", f"size: {size}", *lines, ""])


def test_a_whole_manifest_becomes_a_puzzle() -> None:
    puzzle = puzzle_from_text(SLACK_WATER, "low/slack-water.yaml")
    assert puzzle.id == "slack-water"
    assert puzzle.file == "low/slack-water.yaml"
    assert puzzle.credits == Credits(
        title="Slack Water",
        constructor="Ida Marsh",
        theme="a gauge",
        date="2027-01-04",
        note="For the tide-table chapter",
    )
    assert puzzle.words == "Digits grow from the bulb.\n\nBoth diagonals hold 1 to 4."
    assert (puzzle.board.rows, puzzle.board.columns, puzzle.board.digits) == (4, 4, 4)
    assert puzzle.board.boxes == (2, 2)
    assert rules_of(puzzle) == ["rows", "columns", "boxes", "thermometer", "diagonals"]
    assert puzzle.givens == (0, 0, 3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0)
    assert puzzle.answer == (1, 4, 3, 2, 2, 3, 4, 1, 4, 2, 1, 3, 3, 1, 2, 4)
    assert puzzle.symbols == ("1", "2", "3", "4")


def test_a_file_reads_like_its_text(tmp_path: Path) -> None:
    path = tmp_path / "slack-water.yaml"
    path.write_bytes(SLACK_WATER.replace("\n", "\r\n").encode("utf-8-sig"))
    assert read_puzzle(path, "x/slack-water.yaml") == puzzle_from_text(
        SLACK_WATER, "x/slack-water.yaml"
    )
    assert read_puzzle(path).file == path.as_posix()


def test_the_least_manifest_is_an_open_grid() -> None:
    puzzle = puzzle_from_text(with_lines(size=9))
    assert puzzle.givens == (0,) * 81
    assert puzzle.answer is None
    assert puzzle.title == puzzle.id == "puzzle"


def test_empty_fields_count_as_missing() -> None:
    puzzle = puzzle_from_text(
        with_lines("title:", "id:", "rules:", "givens:", "answer:", "words:", "note: ''")
    )
    assert puzzle.credits == Credits()
    assert puzzle.id == "puzzle"


def test_all_problems_come_at_once_in_order() -> None:
    text = """\
titel: Slack Water
kind: sudku
size: 26
rules:
  termometer: [r1c1 e]
givens: 1
"""
    assert told(text) == [
        '1:1: unknown field "titel"; did you mean "title"?',
        '2:7: unknown kind "sudku"; did you mean "sudoku"?',
        '3:7: found size "26", expected a whole number from 1 to 25',
        '5:3: unknown rule "termometer"; did you mean "thermometer"?',
    ]


def test_an_unknown_kind_hides_no_other_problem() -> None:
    text = with_lines("boxes: 2x2", "rules: {even: r5c1}", "givens: 1", kind="latn")
    assert told(text) == [
        '1:7: unknown kind "latn"; did you mean "latin"?',
        "4:15: found r5c1, expected a cell from r1c1 to r4c4",
        "5:9: found 1 cell in row 1, expected 4",
        "5:9: found 1 row, expected 4",
    ]


def test_problems_of_marks_and_grids_come_with_the_others() -> None:
    text = with_lines(
        "tittle: x",
        "rules:",
        "  thermometer:",
        "    - r1c1 n",
        "    - r1c1 e e",
        "    - [r1c1, r9c9]",
        "givens: |",
        "  ..x.",
        "  ...",
        "  ....",
    )
    assert told(text) == [
        '3:1: unknown field "tittle"; did you mean "title"?',
        '6:12: step "n" leaves the board from r1c1; expected to stay between r1c1 and r4c4',
        "8:14: found r9c9, expected a cell from r1c1 to r4c4",
        '10:5: found "x", expected . or one of 1 2 3 4',
        "11:3: found 3 cells in row 2, expected 4",
        "12:3: found 3 rows, expected 4",
    ]


# kind, size, boxes


def test_kinds_bring_their_rules() -> None:
    assert rules_of(puzzle_from_text(with_lines())) == ["rows", "columns", "boxes"]
    assert rules_of(puzzle_from_text(with_lines(kind="latin"))) == ["rows", "columns"]
    assert rules_of(puzzle_from_text(with_lines(kind="blank"))) == []
    for kind in ("latin", "blank"):
        assert puzzle_from_text(with_lines(kind=kind)).board.boxes is None


# Rows x columns of one box: the table in the manifest's description.
@pytest.mark.parametrize(
    ("size", "boxes"),
    [
        (4, (2, 2)), (6, (2, 3)), (8, (2, 4)), (9, (3, 3)), (10, (2, 5)), (12, (3, 4)),
        (15, (3, 5)), (16, (4, 4)), (18, (3, 6)), (20, (4, 5)), (24, (4, 6)), (25, (5, 5)),
    ],
)  # fmt: skip
def test_usual_boxes(size: int, boxes: tuple[int, int]) -> None:
    puzzle = puzzle_from_text(with_lines(size=size))
    assert puzzle.board.boxes == boxes
    assert [len(use.constraints) for use in puzzle.uses] == [size, size, size]


@pytest.mark.parametrize("size", [1, 2, 3, 5, 7, 11, 13, 14, 17, 19, 21, 22, 23])
def test_other_sizes_need_boxes_or_regions(size: int) -> None:
    assert told(with_lines(size=size)) == [
        f"2:7: found size {size}, which has no usual boxes, "
        "expected boxes: ROWSxCOLUMNS, or the rule regions"
    ]
    assert puzzle_from_text(with_lines(size=size, kind="latin")).board.digits == size


@pytest.mark.parametrize("size", ["0", "26", "-1", "nine", "9.0", "'9 '", "", "[9]", "9999999999"])
def test_sizes_are_whole_numbers_to_25(size: str) -> None:
    (problem,) = told(f"kind: sudoku\nsize: {size}\n")
    assert problem.startswith("2:")
    assert problem.endswith("expected a whole number from 1 to 25")


def test_a_quoted_size_is_a_size() -> None:
    assert puzzle_from_text("kind: latin\nsize: '7'\n").board.rows == 7


def test_own_boxes() -> None:
    assert puzzle_from_text(with_lines("boxes: 3x2", size=6)).board.boxes == (3, 2)
    assert puzzle_from_text(with_lines("boxes: 3 × 2", size=6)).board.boxes == (3, 2)
    assert puzzle_from_text(with_lines("boxes: 2x7", size=14)).board.boxes == (2, 7)


@pytest.mark.parametrize(
    ("line", "problem"),
    [
        ("boxes: 2x2", "3:8: found boxes of 2 x 2 = 4 cells, "
            "expected 6 cells, as many as there are digits"),
        ("boxes: 3", '3:8: found "3", expected rows x columns of a box, such as 3x3'),
        ("boxes: [3, 2]", "3:8: found a list, expected rows x columns of a box, such as 3x3"),
        ("boxes: 0x6", "3:8: found boxes of 0 x 6 = 0 cells, "
            "expected 6 cells, as many as there are digits"),
    ],
)  # fmt: skip
def test_boxes_tile_the_board_and_hold_each_digit(line: str, problem: str) -> None:
    assert told(with_lines(line, size=6)) == [problem]


def test_boxes_where_none_can_be() -> None:
    assert told(with_lines("boxes: 2x2", kind="latin")) == [
        "3:8: found boxes, expected none: kind latin has none"
    ]
    both = with_lines("boxes: 2x2", "rules: {regions: \"AABB\\nAABB\\nCCDD\\nCCDD\"}")  # fmt: skip
    assert "3:8: found boxes, expected none: regions take their place" in told(both)


REGIONS = ("rules:", "  regions: |", "    A A A B", "    A C B B", "    C C D B", "    C D D D")


def test_regions_take_the_place_of_boxes() -> None:
    puzzle = puzzle_from_text(with_lines(*REGIONS))
    assert rules_of(puzzle) == ["rows", "columns", "regions"]
    assert puzzle.board.boxes is None
    assert len(puzzle.uses[2].constraints) == 4


def test_regions_go_with_the_other_kinds_too() -> None:
    assert rules_of(puzzle_from_text(with_lines(*REGIONS, kind="latin")))[2:] == ["regions"]
    assert rules_of(puzzle_from_text(with_lines(*REGIONS, kind="blank"))) == ["regions"]


def test_a_blank_board_can_ask_for_houses() -> None:
    lines = ("rules:", "  boxes: true", "  rows: true")
    puzzle = puzzle_from_text(with_lines(*lines, kind="blank"))
    assert rules_of(puzzle) == ["boxes", "rows"]
    assert puzzle.board.boxes == (2, 2)
    assert puzzle_from_text(with_lines(*lines, "boxes: 1x4", kind="blank")).board.boxes == (1, 4)


def test_what_the_kind_brings_is_not_listed_again() -> None:
    assert told(with_lines("rules: {rows: true}", kind="latin")) == [
        '3:9: found rule "rows", expected it left out: kind latin brings it'
    ]


# rules


@pytest.mark.parametrize(
    ("lines", "problem"),
    [
        (["rules: [thermometer]"], "3:8: found a list, "
            "expected a mapping, each rule with its marks, such as diagonals: both"),
        (["rules: diagonals"], '3:8: found "diagonals", '
            "expected a mapping, each rule with its marks, such as diagonals: both"),
        (["rules:", "  diagonals: both", "  diagonals: both"],
            '5:3: found "diagonals" a second time; it stands in line 4 already'),
        (["diagonals: both"], '3:1: found the rule "diagonals", expected it under rules:'),
        (["rules:", "  thermometer:"], "4:15: found nothing, expected a list of paths"),
        (["rules:", "  thermometer: r1c1 e"],
            '4:16: found "r1c1 e", expected a list of paths'),
    ],
)  # fmt: skip
def test_rules_are_a_mapping_of_known_names(lines: list[str], problem: str) -> None:
    assert told(with_lines(*lines)) == [problem]


def test_a_rule_that_is_switched_off_is_an_error() -> None:
    assert told(with_lines("rules: {rows: false}", kind="blank")) == [
        '3:15: found "false", expected true; leave the rule out where it is not wanted'
    ]


def test_a_job_is_told_to_be_one() -> None:
    assert told("job: book\ntitle: The Saltmarsh Almanac\n") == [
        "1:1: found a job, expected a puzzle; `reglet make` is for jobs"
    ]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("- a\n", '1:1: found a list, expected fields such as "title: Low Water"'),
        ("title:Slack\n", '1:1: found "title:Slack", expected fields such as "title: Low Water"'),
        ("{}", "1:1: missing field \"kind\", expected one of sudoku, latin, blank"),
    ],
)  # fmt: skip
def test_what_is_no_manifest_at_all(text: str, problem: str) -> None:
    assert told(text)[0] == problem


# symbols and grids


def test_symbols_beyond_nine_are_letters() -> None:
    puzzle = puzzle_from_text(with_lines(size=16))
    assert "".join(puzzle.symbols) == "123456789ABCDEFG"
    assert DEFAULT_SYMBOLS == "123456789ABCDEFGHIJKLMNOP"


def test_own_symbols_as_text_or_list() -> None:
    for line in ("symbols: TIDE", "symbols: [T, I, D, E]", "symbols: 'TIDE'"):
        puzzle = puzzle_from_text(with_lines(line, "givens: |", *["  T.I."] * 4))
        assert puzzle.symbols == tuple("TIDE")
        assert puzzle.givens == (1, 0, 2, 0) * 4
    assert puzzle_from_text(with_lines("symbols: 0123")).symbols == tuple("0123")


def test_longer_symbols_stand_apart_in_grids() -> None:
    lines = ("symbols: [7, 8, 9, 10]", "givens: |", *["  7 . | 10 ."] * 4)
    assert puzzle_from_text(with_lines(*lines)).givens == (1, 0, 4, 0) * 4


@pytest.mark.parametrize(
    ("line", "problem"),
    [
        ("symbols: ABC", "3:10: found 3 symbols, expected 4, as many as the size"),
        ("symbols: A", "3:10: found 1 symbol, expected 4, as many as the size"),
        ("symbols: [A, B, C, D, E]", "3:10: found 5 symbols, expected 4, as many as the size"),
        ("symbols: ABAD", '3:12: found symbol "A" for 1 and for 3, expected different symbols'),
        ("symbols: [a, b, c, wave]", '3:20: found symbol "wave", '
            "expected 1 to 3 printable characters, no blank and none of . _ | + -"),
        ("symbols: AB.C", '3:12: found symbol ".", '
            "expected 1 to 3 printable characters, no blank and none of . _ | + -"),
        ("symbols: [a, '', c, d]", "3:14: found symbol \"\", "
            "expected 1 to 3 printable characters, no blank and none of . _ | + -"),
        ("symbols: [a, '|', c, d]", '3:14: found symbol "|", '
            "expected 1 to 3 printable characters, no blank and none of . _ | + -"),
        ("symbols: {a: b}", "3:10: found a mapping, "
            "expected symbols: a text such as ABCDEF, or a list"),
        ("symbols: [[a], b, c, d]", "3:10: found a list, "
            "expected symbols: a text such as ABCDEF, or a list"),
    ],
)  # fmt: skip
def test_symbols_are_different_and_fit_a_grid(line: str, problem: str) -> None:
    assert told(with_lines(line)) == [problem]


def test_no_symbol_reaches_a_terminal_as_a_command() -> None:
    grids = [f"{name}: |\n" + "  x a b c\n" * 4 for name in ("givens", "answer")]
    problems = told(with_lines('symbols: ["\\e", "\\e", a, b]', *grids))
    assert len(problems) == 18
    assert all(problem.isprintable() for problem in problems)


def test_an_unknown_symbol_stands_at_its_column() -> None:
    text = with_lines("symbols: TIDE", "givens: |", "  T . | . X", *["  ...."] * 3)
    assert told(text) == ['5:11: found "X", expected . or one of T I D E']


def test_an_answer_is_complete() -> None:
    text = with_lines("answer: |", "  1234", "  341.", "  2143", "  4321")
    assert told(text) == ['5:6: found ".", expected one of 1 2 3 4']


def test_an_answer_keeps_the_givens() -> None:
    answer = ("answer: |", "  1 2 | 3 4", "  3 4 | 1 2", "  2 1 | 4 3", "  4 3 | 2 1")
    text = with_lines("givens: |", "  1...", "  ..4.", "  ....", "  ...2", *answer)
    assert told(text) == [
        '10:9: found "1" in r2c3, expected the given "4"',
        '12:11: found "1" in r4c4, expected the given "2"',
    ]


def test_two_equal_givens_in_a_row_are_no_slip_of_the_pen() -> None:
    text = with_lines("givens: |", "  11..", "  ....", "  ....", "  ....")
    assert puzzle_from_text(text).givens[:2] == (1, 1)


# words and ids


@pytest.mark.parametrize("name", WORDS_FIELDS)
def test_words_have_a_bound(name: str) -> None:
    longest = WORDS_FIELDS[name].longest
    puzzle_from_text(with_lines(f"{name}: {'x' * longest}"))
    assert told(with_lines(f"{name}: {'x' * (longest + 1)}")) == [
        f"3:{len(name) + 3}: found {longest + 1} characters in {name}, expected at most {longest}"
    ]


@pytest.mark.parametrize("name", WORDS_FIELDS)
def test_words_are_words(name: str) -> None:
    assert told(with_lines(f"{name}: [x]")) == [
        f"3:{len(name) + 3}: found a list, expected the words of {name}"
    ]


@pytest.mark.parametrize(
    ("escape", "code"),
    [("\\x1b", "U+001B"), ("\\u202e", "U+202E"), ("\\0", "U+0000"), ("\\u200b", "U+200B")],
)
def test_words_hold_no_control_characters(escape: str, code: str) -> None:
    assert told(with_lines(f'title: "a{escape}b"')) == [
        f"3:8: found the control character {code}, expected printable text"
    ]


def test_words_keep_what_spelling_needs() -> None:
    title = "Ebbe\u00adflut\u00a0— हिन्\u200dदी 🌊"
    assert puzzle_from_text(with_lines(f"title: {title}")).title == title.replace("\u00a0", " ")


def test_a_title_is_one_line() -> None:
    text = with_lines("title: |", "  Slack", "  Water", "note: |", "  one", "  two")
    puzzle = puzzle_from_text(text)
    assert puzzle.title == "Slack Water"
    assert puzzle.credits.note == "one\ntwo"


@pytest.mark.parametrize(
    ("file", "its_id"),
    [
        ("puzzles/low/slack-water.yaml", "slack-water"),
        ("slack water (2).yml", "slack-water-2"),
        ("tide.v2.yaml", "tide.v2"),
        ("Prie\u0300re.yaml", "Prière"),
        ("...yaml", "puzzle"),
        ("?.yaml", "puzzle"),
        ("7.yaml", "7"),
    ],
)
def test_an_id_comes_from_the_files_name(file: str, its_id: str) -> None:
    assert puzzle_from_text(with_lines(), file).id == its_id


def test_an_own_id_has_only_what_a_file_name_may_have() -> None:
    assert puzzle_from_text(with_lines("id: low-1_a.b")).id == "low-1_a.b"
    for bad in ("a b", "../x", "a/b", "-x", ".x"):
        assert told(with_lines(f"id: {bad}")) == [
            f'3:5: found id "{bad}", '
            "expected letters, digits, - _ and . only, a letter or digit first"
        ]


# files


def test_files_that_are_none(tmp_path: Path) -> None:
    def told_of(path: Path) -> str:
        with pytest.raises(Unreadable) as caught:
            read_puzzle(path, "f")
        return str(caught.value)

    (tmp_path / "bad.yaml").write_bytes(b"title: x\nnote: \xff\n")
    (tmp_path / "big.yaml").write_bytes(b"#" * ((1 << 20) + 1))
    (tmp_path / "word.yaml").write_bytes("title: x".encode("utf-16"))
    assert told_of(tmp_path) == "f:1:1: found a folder, expected a file"
    assert told_of(tmp_path / "none.yaml") == "f:1:1: no such file"
    assert told_of(tmp_path / "a\0b.yaml").startswith("f:1:1: the file can't be read")
    assert told_of(tmp_path / "x" / ("y" * 300)).startswith("f:1:1: ")
    assert told_of(tmp_path / "bad.yaml") == (
        "f:2:7: found byte 0xFF, expected UTF-8 text; save the file as UTF-8"
    )
    (tmp_path / "bad.yaml").write_bytes(b"\xef\xbb\xbftitle: \xc3\xa9\xc3\n")
    assert told_of(tmp_path / "bad.yaml").startswith("f:1:9: found byte 0xC3, expected UTF-8")
    assert told_of(tmp_path / "word.yaml").startswith("f:1:1: found byte 0xFF")
    assert told_of(tmp_path / "big.yaml") == (
        "f:1:1: found a file of more than 1 MiB, expected a smaller one"
    )


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    import os

    if not hasattr(os, "mkfifo"):
        pytest.skip("no pipes in folders here")
    os.mkfifo(tmp_path / "pipe.yaml")
    with pytest.raises(Unreadable, match="found a device or a pipe"):
        read_puzzle(tmp_path / "pipe.yaml", "f")


def test_a_name_that_no_terminal_should_see(tmp_path: Path) -> None:
    path = tmp_path / "tide\x1b[2J.yaml"
    path.write_text(with_lines("titel: x"), encoding="utf-8")
    with pytest.raises(Unreadable) as caught:
        read_puzzle(path)
    assert "tide<U+001B>[2J.yaml:3:1: " in str(caught.value)


def test_reading_is_imported_at_once() -> None:
    """The slow library for YAML is imported with the first file, so that help answers soon."""
    code = "import sys, verify.manifest.read; sys.exit('yaml' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(
    ("marks", "line"),
    [("even: [{}]", 4), ("dots: {{ratio: [{}]}}", 4), ("thermometer: [[{}]]", 4)],
)
def test_more_marks_than_a_board_has_room_for_are_told_at_their_list(marks, line):
    many = marks.format(", ".join(["r1c1"] * 2_501))
    text = f"kind: blank\nsize: 4\nrules:\n  {many}\ngivens: |\n" + "  . . . .\n" * 4
    with pytest.raises(Unreadable) as raised:
        puzzle_from_text(text)
    (problem,) = raised.value.problems
    assert problem.place.line == line
    assert problem.message == "found a list of 2501, expected at most 2500 in it"
