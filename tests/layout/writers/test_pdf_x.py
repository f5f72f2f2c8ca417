"""A file as a press asks for: PDF/X-1a:2003, key by key, and as other programs see it."""

import shutil
import subprocess
from datetime import UTC, datetime
from functools import cache
from io import BytesIO

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from layout.library import draw
from layout.picture.document import Document, Info, Leaf
from layout.picture.items import Anchor, Link
from layout.preflight.preflight import Terms, preflight
from layout.preflight.reading.opening import read_bytes
from layout.writers.pdf import pdf_of_document
from layout.writers.pdf_x import X1A, Press, press_of
from tests.support.books import manifest
from verify.manifest.read import puzzle_from_text


@cache
def document():
    """A page with a puzzle on it, an anchor and a link to it."""
    picture = draw(puzzle_from_text(manifest(1)), width=90)
    items = (*picture.items, Anchor("reed", 10), Link(10, 10, 10, 10, "reed"))
    return Document((Leaf(150, 200, items, "1", 3),), Info("Reeds", "Ida Marsh"))


@cache
def pressed():
    return pdf_of_document(document(), Press())


def spoiled(spoil):
    with pikepdf.open(BytesIO(pressed())) as pdf:
        saving = spoil(pdf) or {}
        data = BytesIO()
        pdf.save(data, **{"force_version": "1.4", **saving})
        return data.getvalue()


def standard_of(data):
    terms = Terms(standard=X1A)
    found = preflight(read_bytes(data, "reeds.pdf"), terms)
    return [each.words for each in found if each.check in ("standard", "metadata")]


def test_it_keeps_its_standard_key_by_key():
    assert standard_of(pressed()) == []
    with pikepdf.open(BytesIO(pressed())) as pdf:
        info, (intent,) = pdf.docinfo, pdf.Root.OutputIntents
        assert (str(info["/GTS_PDFXVersion"]), info["/Trapped"]) == (X1A, Name("/False"))
        assert str(info["/CreationDate"]) == str(info["/ModDate"]) == "D:20000101000000Z"
        assert (intent.S, str(intent.RegistryName)) == (Name.GTS_PDFX, "http://www.color.org")
        assert str(intent.OutputConditionIdentifier) == "CGATS TR 001"
        assert "/Annots" not in pdf.pages[0].obj
        assert "/Outlines" not in pdf.Root


def test_the_same_file_without_a_press_claims_nothing_and_has_its_link():
    plain = pdf_of_document(document())
    assert standard_of(plain) == [f"the file does not claim {X1A}, which its job asks for"]
    with pikepdf.open(BytesIO(plain)) as pdf:
        assert len(pdf.pages[0].Annots) == 1


def test_its_date_is_told_from_outside(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "9" * 30)
    assert press_of("FOGRA52") == Press("FOGRA52")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1800000000")
    told = press_of("FOGRA52")
    assert told == Press("FOGRA52", datetime(2027, 1, 15, 8, tzinfo=UTC))
    data = pdf_of_document(document(), told)
    assert data == pdf_of_document(document(), told)
    with pikepdf.open(BytesIO(data)) as pdf:
        assert str(pdf.docinfo["/ModDate"]) == "D:20270115080000Z"
        assert str(pdf.Root.OutputIntents[0].OutputConditionIdentifier) == "FOGRA52"


def forget(key):
    def spoil(pdf):
        del pdf.docinfo[key]

    return spoil


def trap_who_knows(pdf):
    pdf.docinfo["/Trapped"] = Name("/Unknown")


def date_otherwise(pdf):
    pdf.docinfo["/ModDate"] = "D:20300101000000Z"


def claim_another(pdf):
    pdf.docinfo["/GTS_PDFXVersion"] = "PDF/X-3:2003"


def drop_intents(pdf):
    del pdf.Root.OutputIntents


def two_intents(pdf):
    pdf.Root.OutputIntents.append(pdf.Root.OutputIntents[0])


def forget_of_intent(key):
    def spoil(pdf):
        del pdf.Root.OutputIntents[0][key]

    return spoil


def link_on_the_page(pdf):
    note = Dictionary(Type=Name.Annot, Subtype=Name.Link, Rect=Array([90, 90, 99, 99]))
    note.A = Dictionary(S=Name.URI, URI="http://www.color.org")
    pdf.pages[0].Annots = Array([note])


def open_with_an_action(pdf):
    pdf.Root.OpenAction = Dictionary(S=Name.Named, N=Name.NextPage)


def form(pdf):
    pdf.Root.AcroForm = Dictionary(Fields=Array([]))


def layers(pdf):
    pdf.Root.OCProperties = Dictionary(OCGs=Array([]))


def group(pdf):
    pdf.pages[0].Group = Dictionary(S=Name.Transparency)


def see_through(pdf):
    page = pdf.pages[0]
    state = Dictionary(G0=Dictionary(ca=0.5))
    page.Resources = Dictionary(Font=page.Resources.Font, ExtGState=state)
    page.contents_add(pdf.make_stream(b"/G0 gs 0 g 50 50 9 9 re f"))


