"""Where things lie in the checkout."""

from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).parents[2]

BOOKS: Final = ROOT / "books"
