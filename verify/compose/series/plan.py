"""A plan: so many puzzles of each kind, size and grade."""

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final

from verify.compose.classic import SIZES
from verify.compose.motifs.drawing import MOTIFS
from verify.compose.series.kinds import KINDS
from verify.compose.want import MOST_GIVENS, GradeName, SymmetryName
from verify.manifest.source import shown_path
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Items, Node, Place
from verify.reading.problems import Problems, Unreadable
from verify.reading.record import Choice, Number, Record, Word

MOST_OF_A_LINE: Final = 2000
MOST_LINES: Final = 200
MOST_SEED: Final = 999_999_999
LONGEST_TITLE: Final = 80


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
class Plan:
    """What a series is made of."""

    puzzles: Annotated[tuple[Line, ...], "a line for each kind, size and grade"]
    seed: Annotated[int, Number(0, MOST_SEED, whole=True), "where chance begins"] = 1


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A line of a plan, where it stands, and the motifs that fit it; none without shapes."""

    place: Place
    line: Line
    motifs: tuple[str, ...]


def read_plan(path: Path) -> tuple[int, tuple[PlacedLine, ...]]:
    """The seed of a plan, and its lines. Raises Unreadable with every problem of it."""
    name, problems = shown_path(path), Problems()
    root = read_tree(path, name, problems)
    plan: Plan | None = Record(Plan).read(root, problems)
    if plan is None or problems.found:
        raise Unreadable(problems.found)
    nodes = _line_nodes(root)
    if not 1 <= len(nodes) <= MOST_LINES:
        found, expected = f"{len(nodes)} lines", f"1 to {MOST_LINES}"
        problems.expected(root.place, found, expected)
        raise Unreadable(problems.found)
    lines = tuple(
        placed_line(line, node, problems) for line, node in zip(plan.puzzles, nodes, strict=True)
    )
    problems.raise_if_any()
    return plan.seed, lines


def placed_line(line: Line, node: Node, problems: Problems) -> PlacedLine:
    """The line that a node was read to; notes where no puzzle can be made of it."""
    return PlacedLine(node.place, line, _motifs(line, node, problems))


def _line_nodes(root: Node) -> tuple[Node, ...]:
    node = root.get("puzzles") if isinstance(root, Fields) else None
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
