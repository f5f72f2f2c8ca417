"""`reglet check`: words, exit codes and the JSON document."""

import json

import pytest

from layout.command import main
from tests.support import maker
from tests.support.boards import plain
from tests.support.books import manifest
from verify.budget import BudgetSpent
from verify.proof.solver import forget
from verify.reading.problems import MOST_PROBLEMS
from verify.walk import walk as walking

ONE = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  2 1 4 3\n  . . . .\n"
MANY = (
    "title: Loose\nkind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  . . . .\n  . . . .\n"
)
NONE = "kind: sudoku\nsize: 4\ngivens: |\n  1 1 . .\n  . . . .\n  . . . .\n  . . . .\n"
BROKEN = "kind: sudoku\nsize: 4\nrulez: {}\n"
FEW = "kind: sudoku\nsize: 4\ngivens: |\n  1 . . .\n  . . . 2\n  . 4 . .\n  . . 3 .\n"
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
    one, many, *_, other = out.splitlines()
    assert one.endswith(": one: one, calm")
    assert "calm" not in many + other


def test_many_gives_two_answers_and_the_cells_that_differ(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "many.yaml")
    assert (code, puzzle["verdict"], puzzle["title"]) == (1, "many", "Loose")
    one, other = puzzle["answers"]
    assert one != other
    assert puzzle["differs"] == [f"r{row}c{column}" for row in (3, 4) for column in (1, 2, 3, 4)]


def test_many_gives_the_number_of_answers_and_what_would_settle_them(folder, capsys):
    _, (puzzle,) = facts(capsys, folder / "many.yaml")
    assert (puzzle["count"], puzzle["more"], puzzle["differs_all"]) == (4, False, True)
    closest = puzzle["closest"]
    assert (len(closest["answers"]), len(closest["cells"]), closest["smallest"]) == (2, 4, True)
    assert puzzle["settling"] == []
    _, (puzzle,) = facts(capsys, folder / "many.yaml", "--count", "3")
    assert (puzzle["count"], puzzle["more"]) == (3, True)


def test_many_in_words(folder, capsys):
    (folder / "two.yaml").write_text(MANY.replace("  . . . .\n", "  2 . . .\n", 1))
    out = told(capsys, folder / "two.yaml")[1].splitlines()
    assert out[1:] == [
        "  2 answers; the closest two differ in r3c2 r3c4 r4c2 r4c4",
        "  one answer is left by any of these as a given: "
        "1 in r3c2, 3 in r3c2, 1 in r3c4, 3 in r3c4, 1 in r4c2, 3 in r4c2, 1 in r4c4, 3 in r4c4",
    ]
    out = told(capsys, folder / "many.yaml", "--count", "2")[1]
    assert "more than 2 answers" in out
    assert "no one given would leave one answer" in out


def test_what_is_not_decided_of_many_is_told(folder, capsys, monkeypatch):
    monkeypatch.setattr("verify.proof.several._Search.run", over)
    _, (puzzle,) = facts(capsys, folder / "many.yaml")
    assert (puzzle["count"], puzzle["more"], puzzle["settling"]) == (2, None, None)
    out = told(capsys, folder / "many.yaml")[1]
    assert "at least 2 answers, undecided in this time whether more" in out
    assert "undecided in this time: which one given" in out


def over(*_):
    raise BudgetSpent


@pytest.mark.parametrize("number", ["1", "-3", "many", "9" * 20])
def test_a_count_that_is_none(folder, capsys, number):
    code, out, err = told(capsys, folder / "many.yaml", f"--count={number}")
    assert (code, out) == (2, "")
    assert "expected a whole number from 2 to 100000" in err


