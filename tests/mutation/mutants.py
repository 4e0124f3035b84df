"""Small changes of C++ source that a test should notice: operators, constants, conditions, statements."""

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class Mutant:
    line: int  # from 1
    begin: int  # within the text
    end: int
    new: str
    kind: str

    def applied(self, text):
        return text[: self.begin] + self.new + text[self.end :]

    def old(self, text):
        return text[self.begin : self.end]


_NO_CODE = re.compile(
    r"""//[^\n]*            # comments
      | /\*.*?\*/
      | ^[ ]*\#[^\n]*       # the preprocessor's lines
      | R"\((?:.|\n)*?\)"   # strings
      | "(?:\\.|[^"\\\n])*"
      | (?<![\w])'(?:\\.|[^'\\\n])+'
      | \bstatic_assert\([^;]*;
      | \b(?:template|using|typedef|namespace)\b[^\n]*
    """,
    re.VERBOSE | re.DOTALL | re.MULTILINE,
)


def code_of(text):
    """The text with blanks in place of what is no code, so that places stay."""
    return _NO_CODE.sub(lambda found: re.sub(r"[^\n]", " ", found.group()), text)


_OPERATORS = {
    " < ": [" <= "],
    " <= ": [" < "],
    " > ": [" >= "],
    " >= ": [" > "],
    " == ": [" != "],
    " != ": [" == "],
    " + ": [" - "],
    " - ": [" + "],
    " * ": [" / "],
    " / ": [" * "],
    " += ": [" -= "],
    " -= ": [" += "],
    " && ": [" || "],
    " || ": [" && "],
    "std::min(": ["std::max("],
    "std::max(": ["std::min("],
}
_WORDS = {"true": ["false"], "false": ["true"]}
_NUMBER = re.compile(r"(?<![\w.'])\d[\d']*(?:\.\d+)?(?:e[-+]?\d+)?(?=[UuLlzZ]*\b)(?![\w.]*\.)")
_NOT = re.compile(r"(?<![\w)\]=!])!(?=[\w(:])")
_IF = re.compile(r"\bif \(")
_STATEMENT = re.compile(r"^[ ]+(?:[\w.:]|->|\[[^\]\n]*\])+(?: [-+*/]?= [^;\n]+|\([^;\n]*\));$", re.MULTILINE)
_STARTS_NO_STATEMENT = re.compile(r"^[ ]+(?:return|throw|case|default|else|break|continue|const|static|auto)\b")


def _line_of(text, place):
    return text.count("\n", 0, place) + 1


def _replaced(code, table, kind, bound=""):
    for old, news in table.items():
        for found in re.finditer(bound + re.escape(old) + bound, code):
            for new in news:
                yield Mutant(_line_of(code, found.start()), found.start(), found.end(), new, kind)


def _numbers(code):
    for found in _NUMBER.finditer(code):
        word = found.group()
        is_whole = re.fullmatch(r"[\d']+", word) is not None
        if is_whole:
            new = str(int(word.replace("'", "")) + 1)
        else:
            new = repr(float(word.replace("'", "")) * 1.25 or 1.0)
        yield Mutant(_line_of(code, found.start()), found.start(), found.end(), new, "constant")


def _closing(code, opening):
    depth = 0
    for place in range(opening, len(code)):
        depth += {"(": 1, ")": -1}.get(code[place], 0)
        if depth == 0:
            return place
    return None


def _conditions(code, text):
    for found in _IF.finditer(code):
        begin = found.end()
        end = _closing(code, begin - 1)
        if end is None or re.search(r";|(?<![=!<>])=(?!=)", code[begin:end]):
            continue  # it declares something
        for new in (f"(true || ({text[begin:end]}))", f"(false && ({text[begin:end]}))"):
            yield Mutant(_line_of(code, begin), begin, end, new, "condition")


def _negations(code):
    for found in _NOT.finditer(code):
        yield Mutant(_line_of(code, found.start()), found.start(), found.end(), "", "condition")


def _statements(code):
    for found in _STATEMENT.finditer(code):
        if _STARTS_NO_STATEMENT.match(found.group()):
            continue
        begin = found.start() + len(found.group()) - len(found.group().lstrip())
        yield Mutant(_line_of(code, begin), begin, found.end(), ";", "statement")


def mutants_of(text):
    """All mutants of a file's text, in the order of the text."""
    code = code_of(text)
    found = [
        *_replaced(code, _OPERATORS, "operator"),
        *_replaced(code, _WORDS, "constant", r"\b"),
        *_numbers(code),
        *_conditions(code, text),
        *_negations(code),
        *_statements(code),
    ]
    return sorted(found, key=lambda mutant: (mutant.begin, mutant.new))
