"""What cannot be read as TOML, in words for a parent: what stands there, and how it was meant."""

import json
import re

from review.core.text import plural

CURLY = frozenset("“”‘’„‚«»")
CURLED = ("the quotes in this line are curly", 'write straight ones, like "this"')
NO_COLON = ("a : stands where an = is meant", 'write title = "Our sums", with an =')
NO_VALUE = (
    "what stands after the = cannot be read",
    'put text in quotes, like "this"; true and false are written small',
)

# How the messages of the TOML reader begin, and what they mean to someone who has never read its grammar.
MEANINGS = (
    ("Expected '=' after a key", ("a key without a value", 'write key = value, like title = "Our sums"')),
    ("Invalid value", NO_VALUE),
    ("Unterminated string", ("a text is not closed", 'put a " at its end')),
    ('Expected "\'"', ("a text is not closed", "put a ' at its end")),
    ("Illegal character '\\n'", ("a text is not closed on its line", 'put a " at its end')),
    ("Illegal character", ("a character that cannot stand here", "take it out")),
    ("Unescaped '\\'", ("a \\ in a text", "write it twice")),
    (
        "Unclosed array",
        (
            "a list is not closed, or a comma is missing, here or in the line above",
            "write it like [2, 5, 10]",
        ),
    ),
    ("Unclosed inline table", ("a { is not closed", "put a } on the same line")),
    ("Cannot overwrite", ("this key stands here a second time", "take one of the two out")),
    (
        "Cannot declare",
        ("this heading stands here a second time", "take one out, or write [[skill]] for a skill"),
    ),
    ("Cannot mutate", ("this key stands here a second time", "take one of the two out")),
    ("Expected ']", ("a heading is not closed", "write it like [set] or [[skill]]")),
    ("Expected newline", ("something stands after the value", "begin a new line, or put text in quotes")),
    ("Duplicate inline", ("this key stands here a second time", "take one of the two out")),
)
NOT_SEEN = ("an invisible character stands in this line", "write the line again by hand")
NOT_READ = ("this line cannot be read", 'write key = value, like title = "Our sums"')


def told(message: str, text: str) -> tuple[int, str, str]:
    """Its line, what is wrong there, what to write instead. `message`: what the reader of TOML says of it."""
    place = re.search(r"\(at line (\d+), column (\d+)\)$", message)
    line = int(place[1]) if place else text.rstrip().count("\n") + 1
    meaning = next((what for begin, what in MEANINGS if message.startswith(begin)), NOT_READ)
    found = (place and _at_sight(text, line, int(place[2]))) or meaning
    mended = _mended(text.split("\n")[line - 1].strip()) if found in (CURLED, NO_COLON, NO_VALUE) else ""
    wrong, instead = found
    others = _curled_besides(text, line) if found == CURLED else ""
    return line, f"{wrong}{others}", f"write {mended}" if mended else instead


def _at_sight(text: str, line: int, column: int) -> tuple[str, str] | None:
    """What the character at which the reader of TOML stopped tells by itself."""
    whole = text.split("\n")[line - 1]
    stopped = whole[column - 1 : column]
    if _hidden(text, line, column):
        return NOT_SEEN
    if stopped in CURLY or (not stopped.strip() and whole.rstrip()[-1:] in CURLY):
        return CURLED
    return NO_COLON if stopped == ":" else None


def _hidden(text: str, line: int, column: int) -> bool:
    """Whether the reader of TOML stopped at a character that nobody sees."""
    stopped = text.split("\n")[line - 1][column - 1 : column]
    return not stopped.isprintable() and stopped not in "\t\r"


# --- a line as it was meant --------------------------------------------------------------------------

TRUTHS = {"true": "true", "yes": "true", "on": "true", "false": "false", "no": "false", "off": "false"}
"""How people write what is true and what is not, and how TOML does."""

STRAIGHT = {ord(mark): '"' for mark in CURLY}
ENTRY_MEANT = re.compile(r"([A-Za-z_-]+)\s*[=:]\s*(.+)")
UNQUOTED = re.compile(r"\w[\w .!?()+−×÷-]*")  # what is a text but for its quotes
LONGEST_MENDED = 100  # characters of a line that is written out for a parent (our judgement)


def _mended(line: str) -> str:
    """A key and its value as they were probably meant, if that can be read; else ""."""
    found = ENTRY_MEANT.fullmatch(line)
    if not found or not line.isprintable() or len(line) > LONGEST_MENDED:
        return ""
    key, value = found.groups()
    spoken = TRUTHS.get(value.casefold(), value)
    texts = [json.dumps(value, ensure_ascii=False)] if UNQUOTED.fullmatch(value) else []
    meant = (f"{key} = {one}" for one in (value, value.translate(STRAIGHT), spoken, *texts))
    return next((one for one in meant if _is_read(one)), "")


def _is_read(text: str) -> bool:
    import tomllib  # only a mistake pays for it

    try:
        return bool(tomllib.loads(text))
    except (ValueError, RecursionError):
        return False


def _curled_besides(text: str, line: int) -> str:
    """How many more lines have curly quotes that do not stand in a text."""
    bare = (re.sub(r'"[^"]*"|#.*', "", one) for one in text.split("\n")[line:])
    count = sum(not CURLY.isdisjoint(one) for one in bare)
    return f", and in {plural(count, 'more line')}" if count else ""
