"""Manifests that others made, from the folder that REGLET_CASES names."""

import os
from pathlib import Path

import pytest

from verify.manifest.read import read_puzzle
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields
from verify.reading.problems import Problems
from verify.rules import BY_NAME

CASES = os.environ.get("REGLET_CASES")
FILES = sorted((Path(CASES) / "published").glob("*.yaml")) if CASES else []

pytestmark = pytest.mark.skipif(not FILES, reason="REGLET_CASES names no folder of published cases")


def rules_of(path: Path) -> set[str]:
    root = read_tree(path, path.name, Problems())
    assert isinstance(root, Fields)
    rules = root.get("rules")
    return {key.text for key, _ in rules.entries} if isinstance(rules, Fields) else set()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_published_manifest_reads_without_a_problem(path: Path) -> None:
    if not rules_of(path) <= BY_NAME.keys():
        pytest.skip("it has a rule that is not in the catalogue")
    puzzle = read_puzzle(path, path.name)
    assert puzzle.id == path.stem
    assert len(puzzle.givens) == len(puzzle.board.cells)


def test_most_of_the_published_manifests_are_read() -> None:
    assert sum(rules_of(path) <= BY_NAME.keys() for path in FILES) >= 70
