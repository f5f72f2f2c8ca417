"""What sentences mean: a table of our own of words that each must have and must not have.

A sentence with its meaning turned round is still good English or German, so nothing else would
notice. The table is common knowledge of the rules, written down without looking at the words.
"""

import re

import pytest

from layout.type.words import languages, read_words

UP = {
    "en": (r"grow|increase|bigger|larger|greater|rise|higher", r"shrink|decrease|smaller|fall\b"),
    "de": (r"größer|wachsen|wächst|steig|zunehm", r"kleiner|sink|fallen|abnehm"),
}
# English tells the cell, German the cells around it.
LOW = {
    "en": (r"inwards .*smaller", r"larger|bigger|outwards"),
    "de": (r"innen .*größere", r"kleiner|außen"),
}
HIGH = {
    "en": (r"outwards .*larger", r"smaller|lower|inwards"),
    "de": (r"außen .*kleinere", r"größer|innen"),
}
OPENS = {
    "en": (r"larger|bigger", r"smaller|lower|closed"),
    "de": (r"größer", r"kleiner"),
}
SUM = {
    "en": (r"\b[Ss]ums?\b|[Aa]dd up", r"product|multipl|difference|average"),
    "de": (r"Summe|zusammen|ergeben", r"Produkt|multipli|Differenz|Unterschied"),
}
PRODUCT = {"en": (r"product|multipl", r"\bsum\b|add"), "de": (r"Produkt|multipli", r"Summe|addier")}
DIFFERENT = {
    "en": (r"differ|once|[Nn]o \{digit|never|twice|different", r"\bsame digits\b|\bequal\b"),
    "de": (r"verschieden|je einmal|doppelt|nicht|nie\b|kein", r"dieselben|gleiche \{digits"),
}
SAME = {
    "en": (r"\bsame\b|equal", r"differ(?!ence)"),
    "de": (r"dasselbe|dieselbe|gleich|derselb", r"verschieden"),
}
EVEN = {"en": (r"\beven\b", r"\bodd\b"), "de": (r"\bgerade", r"ungerade")}
ODD = {"en": (r"\bodd\b", r"\beven\b"), "de": (r"ungerade", r"(?<!un)gerade")}

MEANINGS = {
    "thermometer": UP,
    "even": EVEN,
    "odd": ODD,
    "greater": OPENS,
    "local-minimum": LOW,
    "local-maximum": HIGH,
    "cage": SUM,
    "cage-plain": DIFFERENT,
    "arrow": SUM,
    "edge-sum": SUM,
    "sum-quad": SUM,
    "sum-mark": SUM,
    "x-sum": SUM,
    "sandwich": SUM,
    "diagonal-sum": SUM,
    "diagonals-both": DIFFERENT,
    "diagonals-falling": DIFFERENT,
    "diagonals-rising": DIFFERENT,
    "anti-king": DIFFERENT,
    "anti-knight": DIFFERENT,
    "disjoint-groups": DIFFERENT,
    "extra-region": DIFFERENT,
    "clone": SAME,
    "equal-sum": SAME,
    "palindrome": SAME,
    "product-arrow": PRODUCT,
    "outside-arrow": UP,
}


def plain(text):
    return " ".join(text.split())


def sentences(language):
    """Every sentence of every rule by its key: for one mark and several, and for the young."""
    words = read_words(language)
    tables = [rule.says for rule in words.rules.values()]
    for name, table in [*(("", each) for each in tables), ("young ", words.worksheet.young.says)]:
        for key, sentence in table.items():
            for count in (1, 2):
                yield key, f"{name}{key} {count}", sentence.of(count)


@pytest.mark.parametrize("language", languages())
def test_no_sentence_says_the_contrary_of_its_rule(language):
    wrong, seen = [], set()
    for key, name, text in sentences(language):
        if key in MEANINGS:
            must, must_not = MEANINGS[key][language]
            seen.add(key)
            if not re.search(must, text) or re.search(must_not, text):
                wrong.append((name, text))
    assert not wrong
    assert seen == MEANINGS.keys()
