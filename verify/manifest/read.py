"""A manifest -> a Puzzle, or every problem in it with its place."""

from pathlib import Path

from verify.manifest.fields import FIELDS
from verify.manifest.ground import Ground, read_ground
from verify.manifest.source import shown_path
from verify.manifest.uses import listed_rules, read_uses
from verify.manifest.words import read_credits, read_id, read_words
from verify.manifest.yaml_text import read_tree, tree_of
from verify.puzzle import Puzzle
from verify.reading.grid import GridText, read_grid
from verify.reading.node import Fields, Node, Text, describe, shown
from verify.reading.problems import Problems, Unreadable
from verify.rules import BY_NAME


def read_puzzle(path: Path, name: str | None = None) -> Puzzle:
    """The puzzle of a manifest file; `name` is the file as the editor named it.

    Raises Unreadable with every problem of the file.
    """
    name = shown_path(path) if name is None else name
    problems = Problems()
    return puzzle_of_tree(read_tree(path, name, problems), name, problems)


def puzzle_from_text(text: str, name: str = "puzzle.yaml") -> Puzzle:
    """The puzzle of a manifest's text, as if it stood in a file of that name.

    Raises Unreadable with every problem of the text.
    """
    problems = Problems()
    return puzzle_of_tree(tree_of(text, name, problems), name, problems)


def puzzle_of_tree(root: Node, file: str, problems: Problems) -> Puzzle:
    """The puzzle that a tree of nodes means; `problems` holds what was noted so far.

    Raises Unreadable with all of them.
    """
    fields = _known_fields(root, problems)
    words = read_words(fields, "words", problems)
    credit, its_id = read_credits(fields, problems), read_id(fields, file, problems)
    listed = listed_rules(fields, problems)
    ground = read_ground(fields, {key.text for key, _ in listed}, problems)
    if ground is None:
        raise Unreadable(problems.found)
    uses = read_uses(ground, listed, problems)
    givens = _grid(fields, "givens", ground, problems)
    answer = _grid(fields, "answer", ground, problems)
    _check_answer(givens, answer, ground, problems)
    problems.raise_if_any()
    return Puzzle(
        id=its_id,
        file=file,
        credits=credit,
        board=ground.board,
        symbols=ground.symbols,
        uses=uses,
        givens=givens.digits if givens else (0,) * len(ground.board.places),
        answer=answer.digits if answer else None,
        words=words,
        places=tuple((key.text, value.place) for key, value in fields.entries),
    )


def _known_fields(root: Node, problems: Problems) -> Fields:
    """The fields of a manifest; raises where the file holds none."""
    if not isinstance(root, Fields):
        problems.expected(root.place, describe(root), 'fields such as "title: Low Water"')
        raise Unreadable(problems.found)
    if root.get("job") is not None and root.get("kind") is None:
        problems.add(root.place, "found a job, expected a puzzle; `reglet make` is for jobs")
        raise Unreadable(problems.found)
    if (want := root.get("want")) is not None:
        found = "found a sketch, expected a puzzle; `reglet compose` is for sketches"
        problems.add(want.place, found)
        raise Unreadable(problems.found)
    for key, _ in root.entries:
        if key.text in BY_NAME and key.text not in FIELDS:
            problems.add(key.place, f'found the rule "{shown(key.text)}", expected it under rules:')
        elif key.text not in FIELDS:
            problems.unknown(key.place, "field", key.text, FIELDS)
    return root


def _grid(fields: Fields, name: str, ground: Ground, problems: Problems) -> GridText | None:
    """The givens or the answer; None where it is missing or has problems."""
    node = fields.get(name)
    if node is None or (isinstance(node, Text) and not node.text.strip()):
        return None
    values = {symbol: digit for digit, symbol in enumerate(ground.symbols, start=1)}
    if name == "givens":
        values["."] = 0
    return read_grid(node, ground.board, values, f"the {name}", problems)


def _check_answer(
    givens: GridText | None, answer: GridText | None, ground: Ground, problems: Problems
) -> None:
    """Notes each cell where the answer is not the given."""
    if givens is None or answer is None or givens.digits == answer.digits:
        return
    for cell, (given, digit) in enumerate(zip(givens.digits, answer.digits, strict=True)):
        if given not in (0, digit):
            found = f'"{shown(ground.symbols[digit - 1])}" in {ground.board.name(cell)}'
            expected = f'the given "{shown(ground.symbols[given - 1])}"'
            problems.expected(answer.place_of(cell), found, expected)
