"""The page of the rules: what each means, how its marks are written, its example drawn."""

from typing import Any

from layout import draw, svg
from verify import RULES, prove, read_puzzle
from verify.rule import Rule

WIDTH = 62.0
"""Millimetres of a picture."""

HEAD = """\
# The rules

Every rule that a manifest can ask for, in the order in which rule texts tell them. `reglet rules
NAME` prints the same. Each example is a whole manifest with one answer, which stands beside it.
"""


def rules_page() -> dict[str, str]:
    """The page and its pictures, by their names."""
    made = {"rules.md": "\n".join([HEAD, *map(_told, RULES)])}
    for rule in RULES:
        made.update(_pictures(rule))
    return made


def _told(rule: Rule[Any, Any]) -> str:
    """One rule in words, with its pictures."""
    return f"""\
## {rule.name}

{rule.meaning}

Marks: {rule.marks}.

<div class="boards" markdown>
![The example of {rule.name}](rules/{rule.name}.svg)
![Its answer](rules/{rule.name}-answer.svg)
</div>

```yaml
{rule.example.strip()}
```
"""


def _pictures(rule: Rule[Any, Any]) -> dict[str, str]:
    """The example and its answer as SVG files; the words for those who can't see are inside."""
    puzzle = read_puzzle(rule.example)
    (answer,) = prove(puzzle).answers
    return {
        f"rules/{rule.name}.svg": svg(draw(puzzle, width=WIDTH)),
        f"rules/{rule.name}-answer.svg": svg(draw(puzzle, width=WIDTH, answer=answer)),
    }
