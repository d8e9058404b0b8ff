"""Text that stays text in Markdown, and reads as typed where nobody renders it."""

from __future__ import annotations

import re

from partscheck.notation.cell_text import one_line

# What marks up inside a line, and "#" where it would close a head.  An underline between two letters or
# digits does not.
_MARKS = re.compile(r"[\\`*\[\]~|$]|(?<![0-9A-Za-z])_|_(?![0-9A-Za-z])|(?<![^\s#])#(?=#*$)")
# What marks up a line by starting it: a head, a quote, a list, a rule, an underlined head.
_START = re.compile(r"^(?:>|#(?=[#\s]|$)|[-+](?=\s|$)|-(?=[-\s]*$)|=(?=[=\s]*$)|\d+(?=[.)](?:\s|$)))")
# What becomes a tag, an entity, a mention, a reference or a link without any mark.
_UNMARKED = re.compile(r"&(?=[#\w])|<|@|#(?=\d)|:(?=//)|(?<=[Ww]{3})\.")
_ENTITIES = {"&": "&amp;", "<": "&lt;"}  # with a name; the rest by number


def calm(text: str) -> str:
    """The text on one line, with nothing in it that a reader of Markdown acts upon; plain words, numbers
    in brackets and slugs stay as they are.

    >>> calm("38.1 mm (1.5 in) at 1L"), calm("a|b <i>*c*</i> [x](y) my_part")
    ('38.1 mm (1.5 in) at 1L', 'a\\\\|b &lt;i>\\\\*c\\\\*&lt;/i> \\\\[x\\\\](y) my_part')
    """
    text = _MARKS.sub(lambda found: "\\" + found[0], one_line(text))
    text = _UNMARKED.sub(lambda found: _ENTITIES.get(found[0]) or f"&#{ord(found[0])};", text)
    return _START.sub(lambda found: f"{found[0]}\\" if found[0].isdigit() else "\\" + found[0], text)
