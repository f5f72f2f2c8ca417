import pytest

from verify.reading.node import Fields, Items, Place, Text, describe, shown
from verify.reading.problems import MOST_PROBLEMS, Problems, Unreadable

PLACE = Place("tide.yaml", 3, 7)


def test_a_problem_prints_as_file_line_column() -> None:
    problems = Problems()
    problems.expected(PLACE, '"x"', "a digit")
    assert str(problems.found[0]) == 'tide.yaml:3:7: found "x", expected a digit'


def test_all_problems_are_told_in_the_order_of_the_file_and_once() -> None:
    problems = Problems()
    for line in (9, 2, 2, 5):
        problems.add(Place("tide.yaml", line, 1), "wet")
    with pytest.raises(Unreadable) as caught:
        problems.raise_if_any()
    assert [problem.place.line for problem in caught.value.problems] == [2, 5, 9]
    assert str(caught.value).count("\n") == 2


def test_no_problem_raises_nothing() -> None:
    Problems().raise_if_any()


def test_only_so_many_problems_are_kept() -> None:
    problems = Problems()
    for line in range(2 * MOST_PROBLEMS):
        problems.unknown(Place("tide.yaml", line, 1), "field", "titel", ["title"])
    assert len(problems.found) == MOST_PROBLEMS
    assert problems.full


def test_an_unknown_name_gets_the_nearest_or_all() -> None:
    problems = Problems()
    problems.unknown(PLACE, "field", "Titel", ["title", "size"])
    problems.unknown(PLACE, "field", "heron", ["title", "size"])
    assert [problem.message for problem in problems.found] == [
        'unknown field "Titel"; did you mean "title"?',
        'unknown field "heron"; known: size, title',
    ]


@pytest.mark.parametrize(
    ("text", "as_shown"),
    [
        ("Slack Water", "Slack Water"),
        ("two\n  lines", "two lines"),
        ("x" * 41, "x" * 39 + "…"),
        ("\x1b[31mred", "<U+001B>[31mred"),
        ("a\u202eb", "a<U+202E>b"),
        ("\ud800", "<U+D800>"),
        ("é", "é"),
    ],
)
def test_a_files_text_is_shown_short_and_harmless(text: str, as_shown: str) -> None:
    assert shown(text) == as_shown


def test_nodes_are_described_in_an_editors_words() -> None:
    text = Text(PLACE, "abc", ())
    assert describe(text) == '"abc"'
    assert describe(Text(PLACE, "  ", ())) == "nothing"
    assert describe(Items(PLACE, (text,))) == "a list"
    assert describe(Items(PLACE, ())) == "an empty list"
    assert describe(Fields(PLACE, ((text, text),))) == "a mapping"
    assert describe(Fields(PLACE, ())) == "an empty mapping"


def test_places_move_to_the_right_along_their_line() -> None:
    assert PLACE.right(2) == Place("tide.yaml", 3, 9)
    assert PLACE.right(0) == PLACE
