"""The proof checker against others: a naive one, a solver's propagation, and plain models."""

import random

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from pysat.solvers import Solver

from tests.support.certified import naive_closure
from verify.certificate.reading import Cnf, Step, read_proof
from verify.certificate.refused import Refused
from verify.certificate.refutation import Clauses, check_refutation

VARIABLES = 6
LITERALS = st.sampled_from([each for n in range(1, VARIABLES + 1) for each in (n, -n)])
CLAUSES = st.lists(LITERALS, min_size=1, max_size=4)
FORMULAS = st.lists(CLAUSES, max_size=40)


def nothing():
    return None


def cnf_of(clauses, variables=VARIABLES):
    return Cnf(variables, [list(each) for each in clauses], list(range(len(clauses))), {})


def steps(*lemmas):
    return [Step(at, False, list(lemma)) for at, lemma in enumerate(lemmas, start=1)]


def refuted(clauses, lemmas):
    try:
        check_refutation(cnf_of(clauses), lemmas, "a.drat", nothing)
    except Refused:
        return False
    return True


def knowing(clauses):
    known = Clauses(VARIABLES, nothing)
    for clause in clauses:
        known.add(list(clause))
    return known


def has_model(clauses):
    with Solver(name="minisat22", bootstrap_with=clauses) as solver:
        return solver.solve()


def crowded(seed):
    """So many clauses of three literals that there is hardly ever a model."""
    dice = random.Random(seed)
    return [
        [dice.choice((1, -1)) * each for each in dice.sample(range(1, VARIABLES + 3), 3)]
        for _ in range(90)
    ]


@pytest.mark.parametrize("name", ["glucose4", "cadical153", "cadical195"])
@given(seed=st.integers(0, 2**32))
def test_proofs_of_solvers_are_accepted(name, seed):
    clauses = crowded(seed)
    assume(not has_model(clauses))
    with Solver(name=name, bootstrap_with=clauses, with_proof=True) as solver:
        assert not solver.solve()
        logged = solver.get_proof()
    # A solver that sees the contradiction while it reads may log nothing.
    text = "".join(f"{line.strip()}\n" for line in [*logged, "0"]).encode()
    cnf = cnf_of(clauses, VARIABLES + 2)
    check_refutation(cnf, read_proof(text, "a.drat", VARIABLES + 2), "a.drat", nothing)


@given(seed=st.integers(0, 2**32), dropped=st.integers(0, 10), flipped=st.integers(0, 10))
def test_a_naive_checker_says_the_same_of_spoiled_proofs(seed, dropped, flipped):
    clauses = crowded(seed)
    assume(not has_model(clauses))
    with Solver(name="glucose4", bootstrap_with=clauses, with_proof=True) as solver:
        solver.solve()
        logged = [line for line in solver.get_proof() if not line.startswith("d")]
    lemmas = [list(map(int, line.split()))[:-1] for line in [*logged, "0"]]
    del lemmas[dropped : dropped + 2]
    if flipped < len(lemmas) and lemmas[flipped]:
        lemmas[flipped][0] *= -1
    cnf = cnf_of(clauses, VARIABLES + 2)
    try:
        check_refutation(cnf, steps(*lemmas), "a.drat", nothing)
        line = None
    except Refused as refused:
        line = refused.line
    assert line == naive_line(clauses, lemmas)


def naive_line(clauses, lemmas):
    """The line of the first lemma that does not follow; of the last, if none is empty."""
    known = [*clauses]
    for line, lemma in enumerate(lemmas, start=1):
        if naive_closure(known, [-each for each in lemma]) is not None:
            if not lemma or not is_rat(known, lemma):
                return line
        elif not lemma:
            return None
        known.append(lemma)
    return len(lemmas) or 1


def is_rat(clauses, lemma):
    return all(
        naive_closure(clauses, [-each for each in (*lemma, *(set(other) - {-lemma[0]}))]) is None
        for other in clauses
        if -lemma[0] in other
    )


