"""A proof held against its formula, step by step: reverse unit propagation, and RAT.

A clause follows by reverse unit propagation (RUP) where supposing all its literals false leads,
by clauses with one literal left, to a contradiction. Where it does not, it may still be added if
it is a resolution asymmetric tautology (RAT) on its first literal: each of its resolvents on that
literal follows by RUP. Either way a formula that had a model still has one; so where the empty
clause is reached, there was none. (Format and rules: Wetzler, Heule and Hunt, "DRAT-trim:
Efficient Checking and Trimming Using Expressive Clausal Proofs", SAT 2014.)

As proof checkers commonly do, a deletion of a clause that is unit by what is known is passed over:
solvers delete what is satisfied, and go on using what it gave.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import Final

from verify.certificate.reading import Clause, Cnf, Step
from verify.certificate.refused import Refused

BETWEEN_LOOKS: Final = 256
"""Clauses or steps between two looks at the clock."""


def check_refutation(cnf: Cnf, steps: Iterable[Step], file: str, look: Callable[[], None]) -> int:
    """How many lemmas were checked up to the empty clause, which ends the proof.

    `file` is the proof's name. `look` is called now and then, and may raise. Raises Refused at
    the line of a clause that does not follow, and where the proof ends without the empty clause.
    """
    known = Clauses(cnf.variables, look)
    for clause in cnf.clauses:
        known.add(clause)
    lemmas, line = 0, 1
    for step in steps:
        line = step.line
        look()
        if step.deletes:
            if not known.delete(step.clause):
                raise Refused(file, line, "a clause is deleted that is not there")
            continue
        if not known.follows(step.clause) and not known.follows_by_resolvents(step.clause):
            raise Refused(file, line, "the clause does not follow from those before it")
        lemmas += 1
        if not step.clause:
            return lemmas
        known.add(step.clause)
    raise Refused(file, line, "the proof ends without the empty clause")


class Clauses:
    """Clauses with two watched literals each, and all that follows from them by propagation.

    A literal's value is 1 where it holds, -1 where its opposite does, 0 while nothing is known.
    Lists by literal are as long as twice the variables and one, so that -5 counts from their end.
    """

    def __init__(self, variables: int, look: Callable[[], None]) -> None:
        room = 2 * variables + 1
        self._look = look
        self._values = [0] * room
        self._watching: list[list[Clause]] = [[] for _ in range(room)]
        self._pairs: list[list[int]] = [[] for _ in range(room)]
        self._trail: list[int] = []
        self._refuted = False
        self._added: list[Clause] = []
        self._copies: dict[tuple[int, ...], list[Clause]] | None = None

    def add(self, clause: Clause) -> None:
        """Adds a clause, and what now follows."""
        literals = list(dict.fromkeys(clause))
        self._added.append(literals)
        if self._copies is not None:
            self._copies.setdefault(_key(literals), []).append(literals)
        if len(self._added) % BETWEEN_LOOKS == 0:
            self._look()
        # Literals that are not false come first: so both watched ones are, where there are two.
        literals.sort(key=lambda literal: self._values[literal] < 0)
        self._watch(literals)
        if not literals or self._values[literals[0]] < 0:
            self._refuted = True
        elif len(literals) == 1 or self._values[literals[1]] < 0:
            self._refuted |= not self._suppose(literals[0])

    def _watch(self, literals: Clause) -> None:
        if len(literals) == 2:
            one, other = literals
            self._pairs[-one].append(other)
            self._pairs[-other].append(one)
        elif len(literals) > 2:
            self._watching[literals[0]].append(literals)
            self._watching[literals[1]].append(literals)

    def delete(self, clause: Clause) -> bool:
        """Deletes one copy of a clause; whether there was one. One that is unit stays."""
        copies = self._by_content().get(_key(clause))
        if not copies:
            return False
        literals = copies[-1]
        if self._is_unit(literals):
            return True
        copies.pop()
        if len(literals) == 2:
            one, other = literals
            self._pairs[-one].remove(other)
            self._pairs[-other].remove(one)
        else:
            literals.clear()  # watch lists let it go when they meet it
        return True

    def _by_content(self) -> dict[tuple[int, ...], list[Clause]]:
        """The copies of each clause: a table that is made when it is first asked for."""
        if self._copies is None:
            self._copies = {}
            for literals in self._added:
                self._copies.setdefault(_key(literals), []).append(literals)
        return self._copies

    def _is_unit(self, literals: Clause) -> bool:
        """Whether all literals but a true one are false, or there is none or one."""
        values = [self._values[literal] for literal in literals]
        return len(values) < 2 or (values.count(-1) == len(values) - 1 and 1 in values)

    def follows(self, clause: Iterable[int]) -> bool:
        """Whether a clause follows by reverse unit propagation."""
        if self._refuted:
            return True
        before = len(self._trail)
        found = not all(self._suppose(-literal) for literal in clause)
        self._forget(before)
        return found

    def follows_by_resolvents(self, clause: Clause) -> bool:
        """Whether each resolvent of a clause on its first literal follows."""
        if not clause:
            return False
        # Propagation puts the literals of clauses in another order: so each list is made before.
        return all(
            self.follows([*clause, *[each for each in other if each != -clause[0]]])
            for other in self._with(-clause[0])
        )

    def _with(self, literal: int) -> Iterator[Clause]:
        """The clauses that hold a literal."""
        for number, (key, copies) in enumerate(self._by_content().items()):
            if number % BETWEEN_LOOKS == 0:
                self._look()
            if copies and literal in key:
                self._look()
                yield copies[0]

    def _forget(self, before: int) -> None:
        """Takes back all that was supposed since the trail had this length."""
        values = self._values
        for literal in self._trail[before:]:
            values[literal] = values[-literal] = 0
        del self._trail[before:]

    def _suppose(self, literal: int) -> bool:
        """Makes a literal true, and all that follows; False at a contradiction."""
        values = self._values
        if values[literal]:
            return values[literal] > 0
        values[literal], values[-literal] = 1, -1
        trail = self._trail
        head = len(trail)
        trail.append(literal)
        while head < len(trail):
            literal = trail[head]
            head += 1
            for other in self._pairs[literal]:
                if values[other] > 0:
                    continue
                if values[other] < 0:
                    return False
                values[other], values[-other] = 1, -1
                trail.append(other)
            if self._watching[-literal] and not self._pass_on(-literal):
                return False
        return True

    def _pass_on(self, false: int) -> bool:
        """Finds other literals to watch in place of one that became false, or what is left.

        False where a clause has no literal left.
        """
        values, watching, trail = self._values, self._watching, self._trail
        waiting = watching[false]
        staying = watching[false] = []
        for index, clause in enumerate(waiting):
            if not clause:
                continue
            if clause[0] == false:
                clause[0], clause[1] = clause[1], false
            first = clause[0]
            if values[first] > 0:
                staying.append(clause)
                continue
            for at in range(2, len(clause)):
                other = clause[at]
                if values[other] >= 0:
                    clause[1], clause[at] = other, false
                    watching[other].append(clause)
                    break
            else:
                staying.append(clause)
                if values[first] < 0:
                    staying.extend(waiting[index + 1 :])
                    return False
                values[first], values[-first] = 1, -1
                trail.append(first)
        return True


def _key(clause: Iterable[int]) -> tuple[int, ...]:
    """What two clauses with the same literals have in common."""
    return tuple(sorted(set(clause)))
