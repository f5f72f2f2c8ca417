"""A plan: so many puzzles of each kind, size and grade, and one of each sketch."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final

from verify.compose.classic import SIZES
from verify.compose.motifs.drawing import MOTIFS
from verify.compose.series.kinds import KINDS
from verify.compose.sketch import Sketch, read_sketch
from verify.compose.want import MOST_GIVENS, GradeName, SymmetryName
from verify.manifest.bank import SIZES as SIZES_OF_BANKS
from verify.manifest.find import MANIFEST_SUFFIXES, natural_key
from verify.manifest.source import lies_in, shown_path
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Items, Node, Place, Text, describe
from verify.reading.problems import Problems, Unreadable
from verify.reading.record import Choice, Every, Number, Record, Schema, Word

MOST_OF_A_LINE: Final = 2000
MOST_LINES: Final = 200
MOST_SEED: Final = 999_999_999
LONGEST_TITLE: Final = 80
MOST_SKETCHES: Final = 500
LONGEST_FOLDER: Final = 200

BANK_SUFFIX: Final = ".txt"
"""What the name of a bank ends with, to which a line's puzzles go."""

_INSIDE: Final = re.compile(r"[a-z0-9][a-z0-9-]{0,63}(/[a-z0-9][a-z0-9-]{0,63}){0,7}(\.txt)?")


class Inside:
    """A folder inside the one that is written to, or a bank there."""

    def read(self, node: Node, problems: Problems) -> str | None:
        """Its name, with slashes."""
        text = node.text.strip() if isinstance(node, Text) else ""
        if _INSIDE.fullmatch(text):
            return text
        expected = "a folder or a bank inside the output: night-tide, or easy.txt"
        problems.expected(node.place, describe(node), expected)
        return None

    def schema(self) -> Schema:
        """Small letters, figures and dashes."""
        return {"type": "string", "pattern": f"^{_INSIDE.pattern}$"}


@dataclass(frozen=True, slots=True)
class Line:
    """So many puzzles of one kind."""

    count: Annotated[int, Number(1, MOST_OF_A_LINE, whole=True), "how many"]
    kind: Annotated[str, Choice(tuple(KINDS), "kind"), "the rule that they have, or classic"] = (
        "classic"
    )
    size: Annotated[int, Number(SIZES[0], SIZES[-1], whole=True), "rows = columns"] = 9
    grade: Annotated[GradeName | None, "the band"] = None
    motif: Annotated[
        str | None, Choice(tuple(MOTIFS), "motif"), "what shapes look like; else all in turn"
    ] = None
    symmetry: Annotated[SymmetryName, "how the cells with givens lie"] = "half-turn"
    givens: Annotated[int | None, Number(0, MOST_GIVENS, whole=True), "the most givens"] = None
    title: Annotated[str | None, Word(LONGEST_TITLE), "printed above each, with a number"] = None


