# SPDX-License-Identifier: MIT
"""Looks at a chart that other programs have drawn: look_at_chart.py CHART.svg PICTURE.png...

Reads the pictures' pixels (PNG, W3C recommendation: eight bits a channel, not interlaced) and asks
of each: is the middle of every flowering part of every block painted in a colour that the chart
names there, is the ground around the blocks bare, and is the paper's edge empty?
"""

import struct
import sys
import xml.etree.ElementTree as ElementTree
import zlib

SVG = "{http://www.w3.org/2000/svg}"


def read_png(path):
    """(width, height, pixel(x, y) -> (r, g, b))."""
    data = open(path, "rb").read()
    assert data[:8] == b"\x89PNG\r\n\x1a\n", path
    at, packed, header = 8, b"", None
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        chunk = data[at + 8 : at + 8 + length]
        if kind == b"IHDR":
            header = struct.unpack(">IIBBBBB", chunk)
        if kind == b"IDAT":
            packed += chunk
        at += 12 + length
    width, height, depth, colour, _, _, interlace = header
    assert depth == 8 and colour in (2, 6) and interlace == 0, header
    step = 3 if colour == 2 else 4
    raw, rows, before = zlib.decompress(packed), [], bytearray(width * step)
    for row in range(height):
        start = row * (width * step + 1)
        line = bytearray(raw[start + 1 : start + 1 + width * step])
        unfilter(raw[start], line, before, step)
        rows.append(line)
        before = line
    return width, height, lambda x, y: tuple(rows[y][x * step : x * step + 3])


def unfilter(kind, line, before, step):
    for i in range(len(line)):
        left = line[i - step] if i >= step else 0
        up = before[i]
        corner = before[i - step] if i >= step else 0
        if kind == 1:
            line[i] = (line[i] + left) & 255
        elif kind == 2:
            line[i] = (line[i] + up) & 255
        elif kind == 3:
            line[i] = (line[i] + (left + up) // 2) & 255
        elif kind == 4:
            guess = left + up - corner
            distances = abs(guess - left), abs(guess - up), abs(guess - corner)
            best = (left, up, corner)[distances.index(min(distances))]
            line[i] = (line[i] + best) & 255


def box(element):
    return [float(element.get(name)) for name in ("x", "y", "width", "height")]


def rgb(fill):
    return tuple(int(fill[i : i + 2], 16) for i in (1, 3, 5))


def near(one, other, most=6):
    return max(abs(a - b) for a, b in zip(one, other)) <= most


def look(chart, path):
    width, height, pixel = read_png(path)
    view = [float(number) for number in chart.get("viewBox").split()]
    scale = width / view[2]
    assert abs(height - view[3] * scale) <= 2, (path, width, height)

    def share(area, fills):
        """Of the area's pixels, how many have one of the fills."""
        x, y, w, h = (round(number * scale) for number in area)
        seen = [pixel(i, j) for j in range(y, y + h) for i in range(x, x + w)]
        return sum(any(near(one, fill) for fill in fills) for one in seen) / max(1, len(seen))

    paper = rgb(next(r.get("fill") for r in chart.iter(SVG + "rect") if r.get("class") == "paper"))
    tall = view[3] - 1  # the last row of pixels is partly off the paper
    for edge in ([0, 0, view[2], 3], [0, 0, 3, tall], [view[2] - 3, 0, 3, tall]):
        assert share(edge, [paper]) == 1, (path, "paper's edge", edge)
    assert share([0, 0, view[2], view[3]], [paper]) < 0.9, (path, "blank")
    looked = 0
    for group in chart.iter(SVG + "g"):
        if group.get("class") != "planting":
            continue
        flower = next((r for r in group.iter(SVG + "rect") if r.get("class") == "flower"), None)
        if flower is None or box(flower)[3] < 2:
            continue
        fills = [rgb(flower.get("fill"))]
        fills += [rgb(p.get("fill")) for p in group.iter(SVG + "path")
                  if p.get("fill", "none") != "none"]
        assert share(box(flower), fills) > 0.35, (path, group.find(SVG + "title").text)
        looked += 1
    assert looked >= 5, (path, looked)
    soil = [r for r in chart.iter(SVG + "rect") if r.get("class") == "soil"][1:]
    assert any(share(box(bed), [rgb(bed.get("fill"))]) > 0.1 for bed in soil), (path, "no ground")
    print(f"{path.rsplit('/', 1)[-1]}: {width} by {height}, {looked} flowerings in their colours")


def main():
    chart = ElementTree.parse(sys.argv[1]).getroot()
    for path in sys.argv[2:]:
        look(chart, path)


main()
