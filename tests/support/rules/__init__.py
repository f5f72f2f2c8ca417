"""What the tests know of each rule: one module a rule, found by the rule's name.

- `mark(draw, board)`: hypothesis draws one mark of the rule on a small board.
- `MODELS`: for each class of the rule's constraints, what it means in CP-SAT's own words:
  `model(cp_model, digits_of_cells, constraint)`. Written from the rule's sentence, never from
  our clauses.
- `sow(board, answer, dice)`: marks of the rule that a full grid keeps, enough for a puzzle; or,
  where the rule asks something of the whole board, `before(board, dice)`: marks that the full
  full grid is then made under.
- `WRITTEN`, where it is wanted: marks as a manifest for a board of 4 writes them, for sentences
  and looks that the rule's example does not ask for.
"""

from collections.abc import Callable
from importlib import import_module
from types import ModuleType

from verify.rules import RULES


def support(name: str) -> ModuleType:
    """The module of a rule."""
    return import_module(f"tests.support.rules.{name.replace('-', '_')}")


def every_model() -> dict[type, Callable[..., None]]:
    """The models of all rules, by the class of the constraint."""
    return {kind: model for rule in RULES for kind, model in support(rule.name).MODELS.items()}
