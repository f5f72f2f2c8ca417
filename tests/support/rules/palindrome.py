"""Palindromes, for the tests."""

from tests.support.paths import sown_paths, walk
from verify.rules.lines.palindrome import Palindrome


def mark(draw, board):
    return Palindrome(walk(draw, board, 7))


def _model(model, at, rule):
    last = len(rule.cells) - 1
    for index in range(len(rule.cells) // 2):
        model.add(at[rule.cells[index]] == at[rule.cells[last - index]])


MODELS = {Palindrome: _model}


def sow(board, answer, dice):
    paths = sown_paths(board, dice, lambda path: Palindrome(path).holds(answer), (3, 7), 9)
    return tuple(map(Palindrome, paths))
