"""The screen edition: its structure tree, read back by programs that had no part in it."""

from collections.abc import Iterator
from ctypes import POINTER, c_ushort, cast, create_string_buffer
from dataclasses import replace
from functools import cache
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from pypdfium2 import raw

from layout.jobs.book.editions import on_screen
from layout.language.words import read_words
from layout.picture.document import Document, Info, Leaf
from layout.picture.items import Text
from layout.preflight.checks.standard import check_standard
from layout.preflight.reading.opening import read_bytes
from layout.telling.board_in_words import board_in_words
from layout.type.face import Face
from layout.type.paragraph import one_line
from layout.writers.passages import passages
from layout.writers.pdf import pdf_of_document
from tests.support.books import book_of, manifest, printed, rule_examples

PAINTS = {"f", "F", "f*", "B", "B*", "b", "b*", "S", "s", "sh", "Do", "Tj", "TJ", "'", '"'}

INTRO = (
    "The creeks have *drained*, and the herons stand about like posts. They do so for hours on "
    "end, and nobody minds.\n\nThen the water comes back to the saltmarsh, and it takes its time "
    "over every creek."
)


@cache
def made(language="en-GB"):
    """A small book, and its screen edition."""
    sections = [
        ("Low Water", INTRO, rule_examples()[:3], 1),
        ("High Water", "", [manifest(1), manifest(2)], 2),
    ]
    book = book_of(sections)
    _, laid = printed(book, language=language)
    return book, pdf_of_document(on_screen(laid.document), tagged=True)


def told(read, element):
    """A string of an element."""
    size = read(element, None, 0)
    buffer = create_string_buffer(size)
    read(element, buffer, size)
    return buffer.raw.decode("utf-16-le").rstrip("\0")


def elements(data) -> Iterator[tuple[str, str, str]]:
    """Kind, alternative and text of every element that has marked content, by pdfium."""
    pdf = pypdfium2.PdfDocument(data)
    for page in pdf:
        texts = {}
        words = page.get_textpage()
        for each in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
            number = raw.FPDFPageObj_GetMarkedContentID(each)
            size = raw.FPDFTextObj_GetText(each, words, None, 0)
            buffer = create_string_buffer(size)
            raw.FPDFTextObj_GetText(each, words, buffer_as_ushort(buffer), size)
            said = buffer.raw.decode("utf-16-le").rstrip("\0")
            texts[number] = texts.get(number, "") + said
        tree = raw.FPDF_StructTree_GetForPage(page)
        for index in range(raw.FPDF_StructTree_CountChildren(tree)):
            yield from under(raw.FPDF_StructTree_GetChildAtIndex(tree, index), texts)
        raw.FPDF_StructTree_Close(tree)


def buffer_as_ushort(buffer):
    return cast(buffer, POINTER(c_ushort))


def under(element, texts):
    kind = told(raw.FPDF_StructElement_GetType, element)
    numbers = [
        raw.FPDF_StructElement_GetMarkedContentIdAtIndex(element, index)
        for index in range(raw.FPDF_StructElement_GetMarkedContentIdCount(element))
    ]
    alt = told(raw.FPDF_StructElement_GetAltText, element)
    said = "".join(texts.get(number, "") for number in numbers if number >= 0)
    if kind not in ("Document", ""):  # nameless are the references to annotations
        yield kind, alt, said
    for index in range(raw.FPDF_StructElement_CountChildren(element)):
        child = raw.FPDF_StructElement_GetChildAtIndex(element, index)
        if child:
            yield from under(child, texts)


def test_headings_paragraphs_and_grids_are_read_back_in_order():
    book, data = made()
    found = list(elements(data))
    kinds = [kind for kind, _, _ in found]
    assert set(kinds) == {"H1", "H2", "P", "Link", "Figure"}
    said = [(kind, text.strip()) for kind, _, text in found if kind in ("H1", "H2")]
    titles = [each.puzzle.title for each in book.puzzles()]
    assert said[0] == ("H1", "The Small Almanac")
    parts = [text for kind, text in said if kind == "H1"][1:]
    assert parts[0:2] == ["Contents", "How to solve"]
    assert parts[2:] == ["Low Water", "High Water", "Answers", "Constructors"]
    assert [text for kind, text in said if kind == "H2"][-2 * len(titles) :] == titles * 2
    paragraphs = [text.strip() for kind, _, text in found if kind == "P"]
    first, second = INTRO.replace("*", "").split("\n\n")
    assert paragraphs[paragraphs.index(first) + 1] == second


