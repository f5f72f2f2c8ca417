"""`reglet check`: words, exit codes and the JSON document."""

import json

import pytest

from layout.command import main
from tests.support import maker
from tests.support.boards import plain
from tests.support.books import manifest
from verify.proof.solver import forget
from verify.reading.problems import MOST_PROBLEMS
from verify.walk import walk as walking

ONE = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  . . . .\n"
MANY = (
    "title: Loose\nkind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  . . . .\n  . . . .\n"
)
NONE = "kind: sudoku\nsize: 4\ngivens: |\n  1 1 . .\n  . . . .\n  . . . .\n  . . . .\n"
BROKEN = "kind: sudoku\nsize: 4\nrulez: {}\n"
OTHER = ONE + "answer: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  3 4 2 1\n"


@pytest.fixture
def folder(tmp_path):
    texts = {"one": ONE, "many": MANY, "none": NONE, "broken": BROKEN, "other": OTHER}
    for name, text in texts.items():
        (tmp_path / f"{name}.yaml").write_text(text)
    return tmp_path


def told(capsys, *words):
    code = main(["check", *map(str, words)])
    out, err = capsys.readouterr()
    return code, out, err


def facts(capsys, *words):
    code, out, _ = told(capsys, *words, "--json")
    return code, json.loads(out)["puzzles"]


def test_one(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "one.yaml")
    assert code == 0
    assert puzzle.pop("seconds") >= 0
    assert puzzle == {
        "file": (folder / "one.yaml").as_posix(),
        "id": "one",
        "title": "one",
        "verdict": "one",
        "answer": ["1234", "3412", "2143", "4321"],
    }


def test_a_grade_is_told_where_it_is_asked_for(folder, capsys):
    _, (puzzle,) = facts(capsys, folder / "one.yaml", "--grade")
    assert puzzle["grade"] == {"band": "calm", "score": 0.0}


def test_the_grade_is_that_of_the_walk(folder, capsys):
    slack = "books/saltmarsh/puzzles/slack-water/06-catch.yaml"
    code, (puzzle,) = facts(capsys, slack, "--grade", "--no-cache")
    assert main(["walk", slack, "--json"]) == 0
    walked = json.loads(capsys.readouterr().out)["grade"]
    assert code == 0
    assert puzzle["grade"] == {"band": walked["band"], "score": walked["score"]}
    assert puzzle["grade"]["band"] not in ("calm", "ungraded")


def test_only_a_puzzle_with_one_answer_has_a_grade(folder, capsys):
    _, puzzles = facts(capsys, folder, "--grade")
    graded = {puzzle["verdict"] for puzzle in puzzles if "grade" in puzzle}
    assert graded == {"one"}


def test_a_puzzle_past_the_known_techniques_is_ungraded_and_may_be_printed(
    tmp_path, capsys, monkeypatch
):
    (tmp_path / "fog.yaml").write_text(manifest(1))
    monkeypatch.setattr(walking, "LADDER", walking.LADDER[:1])
    code, (puzzle,) = facts(capsys, tmp_path / "fog.yaml", "--grade")
    assert (code, puzzle["grade"]) == (0, {"band": "ungraded", "score": None})


def test_the_band_stands_behind_the_verdict(folder, capsys):
    names = ("one", "many", "other")
    _, out, _ = told(capsys, *(folder / f"{name}.yaml" for name in names), "--grade")
    one, many, other = out.splitlines()
    assert one.endswith(": one: one, calm")
    assert "calm" not in many + other


def test_many_gives_two_answers_and_the_cells_that_differ(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "many.yaml")
    assert (code, puzzle["verdict"], puzzle["title"]) == (1, "many", "Loose")
    one, other = puzzle["answers"]
    assert one != other
    assert puzzle["differs"] == [f"r{row}c{column}" for row in (3, 4) for column in (1, 2, 3, 4)]


def test_none(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "none.yaml")
    assert (code, puzzle["verdict"], "answer" in puzzle) == (1, "none", False)


def test_unreadable_has_places(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "broken.yaml")
    assert (code, puzzle["verdict"]) == (2, "unreadable")
    assert puzzle["errors"] == [
        {"line": 3, "column": 1, "message": 'unknown field "rulez"; did you mean "rules"?'}
    ]


def test_undecided_when_the_budget_is_spent(tmp_path, capsys):
    hard = maker.make(plain(12, (3, 4)), 0)
    manifest = tmp_path / "twelve.yaml"
    manifest.write_text("kind: sudoku\nsize: 12\n" + maker.givens_text(hard))
    forget()
    code, (puzzle,) = facts(capsys, manifest, "--conflicts", "1")
    assert (code, puzzle["verdict"], "answer" in puzzle) == (1, "undecided", False)
    code, (puzzle,) = facts(capsys, manifest)
    assert (code, puzzle["verdict"]) == (0, "one")


