"""What the YAML parser complains of, in the words of someone who only writes system files."""

from __future__ import annotations

from typing import Any, Final

#: Beginning of the parser's message -> what it nearly always comes from.
_PLAIN: Final = {
    "found character that cannot start": "a text cannot begin with this character; quote it",
    "found a tab character": "a tab cannot indent; use blanks",
    "mapping values are not allowed": "a ':' is not expected here; check the indentation",
    "could not find expected ':'": "a ':' is missing after a key, or a quote is not closed",
    "did not find expected ',' or '}'": "a ',' or the closing '}' is missing",
    "did not find expected ',' or ']'": "a ',' or the closing ']' is missing",
    "did not find expected key": "a key is expected here; check the indentation",
    "did not find expected '-' indicator": "a '-' is expected here; check the indentation",
    "found unexpected end of stream": "the file ends inside a quoted text",
    "found unexpected document indicator": "'---' or '...' stands inside a quoted text",
    "found undefined tag handle": "a text cannot begin with '!'; quote it",
    "block sequence entries are not allowed": "a '-' is not expected here; check the indentation",
    "did not find expected node content": "a value is missing here",
    "exceeded maximum nesting depth": "nesting is deeper than 32 levels",
    "found invalid Unicode": "the escape stands for no character that a text can hold",
    "found unknown escape character": "unknown escape after '\\'; single quotes take it as it is",
    "did not find expected <document start>": "the text does not belong to what stands before it",
    "did not find expected alphabetic or numeric": "a text cannot begin with '&' or '*'; quote it",
}


def in_plain_words(error: Any, text: str) -> str:
    """What is wrong with the syntax, for a yaml.MarkedYAMLError of the parser in `text`."""
    problem = str(error.problem or error.context or "the text is not YAML")
    mark = error.problem_mark or error.context_mark
    if mark is not None and problem.startswith("found character that cannot start any token"):
        lines = text.splitlines()
        line = lines[mark.line] if mark.line < len(lines) else ""
        if line[mark.column : mark.column + 1] == "\t" or line[: mark.column].endswith("\t"):
            return "a tab cannot indent; use blanks"
    for beginning, plain in _PLAIN.items():
        if problem.startswith(beginning):
            return plain
    return f"the text is not YAML: {problem}"
