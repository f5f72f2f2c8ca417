"""The option `--language` of every command that prints sentences."""

import argparse
from typing import Final

USUAL_LANGUAGE: Final = "en"


def add_language(parser: argparse.ArgumentParser) -> None:
    """Adds the option."""
    parser.add_argument(
        "--language", type=_language, default=USUAL_LANGUAGE, metavar="CODE", help="such as de"
    )


def _language(text: str) -> str:
    from layout.language.words import languages

    if text not in languages():
        raise argparse.ArgumentTypeError(f"found {text!r}, expected {' or '.join(languages())}")
    return text
