"""What an editor types by mistake, and the message that it gets: the same from both parsers."""

import pytest
import yaml

from verify.manifest import tree
from verify.manifest.yaml_text import tree_of
from verify.reading.problems import Problems, Unreadable

LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]

QUOTES = "expected quotes around the text"

SLIPS = {
    "a tab that indents": ("rules:\n\tcage: 1\n", "2:1: found a tab, expected spaces"),
    "a tab before an item": ("a:\n  b:\n\t- c: 1\n", "3:1: found a tab, expected spaces"),
    "a tab before a grid": ("givens: |\n\t. .\n", "2:1: found a tab, expected spaces"),
    "an open bracket": (
        "rules:\n  t:\n    - [r9c9, r8c9\ngivens: |\n  . .\n",
        '3:7: found "[" that is not closed, expected "]" or a comma by line 4',
    ),
    "an open brace": (
        "- {cells: r1c1, sum: 3\n- {cells: r1c1}\n",
        '1:3: found "{" that is not closed, expected "}" or a comma by line 2',
    ),
    "an open brace at the end": (
        "title: {x\n",
        '1:8: found "{" that is not closed, expected "}" or a comma by line 2',
    ),
    "no comma in braces": (
        "a: {cells: r1c1 sum: 3}\n",
        '1:17: found "sum: 3}", expected a comma or "}" before it',
    ),
    "no comma in brackets": (
        "a: ['x' 'y']\n",
        "1:9: found \"'y']\", expected a comma or \"]\" before it",
    ),
    "one bracket too many": (
        "b: [x]]\n",
        '1:7: found "]" behind a text that has ended, '
        "expected quotes around the whole or a new line",
    ),
    "no space after the first colon": (
        "title:Slack\nsize: 9\n",
        '1:1: found "title:Slack", expected a space after the colon, as in "title: Low Water"',
    ),
    "no space after the last colon": (
        "size: 9\ntitle:Slack\n",
        '2:1: found "title:Slack", expected a space after the colon, as in "title: Low Water"',
    ),
    "no colon": (
        "title: x\nsize 9\nkind: s\n",
        '2:1: found "size 9", expected a name, a colon and a space, as in "title: Low Water"',
    ),
    "no colon in the first line": (
        "size 9\n# note\n\ntitle: x\n",
        '1:1: found "size 9", expected a name, a colon and a space, as in "title: Low Water"',
    ),
    "a colon in a title": (
        "title: Slack: Water\n",
        '1:13: found a second ": " in one line, expected quotes around a text that has a colon',
    ),
    "a field too far right": (
        "title: x\n  size: 9\n",
        "2:3: this line stands further right than the one above, which ends in a value",
    ),
    "a rule between two columns": (
        "rules:\n    cage: 1\n  arrow: 2\n",
        '3:3: found "arrow: 2" in column 3, where nothing above it begins; '
        "expected it in line with its neighbours",
    ),
    "an item between two columns": (
        "a:\n    - b\n   - c\n",
        '3:4: found "- c" in column 4, where nothing above it begins; '
        "expected it in line with its neighbours",
    ),
    "an item among fields": (
        "b: c\n- a\n",
        '2:1: found a list\'s "- ", expected a field such as "title: Low Water"',
    ),
    "a field among items": ("- a\nb: c\n", '2:1: found "b: c", expected "- " in column 1'),
    "an item behind a name": (
        "a: - b\n",
        '1:4: found "- " behind a name, expected the list to begin in a new line',
    ),
    "an open quote": ('title: "abc\nsize: 9\n', '1:8: found a quote " that is not closed'),
    "an open single quote": ("title: 'abc\nb: c\n", "1:8: found a quote ' that is not closed"),
    "an apostrophe in quotes": (
        "title: 'Ida's boat'\n",
        '1:13: found "s boat\'" behind a text that has ended, '
        "expected quotes around the whole or a new line",
    ),
    "a backslash": (
        'title: "a\\q"\n',
        "1:10: found a backslash in double quotes, expected single quotes around such a text",
    ),
    "a backslash and too few digits": (
        'title: "a\\xZ"\n',
        "1:10: found a backslash in double quotes, expected single quotes around such a text",
    ),
    "an at sign": ("title: @x\n", f'1:8: found "@" before a text, {QUOTES}'),
    "a backtick": ("title: `x`\n", f'1:8: found "`" before a text, {QUOTES}'),
    "a percent sign": ("title: %x\n", f'1:8: found "%" before a text, {QUOTES}'),
    "a lone star": ("title: * x\n", f'1:8: found "*" before a text, {QUOTES}'),
    "a lone ampersand": ("title: & x\n", f'1:8: found "&" before a text, {QUOTES}'),
    "a lone exclamation mark": ("title: !! x\n", f'1:8: found "!" before a text, {QUOTES}'),
    "text behind the bar": (
        "givens: | x\n  . .\n",
        '1:11: found "x" behind "|", expected the text to begin in the next line',
    ),
    "a grid too far left": (
        "givens: |\n. .\n. .\n",
        '2:1: found ". .", expected a grid\'s lines further right than the name above them',
    ),
    "a grid's dashes too far left": (
        "givens: |\n  . .\n-----\n  . .\n",
        '3:1: found "-----", expected a grid\'s lines further right than the name above them',
    ),
    "text behind the end": ("a: b\n...\nc: d\n", '3:1: found "c: d" behind the end of the text'),
    "a colon without a name": (": x\n", '1:1: found ":" without a name before it'),
    "a name that is too long": (
        "a" * 2000 + ": x\n",
        '1:2001: found a ":" that belongs to no name',
    ),
    "another version": ("%YAML 3.0\n---\na: b\n", "1:1: found \"%\" at the start of a line, "
                        "expected a field"),
}  # fmt: skip

NOTICED_LATER = {"a field among items"}
"""Where one of the parsers can't say more than that the indentation is off."""


@pytest.mark.parametrize("loader", LOADERS, ids=lambda loader: loader.__name__)
@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_at_its_place(
    slip: str, loader: type[yaml.SafeLoader], monkeypatch: pytest.MonkeyPatch
) -> None:
    text, message = SLIPS[slip]
    monkeypatch.setattr(tree, "_LOADER", loader)
    with pytest.raises(Unreadable) as caught:
        tree_of(text, "f", Problems())
    if slip in NOTICED_LATER and loader is yaml.SafeLoader:
        assert str(caught.value).startswith("f:" + message.split(" ")[0])
    else:
        assert str(caught.value) == "f:" + message


@pytest.mark.parametrize("slip", SLIPS)
def test_no_message_speaks_as_the_parser_does(slip: str) -> None:
    jargon = ("scalar", "token", "mapping values", "block end", "flow", "scanning", "parsing")
    with pytest.raises(Unreadable) as caught:
        tree_of(SLIPS[slip][0], "f", Problems())
    assert not any(word in str(caught.value) for word in jargon)
