"""Take the pictures of the README: the page of a scheme, and its printed card.

Publishes the demo guide into a folder for the moment, opens the page in chromium, prints the card's first sheet with
pdftoppm, and writes both as JPEG below ``themes/shown``, each smaller than 150 kB.

Run:  python3 tests/pictures/readme.py [PROGRAM]   (PROGRAM: target/debug/maulstick if left out)
Needs: chromium, pdftoppm, Pillow.
"""

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

ROOT = Path(__file__).resolve().parents[2]
SHOWN = ROOT / "themes" / "shown"
SCHEME = "fen-warden"
MOST_BYTES = 150_000


def save(source: Path, name: str) -> None:
    """Write a picture as JPEG, as good as its size allows."""
    picture = Image.open(source).convert("RGB")
    for quality in range(88, 40, -6):
        picture.save(SHOWN / name, quality=quality, optimize=True, progressive=True)
        if (SHOWN / name).stat().st_size < MOST_BYTES:
            return
    raise SystemExit(f"{name} does not fit into {MOST_BYTES} bytes")


def main() -> None:
    program = Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "target/debug/maulstick").resolve()
    SHOWN.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        subprocess.run([program, "publish", ROOT, "--out", site], check=True, stdout=subprocess.DEVNULL)
        page = Path(folder) / "page.png"
        subprocess.run(
            ["chromium", "--headless", "--no-sandbox", "--hide-scrollbars", "--force-device-scale-factor=0.8",
             "--window-size=1200,1000", f"--screenshot={page}", (site / f"schemes/{SCHEME}.html").as_uri()],
            check=True, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        card = site / f"schemes/{SCHEME}/card.pdf"
        subprocess.run(["pdftoppm", "-r", "84", "-l", "1", "-singlefile", "-png", card, Path(folder) / "card"], check=True)
        save(page, "scheme-page.jpg")
        save(Path(folder) / "card.png", "card.jpg")


if __name__ == "__main__":
    main()
