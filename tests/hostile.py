"""Texts that try to be something else than text: shared by the tests of every format."""

from __future__ import annotations

# What a list may hold: the reader refuses control characters and marks that turn the direction of writing.
TEXTS = [
    "<script>alert(1)</script>", "]]><x/>", "a|b|c", "`code` *bold* _em_ ~~gone~~", "[click](http://evil.example)",
    "![x](http://evil.example/x.png)", "http://evil.example www.evil.example", "@everyone #1", "&lt;b&gt; &amp;",
    "{0} {{x}} %s ${x}", '"quoted" \'and\' \\back\\', "=1+1", "# head", "1. one", "- [x] done", "> quote", "$a$b$",
    "--- | ---", "</failure></testcase>",
]  # fmt: skip
# What a file's name may hold besides: it never passed the reader.
FILE = "a<script>]]>|`x`[y](z)\"&'\u202egpj\u200b\x1b[31m\nb.yaml"
UNSEEN = ("\u202e", "\u200b", "\x1b")


def quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def hostile_list() -> str:
    """A list with such texts wherever a text may stand, that has stops, cautions, an accepted one, and
    something to measure.
    """
    every = quoted(" ".join(TEXTS))
    loads = "".join(
        f"  - {{what: {quoted(text)}, weight: {200 + number} lb, from_coupler: 100 in}}\n"
        for number, text in enumerate(TEXTS)
    )
    return f"""\
build: {every}
service: {{gross_weight: 5000 lb, tongue_weight: 100 lb, top_speed: 60 mph}}
layout: {{axles: 1, coupler_to_axle: 120 in, gawr: 2200 lb}}
loads:
{loads}parts:
  - {{id: hub, kind: hub, bolt_circle: 5 x 4.5 in, stud_thread: 1/2-20, stud_length: unknown, rating: 1000 lb,
     per: each, qty: 2, seller: {every}, note: {every}}}
  - {{id: plate, kind: adapter, hub_circle: 5 x 4.5 in, wheel_circle: 5 x 5.5 in, thickness: 1 in, qty: 2,
     basis: {every}}}
  - {{id: wheel, kind: wheel, size: 15 x 7 in, bolt_circle: 5 x 5 in, rating: 1100 lb, qty: 2}}
  - {{id: thing, kind: other, what: {every}, weight: 3 lb, qty: 1}}
  - {{id: bolt, kind: bolt, size: 1/2-13 x 1 in, grade: 5, qty: 4}}
  - {{id: nut, kind: nut, thread: 1/2-13, qty: 4}}
bolted_joints:
  - id: joint
    bolt: bolt
    nut: nut
    bolts: 4
    stack:
      - {{name: {every}, thickness: 3/8 in, hole: 9/16 in}}
      - {{name: {quoted(TEXTS[0])}, thickness: 3/4 in, hole: 9/16 in}}
accept:
  - {{rule: adapter-legality, part: plate, reason: {every}}}
"""


def hostile_faults() -> str:
    """A list that cannot be used, by such texts."""
    return "parts:\n" + "".join(f"  - {{kind: hub, pilot: {quoted(text)}}}\n" for text in TEXTS)
