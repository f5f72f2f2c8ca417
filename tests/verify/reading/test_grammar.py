"""Grammars of marks: each reads what its schema allows, keeps places, and tells what is wrong."""

import pickle
from dataclasses import dataclass
from typing import Annotated, Any

import jsonschema
import pytest
import yaml

from verify.board import Board
from verify.manifest.yaml_text import tree_of
from verify.reading.grammar import (
    CELL,
    FLAG,
    GROUP,
    GROUPS,
    PATH,
    PATHS,
    Cells,
    Clues,
    Each,
    Either,
    Entry,
    Grammar,
    OneOrMore,
    Part,
    Placed,
    Together,
    Word,
    whole_from,
)
from verify.reading.node import Node
from verify.reading.problems import Problems
from verify.reading.reader import Reader
from verify.rules import RULES

FOUR = Board(4, 4, 4, (2, 2))


@dataclass(frozen=True)
class Sluice:
    """A mark with a part of each sort."""

    cells: Annotated[Part[Cells], GROUP]
    sum: Annotated[Placed[Node] | None, whole_from(1, 9)] = None
    all_shown: Annotated[Part[bool] | None, FLAG] = None


@dataclass(frozen=True)
class Gates:
    """A mark without required parts."""

    open: Annotated[Part[Each[Cells]] | None, GROUPS] = None
    shut: Annotated[Part[Each[Cells]] | None, GROUPS] = None


ALIKE = Together(GROUP, "a list of two groups")
SIDES = Clues(Word(("rise", "fall"), "way"))
DIGITS = OneOrMore(whole_from(1), "a digit, or a list of digits")
EITHER: Grammar[Each[Cells] | Sluice] = Either(PATHS, Entry(Sluice))


def read(grammar: Grammar[Any], text: str) -> tuple[Any, list[str]]:
    """What is made of a text, and its problems as `line:column: message`."""
    problems = Problems()
    value = grammar.read(tree_of(text, "f", problems), Reader(FOUR, problems))
    return value, [str(problem).removeprefix("f:") for problem in problems.found]


def allows(grammar: Grammar[Any], text: str) -> bool:
    """Whether an editor's program takes the text."""
    validator = jsonschema.Draft202012Validator(grammar.schema())
    return bool(validator.is_valid(yaml.safe_load(text)))


GOOD: list[tuple[Grammar[Any], str]] = [
    (FLAG, "true"),
    (CELL, "r2c3"),
    (PATH, "r1c1 2se"),
    (GROUP, "r1c1..r2c2"),
    (PATHS, "[r1c1 e, [r2c1, r3c2]]"),
    (ALIKE, "[r1c1 e, r3c1 e]"),
    (SIDES, "{top c1: rise, left r2: fall}"),
    (DIGITS, "3"),
    (DIGITS, "[3, 4]"),
    (Entry(Sluice), "{cells: r1c1 e, sum: 9, all-shown: true}"),
    (Entry(Sluice), "{cells: r1c1}"),
    (Entry(Gates), "{shut: [r1c1]}"),
    (EITHER, "[r1c1 e]"),
    (EITHER, "{cells: r1c1}"),
]

BAD: list[tuple[Grammar[Any], str, list[str]]] = [
    (FLAG, "1", ['1:1: found "1", expected true']),
    (CELL, "r2", ['1:1: found "r2", expected a cell such as r4c7']),
    (PATHS, "[]", ["1:1: found an empty list, expected a list of paths"]),
    (PATHS, "r1c1 e", ['1:1: found "r1c1 e", expected a list of paths']),
    (ALIKE, "{}", ["1:1: found an empty mapping, expected a list of two groups"]),
    (SIDES, "{top c1: up}", ['1:10: unknown way "up"; known: fall, rise']),
    (SIDES, "{}", ["1:1: found an empty mapping, expected a mapping from places outside to"]),
    (DIGITS, "[]", ["1:1: found an empty list, expected a digit, or a list of digits"]),
    (Entry(Sluice), "{sum: 3}", ['1:1: missing field "cells"']),
    (Entry(Sluice), "{cells: r1c1, total: 3}", ['1:15: unknown field "total"; known: all-shown, ']),
    (Entry(Sluice), "[r1c1]", ["1:1: found a list, expected a mapping with cells"]),
    (Entry(Gates), "{}", ["1:1: found an empty mapping, expected a mapping with open or shut"]),
    (EITHER, "{}", ['1:1: missing field "cells"']),
]


@pytest.mark.parametrize(("grammar", "text"), GOOD)
def test_what_the_schema_allows_is_read(grammar: Grammar[Any], text: str) -> None:
    value, problems = read(grammar, text)
    assert value is not None
    assert problems == []
    assert allows(grammar, text)


@pytest.mark.parametrize(("grammar", "text", "expected"), BAD)
def test_what_is_told_is_refused_by_the_schema(
    grammar: Grammar[Any], text: str, expected: list[str]
) -> None:
    _, problems = read(grammar, text)
    for told, start in zip(problems, expected, strict=True):
        assert told.startswith(start)
    assert not allows(grammar, text)


def test_values_keep_their_places() -> None:
    paths, _ = read(PATHS, "- r1c1 e\n- r2c2 s")
    assert [(path.place.line, path.place.column, path.value) for path in paths] == [
        (1, 3, (0, 1)),
        (2, 3, (5, 9)),
    ]
    sluice, _ = read(Entry(Sluice), "cells: r1c1\nsum: 3")
    assert (sluice.sum.place.line, sluice.sum.value.text) == (2, "3")
    assert sluice.all_shown is None


def test_what_could_not_be_read_leaves_the_rest() -> None:
    paths, problems = read(PATHS, "[r1c1 e, r9c9 e, r2c2 s]")
    assert [path.value for path in paths] == [(0, 1), (5, 9)]
    assert len(problems) == 1
    groups, problems = read(ALIKE, "[r1c1, r9c9]")
    assert [group.value for group in groups] == [(0,), None]
    assert len(problems) == 1
    sluice, problems = read(Entry(Sluice), "{cells: r9c9, sum: 3}")
    assert sluice.cells.value is None
    assert sluice.sum.value.text == "3"
    assert len(problems) == 1


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_travels_between_processes(rule: Any) -> None:
    there = pickle.loads(pickle.dumps(rule))
    assert there.grammar == rule.grammar
    assert (there.name, there.example) == (rule.name, rule.example)
