"""`reglet hint`: how a grid stands, three tiers, JSON, exit codes, and all that can be amiss."""

import io
import json
import sys
from functools import cache

import pytest

from layout.command import main
from layout.language.words import languages
from tests.support.checkout import BOOKS
from tests.support.told import faults
from verify.budget import Budget
from verify.manifest.read import puzzle_from_text, read_puzzle
from verify.manifest.source import MOST_BYTES
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.told.next_step import next_step, with_placed
from verify.walk.told.path import ToldPath

HOUSES = BOOKS / "gallery" / "puzzles" / "houses"
FOUR = """title: Slack Water
kind: sudoku
size: 4
givens: |
  1 2 . .
  . . 1 .
  . . . 3
  4 . . .
"""
ANSWER = "1234341221434321"
MANY = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  . . . .\n  . . . .\n"
NONE = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 . .\n  . . 3 .\n  . . 4 .\n  . . . .\n"
THERMOMETER = BY_NAME["thermometer"].example
SOME = "1234............"


@pytest.fixture
def hint(tmp_path, capsys):
    def run(text, so_far, *more):
        path = tmp_path / "puzzle.yaml"
        path.write_text(text)
        code = main(["hint", str(path), "--so-far", so_far, *more])
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        assert "defect" not in err
        return code, out, err

    return run


@cache
def stuck():
    """The thermometer's example with all digits that can be placed by looking, as rows."""
    puzzle = puzzle_from_text(THERMOMETER)
    grid = list(puzzle.givens)
    while (step := next_step(with_placed(puzzle, grid)).steps[0].step).places:
        ((cell, digit),) = step.places
        grid[cell] = digit
    return "\n".join(map("".join, puzzle.rows_of(grid)))


def test_where_to_look_what_for_and_what_follows(hint):
    assert hint(FOUR, SOME) == (0, "Nothing is wrong so far.\nLook in the box of r1c3.\n", "")
    assert hint(FOUR, SOME, "--tier", "2")[1].endswith(
        "\nIn the box of r1c3, a single cell is open.\n"
    )
    code, out, _ = hint(FOUR, SOME, "--tier", "3")
    assert (code, out.splitlines()[1]) == (0, "In the box of r1c3, 2 goes to r2c4.")
    assert hint(FOUR, SOME, "--tier", "1") == hint(FOUR, SOME)


def test_in_german(hint):
    told = [hint(FOUR, SOME, "--language", "de", "--tier", tier)[1] for tier in "123"]
    assert told == [
        "Bis hierher stimmt alles.\nIm Block von r1c3 lohnt ein Blick.\n",
        "Bis hierher stimmt alles.\nIm Block von r1c3 ist eine einzige Zelle offen.\n",
        "Bis hierher stimmt alles.\nIm Block von r1c3 geht die 2 nach r2c4.\n",
    ]


def test_a_strike_is_told_with_the_digit_that_follows_from_it(hint):
    code, out, _ = hint(THERMOMETER, stuck(), "--tier", "3")
    assert (code, out) == (
        0,
        "Nothing is wrong so far.\nThe thermometer from r1c5 rises over 5 cells: r2c6 is 2 or 3."
        " r2c6 also sees 3, so it is 2.\n",
    )
    found = json.loads(hint(THERMOMETER, stuck(), "--tier", "3", "--json")[1])
    assert found["hint"]["technique"] == "mark alone"
    strike, digit = found["hint"]["steps"]
    assert (strike["rule"], set(strike["removes"]), strike["places"]) == (
        "thermometer",
        {"r2c6"},
        {},
    )
    assert (digit["places"], digit["removes"]) == ({"r2c6": 2}, {})


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("name", ["15-holes", "16-letters"])
def test_other_boards_and_symbols(name, language, capsys):
    path = HOUSES / f"{name}.yaml"
    puzzle = read_puzzle(path)
    rows = ["".join(row) for row in puzzle.rows_of(puzzle.givens)]
    for grid in ("".join(rows), "\n".join(rows)):
        assert main(["hint", str(path), "--so-far", grid, "--language", language, "--json"]) == 0
        found = json.loads(capsys.readouterr().out)
        assert (found["verdict"], found["wrong"], found["hint"]["tier"]) == ("one", 0, 1)


