"""The HTML report in a browser: no horizontal scroll, nothing on the console, contrast, and what it prints.

One page with a frame for each list and width is opened headless; its script writes down what it measures.
Without a browser on the machine these tests are skipped by name.
"""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from wcag import LARGE, LARGE_BOLD_PX, LARGE_PX, TEXT, contrast

import partscheck

ROOT = Path(__file__).resolve().parents[2]
CATALOG = [str(ROOT / "examples" / "catalog")]
NAMES = ["apiary-first", "apiary-corrected", "tandem-arms", "metric-750", "four-line-cart"]
WIDTHS = [320, 360, 390, 800, 1200]
PHONE = 390
BROWSER = next((path for path in map(shutil.which, ("chromium", "chromium-browser", "google-chrome")) if path), "")
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--hide-scrollbars",
)  # fmt: skip
pytestmark = pytest.mark.skipif(not BROWSER, reason="no chromium on this machine: the HTML report was not opened")
CONSOLE = re.compile(r":CONSOLE[^\]]*\]\s*(.*)")
PAGE_OF_A_PDF = re.compile(rb"/Type\s*/Page\b(?!s)")

# Of each frame: what sticks out, and the colours that text is shown in.
MEASURE = """
const seen = [];
function back(e) {
  for (; e; e = e.parentElement) {
    if (e.namespaceURI.endsWith('svg') && e.localName === 'svg') return 'rgb(255, 255, 255)';
    const c = getComputedStyle(e).backgroundColor;
    if (!/, 0\\)$/.test(c) && c !== 'transparent') return c;
  }
  return 'rgb(255, 255, 255)';
}
function look(frame) {
  const d = frame.contentDocument, root = d.documentElement, width = root.clientWidth;
  const out = {name: frame.title, width: width, scroll: root.scrollWidth, wide: [], colours: {}, small: 100};
  d.querySelectorAll('details').forEach(e => e.open = true);
  for (const e of d.body.querySelectorAll('*')) {
    const style = frame.contentWindow.getComputedStyle(e);
    if (e.closest('svg') && e.localName !== 'text' && e.localName !== 'tspan') continue;
    const box = e.getBoundingClientRect();
    if (!box.width || !box.height || style.visibility === 'hidden') continue;
    if (style.clipPath !== 'none' || e.closest('.heard,thead') && width <= 704) continue;
    if (box.right > width + 0.5 || box.left < -0.5) out.wide.push(e.localName + '.' + e.className);
    const own = [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim());
    if (!own) continue;
    const size = parseFloat(style.fontSize), svg = e.closest('svg') !== null;
    const front = svg ? style.fill : style.color;
    const key = JSON.stringify([front, back(e), size, parseInt(style.fontWeight)]);
    out.colours[key] = e.textContent.trim().slice(0, 40);
    if (!svg) out.small = Math.min(out.small, size);
  }
  out.scroll = Math.max(out.scroll, root.scrollWidth);
  return out;
}
addEventListener('load', () => {
  const found = [...document.querySelectorAll('iframe')].map(look);
  document.getElementById('found').textContent = JSON.stringify(found);
});
"""


def browse(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    profile = folder / "profile"
    return subprocess.run(
        [BROWSER, *FLAGS, f"--user-data-dir={profile}", "--enable-logging=stderr", "--v=0", *arguments],
        capture_output=True, text=True, encoding="utf-8", errors="replace", timeout=180, check=True,
    )  # fmt: skip


def page_of(name: str) -> str:
    return partscheck.html_report(partscheck.check(str(ROOT / "examples" / f"{name}.yaml"), CATALOG))


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[dict[str, Any]], list[str]]:
    """(what was measured in each frame, what the console said)."""
    folder = tmp_path_factory.mktemp("browser")
    frames = [
        f'<iframe title="{name}" width="{width}" height="800" srcdoc="{html.escape(page_of(name))}"></iframe>'
        for name in NAMES
        for width in WIDTHS
    ]
    around = folder / "around.html"
    around.write_text(
        "<!DOCTYPE html><meta charset=utf-8><style>iframe{border:0}</style>"
        f"<pre id=found></pre><script>{MEASURE}</script>{''.join(frames)}",
        encoding="utf-8",
    )
    done = browse(folder, "--virtual-time-budget=20000", "--dump-dom", around.as_uri())
    text = re.search(r'<pre id="found">(.*?)</pre>', done.stdout, re.S)
    assert text is not None
    assert text[1], "the page around the reports did not run"
    return json.loads(html.unescape(text[1])), CONSOLE.findall(done.stderr)


def test_every_list_was_opened_at_every_width(opened: tuple[list[dict[str, Any]], list[str]]) -> None:
    frames, _ = opened
    assert [(one["name"], one["width"]) for one in frames] == [(name, width) for name in NAMES for width in WIDTHS]


def test_there_is_no_horizontal_scroll(opened: tuple[list[dict[str, Any]], list[str]]) -> None:
    frames, _ = opened
    assert [(one["name"], one["width"], one["scroll"]) for one in frames if one["scroll"] > one["width"]] == []
    assert [(one["name"], one["width"], one["wide"]) for one in frames if one["wide"]] == []


def test_the_console_stays_silent(opened: tuple[list[dict[str, Any]], list[str]]) -> None:
    _, console = opened
    assert console == []


def test_the_console_would_have_spoken(tmp_path: Path) -> None:
    """A script in the page is refused by its own policy, and the browser says so."""
    page = tmp_path / "page.html"
    page.write_text(page_of("four-line-cart").replace("</main>", "</main><script>1</script>"), encoding="utf-8")
    said = CONSOLE.findall(browse(tmp_path, "--dump-dom", page.as_uri()).stderr)
    assert any("Content Security Policy" in line for line in said)


def test_every_text_can_be_read_against_its_ground(opened: tuple[list[dict[str, Any]], list[str]]) -> None:
    frames, _ = opened
    pairs = 0
    for frame in frames:
        for key, words in frame["colours"].items():
            front, back, size, weight = json.loads(key)
            large = size >= LARGE_PX or (size >= LARGE_BOLD_PX and weight >= 700)
            assert contrast(front, back) >= (LARGE if large else TEXT), f"{words!r}: {front} on {back}"
            pairs += 1
    assert pairs > 100


def test_type_is_large_enough_on_a_phone(opened: tuple[list[dict[str, Any]], list[str]]) -> None:
    frames, _ = opened
    assert min(one["small"] for one in frames if one["width"] == PHONE) >= 12.5


@pytest.mark.parametrize(
    ("name", "most", "paper"),
    [("apiary-corrected", 3, "letter"), ("apiary-first", 6, "A4"), ("metric-750", 2, "A4"),
     ("four-line-cart", 2, "letter")],
)  # fmt: skip
def test_it_prints_on_few_pages(tmp_path: Path, name: str, most: int, paper: str) -> None:
    """With all its drawings, bill and bench sheet closed; the first list of the demo trailer has 29 findings."""
    page, pdf = tmp_path / "page.html", tmp_path / "page.pdf"
    sized = page_of(name).replace("</style>", f"@page{{size:{paper}}}</style>", 1)
    page.write_text(sized, encoding="utf-8")
    browse(tmp_path, f"--print-to-pdf={pdf}", "--no-pdf-header-footer", page.as_uri())
    found = pdf.read_bytes()
    box = re.search(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", found)
    assert box is not None
    points = {"A4": (595.3, 841.9), "letter": (612.0, 792.0)}[paper]
    assert [float(side) for side in box.groups()] == pytest.approx(points, abs=0.6)
    assert 1 <= len(PAGE_OF_A_PDF.findall(found)) <= most
