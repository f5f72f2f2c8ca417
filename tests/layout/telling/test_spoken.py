"""Each sentence of a told walk, read back: what it says is so, and all that it must say is said."""

import re
from functools import cache
from itertools import pairwise, takewhile
from typing import NamedTuple

import pytest

from layout.language.wording import symbol_words
from layout.language.words import languages, read_words
from layout.telling.level import Level
from layout.telling.names import Names
from layout.telling.telling import tell_walk
from tests.support.told import told_example, told_tight
from verify.pencil import bit, every_digit
from verify.proof.verdict import prove
from verify.rules import RULES
from verify.walk.facts.notes import Notes
from verify.walk.facts.step import Kind, Technique

SLOW = "anti-queen"
"""Its example takes longer than all others together."""

NAMES = [rule.name for rule in RULES]
EVERY_RULE = pytest.mark.parametrize("rule", NAMES)
EVERY_LANGUAGE = pytest.mark.parametrize("language", languages())
PUSHING = {Technique.MARK, Technique.ARRANGEMENTS, Technique.ORDER, Technique.HOUSE_SUM}

CELL = re.compile(r"\br\d+c\d+\b")
SENTENCE = re.compile(r"([A-ZÄÖÜ]|r\d).*\.$", re.DOTALL)


@cache
def the_answer(rule):
    return prove(puzzle_and_path(rule)[0]).answers[0]


def puzzle_and_path(rule):
    return told_tight(rule) if rule == SLOW else told_example(rule)


@cache
def telling_of(rule, language, level=Level.WHOLE):
    puzzle, path = puzzle_and_path(rule)
    return tell_walk(puzzle, path, read_words(language), level)


def names_of(rule, language):
    return Names(puzzle_and_path(rule)[0], read_words(language))


def cells_in(puzzle, words):
    cells = {puzzle.board.name(cell): cell for cell in puzzle.board.cells}
    return [cells[name] for name in CELL.findall(words)]


def of_consequences(step):
    """The cells of all that is supposed and follows."""
    chains = [step.chain, *step.ways, *(aside.chain for aside in step.asides)]
    ends = [step.dead_end, *(aside.dead_end for aside in step.asides)]
    for each in (each for chain in chains for each in chain):
        yield each.cell
        yield from each.house.cells if each.house else ()
        yield from (cell for link in each.links for cell in link.constraint.cells)
    for end in ends:
        if end is not None:
            yield from () if end.cell is None else (end.cell,)
            yield from end.house.cells if end.house else ()


def cells_of_step(told):
    """All cells that a step may speak of."""
    step, found = told.step, set()
    found |= {cell for cell, _ in (*told.kept.based.needs, *step.removes, *step.places)}
    found |= set(step.because.cells)
    for one in (*step.because.links, *step.because.houses):
        found |= set(getattr(one, "constraint", one).cells)
    return found | set(of_consequences(step))


# --- cells, digits, marks


@EVERY_RULE
@EVERY_LANGUAGE
def test_cells_are_those_of_the_step_and_all_that_change_are_named(rule, language):
    puzzle, _ = puzzle_and_path(rule)
    for told in telling_of(rule, language).steps:
        named = set(cells_in(puzzle, told.words))
        assert named <= cells_of_step(told), told.words
        assert {cell for cell, _ in (*told.removes, *told.step.places)} <= named, told.words


@EVERY_RULE
@EVERY_LANGUAGE
def test_whole_sentences_without_a_hole(rule, language):
    telling = telling_of(rule, language)
    texts = [told.words for told in telling.steps] + [each.words for each in telling.paragraphs]
    for text in (telling.summary, *texts):
        assert SENTENCE.match(text), text
        assert not set("{}") & set(text), text
        assert "  " not in text
        assert not re.search(r"\.\.|,,| [,;.:]|\(\)|:\.", text), text


def bare(told, names, puzzle):
    """A step's words without the names of cells, houses and marks, and without what marks ask."""
    words, notes = told.words, Notes(puzzle)
    links = {*told.step.because.links}
    links |= {
        link for chain in (told.step.chain, *told.step.ways) for e in chain for link in e.links
    }
    for phrase in (*map(names.mark, links), *map(names.house, notes.houses)):
        for said in (phrase, phrase[:1].upper() + phrase[1:]):
            words = re.sub(rf"{re.escape(said)}(?!\d)", "", words)
    return CELL.sub("", words)


