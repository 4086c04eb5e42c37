"""Draws what was observed of sour milk against the fermentation model, from the table of series in
docs/models/fermentation.md: a bar from 10 to 90 % of the model's batches with a mark at the middle,
and what was observed as a ring, or a thick line where a range was. Misses are named as misses.
"""
import re

HEAD = "| series | observed | forerunner, 10-50-90 % | here | verdict |"
NUMBER = r"\d+(?:\.\d+)?"
WIDTH, LEFT, RIGHT, ROW, TOP = 640, 250, 620, 26, 44
PANELS = (("h", "hours to the pH of setting (A: fitted)", 0, 28), ("", "pH (B: not used for speed)", 3.4, 6.8))


def numbers(text):
    return [float(found) for found in re.findall(NUMBER, text)]


def series(markdown):
    """(name, unit, observed, model 10-50-90, verdict) of each row that gives a window."""
    table = markdown[markdown.index(HEAD):].split("\n\n")[0]
    rows = []
    for line in table.splitlines()[2:]:
        name, observed, _, here, verdict = (cell.strip() for cell in line.strip("|").split("|"))
        marks = numbers(here.replace("-", " "))
        if len(marks) != 3:
            continue
        unit = "h" if observed.endswith("h") else ""
        rows.append((name, unit, numbers(observed.replace("-", " ")), marks, verdict))
    assert len(rows) > 5, "fermentation.md has no table of series"
    return rows


def text(x, y, said, anchor="start", more=""):
    said = said.replace("&", "&amp;").replace("<", "&lt;")
    return f'  <text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}"{more}>{said}</text>'


def line(x1, x2, y, style):
    return f'  <line x1="{x1:.1f}" x2="{x2:.1f}" y1="{y:.1f}" y2="{y:.1f}" {style}/>'


def short(verdict):
    return re.split(r"[;:(]", verdict.replace("*", ""))[0].strip()


def panel(rows, title, low, high, top):
    def x(value):
        return LEFT + (RIGHT - LEFT) * (value - low) / (high - low)

    lines = [text(10, top, title, more=' font-weight="bold"')]
    for i, (name, _, observed, marks, verdict) in enumerate(rows):
        y = top + ROW * (i + 1)
        lines += [text(10, y, ", ".join(name.split(", ")[:2])[:36]), text(10, y + 11, short(verdict), more=' font-size="10" fill="#444"'),
                  line(x(marks[0]), x(marks[2]), y, 'stroke="#999" stroke-width="8"'),
                  line(x(marks[1]) - 1, x(marks[1]) + 1, y, 'stroke="#000" stroke-width="14"')]
        if len(observed) > 1:
            lines.append(line(x(observed[0]), x(observed[-1]), y - 8, 'stroke="#000" stroke-width="3"'))
        else:
            lines.append(f'  <circle cx="{x(observed[0]):.1f}" cy="{y - 8:.1f}" r="4" fill="#fff" stroke="#000" stroke-width="2"/>')
    bottom = top + ROW * len(rows) + 16
    lines.append(line(LEFT, RIGHT, bottom, 'stroke="#000"'))
    step = 4 if high > 10 else 1
    tick = low if high > 10 else 4
    while tick <= high:
        lines += [text(x(tick), bottom + 14, f"{tick:g}", "middle")]
        tick += step
    return lines, bottom + 40


def drawn(markdown):
    rows = series(markdown)
    lines, top = [], TOP
    for unit, title, low, high in PANELS:
        more, top = panel([row for row in rows if row[1] == unit], title, low, high, top)
        lines += more
    key = "grey: 10 to 90 % of the model's batches, mark: the middle; above it what was observed"
    head = ('<svg xmlns="http://www.w3.org/2000/svg" '
            f'viewBox="0 0 {WIDTH} {top}" font-family="sans-serif" font-size="12">')
    written = "  <!-- Written by tools/generate.py from the table of fermentation.md; do not edit. -->"
    return "\n".join([head, written, f'  <rect width="{WIDTH}" height="{top}" fill="#fff"/>',
                      text(10, 20, key, more=' font-size="11"'), *lines, "</svg>"]) + "\n"
