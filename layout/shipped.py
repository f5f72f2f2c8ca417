"""Files that come with the program: style sheets, and the words of the pages."""

from pathlib import Path


def shipped_styles() -> Path:
    """The folder of style sheets: inside the installed package, or at the top of a checkout."""
    package = Path(__file__).resolve().parent
    installed = package / "shipped" / "styles"
    return installed if installed.is_dir() else package.parent / "styles"


def shipped_words() -> Path:
    """The folder of the sentences that pages print, one file a language."""
    return shipped_styles() / "words"
