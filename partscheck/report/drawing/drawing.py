"""One drawing, ready to be shown; and one that cannot be drawn yet, with the fields that it lacks."""

from __future__ import annotations

from partscheck.report.drawing.lettering import clean

TYPE_CHECKING = False
if TYPE_CHECKING:
    from partscheck.report.drawing.sheet import Sheet


class Drawing:
    """``slug`` names it in the list ("wheel-end-1L"), ``kind`` is its short name ("wheel-end"),
    ``title`` its heading, ``caption`` says in words what it shows, ``parts`` are the ids of the lines
    of the list, and of the joint, that it shows, ``places`` where on the trailer, ``size`` mm wide and high,
    ``scale`` mm of that paper for one of the part (0: not to scale).
    """

    def __init__(
        self, kind: str, slug: str, title: str, caption: str, sheet: Sheet, parts: tuple[str, ...],
        places: tuple[str, ...] = (),
    ) -> None:  # fmt: skip
        self.kind = kind
        self.slug = slug
        self.title = clean(title)
        self.caption = clean(caption, 2000)
        self.parts = parts
        self.places = places
        self.size = sheet.size
        self.scale = sheet.scale
        self._sheet = sheet

    def svg(self, whole: bool = True) -> str:
        """One ``svg`` element, its viewBox in mm of paper: no script, nothing from outside.  Not ``whole``:
        without the heading and the findings, for a page that tells them itself.
        """
        return self._sheet.svg(self.title, self.caption, whole)

    def __repr__(self) -> str:
        return f"<drawing {self.slug}>"


class Undrawn:
    """A drawing that the list says too little for: ``missing`` are the fields it needs, as "wheel.offset"."""

    def __init__(self, kind: str, slug: str, title: str, missing: tuple[str, ...]) -> None:
        self.kind = kind
        self.slug = slug
        self.title = clean(title)
        self.missing = missing

    def __repr__(self) -> str:
        return f"<not drawn {self.slug}: {', '.join(self.missing)}>"
