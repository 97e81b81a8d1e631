"""Names of places in a document, so that what is said in one place can be reached from another.

Knows no document: whoever draws or writes puts the name there as an `id`, or as `#name` in a link.
"""

from __future__ import annotations

import re
from hashlib import blake2s

#: Where it stands what was found about a subject; its name is the subject's.
FINDING = "finding"

#: The symbol of an element, source, busbar, converter or piece of equipment in the diagram.
DEVICE = "device"

#: A point in the diagram.
POINT = "point"

#: A row of a table or schedule about a subject; a table puts its own name before it: "cables".
ROW = "row"

#: Letters of a name that stay readable; a longer one is told apart by its digest alone.
_READABLE = 40

_OTHER = re.compile(r"[^a-z0-9]+")


def anchor(kind: str, name: str) -> str:
    """The name of the place that is of this kind and about this thing.

    kind -- one of the words above, or another word of one's own
    name -- of the thing, as the user wrote it, whatever signs it bears

    The same arguments always give the same place, and no other arguments give it: a digest of both
    ends it. Only lower-case letters, digits and hyphens, a letter first: what ids of HTML and SVG,
    addresses and PDF marks all take as it is.

    >>> anchor("finding", "port feed/1")
    'finding-port-feed-1-006f53ed'
    """
    digest = blake2s(f"{kind}\0{name}".encode("utf-8", "surrogatepass"), digest_size=4).hexdigest()
    start = _readable(kind).lstrip("0123456789-") or "at"
    return "-".join(word for word in (start, _readable(name), digest) if word)


def _readable(text: str) -> str:
    return _OTHER.sub("-", text.lower()).strip("-")[:_READABLE].strip("-")
