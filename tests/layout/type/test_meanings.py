"""What sentences mean: a table of our own of words that each must have and must not have.

A sentence with its meaning turned round is still good English or German, so nothing else would
notice. The table is common knowledge of the rules (common practice, no source).
"""

import re

import pytest

from layout.language.words import languages, read_words

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

MORE_MEANINGS = {
    "thermometer-fork": (
        r"forks, each branch grows|both ways",
        r"shrink",
        r"gabelt, steigt jeder|beide Wege",
        r"fällt",
    ),
    "slow-thermometer": (
        r"never fall|not fall",
        r"never (rise|grow)",
        r"fallen .*\bnie\b",
        r"steigen",
    ),
    "slow-thermometer-fork": (r"each branch", r"\bno\b|none", r"jeder Zweig", r"kein"),
    "crest": (
        r"rise from one end .*not an end, and fall",
        r"fall .*rise|repeat",
        r"steigen .*kein Ende ist, und fallen",
        r"fallen .*steigen",
    ),
    "non-consecutive": (r"never", r"always|must", r"\bnie\b|keine", r"immer|müssen"),
    "anti-queen": (
        r"(never|None) .*twice",
        r"always",
        r"keiner .*(zweimal|zwei gleiche)",
        r"jeder",
    ),
    "toroidal-both": (r"[Nn]o \{digit\}.* twice", r"every", r"verschieden", r"gleiche \{"),
    "toroidal-falling": (
        r"[Nn]o \{digit\}.* twice.*",
        r"left|up\b",
        r"rechts unten",
        r"oben|links",
    ),
    "toroidal-rising": (
        r"[Nn]o \{digit\}.* twice.*",
        r"left|down\b",
        r"rechts oben",
        r"unten|links",
    ),
    "windows": (r"every.* once|each", r"twice|never", r"alle .*je einmal", r"nie|zweimal"),
    "renban": (r"consecutive|repeat", r"apart", r"lückenlos.*ohne Wied", r"mit Wied"),
    "whisper": (r"\{gap\} or more", r"\{gap\} or less|most", r"mindestens", r"höchstens"),
    "between": (r"between", r"outside", r"zwischen", r"außer"),
    "beyond": (
        r"or more; .*smaller than both or larger than both",
        r"or less|between",
        r"mindestens.*kleiner als beide oder größer als beide",
        r"höchstens|zwischen",
    ),
    "parity-line": (r"take turns", r"same", r"wechseln", r"gleich"),
    "same-difference": (
        r"differ by (the same|one amount)",
        r"by different",
        r"(denselben|einen) Betrag",
        r"versch",
    ),
    "equal-cages": (
        r"differ.* same sum",
        r"different sum",
        r"verschieden.* dieselbe Summe",
        r"verschiedene Summe",
    ),
    "dots-consecutive": (
        r"consecutive|one apart",
        r"double|never|black",
        r"aufeinander|um eins",
        r"doppel|nie|schwarz",
    ),
    "dots-ratio": (r"double", r"consecutive|half|white", r"[Dd]oppel", r"aufeinander|Hälfte|weiß"),
    "dots-all-shown": (r"neither.* nor", r"\beither |both", r"nicht aufein.*keiner", r"jeder"),
    "difference": (r"difference", r"\bsum\b", r"Differenz", r"Summe"),
    "sum-mark-all-shown": (r"never", r"always", r"\bnie\b|kein", r"immer"),
    "double-arrow": (r"between.*add up to the same", r"differ", r"zusammen dasselbe", r"verschied"),
    "zipper": (r"equally far.*add up", r"differ", r"gleich weit.*zusammen", r"Unterschied"),
    "modular-line": (r"different remainders", r"same", r"verschiedene Reste", r"gleiche|dieselben"),
    "entropic-line": (
        r"lowest.*middle.*highest",
        r"same third",
        r"niedrigsten.*mittleren.*höchsten",
        r"selben",
    ),
    "skyscraper": (
        r"higher hide the lower",
        r"lower hide",
        r"höhere verdecken die niedrigeren",
        r"niedrigere verd",
    ),
    "first-seen": (r"within the nearest box", r"farthest|not", r"nächstgelegenen", r"nicht|fern"),
    "numbered-room": (r"nearest cell names", r"farthest|not", r"nächstgelegene", r"nicht|fern"),
    "count-circles": (r"how many .*circles", r"squares", r"wie vielen? .*Kreise", r"Quadrat"),
    "quad": (r"among the four", r"none|not", r"in den vier Zellen", r"nicht|kein"),
}
"""In English what must stand and what must not, then in German."""

ALL = MEANINGS | {key: {"en": told[:2], "de": told[2:]} for key, told in MORE_MEANINGS.items()}

TECHNIQUES = {
    "locked-candidates": (
        r"can only stand .*so not in",
        r"cannot stand",
        r"geht .*nur in .*also nicht in",
        r"kann",
    ),
    "naked-pair": (r"hold .*rules out", r"leaves", r"fällt weg", r"übrig"),
    "hidden-pair": (r"no other cells .*rules out", r"leaves", r"keine anderen .*weg", r"übrig"),
    "two-line-fish": (r"stands only .*rules it out", r"leaves", r"nur .*fällt also weg", r"übrig"),
    "wing": (r"Whatever .*so not in", r"so in", r"Was auch .*also nicht in", r"also in"),
    "short-if": (
        r"were .*So .*is not",
        r"So .*\} is \{",
        r"Also steht .*nicht in",
        r"steht nicht \{",
    ),
    "long-if": (
        r"were .*So .*is not",
        r"So .*\} is \{",
        r"Also steht .*nicht in",
        r"steht nicht \{",
    ),
    "deep-if": (
        r"were .*So .*is not",
        r"So .*\} is \{",
        r"Also steht .*nicht in",
        r"steht nicht \{",
    ),
}


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_technique_says_the_contrary_of_what_it_does(language):
    at = 0 if language == "en" else 2
    techniques = read_words(language).walk.techniques
    for name, told in TECHNIQUES.items():
        must, must_not = told[at : at + 2]
        for each in (techniques[name].says, techniques[name].with_chain):
            if each:
                assert re.search(must, each), (name, each)
                assert not re.search(must_not, each), (name, each)


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
        if key in ALL:
            must, must_not = ALL[key][language]
            seen.add(key)
            if not re.search(must, text) or re.search(must_not, text):
                wrong.append((name, text))
    assert not wrong
    assert seen == ALL.keys()
