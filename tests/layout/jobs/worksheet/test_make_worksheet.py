"""Worksheet jobs: what is told of them, and every slip at its place, with nothing written."""

import json

import jsonschema
import pytest
import yaml

from layout.jobs.common.making import Making
from layout.jobs.make import make
from layout.jobs.schema import schema_text
from layout.language.words import read_words
from layout.output.files import OutputError
from layout.output.folder_lock import LOCK
from layout.preflight.checks.standard import check_standard
from layout.preflight.reading.opening import read_finished
from layout.telling.board_in_words import board_in_words
from tests.support.books import manifest
from tests.support.worksheets import JOB, STICK, asked, made, silent, told_json, write_worksheet
from verify.manifest.read import read_puzzle
from verify.reading.problems import Unreadable

DOTTED = """\
title: Beads
kind: latin
size: 4
rules: {dots: {consecutive: [r1c1 r1c2]}}
givens: |
  1 2 3 4
  2 1 4 3
  3 4 1 .
  4 3 2 1
"""


def problems(path):
    with pytest.raises(Unreadable) as raised:
        made(path)
    return raised.value.problems


@pytest.mark.parametrize(
    ("keys", "line", "expected"),
    [
        ({"forms": "0"}, 8, "expected a whole number from 1 to 26"),
        ({"forms": "50"}, 8, "expected a whole number from 1 to 26"),
        ({"forms": "some"}, 8, "expected a whole number from 1 to 26"),
        ({"ladder": "4"}, 8, "expected 1, 2 or 3"),
        ({"ladder": "3"}, 8, "can't be made stiff by giving more digits or fewer; it can be"),
        ({"per_page": "3"}, 5, "expected 1, 2, 4 or 6"),
        ({"page": "A5"}, 8, "A4"),
        ({"reader": "old"}, 8, "young"),
        ({"helpers": "middle"}, 8, "edges"),
        ({"symbols": "stars"}, 8, "shapes"),
        ({"name_line": "perhaps"}, 8, "true or false"),
        ({"key": "sepparate"}, 6, 'did you mean "separate"?'),
        ({"style": "clasroom"}, 8, 'did you mean "classroom"?'),
        ({"forrms": "2"}, 8, 'did you mean "forms"?'),
        ({"output": "{pdf: build/sheet.pdf}"}, 7, "the answers go into a file of their own"),
        ({"output": "{pdf: a.pdf, key: ../key.pdf}"}, 7, "expected a file inside the folder"),
        ({"output": "{pdf: a.pdf, key: ./a.pdf}"}, 7, "expected two files"),
        ({"output": "{pdf: a.pdf, key: key.doc}"}, 7, "ends in .pdf"),
        ({"key": "none"}, 7, "expected none: the job says key: none"),
        ({"ladder": "{by: names}"}, 8, "givens"),
        ({"ladder": "{by: givens, step: 9}"}, 8, "open cells, expected more than 18 for 3 rungs"),
        ({"pupils": "class.txt"}, 8, "a list of names, or a file that ends in .csv"),
        ({"pupils": "class.csv"}, 8, 'there is no file "class.csv"'),
        ({"pupils": "../class.csv"}, 8, "expected a file inside the folder of the job"),
        (
            {"pupils": "[Ada]", "ladder": "{by: givens, rungs: 2}"},
            8,
            "found no rung, expected 1, 2 for Ada",
        ),
        ({"pupils": f"[{'W' * 60}]"}, 8, "too long for its line"),
        ({"strips": "true", "key": "none", "output": "{pdf: a.pdf}"}, 8, "the job has no key"),
        ({"output": '{forms: "{from}.pdf", key: k.pdf}'}, 7, 'did you mean "form"?'),
        ({"output": "{forms: a.pdf, key: k.pdf}"}, 7, "with {form} or {rung} in it"),
        ({"output": '{forms: "{rung}.pdf", key: k.pdf}', "forms": "2"}, 7, "{form} in it"),
        ({"output": '{forms: "{form}.pdf", key: A.pdf}'}, 7, "expected two files"),
        (
            {"output": "{pdf: a.pdf, slides: s.pdf, key: k.pdf}", "symbols": "shapes"},
            7,
            "found slides of a sheet with shapes",
        ),
        ({"output": "{key: k.pdf}"}, 7, 'the key "pdf" is missing, or "forms" for a file each'),
        ({"output": '{forms: "{form}.pdf"}', "key": "last-page"}, 6, "a file of its own"),
        ({"title": "Ж" * 3 + "\u4e00"}, 2, "which the font"),
        ({"class_": "W" * 100}, 3, "too long for its place"),
        ({"puzzles": "[rods/*.yaml]"}, 4, "no file for"),
        ({"puzzles": "{compose: {count: 2, size: 7}}"}, 4, "which have usual boxes"),
        ({"puzzles": "{compose: {size: 6}}"}, 4, 'the key "count" is missing'),
        ({"puzzles": "{compose: {count: 2}, bank: a}"}, 4, 'unknown key "bank"'),
        ({"puzzles": "{compose: {count: 2}}", "grades": "calm"}, 8, "expected none: compose"),
        ({"puzzles": "{compose: {count: 1, size: 4, givens: 1}}"}, 4, "expected 4 or more: with"),
    ],
)
def test_each_slip_is_told_at_its_place(tmp_path, keys, line, expected):
    path = write_worksheet(tmp_path, asked(JOB, **keys))
    found = problems(path)
    assert {problem.place.line for problem in found} == {line}
    assert expected in found[0].message
    assert not list(tmp_path.rglob("*.pdf"))