@EVERY_RULE
@EVERY_LANGUAGE
def test_digits_are_symbols_of_the_puzzle(rule, language):
    """What houses and suppositions say has no other numbers; marks have numbers of their own."""
    puzzle, names = puzzle_and_path(rule)[0], names_of(rule, language)
    for told in telling_of(rule, language).steps:
        if told.step.technique not in PUSHING:
            assert set(re.findall(r"\d+", bare(told, names, puzzle))) <= set(puzzle.symbols)


@EVERY_RULE
@EVERY_LANGUAGE
def test_a_push_by_itself_names_its_mark(rule, language):
    names = names_of(rule, language)
    for told in telling_of(rule, language).steps:
        step = told.step
        if step.technique in {Technique.MARK, Technique.ARRANGEMENTS}:
            link = step.because.links[0]
            push = names.words.rules[link.rule].push
            phrase = names.mark(link) if "{mark}" in push else names.cell(link.constraint.cells[0])
            named = "{mark}" in push or "{cell}" in push
            assert phrase.lower() in told.words.lower() or not named, told.words
        elif step.technique in PUSHING:
            houses = names.houses(step.summed or step.because.houses[:1])
            assert houses.lower() in told.words.lower()


# --- facts


class Fact(NamedTuple):
    """What a sentence says of a cell: the digits that are left for it."""

    at: int
    cell: int
    left: int


class Grammar:
    """Reads facts back, by the sentences of a language."""

    def __init__(self, puzzle, words):
        self.puzzle, self.lists = puzzle, words.lists
        self.every = every_digit(puzzle.board.digits)
        cells = self.listed(r"r\d+c\d+", (words.lists.and_,))
        symbol = "|".join(sorted(map(re.escape, puzzle.symbols), key=len, reverse=True))
        digits = self.listed(rf"(?:{symbol})\b", (words.lists.or_,))
        the = symbol_words(puzzle.symbols, words).the
        self.the = re.escape(the).replace(r"\{symbol\}", f"({symbol})")
        holes = {"cells": cells, "chosen": digits, "only": self.the.replace("(", "(?:")}
        self.forms = []
        for name in ("from_to", "at_least", "at_most", "is_not", "even", "odd", "is_", "few"):
            sentence = getattr(words.walk.known, name)
            for count in (1, 2):
                text = re.escape(sentence.of(count)).replace(r"\{", "{").replace(r"\}", "}")
                pattern = re.sub(
                    r"{(\w+)}", lambda hole: f"(?P<{hole[1]}>{holes.get(hole[1], symbol)})", text
                )
                self.forms.append((name, re.compile(pattern + r"(?!\w)", re.IGNORECASE)))

    def listed(self, item, lasts):
        comma = re.escape(self.lists.comma)
        last = "|".join(map(re.escape, lasts))
        return rf"{item}(?:(?:{comma}){item})*(?:(?:{last}){item})?"

    def mask(self, text):
        found = re.split(rf"{re.escape(self.lists.comma)}|{self.lists.or_}|{self.lists.and_}", text)
        return sum(bit(self.puzzle.symbols.index(symbol) + 1) for symbol in found)

    def left(self, name, found):
        groups = found.groupdict()
        low = self.digit(groups.get("low"), 1)
        high = self.digit(groups.get("high"), self.puzzle.board.digits)
        match name:
            case "from_to" | "at_least" | "at_most":
                return sum(map(bit, range(low, high + 1)))
            case "is_":
                return self.mask("".join(re.findall(self.the, groups["only"])))
            case "few":
                return self.mask(groups["chosen"])
            case "is_not":
                return self.every & ~self.mask(groups["chosen"])
        odd = sum(map(bit, range(1, self.puzzle.board.digits + 1, 2)))
        return odd if name == "odd" else self.every & ~odd

    def digit(self, text, otherwise):
        return self.puzzle.symbols.index(text) + 1 if text else otherwise

    def facts(self, text):
        """All facts of a text, in order; of two readings of one place the longer one."""
        found = {}
        for name, pattern in self.forms:
            for each in pattern.finditer(text):
                start, end = each.span()
                if end > found.get(start, (0,))[0]:
                    found[start] = end, each, name
        told, done = [], 0
        for start, (end, each, name) in sorted(found.items()):
            if start >= done:
                done = end
                left = self.left(name, each)
                told += [Fact(start, cell, left) for cell in cells_in(self.puzzle, each["cells"])]
        return told


@cache
def grammar_of(rule, language):
    return Grammar(puzzle_and_path(rule)[0], read_words(language))


