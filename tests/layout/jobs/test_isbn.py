"""The ISBN of a book, held against the ISBN Users' Manual."""

import pytest

from layout.jobs.common.isbn import Isbn
from verify.reading.node import Place, Text
from verify.reading.problems import Problems

HERE = Place("book.yaml", 3, 7)

MANUAL = "978-0-11-000222-4"
"""ISBN Users' Manual, section 4: its example of an ISBN and of a check digit."""


def read(text):
    problems = Problems()
    node = Text(HERE, text, ((HERE, text),))
    return Isbn().read(node, problems), [str(problem) for problem in problems.found]


@pytest.mark.parametrize(
    "written",
    [
        MANUAL,
        "978 0 11 000222 4",
        "9780110002224",
        "978-0110002224",
        "978-01-1000222-4",  # hyphens in wrong places
        "978–0–11–000222–4",  # en dashes, as they stand on printed pages
        " 978-0-11-000222-4 ",
    ],
)
def test_the_hyphens_are_those_of_the_group_and_the_registrant(written):
    assert read(written) == (MANUAL, [])


@pytest.mark.parametrize(
    ("digits", "hyphened"),
    [
        ("9783161484100", "978-3-16-148410-0"),  # group 3 is German; registrants of two digits
        ("9780306406157", "978-0-306-40615-7"),
    ],
)
def test_known_numbers(digits, hyphened):
    assert read(digits) == (hyphened, [])


@pytest.mark.parametrize(
    "written",
    [
        "979-4-1706-0345-1",  # made up, no group begins so; check digits by hand
        "979-4-1706-0342-0",
        "979 4 1706 0342 0",
        "979417060342 0",
        "9794170603420",
    ],
)
def test_a_number_of_no_known_group_stands_as_it_was_written(written):
    assert read(written) == (written.replace(" ", "-"), [])


@pytest.mark.parametrize(
    ("isbn", "found", "expected"),
    [
        ("979-4-1706-0345-7", 'the check digit 7 in "979-4-1706-0345-7"', "1; look for a slip"),
        ("979-4-1760-0345-1", 'the check digit 1 in "979-4-1760-0345-1"', "3; look for a slip"),
        ("4-1706-0345-1", '"4-1706-0345-1"', "an ISBN of 13 digits"),
        ("977-4-1706-0345-1", '"977-4-1706-0345-1"', "an ISBN of 13 digits"),
        ("979-4-1706-034x-1", '"979-4-1706-034x-1"', "an ISBN of 13 digits"),
        ("979-4-17-06-0345-1", '"979-4-17-06-0345-1"', "an ISBN of 13 digits"),
        ("979--4-17060345-1", '"979--4-17060345-1"', "an ISBN of 13 digits"),
        ("-9794170603451", '"-9794170603451"', "an ISBN of 13 digits"),
        ("", "nothing", "an ISBN of 13 digits"),
    ],
)
def test_a_slip_is_told_with_what_was_found_and_expected(isbn, found, expected):
    value, problems = read(isbn)
    assert value is None
    assert len(problems) == 1
    assert problems[0].startswith(f"book.yaml:3:7: found {found}, expected {expected}")


@pytest.mark.parametrize("short", ["0-11-000222-9", "0110002229"])
def test_a_number_of_ten_digits_is_told_in_thirteen(short):
    """The nine digits of the manual's example, and their old check digit by hand: 1 * 9 + 1 * 8 +
    2 * (4 + 3 + 2) are 35, and 9 more are a multiple of 11."""
    assert MANUAL in read(short)[1][0]


def test_the_check_digit_catches_every_single_slip():
    digits = MANUAL.replace("-", "")
    for at in range(3, 12):
        for digit in "0123456789":
            value, problems = read(digits[:at] + digit + digits[at + 1 :])
            assert (value == MANUAL) == (digit == digits[at]) == (problems == [])


def test_hostile_text_is_told_short():
    value, problems = read("9" * 100_000)
    assert value is None
    assert len(problems[0]) < 200