@pytest.mark.parametrize(
    ("text", "keys", "expected"),
    [
        (STICK, {"symbols": "shapes"}, 'has the rule "thermometer", which needs digits'),
        (STICK, {"forms": "26"}, "forms by what its rules allow, expected 26"),
        (DOTTED, {"helpers": "edges"}, "no room beside discs on edges and corners"),
    ],
)
def test_what_a_rule_does_not_allow_is_told_with_the_puzzle(tmp_path, text, keys, expected):
    (found,) = problems(write_worksheet(tmp_path, asked(JOB, **keys), [text]))
    assert expected in found.message
    assert "reed-1.yaml" in found.message
    assert found.place.line == 8


@pytest.mark.parametrize(
    ("table", "line", "expected"),
    [
        ("pupil\nAda\n", 1, "found no column name, expected a header of name, form, rung"),
        ("name,form\nAda,C\n", 2, 'found the form "C", expected A or B'),
        ("name\n", 1, "found 0 rows under the header, expected from 1 to 300"),
        ("name,form\nAda,A\n,B\n", 3, "found no name"),
        ("", 1, "found no column name"),
    ],
)
def test_a_slip_in_a_table_of_pupils_is_told_in_its_line(tmp_path, table, line, expected):
    path = write_worksheet(tmp_path, asked(JOB, forms=2, pupils="class.csv"), [STICK])
    (tmp_path / "class.csv").write_text(table, encoding="utf-8")
    (found,) = problems(path)
    assert (found.place.file, found.place.line) == ("class.csv", line)
    assert expected in found.message


def test_a_table_of_pupils_says_who_gets_which_rung_and_form(tmp_path, capsys):
    job = asked(JOB, forms=2, ladder="{by: givens, rungs: 2, step: 1}", pupils="class.csv")
    path = write_worksheet(tmp_path, job, [STICK])
    table = "Name;Rung;Form\nAda Reed;2;b\nBo Marsh;1;\nCy Tern;1;\nDot Wade;2;\n"
    (tmp_path / "class.csv").write_text(table, encoding="utf-8-sig")
    document, code = told_json(path, capsys)
    assert (code, document["pupils"]) == (0, 4)
    parts = [name.replace("\u00a0", " ") for name in document["parts"]]
    assert parts == [
        "Ada Reed, ••, form B",
        "Bo Marsh, •, form A",
        "Cy Tern, •, form B",
        "Dot Wade, ••, form A",
    ]


@pytest.mark.parametrize(("forms", "shared"), [(2, False), (4, True)])
def test_rungs_share_answers_only_where_rules_allow_too_few_forms(tmp_path, forms, shared):
    told = []
    keys = {"forms": forms, "ladder": "{by: givens, rungs: 3, step: 1}"}
    path = write_worksheet(tmp_path, asked(JOB, **keys), [STICK])
    make(path, Making(None, 1, silent, tell=told.append))
    assert any("its rungs share answers, as it has 8 forms" in each for each in told) == shared