@EVERY_RULE
@EVERY_LANGUAGE
def test_what_a_push_says_is_so_and_is_all_of_it(rule, language):
    """Each fact holds in the answer; what is needed and what is struck can be read off them."""
    grammar, answer = grammar_of(rule, language), the_answer(rule)
    for told in telling_of(rule, language).steps:
        if told.step.technique in PUSHING:
            facts = grammar.facts(told.words)
            assert all(fact.left >> answer[fact.cell] & 1 for fact in facts), told.words
            for cell, mask in told.kept.based.needs:
                said = [fact for fact in facts if fact.cell == cell]
                assert any(fact.left == grammar.every & ~mask for fact in said), told.words
            if told.kept.based.needs:
                assert facts[0].at < facts[-1].at
            for cell, mask in told.removes:
                last = [fact for fact in facts if fact.cell == cell][-1]
                assert not last.left & mask, told.words


@EVERY_RULE
@EVERY_LANGUAGE
def test_what_a_push_rests_on_is_said_in_its_sentence_or_the_one_before(rule, language):
    """And what is struck in its own, even where many marks are told together."""
    grammar, answer = grammar_of(rule, language), the_answer(rule)
    telling = telling_of(rule, language)
    listening = ""
    for before, told in pairwise((None, *telling.steps)):
        if before is None or before.paragraph != told.paragraph:
            listening = ""
        if told.step.technique in PUSHING:
            said = listening if told.joined else told.said
            assert said in telling.paragraphs[told.paragraph - 1].words
            facts = grammar.facts(said)
            assert all(fact.left >> answer[fact.cell] & 1 for fact in facts), said
            heard = {(fact.cell, fact.left) for fact in (*grammar.facts(listening), *facts)}
            heard |= {(cell, bit(digit)) for cell, digit in _run_before(telling, told)}
            for cell, mask in told.kept.based.needs:
                assert (cell, grammar.every & ~mask) in heard, (listening, said)
            for cell, mask in told.removes:
                assert not [f for f in facts if f.cell == cell][-1].left & mask, said
        if not (told.joined or told.step.places):
            listening = told.said


def _run_before(telling, told):
    """The digits placed just before a step, in its paragraph."""
    before = [each for each in telling.steps[: told.number - 1] if each.paragraph == told.paragraph]
    run = takewhile(lambda each: each.step.places, reversed(before))
    return [place for each in run for place in each.step.places]


@EVERY_RULE
@EVERY_LANGUAGE
def test_what_a_push_says_is_left_is_no_more_than_its_mark_and_the_sheet_leave(rule, language):
    """What follows agrees with the sheet: told and sheet together leave what is left there."""
    puzzle, _ = puzzle_and_path(rule)
    grammar, notes = grammar_of(rule, language), Notes(puzzle)
    for told in telling_of(rule, language).steps:
        if told.step.technique in PUSHING:
            for cell, left in told.left:
                last = [fact for fact in grammar.facts(told.words) if fact.cell == cell][-1]
                assert last.left & notes.pencil[cell] & ~left == 0, told.words
        notes.apply([told.step])


PLACED = {
    "en": re.compile(
        r"(?:(\w+) goes to|\band (\w+) to|, (\w+) to|[Oo]nly (\w+) is left for"
        r"|\band (\w+) for|, (\w+) for) (r\d+c\d+)"
        r"|(r\d+c\d+) also sees .*?, so it is (\w+)|[Ss]o (r\d+c\d+) is (\w+)"
    ),
    "de": re.compile(
        r"(?:geht|und|,) (?:die )?(\w+) nach (r\d+c\d+)"
        r"|[Ii]n (r\d+c\d+) (?:geht )?nur (?:die )?(\w+)"
        r"|(r\d+c\d+) sieht außerdem .*?, dort geht also nur (?:die )?(\w+)"
        r"|[Aa]lso steht in (r\d+c\d+) (?:die )?(\w+)"
    ),
}


@EVERY_RULE
@EVERY_LANGUAGE
def test_a_placement_alone_names_its_cell_and_its_digit(rule, language):
    puzzle, _ = puzzle_and_path(rule)
    for told in telling_of(rule, language).steps:
        if told.kind is Kind.PLACEMENT:
            ((cell, digit),) = told.step.places
            found = [tuple(filter(None, each)) for each in PLACED[language].findall(told.words)]
            pair = {puzzle.board.name(cell), puzzle.symbols[digit - 1]}
            assert [set(each) for each in found] == [pair], told.words


