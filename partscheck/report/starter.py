"""The commented list that ``partscheck new`` writes."""

from __future__ import annotations

from pathlib import Path

STARTER = """\
# yaml-language-server: $schema={schema}
#
# A parts list for partscheck. Change what does not suit you, take out what you do not have.
# - A dimension carries its unit: 1-3/4 in, 38 mm, 2200 lb, 60 mph.
# - A tolerance may follow: 1.75 in ± 1/32 in. A range too: 43 to 45 mm.
# - What you do not know: leave the line out, or write `unknown`. Nothing is guessed; you are told
#   what to measure, and how.
# Check it with: partscheck check THIS_FILE

build: my trailer

service:
  gross_weight: 2000 lb      # all of it, loaded, tongue included
  top_speed: 60 mph
  surface: paved             # paved, gravel or off-road
  # country: US              # whose rules to point at

layout:
  axles: 1
  # hub_face_distance: 60 in # between the faces the wheels (or adapters) seat on
  # frame_width: 48 in

parts:
  - id: hub
    kind: hub
    bolt_circle: 5 x 4.5 in
    stud_thread: 1/2-20
    stud_length: unknown     # proud of the face the wheel seats on, to the end of the stud
    rating: 1750 lb
    qty: 2

  - id: wheel
    kind: wheel
    size: 15 x 6 in
    bolt_circle: 5 x 4.5 in
    nut_seat: conical
    rating: 1900 lb
    qty: 3                   # one more than the places is taken as the spare

  - id: tire
    kind: tire
    size: ST205/75R15
    load_range: C
    qty: 3

  - part: cone-nut-1/2-20    # from the catalogue
    packs: 1
    pack: 10

  # An adapter between hub and wheel, if the circles differ:
  # - id: plate
  #   kind: adapter
  #   hub_circle: 5 x 4.5 in
  #   wheel_circle: 5 x 5.5 in
  #   thickness: 1.5 in
  #   qty: 2
"""


def schema_path() -> Path:
    """The schema of a parts list: beside the package when installed, else in the checkout."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "schemas", package.parent / "schemas"):
        if (folder / "parts-list.schema.json").exists():
            return folder / "parts-list.schema.json"
    return Path("parts-list.schema.json")


def starter_list() -> str:
    """The starter list, with the editor's schema line."""
    return STARTER.format(schema=schema_path().as_uri() if schema_path().is_absolute() else schema_path())
