"""Parts of words alone: foreword, afterword, and what is said about the constructors."""

from layout.pages.book.book_part import BookPart, ContentsEntry
from layout.pages.common.design import Design
from layout.pages.common.misfit import JobPath
from layout.pages.common.prose_pages import opener_pages


def words_part(
    title: str, text: str, path: JobPath, design: Design, *, front_matter: bool = False
) -> BookPart | None:
    """A title and pages of words, which stand at `path` in the job; None where there are none."""
    if not text:
        return None
    anchor = str(path[-1])
    return BookPart(
        lambda _: opener_pages(title, "", text, anchor, design, words_path=path),
        (ContentsEntry(title, anchor),),
        front_matter=front_matter,
    )
