"""A printed code as a telephone's camera sees it: ink gain, a cheap printer, a slanted, blurred,
noisy, compressed photo. The trial that chose the codes' size was made with the same steps.
"""
import io

import numpy as np
from PIL import Image, ImageFilter


def printed(code, inch, gain_mm=0.02):
    """Ink spreads a little, and black is not black: a crop of a page at `inch` dots."""
    dots = max(0, round(gain_mm / 25.4 * inch * 2))
    ink = code.convert("L").point(lambda v: 255 if v > 127 else 0)
    if dots:
        ink = ink.filter(ImageFilter.MinFilter(2 * dots + 1))
    return ink.point(lambda v: 235 if v > 127 else 30)


def leaning(page, lean=0.04):
    """The page as a camera sees it that looks from a little above: a true perspective."""
    wide, high = page.size
    seen = [(0, 0), (0, high), (wide, high), (wide, 0)]
    there = [(lean * wide, 0), (0, high), (wide, high), ((1 - lean) * wide, 0)]
    rows, sides = [], []
    for (x, y), (u, v) in zip(seen, there):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        sides += [u, v]
    found = np.linalg.solve(np.array(rows, dtype=float), np.array(sides, dtype=float))
    return page.transform((wide, high), Image.PERSPECTIVE, found, Image.BICUBIC, fillcolor=235)


def photo(code, inch, per_mm, turn, blur, quality, seed):
    """A photo with `per_mm` pixels a millimetre, turned by that many degrees."""
    chance = np.random.default_rng(seed)
    scale = per_mm * 25.4 / inch
    size = [round(side * scale) for side in code.size]
    seen = code.resize(size, Image.BICUBIC)
    margin = round(12 * per_mm)
    page = Image.new("L", [side + 2 * margin for side in size], 235)
    page.paste(seen, (margin, margin))
    page = page.rotate(turn, Image.BICUBIC, expand=True, fillcolor=235)
    page = leaning(page)
    wide = page.width
    page = page.filter(ImageFilter.GaussianBlur(blur))
    light = np.asarray(page, dtype=float)
    light *= np.linspace(1.0, 0.75, wide)[None, :]
    light += chance.normal(0, 5, light.shape)
    page = Image.fromarray(np.clip(light, 0, 255).astype("uint8"))
    packed = io.BytesIO()
    page.save(packed, "JPEG", quality=quality)
    packed.seek(0)
    return Image.open(packed).convert("L")


def blot(code, share, seed):
    """One opaque blot of that share of the area."""
    chance = np.random.default_rng(seed)
    out = np.asarray(code).copy()
    high, wide = out.shape
    side = int((share * high * wide) ** 0.5)
    x, y = (int(chance.integers(0, most - side)) for most in (wide, high))
    out[y:y + side, x:x + side] = 128
    return Image.fromarray(out)