@pytest.mark.parametrize("language", ["en-GB", "de"])
def test_every_grid_is_told_row_by_row_in_the_language_of_the_book(language):
    book, data = made(language)
    words = read_words(language[:2])
    alts = [alt for kind, alt, _ in elements(data) if kind == "Figure"]
    assert all(alts)
    for each in book.puzzles():
        for grid in (None, each.answer):
            assert " ".join(board_in_words(each.puzzle, words, grid)) in alts


def test_diagrams_of_a_walk_tell_what_stands_in_the_grid_so_far():
    book = book_of([("Low Water", "", [manifest(1)], 1)])
    (one,) = book.puzzles()
    _, laid = printed(replace(book, walks=(one,)), language="de")
    alts = [alt for _, alt, _ in elements(pdf_of_document(laid.document, tagged=True)) if alt]
    # the example that teaches and its answer, the puzzle with its grade, the walk with the same
    diagrams = [alt for alt in alts[6:-1] if alt.startswith("Ein Gitter")]
    assert diagrams
    assert all("Zeile 1: " in alt for alt in diagrams)
    assert one.puzzle.title not in alts


def test_everything_painted_is_an_element_or_passed_over_and_neither_holds_the_other():
    with pikepdf.open(BytesIO(made()[1])) as pdf:
        for page in pdf.pages:
            open_marks, numbers = [], []
            for each in pikepdf.parse_content_stream(page):
                operands, name = each.operands, str(each.operator)
                if name in ("BMC", "BDC"):
                    open_marks.append(str(operands[0]))
                    assert len(open_marks) == 1
                    numbers += [int(operands[1].MCID)] if name == "BDC" else []
                elif name == "EMC":
                    open_marks.pop()
                assert open_marks or name not in PAINTS
            assert numbers == list(range(len(numbers)))
            parents = dict(zip(*[iter(pdf.Root.StructTreeRoot.ParentTree.Nums)] * 2, strict=True))
            assert len(parents[page.StructParents]) == len(numbers)


def test_links_are_elements_that_say_where_they_lead():
    with pikepdf.open(BytesIO(made()[1])) as pdf:
        numbers = iter(pdf.Root.StructTreeRoot.ParentTree.Nums)
        parents = dict(zip(map(int, numbers), numbers, strict=True))
        count = 0
        for page in pdf.pages:
            assert page.Tabs == "/S"
            for annotation in page.get("/Annots", []):
                element = parents[int(annotation.StructParent)]
                assert element.S == "/Link"
                assert element.K[1].Obj.objgen == annotation.objgen
                assert str(annotation.Contents)
                count += 1
        assert count > 20


def test_the_file_says_what_it_keeps_to():
    with pikepdf.open(BytesIO(made()[1])) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.Root.Lang) == "en-GB"
        with pdf.open_metadata() as told_there:
            assert told_there["{http://www.aiim.org/pdfua/ns/id/}part"] == "1"
            assert told_there["dc:title"] == "The Small Almanac"
        assert pdf.pages[0].MediaBox == pdf.pages[0].TrimBox


def test_it_looks_like_the_pages_that_are_printed():
    book, data = made()
    _, laid = printed(book)
    plain = pypdfium2.PdfDocument(pdf_of_document(on_screen(laid.document)))
    for one, other in zip(plain, pypdfium2.PdfDocument(data), strict=True):
        first, second = (each.render(scale=0.7).to_numpy() for each in (one, other))
        assert (first == second).all()


FACE = Face("Spectral Regular", 4.0, 5.0)


