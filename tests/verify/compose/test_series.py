"""Series: what a plan says, and puzzles that are as it says."""

import pytest

from tests.support.models import puzzle_answers
from verify.compose.series.kinds import KINDS
from verify.compose.series.plan import read_plan
from verify.compose.series.planned import planned
from verify.compose.series.series import series_pieces
from verify.compose.several import compose_each
from verify.compose.sketch import fewest_givens
from verify.manifest.read import puzzle_from_text
from verify.reading.problems import Unreadable
from verify.rules import BY_NAME

PLAN = """\
seed: 3
puzzles:
  - {kind: classic, size: 6, grade: calm, count: 2}
  - {kind: thermometer, size: 8, grade: calm, count: 2, motif: combs}
  - {kind: cage, size: 8, count: 1, title: "Weir: one"}
  - {kind: anti-king, size: 6, grade: calm, count: 1}
"""


def pieces_of(folder, text):
    path = folder / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    plan = read_plan(path)
    return list(series_pieces(plan.seed, plan.lines, 60.0))


def test_a_series_is_as_its_plan_says(tmp_path):
    pieces = pieces_of(tmp_path, PLAN)
    names = [piece.name for piece in pieces]
    assert names[:3] == ["classic-6-calm-001", "classic-6-calm-002", "thermometer-8-calm-001"]
    found = list(compose_each(pieces, 1))
    assert all(each.as_wanted for each in found)
    for piece, each in zip(pieces, found, strict=True):
        puzzle, line = puzzle_from_text(each.setting.text), piece.line
        given = {cell for cell, digit in enumerate(puzzle.givens) if digit}
        assert puzzle.board.digits == line.size
        assert line.grade in (None, each.setting.grade.band.value)
        assert len(puzzle_answers(puzzle)) == 1
        assert len(given) >= fewest_givens(puzzle)
        assert {line.size**2 - 1 - cell for cell in given} == given
        assert (KINDS[line.kind].rule in {use.rule.name for use in puzzle.uses}) or not line.motif
    combs = [puzzle_from_text(each.setting.text) for each in found[2:4]]
    assert {puzzle.credits.theme for puzzle in combs} == {"combs"}
    assert combs[0].uses != combs[1].uses
    for puzzle in combs:
        (use,) = [each for each in puzzle.uses if each.rule.name == "thermometer"]
        drawn = {cell for mark in use.constraints for cell in mark.cells}
        assert not any(puzzle.givens[cell] for cell in drawn)
    assert 'title: "Weir: one 1"' in found[4].setting.text
    assert "sum: " in found[4].setting.text
    again = [each.setting.text for each in compose_each(pieces, 2)]
    assert again == [each.setting.text for each in found]


def test_kinds_are_called_as_their_rules():
    assert all(name in BY_NAME or name == "classic" for name in KINDS)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("{kind: thermometr, count: 1}", 'did you mean "thermometer"'),
        ("{kind: arrow}", 'the key "count" is missing'),
        ("{kind: arrow, count: 0}", "expected a whole number from 1 to 2000"),
        ("{kind: arrow, count: 1, size: 7}", "which have usual boxes"),
        ("{kind: arrow, count: 1, size: 400}", "expected a whole number from 4 to 16"),
        ("{kind: classic, count: 1, motif: waves}", "expected none: it has no shapes"),
        ("{kind: cage, count: 1, motif: waves}", "found waves of cage on a board of 9, expected"),
        ("{kind: cage, count: 1, size: 4}", "expected a larger board: no motif fits this one"),
        ("{kind: cage, count: 1, into: x.txt}", "found cage of size 9 in a bank, expected classic"),
        ("{size: 8, count: 1, into: x.txt}", "classic ones of size 4, 6, 9, 16; or a folder"),
        ("{count: 1, into: ../x}", "expected a folder or a bank inside the output"),
    ],
)
def test_lines_that_no_puzzle_can_be_made_of(tmp_path, line, said):
    with pytest.raises(Unreadable) as caught:
        pieces_of(tmp_path, f"puzzles:\n  - {line}\n")
    assert said in str(caught.value)
    assert "plan.yaml:2:" in str(caught.value)


def test_an_empty_plan_is_none(tmp_path):
    with pytest.raises(Unreadable, match="found 0 lines, expected 1 to 200, or folders"):
        pieces_of(tmp_path, "puzzles: []\n")
    with pytest.raises(Unreadable):
        pieces_of(tmp_path, "")


REED = "kind: sudoku\nsize: 6\nrules: {thermometer: [r6c2 nw 2n ne]}\nwant: {bare: true}\n"


def test_each_sketch_has_a_puzzle_in_a_folder_of_the_same_name(tmp_path):
    for name, text in (("10-late.yaml", "kind: latin\nsize: 4\n"), ("2-reed.yaml", REED)):
        (tmp_path / "reeds").mkdir(exist_ok=True)
        (tmp_path / "reeds" / name).write_text(text, encoding="utf-8")
    path = tmp_path / "plan.yaml"
    path.write_text("puzzles: [{count: 1, size: 4, into: a/b}]\nsketches: [reeds]\n", "utf-8")
    plan = read_plan(path)
    found = planned(plan, 1, 60.0)
    names = ["a/b/classic-4-001.yaml", "reeds/2-reed.yaml", "reeds/10-late.yaml"]
    assert [str(each.file) for each in found] == names
    puzzle = found[1].composable.compose().setting.puzzle
    (use,) = [each for each in puzzle.uses if each.rule.name == "thermometer"]
    assert plan.sketches[0].sketch.may == set(puzzle.board.cells).difference(
        use.constraints[0].cells
    )
    assert not any(puzzle.givens[cell] for cell in use.constraints[0].cells)


def test_no_line_goes_where_puzzles_of_sketches_go(tmp_path):
    (tmp_path / "reeds").mkdir()
    (tmp_path / "reeds" / "one.yaml").write_text(REED, encoding="utf-8")
    path = tmp_path / "plan.yaml"
    path.write_text("puzzles: [{count: 1, into: reeds}]\nsketches: [reeds]\n", encoding="utf-8")
    with pytest.raises(Unreadable, match="1:28: found reeds, where puzzles of sketches go"):
        read_plan(path)


@pytest.mark.parametrize("folder", ["missing", "..", "reeds, reeds"])
def test_folders_without_sketches_are_told_and_so_are_bad_sketches(tmp_path, folder):
    (tmp_path / "plans" / "reeds").mkdir(parents=True)
    (tmp_path / "plans" / "reeds" / "one.yaml").write_text(REED + "siz: 9\n", encoding="utf-8")
    path = tmp_path / "plans" / "plan.yaml"
    path.write_text(f"sketches: [{folder}]\n", encoding="utf-8")
    with pytest.raises(Unreadable) as caught:
        read_plan(path)
    assert "plan.yaml:1:" in str(caught.value)
    assert "expected 1 to 500, in a folder beside the plan, named once" in str(caught.value)
    assert ('did you mean "size"' in str(caught.value)) == ("reeds" in folder)


def test_what_can_not_be_made_is_told_at_its_line(tmp_path):
    (piece,) = pieces_of(tmp_path, "puzzles:\n  - {kind: classic, size: 4, count: 1, givens: 2}\n")
    found = piece.compose()
    assert not found.as_wanted
    assert str(found.lacking[0]).startswith(str(piece.place))