@given(clauses=FORMULAS, lemma=CLAUSES | st.just([]))
def test_what_follows_is_what_a_naive_checker_finds(clauses, lemma):
    known = knowing(clauses)
    expected = naive_closure(clauses, [-literal for literal in lemma]) is None
    assert known.follows(lemma) == expected
    assert known.follows(lemma) == expected  # asking has changed nothing


@given(clauses=FORMULAS, gone=st.lists(st.integers(0, 39), max_size=15), lemma=CLAUSES)
def test_deleted_clauses_are_not_used_but_for_units(clauses, gone, lemma):
    known, left = knowing(clauses), [list(each) for each in clauses]
    closed = naive_closure(left, [])
    assume(closed is not None)
    true = closed or set()
    for at in gone:
        if at < len(clauses):
            clause = set(clauses[at])
            same = [each for each in left if set(each) == clause]
            assert known.delete(clauses[at]) == bool(same)
            open_ = {literal for literal in clause if -literal not in true}
            if same and not (len(clause) == 1 or (len(open_) == 1 and open_ <= true)):
                left.remove(same[0])
    assert known.follows(lemma) == (naive_closure(left, [-each for each in lemma]) is None)


@given(clauses=FORMULAS, tried=st.lists(CLAUSES, max_size=12), gone=st.integers(0, 39))
def test_what_is_accepted_never_takes_the_last_model(clauses, tried, gone):
    assume(has_model(clauses))
    known, live = knowing(clauses), [list(each) for each in clauses]
    for lemma in tried:
        if known.follows(lemma) or known.follows_by_resolvents(lemma):
            known.add(lemma)
            live.append(lemma)
        elif gone < len(clauses) and known.delete(clauses[gone]):
            # One that is unit stays, whatever is said; what is left then has a model all the more.
            same = [each for each in live if set(each) == set(clauses[gone])]
            live = [each for each in live if not same or each is not same[0]]
        assert has_model(live)


def test_a_clause_may_be_added_that_is_rat_on_its_first_literal():
    base = [[1, 2]]
    assert knowing(base).follows_by_resolvents([3, -1])
    assert not knowing(base).follows([3, -1])
    assert knowing([*base, [3, -1]]).follows_by_resolvents([-3, 1])
    assert not knowing([*base, [3, -1]]).follows_by_resolvents([-3])
    assert knowing([*base, [3, 1]]).follows_by_resolvents([-1, -3]) is False


def test_rat_is_asked_of_the_first_literal_only():
    clauses = [[-1, 2], [3, 4]]
    assert not knowing(clauses).follows_by_resolvents([1, 5])
    assert knowing(clauses).follows_by_resolvents([5, 1])


FOUR = [[1, 2], [-1, 2], [1, -2], [-1, -2]]


def test_a_proof_must_end_with_the_empty_clause():
    assert refuted(FOUR, steps([2], []))
    assert not refuted(FOUR, steps([2]))
    assert not refuted(FOUR, [])
    assert not refuted(FOUR[:3], steps([2], []))


def test_a_refusal_has_its_line():
    with pytest.raises(Refused) as refused:
        check_refutation(cnf_of(FOUR[:3]), steps([2], [-1, -2], []), "a.drat", nothing)
    assert (refused.value.line, refused.value.file) == (2, "a.drat")
    unknown = [Step(7, True, [1, 3])]
    with pytest.raises(Refused, match="not there") as refused:
        check_refutation(cnf_of(FOUR), unknown, "a.drat", nothing)
    assert refused.value.line == 7


def test_a_deleted_clause_is_not_there_again():
    known = knowing([[1, 2], [1, 2], [1, 3, 4]])
    assert [known.delete([2, 1]) for _ in range(3)] == [True, True, False]
    assert not known.follows([1, 2])
    assert known.delete([4, 3, 1])
    assert not known.follows([1, 3, 4])


def test_it_looks_at_the_clock():
    looked = []
    check_refutation(cnf_of(FOUR * 200), steps([2], []), "a.drat", lambda: looked.append(1))
    assert len(looked) > 4
