"""Make the picture of the tellurion's sheet again: ``python -m tests.sheets.picture [FILE.png]``.

The front page stands as on paper; below it, as on a phone at the bench, the top of a lathe card and of a head card.
"""

from __future__ import annotations

import base64
import shutil
import struct
import sys
import tempfile
import zlib
from pathlib import Path
from typing import TYPE_CHECKING

from click.testing import CliRunner
from playwright.sync_api import sync_playwright

from cli.main import bench
from tests.sheets.conftest import BROWSERS, QUIET

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PICTURE = Path(__file__).resolve().parents[2] / "gearsets" / "jobs" / "tellurion-sheet.png"
#: Widths of the front page and of a card beside another. [px]
WIDE, NARROW = 900, 446
#: The cards shown, each down to the end of this piece.
CARDS = (("Year worm", ".shout"), ("Moon wheel", ".picture"))
PAGE = """<!DOCTYPE html><style>
body { margin: 0; width: 900px; background: white; }
img { display: block; border: 1px solid black; box-sizing: border-box; }
div { display: flex; justify-content: space-between; align-items: stretch; margin-top: 8px; }
section { width: 446px; border: 1px solid black; box-sizing: border-box; overflow: hidden; }
section img { border: 0; margin: -1px; }
</style>"""

#: The picture's width, its height, and its greys, two to a byte, row by row.
PACKED = """() => {
  const picture = document.querySelector('img'), canvas = document.createElement('canvas');
  const [width, height] = [picture.naturalWidth, picture.naturalHeight];
  [canvas.width, canvas.height] = [width, height];
  const pen = canvas.getContext('2d');
  pen.drawImage(picture, 0, 0);
  const dots = pen.getImageData(0, 0, width, height).data;
  const grey = at => Math.round((dots[at] * 0.299 + dots[at + 1] * 0.587 + dots[at + 2] * 0.114) / 17);
  let bytes = '';
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x += 2) {
      const at = 4 * (y * width + x);
      bytes += String.fromCharCode(grey(at) * 16 + (x + 1 < width ? grey(at + 4) : 0));
    }
  return [width, height, btoa(bytes)];
}"""


def shown(page: Page, top: str, bottom: str) -> bytes:
    """Photograph the page from the top of one element to the bottom of another, the whole width across."""
    page.emulate_media(media="screen")
    from_y, to_y = (page.locator(each).first.bounding_box() for each in (top, bottom))
    assert from_y is not None
    assert to_y is not None
    width = page.evaluate("document.documentElement.clientWidth")
    above = from_y["y"] - 10
    clip = {"x": 0, "y": above, "width": width, "height": to_y["y"] + to_y["height"] + 10 - above}
    return page.screenshot(clip=clip, full_page=True)


def image(photograph: bytes) -> str:
    return f'<img src="data:image/png;base64,{base64.b64encode(photograph).decode()}">'


def composed(browser: Browser, sheet: Path) -> bytes:
    """Put the photographs into one picture."""
    page = browser.new_page(viewport={"width": WIDE, "height": 1000})
    page.goto(sheet.as_uri())
    parts = [image(shown(page, "h1", "nav >> xpath=preceding-sibling::*[1]"))]
    page.set_viewport_size({"width": NARROW, "height": 1000})
    cards = [image(shown(page, card, f"{card} {end}")) for card, end in ((_card(name), end) for name, end in CARDS)]
    parts.append("<div>" + "".join(f"<section>{card}</section>" for card in cards) + "</div>")
    # The sheet itself lets no picture in, so a page of its own holds them.
    page = browser.new_page(viewport={"width": WIDE, "height": 1000})
    page.set_content(PAGE + "".join(parts))
    return in_greys(page, page.locator("body").screenshot())


def in_greys(page: Page, photograph: bytes) -> bytes:
    """Write a photograph as PNG in sixteen greys, for black on white needs no more and colours make it large."""
    page.set_content(image(photograph))
    width, height, packed = page.evaluate(PACKED)
    rows = base64.b64decode(packed)
    line = len(rows) // height
    filtered = b"".join(b"\0" + rows[at : at + line] for at in range(0, len(rows), line))
    head = struct.pack(">IIBBBBB", width, height, 4, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(filtered, 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data)) for name, data in chunks
    )


def _card(part: str) -> str:
    return f"article:has(h2:has-text('{part}'))"


def main(path: Path) -> None:
    """Write the picture."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        sheet = Path(folder) / "sheet.html"
        outcome = CliRunner().invoke(bench, ["job", "tellurion", "--sheet", str(sheet)], standalone_mode=False)
        assert sheet.exists(), outcome.output
        found = next(each for each in map(shutil.which, BROWSERS) if each)
        browser = playwright.chromium.launch(executable_path=found, args=list(QUIET))
        path.write_bytes(composed(browser, sheet))
        browser.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else PICTURE)
