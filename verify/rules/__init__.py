"""The catalogue: every rule that a manifest can ask for, in the order in which it is told.

The list is explicit: nothing is found by scanning folders, and an unknown name is an error.
"""

from typing import Any, Final

from verify.rules import (
    arrow,
    boxes,
    cage,
    columns,
    diagonal_sum,
    diagonals,
    edge_sum,
    even,
    first_seen,
    greater,
    numbered_room,
    odd,
    regions,
    rows,
    sandwich,
    skyscraper,
    slow_thermometer,
    thermometer,
    x_sum,
)
from verify.rules.rule import Rule

RULES: Final[tuple[Rule[Any], ...]] = (
    rows.RULE,
    columns.RULE,
    boxes.RULE,
    regions.RULE,
    diagonals.RULE,
    thermometer.RULE,
    slow_thermometer.RULE,
    arrow.RULE,
    cage.RULE,
    even.RULE,
    odd.RULE,
    greater.RULE,
    sandwich.RULE,
    skyscraper.RULE,
    edge_sum.RULE,
    first_seen.RULE,
    numbered_room.RULE,
    x_sum.RULE,
    diagonal_sum.RULE,
)

BY_NAME: Final[dict[str, Rule[Any]]] = {rule.name: rule for rule in RULES}
