from typing import Any

import pytest
import yaml

from verify.manifest import tree
from verify.manifest.yaml_text import tree_of
from verify.reading.node import Fields, Items, Node, Text
from verify.reading.problems import Problems, Unreadable

LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]

MANIFEST = """\
title: Slack Water   # a note
rules:
  thermometer:
  - r2c1 e e
  - [r9c9, r8c9]
  "odd" : 'r1c1'
givens: |

  . 2
   3 4

note: >-
  folded and
  folded
words: plain over
  two lines
theme: "quoted over
  two lines"
last:
"""


@pytest.fixture(params=LOADERS, ids=lambda loader: loader.__name__)
def _loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each test runs with the quick parser and with the one that is always there."""
    monkeypatch.setattr(tree, "_LOADER", request.param)


pytestmark = pytest.mark.usefixtures("_loader")


def told(text: str) -> list[str]:
    """Every problem of a YAML text, raised or noted, as `line:column: message`."""
    problems = Problems()
    try:
        tree_of(text, "f", problems)
    except Unreadable as unreadable:
        return [str(problem).removeprefix("f:") for problem in unreadable.problems]
    return [str(problem).removeprefix("f:") for problem in problems.found]


def outline(node: Node | None) -> Any:
    """A node as plain values: (line, column, value)."""
    assert node is not None
    at = (node.place.line, node.place.column)
    if isinstance(node, Text):
        lines = [(place.line, place.column, line) for place, line in node.lines]
        return (*at, node.text, node.quoted, lines)
    if isinstance(node, Items):
        return (*at, [outline(item) for item in node.items])
    return (*at, {key.text: (outline(key)[:2], outline(value)) for key, value in node.entries})


def test_every_part_has_its_place() -> None:
    problems = Problems()
    root = tree_of(MANIFEST, "f", problems)
    assert isinstance(root, Fields)
    assert problems.found == []
    assert outline(root.get("title")) == (
        1,
        8,
        "Slack Water",
        False,
        [(1, 8, "Slack Water")],
    )
    rules = root.get("rules")
    assert isinstance(rules, Fields)
    assert outline(rules)[:2] == (3, 3)
    assert outline(rules.get("thermometer")) == (
        4,
        3,
        [
            (4, 5, "r2c1 e e", False, [(4, 5, "r2c1 e e")]),
            (
                5,
                5,
                [
                    (5, 6, "r9c9", False, [(5, 6, "r9c9")]),
                    (5, 12, "r8c9", False, [(5, 12, "r8c9")]),
                ],
            ),
        ],
    )
    assert outline(rules.get("odd")) == (6, 11, "r1c1", True, [(6, 12, "r1c1")])
    assert outline(root.get("last")) == (19, 6, "", False, [(19, 6, "")])


def test_a_block_has_the_place_of_each_line() -> None:
    root = tree_of(MANIFEST, "f", Problems())
    assert isinstance(root, Fields)
    assert outline(root.get("givens")) == (
        7,
        9,
        "\n. 2\n 3 4\n",
        True,
        [(8, 1, ""), (9, 3, ". 2"), (10, 3, " 3 4")],
    )


def test_text_over_several_lines_has_the_place_of_each() -> None:
    root = tree_of(MANIFEST, "f", Problems())
    assert isinstance(root, Fields)
    assert outline(root.get("note")) == (
        12,
        7,
        "folded and folded",
        True,
        [(13, 3, "folded and"), (14, 3, "folded")],
    )
    assert outline(root.get("words")) == (
        15,
        8,
        "plain over two lines",
        False,
        [(15, 8, "plain over"), (16, 3, "two lines")],
    )
    assert outline(root.get("theme")) == (
        17,
        8,
        "quoted over two lines",
        True,
        [(17, 9, "quoted over"), (18, 3, "two lines")],
    )


@pytest.mark.parametrize(
    "word", ["true", "no", "on", "2027-01-04", "1e3", "0x1F", "012", "1_000", "~", "null", ".5"]
)
def test_plain_words_stay_as_they_are_written(word: str) -> None:
    root = tree_of(f"a: {word}\n", "f", Problems())
    assert isinstance(root, Fields)
    value = root.get("a")
    assert isinstance(value, Text)
    assert (value.text, value.quoted) == (word, False)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_of_every_system_count_alike(end: str) -> None:
    text = end.join(["a: 1", "b: |", "  x", "  y", "a: 2", ""])
    assert told(text) == ['5:1: found "a" a second time; it stands in line 1 already']


def test_a_byte_order_mark_takes_no_column() -> None:
    assert told("\ufeffa: 1\na: 2\n") == [
        '2:1: found "a" a second time; it stands in line 1 already'
    ]
    assert told("\ufeffa: b: c\n") == [
        '1:5: found a second ": " in one line, expected quotes around a text that has a colon'
    ]


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("a: &x 1\nb: *x\n", ['1:4: found an anchor "&x", expected text without one',
                               '2:4: found an alias "*x", expected the text itself']),
        ("a: *x\n", ['1:4: found an alias "*x", expected the text itself']),
        ("a: !!python/object:os.system x\n", [
            '1:4: found a tag "!!python/object:os.system", expected text without one']),
        ("a: !x y\nb: !!str z\n", ['1:4: found a tag "!x", expected text without one',
            '2:4: found a tag "!!str", expected text without one']),
        ("a: &x [1]\n", ['1:4: found an anchor "&x", expected text without one']),
        ("a:\n  <<: {b: c}\n", ['2:3: found a merge key "<<", expected the fields themselves']),
        ("a: 1\nb: 2\na: 3\nb: 4\n", [
            '3:1: found "a" a second time; it stands in line 1 already',
            '4:1: found "b" a second time; it stands in line 2 already']),
        ("rules:\n  even: r1c1\n  'even': r2c2\n", [
            '3:3: found "even" a second time; it stands in line 2 already']),
        ("? [a, b]\n: c\n", ["1:3: found a list as a key, expected a word"]),
        ("a: b\n---\nc: d\n", [
            "2:1: found a second document, expected one puzzle or job in a file"]),
        ("", ["1:1: found an empty file, expected fields such as title: and size:"]),
        ("# only a note\n", ["1:1: found an empty file, expected fields such as title: and size:"]),
    ],
)  # fmt: skip
def test_what_yaml_can_do_and_a_manifest_may_not(text: str, problems: list[str]) -> None:
    assert told(text) == problems


def test_nesting_has_a_bound() -> None:
    deepest = "[" * tree.DEEPEST + "]" * tree.DEEPEST
    assert told(deepest) == []
    assert told("[" + deepest + "]") == [
        f"1:{tree.DEEPEST + 1}: found more than {tree.DEEPEST} lists or mappings inside one another"
    ]
    ladder = "".join("  " * depth + "a:\n" for depth in range(tree.DEEPEST + 2))
    assert told(ladder)[0].endswith("inside one another")


def test_the_number_of_words_has_a_bound() -> None:
    problems = told("[" + "a, " * tree.MOST_NODES + "]")
    assert problems == [
        f"1:{3 * tree.MOST_NODES - 1}: "
        f"found more than {tree.MOST_NODES} words, expected a shorter file"
    ]


@pytest.mark.parametrize(
    ("text", "place", "code"),
    [
        ("a: \x00\n", "1:4", "U+0000"),
        ("a: b\nc: d\x1b[31m\n", "2:5", "U+001B"),
        ("a: x\u2028y\n", "1:5", "U+2028"),
        ("a: x\x85y\n", "1:5", "U+0085"),
        ("a: x\ufeffy\n", "1:5", "U+FEFF"),
    ],
)
def test_control_characters_are_refused_where_they_stand(text: str, place: str, code: str) -> None:
    assert told(text) == [f"{place}: found the control character {code}, expected plain text"]


def test_a_large_text_is_refused() -> None:
    assert told("a" * (1 << 20) + "b") == [
        "1:1: found a file of more than 1 MiB, expected a smaller one"
    ]
