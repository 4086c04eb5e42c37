"""Draws how planning time grows with farms, from the measured table of docs/models/lot-sizing.md.

Both axes are logarithmic: a straight line is a power, and the dotted one through the first point
grows with the square of the farms.
"""
import math
import re

ROW = re.compile(r"^\| (\d+) \| ([\d,.]+) \| ([\d,.]+) \|", re.MULTILINE)
HEAD = "| farms | median, ms | 95 %, ms |"
LEFT, TOP, WIDTH, HEIGHT = 60, 20, 360, 240


def measured(markdown):
    """(farms, median ms, 95 % ms) of each row of the table."""
    table = markdown[markdown.index(HEAD):].split("\n\n")[0]
    rows = [tuple(float(number.replace(",", "")) for number in row) for row in ROW.findall(table)]
    assert len(rows) > 1, "lot-sizing.md has no table of growth"
    return rows


class Axes:
    def __init__(self, rows):
        self.farms = (rows[0][0], rows[-1][0])
        self.ms = (10 ** math.floor(math.log10(min(row[1] for row in rows))),
                   10 ** math.ceil(math.log10(max(row[2] for row in rows))))

    def x(self, farms):
        least, most = self.farms
        return LEFT + WIDTH * math.log(farms / least) / math.log(most / least)

    def y(self, ms):
        least, most = self.ms
        return TOP + HEIGHT * (1 - math.log(ms / least) / math.log(most / least))

    def decades(self):
        power = self.ms[0]
        while power <= self.ms[1]:
            yield power
            power *= 10


def line(axes, points, style):
    path = " ".join(f"{axes.x(farms):.1f},{axes.y(ms):.1f}" for farms, ms in points)
    return f'  <polyline points="{path}" fill="none" stroke="#222" {style}/>'


def text(x, y, said, anchor="middle"):
    return f'  <text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{said}</text>'


def drawn(markdown):
    rows = measured(markdown)
    axes = Axes(rows)
    bottom = TOP + HEIGHT
    lines = ['<svg xmlns="http://www.w3.org/2000/svg" '
             f'viewBox="0 0 {LEFT + WIDTH + 80} {bottom + 45}" '
             'font-family="sans-serif" font-size="12">',
             "  <!-- Written by tools/generate.py from the table of lot-sizing.md; do not edit. -->"]
    for ms in axes.decades():
        lines.append(f'  <path d="M{LEFT} {axes.y(ms):.1f}h{WIDTH}" stroke="#ccc"/>')
        lines.append(text(LEFT - 6, axes.y(ms) + 4, f"{ms:,} ms", "end"))
    for farms, median, most in rows:
        lines.append(f'  <path d="M{axes.x(farms):.1f} {TOP}v{HEIGHT}" stroke="#ccc"/>')
        lines.append(text(axes.x(farms), bottom + 18, f"{farms:.0f}"))
        lines.append(f'  <circle cx="{axes.x(farms):.1f}" cy="{axes.y(median):.1f}" r="3.5"/>')
    lines.append(text(LEFT + WIDTH / 2, bottom + 38, "farms"))
    lines.append(line(axes, [row[:2] for row in rows], 'stroke-width="2"'))
    lines.append(line(axes, [(row[0], row[2]) for row in rows], 'stroke-dasharray="6 4"'))
    (first, start, _), last = rows[0], rows[-1][0]
    square = [(first, start), (last, start * (last / first) ** 2)]
    lines.append(line(axes, square, 'stroke-dasharray="1 4"'))
    ends = {"95 %": rows[-1][2], "median": rows[-1][1], "square": square[1][1]}
    at = -math.inf  # names one below the other, none on another
    for name, ms in sorted(ends.items(), key=lambda end: -end[1]):
        at = max(axes.y(ms) + 4, at + 13)
        lines.append(text(LEFT + WIDTH + 6, at, name, "start"))
    return "\n".join(lines + ["</svg>"]) + "\n"