def test_what_is_spare(folder, capsys):
    """Three of four rows are given: none of these digits is needed alone."""
    code, (puzzle,) = facts(capsys, folder / "one.yaml", "--spare")
    assert (code, len(puzzle["spare"]), puzzle["spare_undecided"]) == (0, 12, [])
    assert puzzle["spare"][4] == {"cell": "r2c1", "digit": "3", "line": 5}
    out = told(capsys, folder / "one.yaml", "--spare")[1].splitlines()
    assert out[1].startswith("  each of these could be left out: 1 in r1c1 (line 4), 2 in r1c2")
    (folder / "few.yaml").write_text(FEW)
    _, (puzzle,) = facts(capsys, folder / "few.yaml", "--spare")
    assert puzzle["spare"] == []
    assert "no given and no mark could be" in told(capsys, folder / "few.yaml", "--spare")[1]


def test_only_where_there_is_one_answer_and_it_is_asked_for_is_anything_spare(folder, capsys):
    _, puzzles = facts(capsys, folder, "--spare")
    assert {puzzle["verdict"] for puzzle in puzzles if "spare" in puzzle} == {"one"}
    _, puzzles = facts(capsys, folder)
    assert not [puzzle for puzzle in puzzles if "spare" in puzzle]


def test_what_is_not_known_to_be_spare_is_undecided(folder, capsys, monkeypatch):
    monkeypatch.setattr("verify.proof.spare.Selection", over)
    _, (puzzle,) = facts(capsys, folder / "one.yaml", "--spare")
    assert (puzzle["spare"], len(puzzle["spare_undecided"])) == ([], 12)
    out = told(capsys, folder / "one.yaml", "--spare")[1].splitlines()
    assert out[1].startswith("  undecided in this time whether these could be left out: 1 in r1c1")


def test_none(folder, capsys):
    code, (puzzle,) = facts(capsys, folder / "none.yaml")
    assert (code, puzzle["verdict"], "answer" in puzzle) == (1, "none", False)


def test_none_says_what_cannot_stand_together(folder, capsys):
    _, (puzzle,) = facts(capsys, folder / "none.yaml")
    ones = [{"cell": cell, "digit": "1", "line": 4} for cell in ("r1c1", "r1c2")]
    assert (puzzle["conflict"], puzzle["conflict_smallest"]) == (ones, True)
    _, out, _ = told(capsys, folder / "none.yaml")
    ending = "none: none; these can't stand together: 1 in r1c1 (line 4), 1 in r1c2 (line 4)\n"
    assert out.endswith(ending)


@pytest.mark.parametrize(
    ("rules", "rows", "parts"),
    [
        ("thermometer:\n  - r3c1 e\n  - r1c1 e e", [". T . ."], "T r1c2 9, thermometer r1c1 7"),
        ("thermometer: [r3c1 e, r1c1 e e]", [". T . ."], "T r1c2 7, thermometer r1c1 5"),
        ("thermometer:\n  - r1c1 e\n  - r1c1 s", ["E . . ."], "E r1c1 9, thermometer r1c1 r1c2 6"),
        ("skyscraper:\n  top c3: 2\n  left r1: 4", ["I . . ."], "I r1c1 9, skyscraper left r1 7"),
        ("dots:\n  ratio:\n    - r1c1 r1c2", ["D . . ."], "D r1c1 9, dots r1c1 r1c2 7"),
        (
            "diagonals: rising",
            [". . . T", "....", ". T . ."],
            "T r1c4 7, T r3c2 9, diagonals r4c1 5",
        ),
        ("thermometer:\n  - r3c3 e\n  - r1c1 e", ["E..."], "E r1c1 9, thermometer r1c1 r1c2 7"),
        (
            "thermometer:\n  - [r2c1, r1c1]\n  - [r2c2, r2c1]",
            ["....", "E..."],
            "E r2c1 10, thermometer r2c1 r1c1 6",
        ),
        (
            "thermometer:\n  - r1c1 e e\n  - r1c1 s s",
            ["....", "E..."],
            "E r2c1 10, thermometer r1c1 7",
        ),
        ("odd: [r2c2,\n  r1c1]", ["I..."], "I r1c1 8, odd r1c1 6"),
        ("anti-knight: true", ["T...", "..T."], "T r1c1 7, T r2c3 8, anti-knight  5"),
    ],
)
def test_parts_have_the_names_and_lines_of_the_manifest(tmp_path, capsys, rules, rows, parts):
    """Marks that start in one cell are told apart by their order, or else have the rule's line."""
    listed = "".join(f"  {line}\n" for line in rules.splitlines())
    givens = "".join(f"  {row}\n" for row in [*rows, *["...."] * (4 - len(rows))])
    text = f"kind: latin\nsize: 4\nsymbols: TIDE\nrules:\n{listed}givens: |\n{givens}"
    (tmp_path / "marked.yaml").write_text(text)
    _, (puzzle,) = facts(capsys, tmp_path / "marked.yaml")
    named = [
        f"{part['digit']} {part['cell']} {part['line']}"
        if "cell" in part
        else f"{part['rule']} {part['at']} {part['line']}"
        for part in puzzle["conflict"]
    ]
    assert ", ".join(named) == parts