def test_cells_too_small_are_told_at_the_puzzle(tmp_path):
    answer = [[(4 * (r % 4) + r // 4 + c) % 16 for c in range(16)] for r in range(16)]
    symbols = "123456789ABCDEFG"
    rows = "\n".join("  " + " ".join(symbols[at] for at in row) for row in answer)
    text = f"title: Wide\nkind: sudoku\nsize: 16\ngivens: |\n{rows}\n"
    (found,) = problems(write_worksheet(tmp_path, asked(JOB, per_page=6), [text]))
    assert "a grid of 16 columns gets cells of" in found.message
    assert found.place.file.endswith("reed-1.yaml")
    assert found.place.line == 3


def test_puzzles_without_one_answer_are_named_and_nothing_is_written(tmp_path, capsys):
    texts = [manifest(1), manifest(2, answers=2), manifest(3, answers=0)]
    document, code = told_json(write_worksheet(tmp_path, manifests=texts), capsys)
    assert code == 1
    assert [each["verdict"] for each in document["puzzles"]] == ["one", "many", "none"]
    assert not list(tmp_path.rglob("*.pdf"))


def test_a_key_that_cant_be_written_keeps_the_earlier_sheets(tmp_path):
    path = write_worksheet(tmp_path)
    made(path)
    sheets = tmp_path / "build" / "sheet.pdf"
    before = sheets.read_bytes()
    path.write_text(asked(JOB, title="Another tide"), encoding="utf-8")
    (tmp_path / "build" / "key.pdf").unlink()
    (tmp_path / "build" / "key.pdf").mkdir()
    with pytest.raises(OutputError):
        made(path)
    assert sheets.read_bytes() == before
    assert {each.name for each in sheets.parent.iterdir()} == {"sheet.pdf", "key.pdf", LOCK}


def test_puzzles_may_be_composed_when_the_job_is_made(tmp_path, capsys):
    composed = "{compose: {size: 4, grade: calm, count: 3, seed: 7}}"
    path = write_worksheet(tmp_path, asked(JOB, puzzles=composed))
    document, code = told_json(path, capsys)
    assert code == 0
    (sheet,) = document["sheets"]
    assert [puzzle["grade"]["band"] for puzzle in sheet["puzzles"]] == ["calm"] * 3
    assert {puzzle["verdict"] for puzzle in sheet["puzzles"]} == {"one"}
    sheets = (tmp_path / "build" / "sheet.pdf").read_bytes()
    assert told_json(path, capsys)[1] == 0
    assert (tmp_path / "build" / "sheet.pdf").read_bytes() == sheets
    jsonschema.validate(yaml.safe_load(asked(JOB, puzzles=composed)), json.loads(schema_text()))


def test_the_document_tells_of_each_form_its_verdict_and_its_grade(tmp_path, capsys):
    document, code = told_json(write_worksheet(tmp_path, asked(JOB, forms=3)), capsys)
    assert code == 0
    assert [sheet["form"] for sheet in document["sheets"]] == ["A", "B", "C"]
    grades = [[each["grade"] for each in sheet["puzzles"]] for sheet in document["sheets"]]
    assert grades[0] == grades[1] == grades[2]
    assert {each["verdict"] for sheet in document["sheets"] for each in sheet["puzzles"]} == {"one"}
    assert (document["pages"], document["key_pages"]) == (6, 1)
    assert document["pupils"] == 0
    assert [name.rpartition("/")[2] for name in document["written"]] == ["sheet.pdf", "key.pdf"]


def test_the_schema_takes_what_is_read_and_refuses_what_is_not():
    schema = json.loads(schema_text())
    jsonschema.validate(yaml.safe_load(asked(JOB, forms=3, ladder=2, page="letter")), schema)
    for keys in ({"forms": 0}, {"per_page": 3}, {"key": "here"}, {"forrms": 2}, {"title": None}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(yaml.safe_load(asked(JOB, **keys)), schema)


def test_a_screen_file_is_heard_by_its_headings_and_each_grid_row_by_row(tmp_path):
    output = "{pdf: a.pdf, key: k.pdf, screen: s.pdf}"
    made(write_worksheet(tmp_path, asked(JOB, output=output, first_page="true"), [STICK]))
    file = read_finished(tmp_path / "s.pdf", "s.pdf")
    assert list(check_standard(file, "PDF/UA-1")) == []
    told = file.structure.elements
    assert [each.kind for each in told if each.kind[0] == "H"][:1] == ["H1"]
    assert {each.kind for each in told} == {"Document", "H1", "H2", "P", "Figure"}
    on_the_sheet = [each.told for each in told if each.kind == "Figure" and each.page == 3]
    (puzzle,) = [read_puzzle(path) for path in tmp_path.glob("reeds/*.yaml")]
    assert on_the_sheet == [" ".join(board_in_words(puzzle, read_words("en")))]
    printed = read_finished(tmp_path / "a.pdf", "a.pdf")
    assert printed.structure is None
    assert len(printed.leaves) == len(file.leaves)
