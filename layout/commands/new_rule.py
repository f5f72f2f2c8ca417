"""What a new rule needs: stubs of its own files, and the lines that it adds to files that stand."""

import builtins
import keyword
import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import PurePosixPath
from string import Template
from typing import Final

from layout.commands.new_rule_texts import (
    LISTED,
    LOOK,
    ROOMS,
    RULE,
    SKETCH,
    SUPPORT,
    TEST,
    WORDS,
    Room,
)
from layout.language.words import languages
from verify.rules import BY_NAME

LONGEST_NAME: Final = 20
"""Characters; longer names would not fit the lines of the stubs."""

SIZE: Final = 6
"""Rows and columns of the example."""

_NAME: Final = re.compile(r"[a-z]+(-[a-z]+)*")


@dataclass(frozen=True, slots=True)
class Stub:
    """A file of a rule and what it is for; `is_new` where it is a file of the rule's own."""

    path: PurePosixPath
    purpose: str
    text: str
    is_new: bool = True


def why_no_name(name: str) -> str | None:
    """What is expected of the name of a new rule where a word is none; None where it can be one."""
    if not _NAME.fullmatch(name) or len(name) > LONGEST_NAME or keyword.iskeyword(name):
        return f"small letters in words joined by dashes, at most {LONGEST_NAME} characters"
    return "a name that no rule has" if name in BY_NAME else None


def rule_stubs(name: str, room: str, number: str = "NN") -> Iterator[Stub]:
    """Every file that a new rule needs, its own first; `room` is one of `ROOMS`.

    `number` is that of its puzzle in the gallery.
    """
    module = name.replace("-", "_")
    values = _values(name, module, room)

    def stub(path: str, purpose: str, text: str, *, is_new: bool = True) -> Stub:
        return Stub(PurePosixPath(path), purpose, Template(text).substitute(values), is_new)

    own = f"rules/{room}/{module}.py"
    yield stub(f"verify/{own}", "what it means, how it is written, drawn and said", RULE)
    support = f"tests/support/rules/{module}.py"
    yield stub(support, "marks for the tests, and a model that is not ours", SUPPORT)
    test = f"tests/verify/rules/{room}/test_{module}.py"
    yield stub(test, "problems with their places, bounds, facts from outside", TEST)
    sketch = f"books/gallery/puzzles/{room}/{number}-{name}.yaml"
    yield stub(sketch, "marks for `python -m tests.support.maker`, which adds givens", SKETCH)
    listed = "its import, and its line after the rule that is most like it"
    yield stub("verify/rules/__init__.py", listed, LISTED, is_new=False)
    for language in languages():
        path = f"styles/words/{language}.yaml"
        yield stub(path, "under `rules`, in the order of the list", WORDS, is_new=False)
    if f'"{name}"' in values["draw"]:
        look = "how its role looks: in full in paperback.yaml, what differs in the others"
        yield stub("styles/*.yaml", look, LOOK, is_new=False)


def _values(name: str, module: str, room: str) -> Mapping[str, str]:
    """What is filled in, by its name in the texts."""
    title = name.replace("-", " ").capitalize()
    first = {"name": name, "module": module, "room": room, "kind": _kind(name, ROOMS[room])}
    parts = {
        key: Template(text).substitute(first)
        for key, text in asdict(ROOMS[room]).items()
        if isinstance(text, str)
    }
    marks, further, told = ROOMS[room].wrong
    column = len(f"  {name}: ") + 1 + further
    grid = "\n".join("  " + " ".join("." * SIZE) for _ in range(SIZE))
    wrong = {"wrong": marks, "column": str(column), "told": told}
    return {**first, **parts, **wrong, "title": title, "grid": grid}


def _kind(name: str, room: Room) -> str:
    """The name of the class of its marks, which nothing else in its file has."""
    kind = "".join(word.capitalize() for word in name.split("-"))
    taken = hasattr(builtins, kind) or re.search(rf"\b{kind}\b", room.imports)
    return f"{kind}Mark" if taken else kind
