"""The pages of the handbook that are made, each time that it is built: a hook of mkdocs."""

import re
from pathlib import Path

from key_pages import job_page, style_page
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from pygments.formatters import HtmlFormatter
from rule_pages import rules_page

GUIDE = Path(__file__).parents[1] / "DEVELOPERS.md"

CSS = """\
.boards { display: flex; flex-wrap: wrap; }
.boards img { margin: 0 2em 1em 0; }
.rst-content table.docutils td, .rst-content table.docutils th { white-space: normal; }
"""


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Adds what is made to what is written by hand."""
    colours = HtmlFormatter(style="friendly").get_style_defs(".highlight")
    made = {
        **rules_page(),
        **job_page(),
        **style_page(),
        "contributors.md": _guide(),
        "handbook.css": f"{CSS}{colours}\n",
    }
    for name, content in made.items():
        files.append(File.generated(config, name, content=content))
    return files


def _guide() -> str:
    """The contributors' guide, its numbered lists as this Markdown wants them.

    Items stand apart, and what goes on in one is set in by four spaces.
    """
    text = GUIDE.read_text(encoding="utf-8")
    set_in = re.sub("^   (?=[^ ])", "    ", text, flags=re.MULTILINE)
    return re.sub(r"\n(?=\d+\. )", "\n\n", set_in)
