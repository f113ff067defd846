# SPDX-License-Identifier: MIT
# A screenshot of the feed's page on a telephone: of the size asked for, light or dark as the reader
# prefers, with writing on it, and nothing runs over the right edge.
# usage: look_at_page.py FILE.png light|dark
import struct
import sys
import zlib


def pixels(path):
    """Rows of (red, green, blue); PNG (ISO/IEC 15948), 8 bits, RGB or RGBA, not interlaced."""
    data = open(path, "rb").read()
    at, packed = 8, b""
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        body = data[at + 8:at + 8 + length]
        if kind == b"IHDR":
            width, height, depth, colour, _, _, interlaced = struct.unpack(">IIBBBBB", body)
        if kind == b"IDAT":
            packed += body
        at += length + 12
    assert depth == 8 and colour in (2, 6) and interlaced == 0, (depth, colour, interlaced)
    step = 3 if colour == 2 else 4
    raw, size = zlib.decompress(packed), width * step
    rows, above = [], bytearray(size)
    for y in range(height):
        start = y * (size + 1)
        line = bytearray(raw[start + 1:start + 1 + size])
        for x in range(size):
            a = line[x - step] if x >= step else 0
            b, c = above[x], above[x - step] if x >= step else 0
            paeth = min((a, b, c), key=lambda v: abs(a + b - c - v))
            line[x] = (line[x] + (0, a, b, (a + b) // 2, paeth)[raw[start]]) % 256
        rows.append([tuple(line[x:x + 3]) for x in range(0, size, step)])
        above = line
    return rows


rows, scheme = pixels(sys.argv[1]), sys.argv[2]
paper = rows[0][0]
brightness = sum(paper) / 3
edge = sum(row[x] != paper for row in rows for x in range(len(row) - 8, len(row)))
written = sum(pixel != paper for row in rows for pixel in row)
problems = []
if (len(rows[0]), len(rows)) != (390, 844):
    problems.append(f"{len(rows[0])} x {len(rows)} pixels")
if (brightness > 200) != (scheme == "light") or (brightness < 60) != (scheme == "dark"):
    problems.append(f"the paper is {paper}")
if edge > 0:
    problems.append(f"{edge} pixels at the right edge are not paper")
if written < 5000:
    problems.append(f"only {written} pixels are not paper")
print("\n".join(problems) or f"the {scheme} page is sound")
sys.exit(1 if problems else 0)
