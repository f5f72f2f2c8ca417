"""Beside each day stands the answer of the day before, and of no other; read from its PDF."""

import pytest

from layout.command import main
from layout.pages.common.format import Trim
from tests.support.boards import plain
from tests.support.books import POINT, Printed
from tests.support.maker import answers, with_givens
from tests.support.seasons import JOB, small_bank, write_column

DAYS = JOB.replace("formats: [svg]", "formats: [pdf]")


def answer_of(line):
    """The answer of a line of the bank, found by the tests' own solver."""
    (answer,) = answers(with_givens(plain(4, (2, 2)), [int(digit) for digit in line]))
    return tuple("".join(map(str, answer[row : row + 4])) for row in (0, 4, 8, 12))


def rows_of(line):
    text = line.replace("0", ".")
    return tuple(text[row : row + 4] for row in (0, 4, 8, 12))


def grids(folder):
    """The grids of each day's page, in the order of the days: upper or left ones first."""
    for path in sorted((folder / "build").glob("*.pdf")):
        data = path.read_bytes()
        width, height = (side * POINT for side in Printed(data).pages[0].get_size())
        page = Printed(data, Trim(width, height, 0))
        yield [tuple(page.grid(0, board, 4)) for board in page.boards(0)]


def runs(folder, *issues):
    """The column made once for each number of issues, the ledger carried on."""
    for count in issues:
        job = write_column(folder, DAYS.replace("issues: 4", f"issues: {count}"))
        assert main(["make", str(job), "--quiet"]) == 0
    return list(grids(folder))


@pytest.mark.parametrize("issues", [(4,), (2, 4), (1, 2, 5)], ids=str)
def test_each_day_shows_the_answer_of_the_day_before(tmp_path, issues):
    found, bank = runs(tmp_path, *issues), small_bank(6)
    assert len({answer_of(line) for line in bank}) == len(bank)
    assert len(found) == issues[-1]
    assert found[0] == [rows_of(bank[0])]
    for day in range(1, len(found)):
        assert found[day] == [rows_of(bank[day]), answer_of(bank[day - 1])]


def test_a_lost_day_is_made_again_with_the_answer_of_the_day_before_it(tmp_path):
    first = runs(tmp_path, 4)
    lost = sorted((tmp_path / "build").glob("*.pdf"))[2]
    lost.unlink()
    assert runs(tmp_path, 4) == first
