"""Imports point one way: between the two packages, between their rooms, and between files."""

import ast
import sys
from graphlib import CycleError, TopologicalSorter

import pytest

from tests.support.checkout import ROOT

FILES = {
    ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
    for package in ("verify", "layout")
    for path in sorted((ROOT / package).rglob("*.py"))
}


def imported(path):
    """The modules of the house that a file names in its imports, wherever they stand in it."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            inner = {f"{node.module}.{each.name}" for each in node.names} & FILES.keys()
            yield from inner
            if len(inner) < len(node.names):
                yield node.module
        elif isinstance(node, ast.Import):
            yield from (each.name for each in node.names)


IMPORTS = {name: set(imported(path)) & FILES.keys() for name, path in FILES.items()}


def room_of(name):
    """The folder of a file; those directly in `verify` or `layout` are rooms of their own.

    So is the own file of a package: it stands over those inside it.
    """
    alone = FILES[name].name == "__init__.py" or name.count(".") < 2
    return f"{name} itself" if alone else name.rpartition(".")[0]


def floor_of(name):
    """The file or folder directly in `verify` or `layout` that a file is or lies in."""
    return ".".join(name.split(".")[:2])


def circle(place_of):
    """Places that import each other, one after the other; nothing where there is no circle."""
    between = {place_of(name): set() for name in FILES}
    for name, others in IMPORTS.items():
        between[place_of(name)] |= {place_of(other) for other in others} - {place_of(name)}
    try:
        TopologicalSorter(between).prepare()
    except CycleError as error:
        return error.args[1]
    return []


def test_there_is_something_to_look_at():
    assert len(FILES) > 300
    assert "verify.board" in IMPORTS["layout.jobs.common.proving"]


def test_what_a_puzzle_means_knows_nothing_of_how_it_looks():
    assert not [
        name
        for name in FILES
        if name.startswith("verify")
        if any(other.startswith("layout") for other in IMPORTS[name])
    ]


@pytest.mark.parametrize(
    "place_of", [lambda name: name, room_of, floor_of], ids=["files", "rooms", "floors"]
)
def test_nothing_is_imported_in_a_circle(place_of):
    assert circle(place_of) == []


@pytest.mark.parametrize("room", ["verify.proof", "verify.walk", "verify.rules", "verify.formula"])
def test_what_reasons_knows_neither_files_nor_yaml(room):
    reached = {name for name in FILES if f"{name}.".startswith(f"{room}.")}
    while more := {other for name in reached for other in IMPORTS[name]} - reached:
        reached |= more
    assert not [name for name in reached if name.startswith("verify.manifest")]


def test_a_walk_names_no_rule():
    named = {other for name in FILES if name.startswith("verify.walk") for other in IMPORTS[name]}
    rules = {name for name in named if name.startswith("verify.rules.")}
    assert all(name.startswith("verify.rules.workings") for name in rules), rules


def test_what_checks_a_certificate_shares_nothing_with_what_writes_it():
    """Neither the solver nor the rules can make it say yes: it knows the standard library alone."""
    room = "verify.certificate"
    checkers = {f"{room}.{name}" for name in ("checking", "reading", "refutation", "refused")}
    for name in checkers:
        others = set(imported(FILES[name])) - checkers
        assert all(other.partition(".")[0] in sys.stdlib_module_names for other in others), others


def test_what_reads_a_finished_file_shares_nothing_with_what_wrote_it():
    room = [name for name in FILES if name.startswith("layout.preflight")]
    strange = {other for name in room for other in IMPORTS[name]} - set(room)
    assert not [other for other in strange if other.startswith("layout")]