@dataclass(frozen=True, slots=True)
class PlanLine(Line):
    """So many puzzles of one kind, and where they go."""

    into: Annotated[
        str, Inside(), "the folder that they go to, or the bank: a name that ends in .txt"
    ] = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """What a series is made of."""

    puzzles: Annotated[tuple[PlanLine, ...], "a line for each kind, size and grade"] = ()
    sketches: Annotated[
        tuple[str, ...],
        Every(Word(LONGEST_FOLDER)),
        "folders of sketches, beside the plan: a puzzle of each, in a folder of the same name",
    ] = ()
    seed: Annotated[int, Number(0, MOST_SEED, whole=True), "where chance begins"] = 1


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A line of a plan, where it stands, and the motifs that fit it; none without shapes."""

    place: Place
    line: Line
    motifs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlacedSketch:
    """A sketch of a plan, and the folder that its puzzle goes to."""

    into: str
    sketch: Sketch


@dataclass(frozen=True, slots=True)
class ReadPlan:
    """A plan as it was read: its seed, its lines with what they go `into`, and its sketches."""

    seed: int
    lines: tuple[PlacedLine, ...]
    into: tuple[str, ...]
    sketches: tuple[PlacedSketch, ...]


def read_plan(path: Path) -> ReadPlan:
    """A plan, with its sketches. Raises Unreadable with every problem of it."""
    name, problems = shown_path(path), Problems()
    root = read_tree(path, name, problems)
    plan: Plan | None = Record(Plan).read(root, problems)
    if plan is None or problems.found:
        raise Unreadable(problems.found)
    nodes = _items_of(root, "puzzles")
    if len(nodes) > MOST_LINES or not (nodes or plan.sketches):
        found, expected = f"{len(nodes)} lines", f"1 to {MOST_LINES}, or folders of sketches"
        problems.expected(root.place, found, expected)
        raise Unreadable(problems.found)
    lines = tuple(
        placed_line(line, node, problems) for line, node in zip(plan.puzzles, nodes, strict=True)
    )
    for line, node in zip(plan.puzzles, nodes, strict=True):
        _check_bank(line, node, problems)
    sketches = tuple(_sketches(path, _items_of(root, "sketches"), problems))
    of_sketches = {each.into for each in sketches}
    for line, node in zip(plan.puzzles, nodes, strict=True):
        if line.into in of_sketches:
            found = f"{line.into}, where puzzles of sketches go"
            problems.expected(_place(node, "into"), found, "another folder")
    problems.raise_if_any()
    return ReadPlan(plan.seed, lines, tuple(line.into for line in plan.puzzles), sketches)


def _check_bank(line: PlanLine, node: Node, problems: Problems) -> None:
    """Notes puzzles that no line of a bank can hold."""
    if line.into.endswith(BANK_SUFFIX):
        sizes = sorted(SIZES_OF_BANKS.values())
        if line.kind != "classic" or line.size not in sizes:
            found = f"{line.kind} of size {line.size} in a bank"
            expected = f"classic ones of size {', '.join(map(str, sizes))}; or a folder"
            problems.expected(_place(node, "into"), found, expected)


def _sketches(plan: Path, nodes: tuple[Node, ...], problems: Problems) -> Iterator[PlacedSketch]:
    """The sketches of the folders that a plan names, in the natural order of their names."""
    seen: set[str] = set()
    for node in nodes:
        text = node.text.strip() if isinstance(node, Text) else ""
        folder = plan.parent / text
        files = _manifests(folder) if lies_in(folder, plan.parent) else []
        if not files or len(files) > MOST_SKETCHES or folder.name in seen:
            found = f"{len(files)} sketches in {shown_path(folder)}"
            expected = f"1 to {MOST_SKETCHES}, in a folder beside the plan, named once"
            problems.expected(node.place, found, expected)
            continue
        seen.add(folder.name)
        for file in files:
            try:
                yield PlacedSketch(folder.name, read_sketch(file))
            except Unreadable as unreadable:
                for each in unreadable.problems:
                    problems.add(each.place, each.message)


def _manifests(folder: Path) -> list[Path]:
    try:
        found = [each for each in folder.iterdir() if each.suffix in MANIFEST_SUFFIXES]
    except OSError:
        return []
    return sorted(found, key=lambda path: natural_key(path.name))


def placed_line(line: Line, node: Node, problems: Problems) -> PlacedLine:
    """The line that a node was read to; notes where no puzzle can be made of it."""
    return PlacedLine(node.place, line, _motifs(line, node, problems))


def _items_of(root: Node, name: str) -> tuple[Node, ...]:
    node = root.get(name) if isinstance(root, Fields) else None
    return node.items if isinstance(node, Items) else ()


def _motifs(line: Line, node: Node, problems: Problems) -> tuple[str, ...]:
    """The motifs of a line; notes what no puzzle can be made of."""
    kind = KINDS[line.kind]
    if line.size not in SIZES:
        expected = f"one of {', '.join(map(str, SIZES))}, which have usual boxes"
        problems.expected(_place(node, "size"), f"size {line.size}", expected)
        return ()
    if not kind.is_drawn:
        if line.motif is not None:
            found = f"a motif for {line.kind}"
            problems.expected(_place(node, "motif"), found, "none: it has no shapes")
        return ()
    fitting = kind.motifs(line.size)
    if line.motif is None and not fitting:
        found = f"{line.kind} on a board of {line.size}"
        problems.expected(node.place, found, "a larger board: no motif fits this one")
    elif line.motif is not None and line.motif not in fitting:
        found = f"{line.motif} of {line.kind} on a board of {line.size}"
        expected = " or ".join(fitting) if fitting else "a larger board"
        problems.expected(_place(node, "motif"), found, expected)
    return fitting if line.motif is None else (line.motif,)


def _place(node: Node, name: str) -> Place:
    value = node.get(name) if isinstance(node, Fields) else None
    return node.place if value is None else value.place
