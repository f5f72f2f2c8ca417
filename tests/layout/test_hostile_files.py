"""Whatever stands in a file, a command does what it is asked or refuses, and keeps its manners.

A few hundred seeded cases; `python -m tests.benchmarks.fuzz` runs many thousands, with limits of
time and memory. To see one again: `python -m tests.benchmarks.fuzz --seed 0 --only "jobs 17"`.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.fuzz import trial
from tests.support.fuzz.cases import KINDS, PLAIN, STYLE, Case, case_of
from tests.support.fuzz.mutations import block_at, mutated
from tests.support.fuzz.trial import Outcome, faults, fresh_folder, lay_out, read_alone, run

SEED = 0

FEW = {"manifests": 80, "jobs": 40, "ledgers": 20, "banks": 40, "styles": 40}
TWENTY = 20
CASES = [
    pytest.param(kind, first, id=f"{kind}-{first}")
    for kind, count in FEW.items()
    for first in range(0, count, TWENTY)
]


@pytest.fixture(autouse=True)
def _no_tracebacks(monkeypatch):
    monkeypatch.delenv("REGLET_TRACEBACK", raising=False)


@pytest.mark.parametrize(("kind", "first"), CASES)
def test_hostile_files_are_used_or_refused_with_manners(kind, first):
    for number in range(first, first + TWENTY):
        case = case_of(kind, number, SEED)
        with fresh_folder() as root:
            outcome = run(case, root)
            assert faults(case, outcome) == [], case
        with fresh_folder() as root:
            lay_out(case, root)
            assert read_alone(case, root) or outcome.code == 2, case


@pytest.mark.parametrize("kind", KINDS)
def test_a_case_is_the_same_each_time(kind):
    assert case_of(kind, 3, SEED) == case_of(kind, 3, SEED)
    assert case_of(kind, 3, SEED).files != case_of(kind, 4, SEED).files


@given(st.randoms(use_true_random=False))
def test_no_text_is_too_short_to_be_changed(dice):
    assert isinstance(mutated("", ("", "a: b"), dice), bytes)


def test_a_piece_of_yaml_ends_where_the_next_is_not_deeper():
    lines = STYLE.split("\n")
    assert block_at(lines, lines.index("page:")) == lines.index("column:")


# The judge is judged: each fault that it looks for is one that it finds.

CASE = Case("manifests", 0, ("draw", "puzzle.yaml"), "puzzle.yaml", {"puzzle.yaml": b""})
BEFORE = {"desk/puzzle.yaml": "1", "outside/secret.yaml": "2"}
REFUSED = "puzzle.yaml:1:1: found nothing, expected fields\n"


@pytest.mark.parametrize(
    ("code", "err", "changes", "fault"),
    [
        (2, REFUSED, {}, None),
        (0, "", {"desk/x.svg": "3"}, None),
        (3, "", {}, "ended with 3"),
        ("KeyError: 1", "", {}, "ended with KeyError"),
        (2, "puzzle.yaml: bad\n", {}, "without a place"),
        (1, "", {}, "without a word"),
        (2, REFUSED + "reglet: a defect in Reglet itself: KeyError: 1\n", {}, "a defect"),
        (2, REFUSED + "\x1b[31m", {}, "a terminal may obey"),
        (2, REFUSED + "x" * 3000, {}, "a message of"),
        (2, REFUSED, {"desk/x.svg": "3"}, "failed, and changed desk/x.svg"),
        (0, "", {"outside/secret.yaml": "3"}, "outside the editor's folder"),
        (0, "", {"desk/puzzle.yaml": "3"}, "which the editor wrote"),
        (0, "", {"desk/.x.svg.abc": "3"}, "left desk/.x.svg.abc behind"),
    ],
)
def test_the_judge_sees_what_must_not_be(code, err, changes, fault):
    found = faults(CASE, Outcome(code, "", err, BEFORE, {**BEFORE, **changes}))
    assert found == [] if fault is None else any(fault in each for each in found)


def test_the_judge_reads_what_was_written(tmp_path):
    for name, data in (("a.svg", b"<svg>"), ("b.pdf", b"%PDF"), ("c.png", b""), ("d.txt", b"\xff")):
        (tmp_path / name).write_bytes(data)
    assert len(list(trial.broken(sorted(tmp_path.iterdir())))) == 4


def test_what_is_plain_goes_well():
    with fresh_folder() as root:
        files = {name: text.encode() for name, text in PLAIN.items()}
        words = ("check", "puzzles", "bank/creeks.txt", "--jobs", "1")
        outcome = run(Case("banks", 0, words, "bank/creeks.txt", files), root)
    assert outcome.code == 0
    assert "11 one" in outcome.err
