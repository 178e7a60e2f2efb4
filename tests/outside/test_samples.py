# SPDX-License-Identifier: MIT
"""README's pictures, drawn anew from what the program writes: a page of the guide by PDFium, the plates of all kinds by Pillow.

`UPDATE_GOLDEN=1` writes them anew, and fails. Those that the program draws by itself are held by the Rust suite (`samples`).
"""

import os
import subprocess

import pypdfium2
import pytest
from PIL import Image, ImageChops

from conftest import PROGRAM, ROOT, run_kit

SAMPLES = ROOT / "fixtures" / "samples"
#: Which page of the guide is shown, dots to the inch, and how much of it, in dots.
PAGE, DOTS, SHOWN = 4, 100, (0, 0, 827, 920)
#: How many plates lie side by side, and how large each is, in dots.
ACROSS, PLATE = 5, (560, 396)
#: Kept pictures have so many colours, to be small.
COLOURS = 48


def rendered(folder, number):
    page = pypdfium2.PdfDocument(folder / "guide.pdf")[number]
    return page.render(scale=DOTS / 72).to_pil().convert("RGB").crop(SHOWN)


def side_by_side(files):
    """All plates on one picture, row by row."""
    rows = -(-len(files) // ACROSS)
    whole = Image.new("RGB", (ACROSS * PLATE[0], rows * PLATE[1]), "white")
    for number, file in enumerate(files):
        with Image.open(file) as plate:
            small = plate.convert("RGB").resize(PLATE, Image.Resampling.LANCZOS)
        whole.paste(small, (number % ACROSS * PLATE[0], number // ACROSS * PLATE[1]))
    return whole


def unlike(one, other):
    """The share of dots that are clearly darker or lighter in one than in the other."""
    dots = ImageChops.difference(one.convert("L"), other.convert("L")).histogram()
    return sum(dots[64:]) / sum(dots)


def hold(name, drawn, another):
    """Holds a kept picture to what is drawn now; another one must be unlike it."""
    if os.environ.get("UPDATE_GOLDEN"):
        drawn.quantize(COLOURS, dither=Image.Dither.NONE).save(SAMPLES / name, optimize=True)
        pytest.fail(f"look at {name}")
    with Image.open(SAMPLES / name) as kept:
        kept = kept.convert("RGB")
    assert kept.size == drawn.size, f"{name} has another size: UPDATE_GOLDEN=1 draws it anew"
    assert unlike(kept, drawn) < 0.0005, f"{name} is no more what comes out: UPDATE_GOLDEN=1 draws it anew"
    assert unlike(kept, another) > 0.005


def test_a_page_of_the_guide(tmp_path):
    run_kit(ROOT / "fixtures" / "tide-table.json", tmp_path / "kit", "--formats", "pdf")
    hold("guide-page.png", rendered(tmp_path / "kit", PAGE), rendered(tmp_path / "kit", PAGE + 1))


def test_the_plates_of_all_kinds(tmp_path):
    subprocess.run([str(PROGRAM), "catalogue", "--out", str(tmp_path / "plates")], check=True, capture_output=True, timeout=300)
    files = sorted((tmp_path / "plates").glob("*.png"))
    assert len(files) >= 25
    drawn = side_by_side(files)
    hold("all-kinds.png", drawn, drawn.transpose(Image.Transpose.ROTATE_180))
