import os
from collections.abc import Sequence
from pathlib import Path

import pytest

from verify.manifest import find
from verify.manifest.find import find_puzzles, natural_key
from verify.reading.problems import Unreadable


@pytest.fixture(autouse=True)
def _marsh(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder of manifests, and the tests work beside it."""
    for name in (
        "low/tide-10.yaml",
        "low/tide-2.yaml",
        "low/Ebb.YML",
        "low/deep/mud.yaml",
        "low/notes.txt",
        "low/.hidden.yaml",
        "low/.git/x.yaml",
        "high/spring.yaml",
        "bank.txt",
    ):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("kind: latin\nsize: 4\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)


def found(*paths: str) -> list[str]:
    return [item.name for item in find_puzzles(map(Path, paths))]


def told(*paths: str) -> list[str]:
    with pytest.raises(Unreadable) as caught:
        find_puzzles(map(Path, paths))
    return [str(problem) for problem in caught.value.problems]


def test_folders_are_searched_in_natural_order() -> None:
    assert found("low") == [
        "low/Ebb.YML",
        "low/tide-2.yaml",
        "low/tide-10.yaml",
        "low/deep/mud.yaml",
    ]


def test_paths_keep_their_order_and_stand_once() -> None:
    assert found("low/tide-10.yaml", "bank.txt", "low", "./low/../low/tide-2.yaml") == [
        "low/tide-10.yaml",
        "bank.txt",
        "low/Ebb.YML",
        "low/tide-2.yaml",
        "low/deep/mud.yaml",
    ]


def test_a_suffix_tells_a_bank() -> None:
    kinds = [(item.name, item.is_bank) for item in find_puzzles([Path("bank.txt"), Path("high")])]
    assert kinds == [("bank.txt", True), ("high/spring.yaml", False)]


def test_a_missing_path_gets_its_nearest_neighbour() -> None:
    assert told("low/tide-3.yaml", "lo", "moor.yaml") == [
        'lo:1:1: no such file or folder; did you mean "low"?',
        'low/tide-3.yaml:1:1: no such file or folder; did you mean "low/tide-2.yaml"?',
        "moor.yaml:1:1: no such file or folder",
    ]


def test_an_empty_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "reeds").mkdir()
    assert told("reeds", "low/none/none.yaml") == [
        "low/none/none.yaml:1:1: no such file or folder",
        "reeds:1:1: found a folder without manifests (*.yaml), expected at least one",
    ]


def test_loops_of_links_end(tmp_path: Path) -> None:
    _link_or_skip(tmp_path / "low" / "deep" / "again", tmp_path / "low")
    _link_or_skip(tmp_path / "low" / "itself", Path("itself"))
    assert len(found("low")) == 4


def test_a_link_to_a_manifest_is_one(tmp_path: Path) -> None:
    _link_or_skip(tmp_path / "high" / "neap.yaml", tmp_path / "low" / "tide-2.yaml")
    _link_or_skip(tmp_path / "high" / "lost.yaml", tmp_path / "nowhere.yaml")
    assert found("high") == ["high/lost.yaml", "high/neap.yaml", "high/spring.yaml"]


def test_a_link_in_a_circle_is_told(tmp_path: Path) -> None:
    _link_or_skip(tmp_path / "loop.yaml", tmp_path / "loop.yaml")
    assert told("loop.yaml") == [
        "loop.yaml:1:1: found a link that leads to nothing, or in a circle"
    ]


def test_too_many_files_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(find, "MOST_FILES", 3)
    assert told("low") == ["low:1:1: found more than 3 files, expected a folder of manifests"]


def test_folders_inside_folders_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(find, "DEEPEST_FOLDER", 1)
    assert "low/deep/mud.yaml" not in found("low")


def test_a_name_that_no_file_can_have() -> None:
    assert told("a\0b.yaml") == ["a<U+0000>b.yaml:1:1: no such file or folder"]


def test_a_folder_that_can_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: object) -> None:
        raise PermissionError(13, "Permission denied", path)

    monkeypatch.setattr(os, "scandir", refuse)
    assert told("low") == ["low:1:1: the folder can't be read: Permission denied"]


@pytest.mark.parametrize(
    "names",
    [
        ["tide-2", "tide-10", "tide-100"],
        ["2", "10", "a"],
        ["a", "a1", "a1b", "a2", "B3"],
        ["x" + "1" * 30, "x" + "2" * 30],
    ],
)
def test_names_are_sorted_as_people_do(names: Sequence[str]) -> None:
    names_backwards = list(reversed(names))
    assert sorted(names_backwards, key=natural_key) == names


def _link_or_skip(link: Path, target: Path) -> None:
    try:
        link.symlink_to(target)
    except OSError:
        pytest.skip("no links in folders here")