def heard(*placed):
    """The paragraphs that lines at some places make."""
    items = [text for x, y, words in placed for text in one_line(words, FACE).at(x, y)]
    return [
        "".join(item.text for run in each.runs for item in run.items if isinstance(item, Text))
        for each in passages(items)
    ]


@pytest.mark.parametrize(
    ("placed", "wanted"),
    [
        ([(0, 0, "low"), (0, 5, "water")], ["low water"]),
        ([(4, 0, "low"), (0, 5, "water")], ["low water"]),
        ([(0, 0, "low"), (4, 5, "water")], ["low", "water"]),
        ([(0, 0, "low"), (0, 10, "water")], ["low", "water"]),
        ([(0, 5, "low"), (40, 0, "water")], ["low", "water"]),
        ([(0, 0, "salt-"), (0, 5, "marsh")], ["salt-marsh"]),
        ([(0, 0, "low"), (30, 0, "water")], ["low water"]),
    ],
)
def test_lines_that_lie_together_are_a_paragraph(placed, wanted):
    assert heard(*placed) == wanted


def test_lines_of_other_sizes_are_passages_of_their_own():
    large = one_line("low", replace(FACE, size=6.0)).at(0, 0)
    found = list(passages([*large, *one_line("water", FACE).at(0, 5)]))
    assert [each.kind for each in found] == ["P", "P"]


def test_the_same_document_gives_the_same_bytes():
    leaf = Leaf(50, 50, tuple(one_line("marsh", FACE).at(5, 10)), "1")
    document = Document((leaf,), Info("Marsh"))
    assert pdf_of_document(document, tagged=True) == pdf_of_document(document, tagged=True)


def judged(spoil=None):
    """What our own reader says of the file, after something was done to it."""
    with pikepdf.open(BytesIO(made()[1])) as pdf:
        if spoil:
            spoil(pdf)
        data = BytesIO()
        pdf.save(data, force_version="1.7")
    return {each.words for each in check_standard(read_bytes(data.getvalue(), "screen.pdf"))}


def tagged_as(kind, nth=0, **more):
    """Makes elements of another kind of the nth one of a kind, or of its keys."""

    def spoil(pdf):
        found = [each for each in pdf.objects if isinstance(each, pikepdf.Dictionary)]
        element = [each for each in found if each.get("/S") == f"/{kind}" and "/P" in each][nth]
        for key, value in more.items():
            element[f"/{key}"] = value

    return spoil


def painted(content):
    def spoil(pdf):
        pdf.pages[0].contents_add(content)

    return spoil


def untold(key):
    def spoil(pdf):
        del pdf.Root[key]

    return spoil


def mute(pdf):
    page = next(page for page in pdf.pages if "/Annots" in page)
    del page.Annots[0].Contents
    del page.Tabs


def test_our_own_reader_finds_nothing():
    assert judged() == set()


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (tagged_as("H1", S=pikepdf.Name.H3), "allows no H3 after no heading (7.4.2)"),
        (tagged_as("Figure", Alt=""), "asks for words in the place of each Figure (7.3)"),
        (tagged_as("P", S=pikepdf.Name.Creek), "knows no type Creek (7.1)"),
        (tagged_as("P", S=pikepdf.Name.TD), "allows no TD in Document (7.2)"),
        (tagged_as("Link", K=0), "asks for a link in each Link (7.18.5)"),
        (mute, "asks for words for each link, and an element (7.18.5)"),
        (mute, "asks that links are gone through in the order of the tree (7.18.3)"),
        (painted(b" 9 9 9 9 re f"), "allows no content that is neither tagged nor passed over"),
        (painted(b"/Artifact BMC /P <</MCID 99>> BDC EMC EMC"), "allows no tag within what is"),
        (untold("/Lang"), "asks for a language (7.2)"),
        (untold("/MarkInfo"), "asks for Marked, and no Suspects (6.2)"),
        (untold("/ViewerPreferences"), "asks that the title is shown (7.1)"),
    ],
)
def test_what_a_screen_reader_stumbles_over_is_named_by_its_clause(spoil, words):
    assert any(words in told for told in judged(spoil)), judged(spoil)