@EVERY_RULE
@EVERY_LANGUAGE
def test_every_digit_of_a_paragraph_is_told_in_it(rule, language):
    """But for the run at the end, and for what a push has just read off."""
    puzzle, path = puzzle_and_path(rule)
    telling, grammar = telling_of(rule, language), grammar_of(rule, language)
    told_last = telling.paragraphs[-1:] if path.finished else ()
    for paragraph in telling.paragraphs:
        if paragraph in told_last:
            continue
        placed = [tuple(filter(None, e)) for e in PLACED[language].findall(paragraph.words)]
        said = {frozenset(each) for each in placed}
        facts = {(fact.cell, fact.left) for fact in grammar.facts(paragraph.words)}
        for step in paragraph.steps:
            for cell, digit in step.places:
                pair = frozenset((puzzle.board.name(cell), puzzle.symbols[digit - 1]))
                assert pair in said or (cell, bit(digit)) in facts, paragraph.words


SEEN = {
    "en": (re.compile(r"([\d, and]+) in (?:its|their) (row|column|box)"), {}),
    "de": (
        re.compile(r"([\d, und]+) (?:in der|im|in ihrer|in ihrem) (Zeile|Spalte|Block)"),
        {"Zeile": "row", "Spalte": "column", "Block": "box"},
    ),
}


@EVERY_RULE
@EVERY_LANGUAGE
def test_digits_that_a_cell_is_said_to_see_stand_there(rule, language):
    puzzle, _ = puzzle_and_path(rule)
    notes, grammar = Notes(puzzle), grammar_of(rule, language)
    pattern, kinds = SEEN[language]
    for told in telling_of(rule, language).steps:
        for inside in re.finditer(r"\(([^()]*)\)", told.words):
            before = [f for f in grammar.facts(told.words) if f.at < inside.start()]
            seen = pattern.findall(inside[1]) if told.step.technique in PUSHING else []
            for digits, kind in seen:
                kind = kinds.get(kind, kind)
                for cell in [fact.cell for fact in before if fact.at == before[-1].at]:
                    houses = [h for h in notes.houses if h.kind == kind and cell in h.cells]
                    for digit in map(int, re.findall(r"\d+", digits)):
                        holders = notes.where[digit] & notes.placed
                        assert any(holders & notes.sets[house] for house in houses), told.words
        notes.apply([told.step])


HOUSE_SUM = re.compile(r"known sums leave (?:.* = )?(\d+) for (.*?): ")
TERM = re.compile(r"(- )?(-)?(?:(\d+) × )?(r\d+c\d+)")


@pytest.mark.parametrize("rule", ["cage", "zipper", "double-arrow", "edge-sum"])
def test_what_known_sums_leave_is_the_sum_of_those_cells(rule):
    puzzle, answer = puzzle_and_path(rule)[0], the_answer(rule)
    for told in telling_of(rule, "en").steps:
        for total, terms in HOUSE_SUM.findall(told.words):
            found = 0
            for minus, first, times, name in TERM.findall(terms):
                (cell,) = cells_in(puzzle, name)
                found += (-1 if minus or first else 1) * int(times or 1) * answer[cell]
            assert found == int(total), told.words


# --- suppositions


@EVERY_RULE
@EVERY_LANGUAGE
def test_an_if_names_what_it_supposes_twice_and_what_it_passes_through(rule, language):
    puzzle, _ = puzzle_and_path(rule)
    for told in telling_of(rule, language).steps:
        step = told.step
        if step.chain and not step.asides:
            first, *chain = step.chain
            cells = cells_in(puzzle, told.words)
            assert cells[0] == first.cell == cells[-1]
            assert told.words.count(puzzle.symbols[first.digit - 1]) >= 2
            named = [each for each in chain if each.cell in cells]
            assert len(named) >= min(len(chain) - 1, 9)


# --- levels


@EVERY_RULE
def test_moments_are_part_of_the_whole_and_every_digit_is_told_once(rule):
    moments, whole, every = (
        telling_of(rule, "en", level) for level in (Level.MOMENTS, Level.WHOLE, Level.EVERY)
    )
    assert set(moments.paragraphs) <= set(whole.paragraphs)
    assert moments.steps == whole.steps
    assert [len(each.steps) for each in every.paragraphs] == [1] * len(every.steps)
    assert [each.steps[0] for each in every.paragraphs] == [told.step for told in every.steps]
    assert all(each.words for each in every.paragraphs)
    numbers = [each.number for each in whole.paragraphs]
    assert numbers == list(range(1, len(numbers) + 1))
    assert [step for each in whole.paragraphs for step in each.steps] == [
        told.step for told in whole.steps
    ]
    for told in whole.steps:
        assert told.step in whole.paragraphs[told.paragraph - 1].steps