def test_wrong_digits_are_counted_and_named_only_if_asked(hint):
    code, out, err = hint(FOUR, "1243............")
    assert (code, out) == (1, "2 digits are wrong.\n")
    assert "--show-wrong" in err
    assert hint(FOUR, "1243............", "--quiet")[2] == ""
    code, out, _ = hint(FOUR, "1243............", "--show-wrong")
    assert (code, out) == (1, "2 digits are wrong.\nLook again at r1c3 and r1c4.\n")
    assert hint(FOUR, "1233............")[1] == "One digit is wrong.\n"
    assert (
        hint(FOUR, "1233............", "--language", "de")[1] == "Eine der Ziffern stimmt nicht.\n"
    )


def test_a_hint_from_what_is_right(hint):
    code, out, err = hint(FOUR, "1243............", "--leave-wrong", "--tier", "3")
    wrong, told = out.splitlines()
    assert (code, wrong, err) == (0, "2 digits are wrong.", "")
    assert told == hint(FOUR, "." * 16, "--tier", "3")[1].splitlines()[1]


def test_a_full_grid(hint):
    assert hint(FOUR, ANSWER) == (0, "The grid is full, and all of it is right.\n", "")
    code, out, _ = hint(FOUR, ANSWER[:-2] + "31")
    assert (code, out) == (1, "One digit is wrong.\n")
    code, out, _ = hint(FOUR, ANSWER[:-2] + "31", "--leave-wrong", "--tier", "3")
    assert (code, "r4c3" in out) == (0, True)


def test_json_tells_no_more_than_the_tier(hint):
    told = [json.loads(hint(FOUR, SOME, "--json", "--tier", tier)[1]) for tier in "123"]
    for each in told:
        assert set(each) == {
            "reglet",
            "file",
            "id",
            "verdict",
            "wrong",
            "full",
            "cut_short",
            "hint",
        }
    assert [set(each["hint"]) for each in told] == [
        {"tier", "words"},
        {"tier", "words", "technique"},
        {"tier", "words", "technique", "steps"},
    ]
    assert told[2]["hint"]["steps"] == [
        {"technique": "last cell", "rule": "", "places": {"r2c4": 2}, "removes": {}}
    ]


def test_json_of_wrong_digits(hint):
    found = json.loads(hint(FOUR, "1243............", "--json")[1])
    assert (found["wrong"], found["hint"], "wrong_cells" in found) == (2, None, False)
    found = json.loads(hint(FOUR, "1243............", "--json", "--show-wrong")[1])
    assert found["wrong_cells"] == ["r1c3", "r1c4"]


@pytest.mark.parametrize(("text", "verdict"), [(MANY, "many"), (NONE, "none")])
def test_a_puzzle_without_one_answer_has_no_hints(hint, text, verdict):
    code, out, err = hint(text, "." * 16)
    assert (code, out) == (1, "")
    assert f"{verdict}, expected one answer" in err
    code, out, _ = hint(text, "." * 16, "--json")
    found = json.loads(out)
    assert (code, found["verdict"], "hint" in found) == (1, verdict, False)
    assert ("differs" in found) == (verdict == "many")


def test_time_that_is_over(hint):
    code, _, err = hint(THERMOMETER, stuck(), "--seconds", "0.000001")
    assert code == 1
    assert "undecided" in err


def test_a_grid_in_a_file(hint, tmp_path):
    path = tmp_path / "grid.txt"
    path.write_text("1234\n....\n....\n....\n")
    assert hint(FOUR, str(path)) == hint(FOUR, SOME)
    path.write_text("12x4\n....\n....\n....\n")
    code, out, err = hint(FOUR, str(path))
    assert (code, out) == (2, "")
    assert err.endswith('grid.txt:1:3: found "x", expected . or one of 1 2 3 4\n')


def test_a_grid_on_standard_input(hint, monkeypatch):
    def stdin(data):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))

    stdin(b"1234\n....\n....\n....\n")
    assert hint(FOUR, "-") == hint(FOUR, SOME)
    stdin(b"")
    assert hint(FOUR, "-")[2].startswith("standard input:1:1: found nothing, expected the grid")
    stdin(b"12\xff")
    assert hint(FOUR, "-")[2].startswith("standard input:1:3: found byte 0xFF, expected UTF-8")
    stdin(b"1" * (MOST_BYTES + 1))
    assert hint(FOUR, "-")[2].startswith("standard input:1:1: found a file of more than 1 MiB")
    monkeypatch.setattr(sys, "stdin", None)
    assert hint(FOUR, "-")[:2] == (2, "")


