"""A file's name as a URI (RFC 3986), for formats that want one."""

from __future__ import annotations

import os
from urllib.parse import quote

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# A byte of a name that is no text comes as a lone surrogate; it stands in the URI as that byte.
_UNDECODED = "surrogateescape"


def artifact_location(file: str) -> dict[str, Any]:
    """Where a list stands: a URI, relative as the name was; what came over standard input has none."""
    if file in ("standard input", "<input>"):
        return {"description": {"text": file}}
    return {"uri": file_uri(file)}


def file_uri(file: str) -> str:
    """The URI of a file's name.

    >>> file_uri("lists/two axles.yaml"), file_uri("a:b.yaml")
    ('lists/two%20axles.yaml', './a:b.yaml')
    """
    path = file.replace(os.sep, "/")
    text = quote(path, safe="/:!$&'()*+,;=@~", errors=_UNDECODED)
    if os.path.isabs(file):
        return "file://" + ("" if text.startswith("/") else "/") + text
    # Before the first slash of a relative reference a colon would end a scheme.
    return "./" + text if ":" in text.split("/", 1)[0] else text
