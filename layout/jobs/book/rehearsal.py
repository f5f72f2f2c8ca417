"""A book set before anything is proved: what its pages refuse is told at once, and drafts.

Nothing is known of answers, grades and walks yet: boards of answers stay empty, and hints and
walks are left out.
"""

from collections import deque
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from itertools import chain
from typing import Final

from layout.jobs.book.book_job import BookJob
from layout.jobs.book.lay_out import lay_out, plan
from layout.jobs.common.job import Job
from layout.jobs.common.placing import told_in_place
from layout.jobs.common.reading import Listed
from layout.language.words import words_for
from layout.pages.book.pagination import Paginated
from layout.pages.common.book import Numbered
from layout.picture.document import DrawnLater, Leaf
from layout.style.style import Style
from layout.type.paragraph import one_line
from verify.walk.report.grade import Band, Grade

UNKNOWN: Final = Grade(Band.UNGRADED, None, None)

FROM_EDGE: Final = 2.5
"""Millimetres from the lower edge of the page to the line that says what a draft is."""


def rehearse(job: Job[BookJob], listed: Sequence[Listed], style: Style) -> Paginated:
    """The book as far as it is known unproved.

    Raises Unreadable with everything that has no room on its page, or can't be drawn.
    """
    numbered = [
        (each.file.group, Numbered(number, each.puzzle, (), None, UNKNOWN))
        for number, each in enumerate(listed, start=1)
    ]
    book = replace(plan(job, numbered), hints=0, walks=())
    laid = lay_out(job, book, style)
    with told_in_place(job):
        for leaf in laid.document.leaves:
            deque(leaf.items, maxlen=0)
    return laid


def as_draft(laid: Paginated, style: Style, language: str) -> Paginated:
    """The same pages, each marked as a draft."""
    sentence = words_for(language).pages.draft
    leaves = tuple(_marked(leaf, sentence, style) for leaf in laid.document.leaves)
    return replace(laid, document=replace(laid.document, leaves=leaves))


def _marked(leaf: Leaf, sentence: str, style: Style) -> Leaf:
    line = one_line(sentence, style.page.faces.note)
    x = (leaf.width - line.width) / 2
    mark = tuple(line.at(x, leaf.height - FROM_EDGE))
    return replace(leaf, items=DrawnLater(partial(chain, leaf.items, mark)))