def test_an_answer_of_the_constructors_own_that_is_another(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "other.yaml")
    assert (code, puzzle["verdict"]) == (1, "one")
    assert puzzle["contradicts"] == ["r4c1", "r4c2"]
    line = (folder / "other.yaml").read_text().splitlines().index("answer: |") + 1
    assert (puzzle["line"], puzzle["column"]) == (line, len("answer: ") + 1)
    assert f"other.yaml:{line}:9: other: one answer, but" in told(capsys, folder / "other.yaml")[1]


def test_a_puzzle_of_a_bank_is_told_with_its_line(tmp_path, capsys):
    bank = tmp_path / "marsh.txt"
    bank.write_text(f"# open\n\n{'.' * 16}\n")
    assert "marsh.txt:3:1: marsh-3: many answers" in told(capsys, bank)[1]
    _, (puzzle,) = facts(capsys, bank)
    assert (puzzle["line"], puzzle["column"]) == (3, 1)


def test_a_folder_is_told_in_order_and_the_worst_sets_the_exit_code(folder, capsys):
    code, out, err = told(capsys, folder)
    names = [line.split(":")[0].rsplit("/", 1)[1] for line in out.splitlines()]
    assert names == ["broken.yaml", "many.yaml", "none.yaml", "one.yaml", "other.yaml"]
    assert code == 2
    assert "5 checked: 1 many, 1 none, 2 one, 1 unreadable" in err


def test_nothing_but_json_on_standard_output_and_nothing_at_all_when_quiet(folder, capsys):
    code, out, err = told(capsys, folder / "one.yaml", "--json", "--quiet")
    assert json.loads(out)["reglet"]
    assert (code, err) == (0, "")


def test_a_missing_path_gets_a_near_name(folder, capsys):
    code, out, err = told(capsys, folder / "onne.yaml")
    assert (code, out) == (2, "")
    assert "no such file or folder; did you mean" in err


def test_many_files_over_workers_keep_their_order(tmp_path, capsys):
    for number in range(40):
        (tmp_path / f"tide-{number}.yaml").write_text(ONE)
    code, puzzles = facts(capsys, tmp_path, "--jobs", 2)
    assert code == 0
    assert [puzzle["id"] for puzzle in puzzles] == [f"tide-{number}" for number in range(40)]


def test_json_looks_as_a_document_written_whole(folder, capsys):
    for words in ([folder], [folder / "one.yaml"]):
        _, out, _ = told(capsys, *words, "--json", "--grade")
        assert out == json.dumps(json.loads(out), indent=1) + "\n"


def test_the_second_time_no_puzzle_is_walked(folder, capsys, monkeypatch):
    assert main(["check", str(folder), "--grade"]) == 2
    first = capsys.readouterr().out
    monkeypatch.setattr("verify.walk.report.kept.walk", None)
    assert main(["check", str(folder), "--grade"]) == 2
    assert capsys.readouterr().out == first
    (folder / "one.yaml").write_text(ONE.replace("1 2 3 4", ". 2 3 4"))
    assert main(["check", str(folder / "one.yaml"), "--grade"]) == 2
    assert "a defect" in capsys.readouterr().err  # a changed puzzle would have been walked


def test_nothing_is_kept_unless_grades_are_asked_for(folder):
    before = set(folder.iterdir())
    main(["check", str(folder)])
    main(["check", str(folder), "--grade", "--no-cache"])
    assert set(folder.iterdir()) == before
    main(["check", str(folder), "--grade"])
    assert {path.name for path in set(folder.iterdir()) - before} >= {".reglet-grades"}


def test_bad_lines_cost_themselves_alone(tmp_path, capsys):
    bank = tmp_path / "marsh.txt"
    bank.write_text("\n".join(["12343412214343.1", *["x"] * 200, "12343412214343.1"]))
    code, puzzles = facts(capsys, bank)
    assert (code, len(puzzles)) == (2, 202)
    assert [puzzle["verdict"] for puzzle in (puzzles[0], puzzles[-1])] == ["one", "one"]
    assert puzzles[150]["errors"][0]["line"] == 151


def test_a_file_without_any_puzzle_is_soon_given_up(tmp_path, capsys):
    bank = tmp_path / "marsh.txt"
    bank.write_text("x\n" * 10_000)
    _, puzzles = facts(capsys, bank)
    assert len(puzzles) == MOST_PROBLEMS + 1
    assert "too many problems" in puzzles[-1]["errors"][0]["message"]


def test_a_pipe_is_told_now_and_then_how_far_it_is(folder, capsys, monkeypatch):
    monkeypatch.setattr("layout.console.BETWEEN_LINES", 0.0)
    assert ": 5 of 5, " in told(capsys, folder)[2]
    assert " of 5" not in told(capsys, folder, "--quiet")[2]