@pytest.mark.parametrize(
    ("so_far", "told"),
    [
        (
            "no-such.txt",
            '--so-far:1:1: found "no-such.txt", which is no file, expected a file or a grid',
        ),
        ("", '--so-far:1:1: found "", which is no file'),
        ("123", "--so-far:1:3: found 3 cells, expected 16 cells in 4 rows"),
        ("12345678........", '--so-far:1:5: found "5", expected . or one of 1 2 3 4'),
        ("2...............", '--so-far:1:1: found "2" in r1c1, expected the given "1"'),
        ("." * 60_000, "--so-far:1:17: found 60000 cells"),
        (".", "found a folder, expected a file"),
    ],
)
def test_what_is_no_grid(hint, so_far, told):
    code, out, err = hint(FOUR, so_far)
    assert (code, out) == (2, "")
    assert told in err


@pytest.mark.parametrize(
    "more",
    [("--tier", "4"), ("--tier", "x"), ("--language", "xx"), ("--seconds", "0")],
)
def test_options_that_can_t_be_used(hint, more):
    code, out, err = hint(FOUR, SOME, *more)
    assert (code, out) == (2, "")
    assert more[0] in err


def test_a_grid_is_needed(capsys):
    assert main(["hint", "puzzle.yaml"]) == 2
    assert "--so-far" in capsys.readouterr().err


def test_a_manifest_that_can_t_be_read(hint):
    code, out, err = hint("kind: sudoku\nsize: 4\ngivens: 5\n", SOME)
    assert (code, out) == (2, "")
    assert "puzzle.yaml:3" in err


def test_every_hint_is_right_up_to_the_end():
    puzzle = puzzle_from_text(THERMOMETER)
    (answer,) = prove(puzzle).answers
    grid = list(puzzle.givens)
    strikes = 0
    while 0 in grid:
        path = next_step(with_placed(puzzle, grid))
        for kept in path.steps:
            assert all(answer[cell] == digit for cell, digit in kept.step.places)
            assert not any(mask >> answer[cell] & 1 for cell, mask in kept.step.removes)
            strikes += bool(kept.step.removes)
            for cell, digit in kept.step.places:
                grid[cell] = digit
        assert path.steps
        assert path.steps[-1].step.places, "a strike of this example leads to a digit"
    assert strikes


@pytest.mark.parametrize(("cut_short", "told"), [(True, "The time was over"), (False, "From here")])
def test_no_step_was_found(hint, monkeypatch, cut_short, told):
    nothing = ToldPath((), (), finished=False, cut_short=cut_short)
    monkeypatch.setattr("verify.walk.told.next_step.next_step", lambda *_: nothing)
    code, out, err = hint(FOUR, SOME)
    assert (code, out.splitlines()[1].startswith(told), err) == (1, True, "")
    found = json.loads(hint(FOUR, SOME, "--json")[1])
    assert (found["hint"], found["cut_short"]) == (None, cut_short)


def test_the_next_step_keeps_to_its_time():
    over = Budget(seconds=1e-9).deadline()
    for grid in (puzzle_from_text(FOUR), puzzle_from_text(THERMOMETER)):
        path = next_step(grid, over)
        assert (path.steps, path.cut_short) == ((), True)


def test_strikes_are_told_up_to_the_digit_that_they_lead_to():
    puzzle = puzzle_from_text(BY_NAME["diagonals"].example)
    (answer,) = prove(puzzle).answers
    grid, lengths = list(puzzle.givens), []
    while 0 in grid:
        path = next_step(with_placed(puzzle, grid))
        *strikes, digit = [kept.step for kept in path.steps]
        assert not any(step.places for step in strikes)
        assert list(faults(with_placed(puzzle, grid), path, [answer])) == []
        ((cell, placed),) = digit.places
        grid[cell] = placed
        lengths.append(len(path.steps))
    assert tuple(grid) == answer
    assert (min(lengths), max(lengths)) == (1, 5)
