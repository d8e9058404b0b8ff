"""``python -m partscheck``."""

from __future__ import annotations

import sys

from partscheck.cli import main

sys.exit(main())
