"""`reglet walk`: words, JSON, exit codes."""

import json

import pytest

from layout.command import main
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.facts.notes import Notes

THERMOMETER = BY_NAME["thermometer"].example
MANY = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  . . . .\n  . . . .\n"
NONE = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 . .\n  . . 3 .\n  . . 4 .\n  . . . .\n"


@pytest.fixture
def walk(tmp_path, capsys):
    def run(text, *more):
        path = tmp_path / "puzzle.yaml"
        path.write_text(text)
        code = main(["walk", str(path), *more])
        out, err = capsys.readouterr()
        return code, out, err

    return run


def test_title_summary_and_numbered_paragraphs(walk):
    code, out, err = walk(THERMOMETER)
    title, blank, summary, also_blank, *paragraphs = out.splitlines()
    assert (code, title, blank, also_blank) == (0, "Two reeds", "", "")
    assert summary == ("Everything hangs on the thermometer from r1c5. It breaks open in step 1.")
    numbers = [int(line.partition(". ")[0]) for line in paragraphs]
    assert numbers == list(range(1, len(numbers) + 1))
    assert "finished, " in err
    assert walk(THERMOMETER, "--quiet")[2] == ""


@pytest.mark.parametrize("level", ["moments", "whole", "every"])
def test_as_much_is_told_as_is_asked_for(walk, level):
    _, out, _ = walk(THERMOMETER, "--level", level)
    told = out.splitlines()[4:]
    _, whole, _ = walk(THERMOMETER)
    steps = len(json.loads(walk(THERMOMETER, "--json")[1])["steps"])
    if level == "every":
        assert len(told) == steps
    else:
        assert set(told) <= set(whole.splitlines())
    assert json.loads(walk(THERMOMETER, "--json", "--level", level)[1])["level"] == level


def test_another_language(walk):
    code, out, _ = walk(THERMOMETER, "--language", "de")
    assert code == 0
    assert "Alles hängt hieran: das Thermometer von r1c5 an." in out


@pytest.mark.parametrize("rule", ["thermometer", "cage", "boxes", "skyscraper", "local-maximum"])
@pytest.mark.parametrize("language", ["en", "de"])
def test_json_leads_from_the_givens_to_the_answer(walk, rule, language):
    text = BY_NAME[rule].example
    code, out, _ = walk(text, "--json", "--language", language)
    told = json.loads(out)
    assert (code, told["finished"], told["id"]) == (0, True, "puzzle")
    assert set(told) == {
        *("reglet", "file", "id", "finished", "grade", "level", "idea", "break_in", "crux"),
        *("steps", "told", "verdict"),
    }
    puzzle = puzzle_from_text(text)
    cells = {puzzle.board.name(cell): cell for cell in puzzle.board.cells}
    notes = Notes(puzzle)
    placed = {}
    for step in told["steps"]:
        assert set(step) == {
            *("number", "kind", "technique", "rule", "places", "removes", "needs", "because"),
            *("uses", "words"),
        }
        assert set(step["because"]) == {
            *("cells", "digits", "houses", "marks", "chain", "ways", "asides", "end")
        }
        assert step["words"]
        assert all(use < step["number"] for use in step["uses"])
        for name, digits in step["needs"].items():
            assert not any(notes.pencil[cells[name]] >> digit & 1 for digit in digits)
        assert set(step["because"]["cells"]) <= set(cells)
        assert bool(step["places"]) != bool(step["removes"])
        for name, digits in step["removes"].items():
            assert all(notes.pencil[cells[name]] >> digit & 1 for digit in digits)
            notes.strike(cells[name], sum(1 << digit for digit in digits))
        for name, digit in step["places"].items():
            assert name not in placed
            placed[name] = digit
            notes.place(cells[name], digit)
    assert notes.finished
    (answer,) = prove(puzzle).answers
    assert placed == {name: answer[cell] for name, cell in cells.items() if not puzzle.givens[cell]}


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_report_in_place_of_the_steps(walk, language):
    code, out, err = walk(THERMOMETER, "--report", "--language", language)
    title, blank, *lines = out.splitlines()
    assert (code, title, blank) == (0, "Two reeds", "")
    assert "finished, " in err
    assert not any(line[:1].isdigit() or "{" in line for line in lines)
    steps = json.loads(walk(THERMOMETER, "--json")[1])["steps"]
    assert any(str(len(steps)) in line for line in lines)


def test_the_report_as_json_points_at_steps(walk):
    code, out, _ = walk(THERMOMETER, "--json", "--report")
    told = json.loads(out)
    report, steps = told["report"], told["steps"]
    assert code == 0
    assert set(report) == {
        *("break_in", "hard", "tightest", "techniques", "once", "unused", "symmetry", "stop")
    }
    break_in = report["break_in"]
    assert all(step["places"] for step in steps[: break_in["step"] - 1])
    assert steps[break_in["step"] - 1]["technique"] == "mark alone"
    assert break_in["step"] == told["break_in"]
    assert told["crux"] in report["hard"]
    assert all(steps[number - 1]["removes"] for number in report["hard"])
    assert steps[break_in["placement"] - 1]["places"]
    assert sum(report["techniques"].values()) == len(steps)
    assert report["stop"] is None


def test_a_report_without_being_asked_for_is_none(walk):
    assert "report" not in json.loads(walk(THERMOMETER, "--json")[1])


@pytest.mark.parametrize("text", [MANY, NONE], ids=["many", "none"])
def test_the_report_on_a_walk_that_does_not_finish(walk, text):
    code, out, _ = walk(text, "--report")
    assert code == 1
    assert "Cells filled by then" in out
    code, out, _ = walk(text, "--json", "--report")
    stop = json.loads(out)["report"]["stop"]
    assert (code, set(stop)) == (1, {"placed", "open", "candidates"})


@pytest.mark.parametrize("text", [MANY, NONE], ids=["many", "none"])
def test_a_walk_that_does_not_finish_exits_with_1(walk, text):
    code, out, err = walk(text)
    assert code == 1
    assert "not finished" in err
    assert out.splitlines()[-2] == ""
    code, out, _ = walk(text, "--json")
    assert (code, json.loads(out)["finished"]) == (1, False)


def test_the_same_walk_is_told_the_same_way(walk):
    assert walk(THERMOMETER, "--json") == walk(THERMOMETER, "--json")


def test_what_can_t_be_read_is_told_in_one_line(walk):
    code, out, err = walk("kind: sudoku\nsize: 4\ngivens: 5\n")
    assert (code, out) == (2, "")
    assert "Traceback" not in err
    assert "puzzle.yaml:3" in err


def test_no_such_file(capsys):
    assert main(["walk", "absent.yaml"]) == 2
    assert "absent.yaml" in capsys.readouterr().err


def test_no_such_language(capsys):
    assert main(["walk", "absent.yaml", "--language", "xx"]) == 2
    assert "expected de or en" in capsys.readouterr().err
