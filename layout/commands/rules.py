"""`reglet rules`: the catalogue, or one rule with an example, or the schemas of the files."""

import argparse
import json
from collections.abc import Callable
from typing import Any, Final

from layout.console import answer, answer_json, complain

SCHEMAS: Final = ("puzzle", "sketch", "plan", "job", "style")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the command's own arguments."""
    parser.add_argument("name", nargs="?", metavar="NAME", help="one rule, with its example")
    parser.add_argument(
        "--schema",
        choices=SCHEMAS,
        help="the JSON Schema of such a file, for an editor: a manifest is a puzzle",
    )


def run(options: argparse.Namespace) -> int:
    """Prints what was asked for."""
    if options.schema:
        answer(json.dumps(_schema_of(options.schema)(), indent=1, ensure_ascii=False))
        return 0
    return _show_one(options) if options.name else _show_all(options)


def _schema_of(kind: str) -> Callable[[], dict[str, Any]]:
    if kind == "puzzle":
        from verify.manifest.schema import puzzle_schema

        return puzzle_schema
    if kind == "sketch":
        from verify.compose.schema import sketch_schema

        return sketch_schema
    if kind == "plan":
        from verify.compose.series.schema import plan_schema

        return plan_schema
    if kind == "style":
        from layout.style.schema import style_schema

        return style_schema
    from layout.jobs.schema import job_schema

    return job_schema


def _show_all(options: argparse.Namespace) -> int:
    from verify.rules import RULES

    if options.json:
        answer_json([{"name": rule.name, "meaning": rule.meaning} for rule in RULES])
        return 0
    width = max(len(rule.name) for rule in RULES)
    for rule in RULES:
        answer(f"{rule.name:<{width}}  {rule.meaning}")
    return 0


def _show_one(options: argparse.Namespace) -> int:
    from verify.reading.problems import nearest
    from verify.rules import BY_NAME

    rule = BY_NAME.get(options.name)
    if rule is None:
        complain(f'reglet rules: unknown rule "{options.name}"; {nearest(options.name, BY_NAME)}')
        return 2
    facts = {"name": rule.name, "meaning": rule.meaning, "marks": rule.marks}
    if options.json:
        answer_json({**facts, "example": rule.example})
    else:
        answer(f"{rule.name}\n\n{rule.meaning}\nMarks: {rule.marks}.\n\n{rule.example}")
    return 0
