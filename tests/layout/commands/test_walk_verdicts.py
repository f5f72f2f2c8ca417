"""`reglet walk` says first that a puzzle has several answers, or none; and at its end, why."""

import json

import pytest

from layout.command import main

MANY = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 3 4\n  3 4 1 2\n  . . . .\n  . . . .\n"
SPLIT = "r3c1, r3c2, r3c3, r3c4, r4c1, r4c2, r4c3"
WIDE = "kind: latin\nsize: 6\ngivens: |\n  1 2 3 4 5 .\n" + "  . . . . . .\n" * 5
NO_DIGIT = "kind: sudoku\nsize: 4\ngivens: |\n  1 2 . .\n  . . 3 .\n  . . 4 .\n  . . . .\n"
NO_PLACE = "kind: sudoku\nsize: 4\ngivens: |\n  . . . 2\n  1 . . .\n  . . 1 .\n  . . . .\n"
TWICE = "kind: sudoku\nsize: 4\ngivens: |\n  1 . . 1\n  . . . .\n  . . . .\n  . . . .\n"
WRONG_WAY = "kind: blank\nsize: 2\nrules:\n  thermometer:\n    - r1c1 e\ngivens: |\n  2 1\n  1 1\n"
LETTERS = (
    "kind: sudoku\nsize: 4\nsymbols: ABCD\ngivens: |\n  A B . .\n  . . C .\n  . . D .\n  . . . .\n"
)


@pytest.fixture
def walk(tmp_path, capsys):
    def run(text, *more):
        path = tmp_path / "puzzle.yaml"
        path.write_text(text)
        code = main(["walk", str(path), "--quiet", *more])
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        assert "defect" not in err
        return code, out, err

    return run


@pytest.mark.parametrize(
    ("language", "first", "last"),
    [
        (
            "en",
            f"This puzzle has several answers. They part at {SPLIT} and r4c4.",
            "Here the answers part; 8 cells are still open.",
        ),
        (
            "de",
            f"Dieses Rätsel hat mehrere Lösungen. Sie trennen sich bei {SPLIT} und r4c4.",
            "Hier trennen sich die Lösungen; 8 Zellen sind noch offen.",
        ),
    ],
)
def test_several_answers(walk, language, first, last):
    assert walk(MANY, "--language", language) == (1, f"puzzle\n\n{first}\n\n{last}\n", "")


def test_many_cells_that_differ_are_counted(walk):
    told = walk(WIDE)[1].split("\n\n")
    assert told[1].endswith("r3c6 and 18 more cells.")
    assert told[1].count("r") > 12
    assert told[-1] == "Here the answers part; 30 cells are still open.\n"


def test_json_names_all_that_differ(walk):
    code, out, _ = walk(WIDE, "--json")
    found = json.loads(out)
    assert (code, found["verdict"], len(found["differs"]), found["finished"]) == (
        1,
        "many",
        30,
        False,
    )


@pytest.mark.parametrize(
    ("text", "english", "german", "dead_end"),
    [
        (
            NO_DIGIT,
            "No digit is left for r1c3 (1 and 2 in its row, 3 and 4 in its column).",
            "Für r1c3 ist von den Ziffern nichts mehr übrig (1 und 2 in der Zeile, 3 und 4 in der"
            " Spalte).",
            {"cell": "r1c3", "digit": None, "house": None},
        ),
        (
            NO_PLACE,
            "1 has no place left in row 1.",
            "Die 1 hat in Zeile 1 keinen Platz mehr.",
            {"cell": None, "digit": 1, "house": "row r1c1"},
        ),
        (
            TWICE,
            "1 can't stand in r1c4 (1 in its row).",
            "Die 1 kann in r1c4 nicht stehen (1 in der Zeile).",
            {"cell": "r1c4", "digit": None, "house": None},
        ),
        (
            WRONG_WAY,
            "The grid is full, and the thermometer from r1c1 is not as it must be.",
            "Das Gitter ist voll, aber etwas darin stimmt nicht, nämlich das Thermometer von r1c1"
            " an.",
            None,
        ),
        (
            LETTERS,
            "No letter is left for r1c3 (A and B in its row, C and D in its column).",
            "Für r1c3 ist von den Buchstaben nichts mehr übrig (A und B in der Zeile, C und D in"
            " der Spalte).",
            {"cell": "r1c3", "digit": None, "house": None},
        ),
    ],
    ids=["no digit", "no place", "twice", "wrong way", "letters"],
)
def test_no_answer(walk, text, english, german, dead_end):
    code, out, _ = walk(text)
    told = out.rstrip("\n").split("\n\n")
    assert (code, told[1]) == (1, "This puzzle has no answer. The walk leads to a contradiction.")
    assert told[-1] == english
    told = walk(text, "--language", "de")[1].rstrip("\n").split("\n\n")
    assert told[1] == "Dieses Rätsel hat keine Lösung. Der Lösungsweg führt auf einen Widerspruch."
    assert told[-1] == german
    found = json.loads(walk(text, "--json")[1])
    assert (found["verdict"], found["dead_end"], "differs" in found) == ("none", dead_end, False)


@pytest.mark.parametrize(("text", "word"), [(MANY, "several"), (NO_DIGIT, "no answer")])
def test_a_report_says_it_first_too(walk, text, word):
    code, out, _ = walk(text, "--report")
    assert (code, word in out.split("\n\n")[1]) == (1, True)


def test_one_answer_needs_no_word(walk):
    text = MANY.replace("  . . . .\n", "  2 1 4 3\n", 1)
    code, out, _ = walk(text)
    assert (code, out.split("\n\n")[1]) == (
        0,
        "Every step places a digit: it takes no more than looking.",
    )
    found = json.loads(walk(text, "--json")[1])
    assert (found["verdict"], "differs" in found, "dead_end" in found) == ("one", False, False)


def test_time_that_is_over(walk):
    code, out, err = walk(MANY, "--seconds", "0.000001")
    assert code == 1
    assert out.split("\n\n")[1:] == [
        "In the time given it was not decided how many answers this puzzle has.",
        "The time was over before the walk was found.\n",
    ]
    assert "seconds were over" in err
    assert json.loads(walk(MANY, "--seconds", "0.000001", "--json")[1])["verdict"] == "undecided"