def test_a_conflict_in_a_bank_has_the_line_of_its_puzzle(tmp_path, capsys):
    (tmp_path / "marsh.txt").write_text(f"# two ones\n11{'.' * 14}\n")
    _, (puzzle,) = facts(capsys, tmp_path / "marsh.txt")
    assert [part["line"] for part in puzzle["conflict"]] == [2, 2]


def test_a_conflict_that_is_not_found_in_time_is_undecided(folder, capsys, monkeypatch):
    monkeypatch.setattr("verify.reasons.conflict_of", lambda *_: None)
    code, (puzzle,) = facts(capsys, folder / "none.yaml")
    assert (code, puzzle["verdict"], "conflict" in puzzle) == (1, "none", False)
    assert "none; undecided in this time why" in told(capsys, folder / "none.yaml")[1]


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
    lines = [line for line in out.splitlines() if not line.startswith("  ")]
    names = [line.split(":")[0].rsplit("/", 1)[1] for line in lines]
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


def test_a_minimal_puzzle_is_written_and_told(folder, capsys):
    least = folder / "least.yaml"
    code, out, err = told(capsys, folder / "one.yaml", "--minimal", least)
    assert code == 0
    assert "  a minimal puzzle leaves out, in this order: 1 in r1c1 (line 4), " in out
    assert f"{least}: written" in err
    code, (puzzle,) = facts(capsys, least, "--spare")
    assert (code, puzzle["verdict"], puzzle["spare"]) == (0, "one", [])
    assert "nothing could be left out" in told(capsys, least, "--minimal", folder / "x.yaml")[1]


def test_a_minimal_puzzle_as_facts(folder, capsys):
    least = folder / "least.yaml"
    code = main(["check", str(folder / "one.yaml"), "--minimal", str(least), "--json"])
    document = json.loads(capsys.readouterr().out)
    assert (code, document["written"]) == (0, [least.as_posix()])
    (puzzle,) = document["puzzles"]
    assert puzzle["left_out"][0] == {"cell": "r1c1", "digit": "1", "line": 4}
    assert puzzle["left_out_all"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["one.yaml", "many.yaml", "--minimal", "x.yaml"], "expected a single manifest"),
        (["one.yaml", "--first", "marks"], "goes with --minimal"),
        (["one.yaml", "--minimal", "one.yaml"], "one.yaml"),
    ],
)
def test_what_a_minimal_puzzle_can_not_be_made_of(folder, capsys, monkeypatch, words, said):
    monkeypatch.chdir(folder)
    before = (folder / "one.yaml").read_text()
    code, _, err = told(capsys, *words)
    assert code == 2
    assert said in err
    assert (folder / "one.yaml").read_text() == before
    assert not (folder / "x.yaml").exists()


def test_no_minimal_puzzle_without_one_answer(folder, capsys):
    code, _, err = told(capsys, folder / "many.yaml", "--minimal", folder / "x.yaml")
    assert code == 1
    assert "no minimal puzzle" in err
    assert not (folder / "x.yaml").exists()
