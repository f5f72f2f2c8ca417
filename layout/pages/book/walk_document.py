"""A walk as a document of its own, for loose leaves: every page is a recto."""

from layout.language.words import Words, fill
from layout.pages.book.pagination import PlacedPage, finished_leaf
from layout.pages.common.design import Design
from layout.pages.common.format import Trim, page_format
from layout.pages.common.page import Page
from layout.pages.walk.walk_pages import PrintedWalk, walk_pages
from layout.picture.document import Document, Info, OutlineEntry
from layout.style.style import Style
from layout.type.typography import polish


def walk_document(path: PrintedWalk, style: Style, words: Words, trim: Trim) -> Document:
    """The pages of one walk. Raises Misfits for what does not fit them."""
    layout = page_format(trim, style.page, pages=0)
    design = Design(layout, style.page, style.board, words, words.language)
    pages = walk_pages(path, design)
    title = polish(path.puzzle.title, words.quote_marks)
    author = polish(path.puzzle.credits.constructor, words.quote_marks)
    leaves = tuple(
        finished_leaf(PlacedPage(page, recto=True, label=str(number)), title, design, {})
        for number, page in enumerate(pages, start=1)
    )
    return Document(leaves, Info(title, author, "", words.language), _outline(path, pages, words))


def _outline(path: PrintedWalk, pages: tuple[Page, ...], words: Words) -> tuple[OutlineEntry, ...]:
    """The walk, and every diagram under it."""
    title = polish(path.puzzle.title, words.quote_marks)
    anchors = [anchor.name for page in pages for anchor in page.anchors]
    return (
        OutlineEntry(title, path.anchor),
        *(
            OutlineEntry(fill(words.walk.step_caption, number=name.rpartition("-")[2]), name, 1)
            for name in anchors
            if name.rpartition("-")[0] == path.anchor
        ),
    )