def red(pdf):
    pdf.pages[0].contents_add(pdf.make_stream(b"1 0 0 rg 50 50 9 9 re f"))


def two_trims(pdf):
    pdf.pages[0].ArtBox = pdf.pages[0].TrimBox


def unembed(pdf):
    font = next(iter(pdf.pages[0].Resources.Font.values()))
    del font.FontDescriptor.FontFile2


def newer(pdf):
    return {"force_version": "1.6"}


def packed(pdf):
    return {"object_stream_mode": pikepdf.ObjectStreamMode.generate, "force_version": "1.5"}


def locked(pdf):
    return {"encryption": pikepdf.Encryption(owner="reed", user="", R=3, aes=False, metadata=False)}


SPOILED = {
    "no title": (forget("/Title"), "asks for Title"),
    "no date": (forget("/CreationDate"), "asks for CreationDate"),
    "no second date": (forget("/ModDate"), "asks for ModDate"),
    "no trapped": (forget("/Trapped"), "found none for Trapped"),
    "trapped unknown": (trap_who_knows, "found /Unknown for Trapped"),
    "two dates": (date_otherwise, "ModDate is"),
    "another claim": (claim_another, "does not claim PDF/X-1a:2003"),
    "no claim": (forget("/GTS_PDFXVersion"), "does not claim PDF/X-1a:2003"),
    "no intent": (drop_intents, "found 0 output intents"),
    "two intents": (two_intents, "found 2 output intents"),
    "no condition": (forget_of_intent("/OutputConditionIdentifier"), "names no condition"),
    "no info": (forget_of_intent("/Info"), "has no Info"),
    "no registry": (forget_of_intent("/RegistryName"), "neither a profile nor the registry"),
    "a link": (link_on_the_page, "allows no annotation such as Link"),
    "an action": (open_with_an_action, "allows no action when it is opened"),
    "a form": (form, "allows no form"),
    "layers": (layers, "allows no layers"),
    "a group": (group, "the page is a group"),
    "transparency": (see_through, "allows no transparency"),
    "red": (red, "allows no colour in DeviceRGB"),
    "two trims": (two_trims, "a trim box or an art box"),
    "a font outside": (unembed, "asks for embedded fonts"),
    "a newer version": (newer, "found the header '%PDF-1.6'"),
    "packed objects": (packed, "allows no packed objects"),
    "a lock": (locked, "allows no encryption"),
}
"""What is done to the file, and how it is named."""


@pytest.mark.parametrize("name", SPOILED)
def test_each_key_that_is_spoiled_is_named(name):
    spoil, words = SPOILED[name]
    found = standard_of(spoiled(spoil))
    assert any(words in each for each in found), found


PROGRAMS = {
    "qpdf": ("--check", "FILE"),
    "pdfinfo": ("FILE",),
    "gs": ("-q", "-dPDFSTOPONERROR", "-dBATCH", "-dNOPAUSE", "-sDEVICE=inkcov", "-o", "-", "FILE"),
    "mutool": ("draw", "-q", "-F", "txt", "-o", "OUT", "FILE"),
}


@pytest.mark.parametrize("program", PROGRAMS)
def test_other_programs_open_it_without_a_warning(program, tmp_path):
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not on this machine")
    path = tmp_path / "reeds.pdf"
    path.write_bytes(pressed())
    names = {"FILE": path, "OUT": tmp_path / "out.txt"}
    words = [program, *(str(names.get(word, word)) for word in PROGRAMS[program])]
    run = subprocess.run(words, capture_output=True, text=True, check=False)
    # Some builds of mutool say of every file that they know no profiles.
    err = run.stderr.replace("warning: ICC support is not available\n", "")
    assert (run.returncode, err) == (0, "")
    assert "WARNING" not in run.stdout
    if program == "pdfinfo":
        assert f"PDF subtype:    {X1A}" in run.stdout
    if program == "gs":
        cyan, magenta, yellow, black, *_ = run.stdout.split()
        assert (float(cyan), float(magenta), float(yellow)) == (0, 0, 0)
        assert float(black) > 0


OTHERWISE = {
    "pikepdf:schema-OutputIntent",
    "ISO_19005_2:6.2.4.3-4",
    "ISO_19005_2:6.6.2.3.1-1",
    "ISO_19005_2:6.6.4-1",
}
"""What PDF/A asks for and PDF/X does not: its own intent and name, and no other namespaces."""


def test_an_independent_judge_of_archived_files_finds_only_what_they_ask_for_besides():
    pytest.importorskip("referencing")
    pytest.importorskip("jsonschema")
    from pikepdf import pdfa

    with pikepdf.open(BytesIO(pressed())) as pdf:
        findings = pdfa.check(pdf, "2b").findings
    assert findings
    assert {each.rule for each in findings} - OTHERWISE == set()
