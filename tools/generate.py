#!/usr/bin/python3
"""Writes what follows from the program: from the core's field declarations the TypeScript types and
the field list, from the plan of the practice season the excerpt of README.md.

  tools/generate.py          writes web/src/season.ts, docs/formats/fields.md, the README's excerpt,
                             and docs/models/growth.svg from its table
  tools/generate.py --check  changes nothing; exits 1 when a file differs
"""
import json
import pathlib
import re
import subprocess
import sys

import growth_plot
import validation_plot

ROOT = pathlib.Path(__file__).resolve().parent.parent
WHEYFIELD = ROOT / "build/release/hosts/cli/wheyfield"
EXCERPT = re.compile(r"(From the practice season .*?:\n\n```\n).*?(\n```\n)", re.DOTALL)
PLAN = "season plan examples/practice.toml --section summary --quiet --date 2027-02-20".split()
NOT_TEXT = {"flag": "boolean", "texts": "string[]"}


def typescript(types):
    lines = [
        "// Written by tools/generate.py from `wheyfield schema`; do not edit.",
        "// Scalars are texts with their unit: \"0.5 acre\", \"20 L\", \"2027-03-04\".",
    ]
    for name, fields in types.items():
        lines += ["", f"export interface {name} {{"]
        for field in fields:
            mark = "" if field["required"] else "?"
            lines.append(f"  {field['name']}{mark}: {typescript_type(field)};")
        lines.append("}")
    return "\n".join(lines) + "\n"


def typescript_type(field):
    if field["holds"] == "object":
        return field.get("type", "Record<string, unknown>")
    if field["holds"] == "list":
        return field["type"] + "[]"
    if "choices" in field:
        return " | ".join(f"'{choice}'" for choice in field["choices"])
    return NOT_TEXT.get(field["holds"], "string")


def field_list(schema):
    lines = [
        "# Fields of the requests",
        "",
        "Written by `tools/generate.py` from `wheyfield schema`; do not edit. What each field means"
        " stands in [season-file.md](season-file.md) for the season and in [facade.md](facade.md)"
        " for the doses.",
        "",
        "Actions: " + ", ".join(f"`{name}`" for name in schema["actions"]) + ".",
    ]
    for name, fields in schema["types"].items():
        lines += ["", f"## {name}", "", *field_table(fields)]
    lines += [
        "",
        "# Parts of notes",
        "",
        "By the kind of note; how each kind counts stands in [journal.md](journal.md).",
    ]
    listed = schema["types"].keys()
    for kind, fields in schema["events"].items():
        if kind not in listed:
            lines += ["", f"## {kind}", "", *field_table(fields)]
    return "\n".join(lines) + "\n"


def field_table(fields):
    lines = ["| field | holds | required |", "|---|---|---|"]
    for field in fields:
        holds = field["holds"]
        if "choices" in field:
            holds = ", ".join(f"`{choice}`" for choice in field["choices"])
        elif "type" in field:
            holds = f"{holds} of {field['type']}" if holds == "list" else field["type"]
        lines.append(f"| `{field['name']}` | {holds} | {'yes' if field['required'] else ''} |")
    return lines


def with_excerpt(readme):
    """What the first page says between the size of the group and its first heading."""
    # It asks a question, so its status is not 0.
    page = subprocess.run([WHEYFIELD, *PLAN], cwd=ROOT, capture_output=True, text=True).stdout
    paragraphs = page.split("\n\n")[2:]
    end = next(i for i, text in enumerate(paragraphs) if "\n---" in text)
    said = "\n\n".join(paragraphs[:end])
    readme, replaced = EXCERPT.subn(lambda found: found[1] + said + found[2], readme)
    assert replaced == 1, "README.md has no excerpt of the practice season"
    return readme


def main():
    text = subprocess.run([WHEYFIELD, "schema", "--json"], check=True, capture_output=True).stdout
    schema = json.loads(text)
    lot_sizing = (ROOT / "docs/models/lot-sizing.md").read_text()
    wanted = {
        ROOT / "docs/models/growth.svg": growth_plot.drawn(lot_sizing),
        ROOT / "docs/models/validation.svg": validation_plot.drawn(
            (ROOT / "docs/models/fermentation.md").read_text()),
        ROOT / "web/src/season.ts": typescript(schema["types"]),
        ROOT / "docs/formats/fields.md": field_list(schema),
        ROOT / "README.md": with_excerpt((ROOT / "README.md").read_text()),
    }
    stale = [path for path, text in wanted.items() if not path.exists() or path.read_text() != text]
    if "--check" in sys.argv:
        for path in stale:
            print(f"{path.relative_to(ROOT)} is not what the program says: run tools/generate.py")
        return 1 if stale else 0
    for path in stale:
        path.write_text(wanted[path])
        print(f"written: {path.relative_to(ROOT)}")
    return 0


sys.exit(main())
