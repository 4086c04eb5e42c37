#!/usr/bin/python3
"""Holds the order of the rooms: a room includes itself and rooms above it in core/MODULES.

Also: every folder of core is a room and every room a folder; the core never includes a host;
only tests may include embedded.h. A store includes stores, a solver solvers, and of
the rooms those of SEES, no others.
Exits 1 and names each fault.

Usage: check_layers.py [ROOT]
"""

import re
import sys
from pathlib import Path

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')
OUTSIDE = ("hosts", "store", "solvers", "web", "sheets", "tests", "bench", "tools")
# Folders beside the core that see only some of its rooms.
SEES = {"store": ("outcome", "journal"), "solvers": ("lot_sizing",)}
SUFFIXES = (".h", ".cpp")


def rooms_of(core: Path) -> list[str]:
    return [line.strip() for line in (core / "MODULES").read_text().splitlines() if line.strip()]


def folder_faults(core: Path, rooms: list[str]) -> list[str]:
    folders = {path.name for path in core.iterdir() if path.is_dir()}
    faults = [f"core/MODULES: {room} has no folder" for room in rooms if room not in folders]
    faults += [f"core/{name}: not in core/MODULES" for name in sorted(folders - set(rooms))]
    faults += [f"core/MODULES: {room} twice" for room in set(rooms) if rooms.count(room) > 1]
    return faults


def include_fault(target: str, quoted: bool, room: str, rooms: list[str], test: bool) -> str | None:
    """What is wrong with one include of a file in `room`, or None."""
    top = target.split("/", 1)[0]
    if ".." in target.split("/") or top in OUTSIDE:
        return "reaches outside the core"
    if top in rooms and "/" in target:
        if not quoted:
            return 'our own headers are included with "..."'
        return "goes up" if rooms.index(top) > rooms.index(room) else None
    if not quoted:
        return None
    if target == "embedded.h":
        return None if test else "only tests may use the embedded data"
    return 'our own headers are written "room/file.h"'


def beside_include_fault(folder: str, target: str, quoted: bool, rooms: list[str]) -> str | None:
    """What is wrong with one include of a folder that stands beside the core, or None."""
    top = target.split("/", 1)[0]
    if not quoted:
        return 'our own headers are included with "..."' if top in (*rooms, *SEES) else None
    if ".." in target.split("/") or "/" not in target:
        return 'our own headers are written "room/file.h"'
    seen = (folder, *SEES[folder])
    return None if top in seen else f"{folder} sees only " + ", ".join(SEES[folder])


def includes(path: Path):
    """Line number, target and whether it is quoted, of each include."""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        match = INCLUDE.match(line)
        if match:
            yield number, match[2], match[1] == '"'


def file_faults(path: Path, core: Path, rooms: list[str]) -> list[str]:
    room = path.relative_to(core).parts[0]
    if room not in rooms:
        return []
    test = path.stem.endswith("_test")
    return [
        f"core/{path.relative_to(core)}:{number}: {target}: {fault}"
        for number, target, quoted in includes(path)
        if (fault := include_fault(target, quoted, room, rooms, test))
    ]


def beside_faults(path: Path, root: Path, rooms: list[str]) -> list[str]:
    folder = path.relative_to(root).parts[0]
    return [
        f"{path.relative_to(root)}:{number}: {target}: {fault}"
        for number, target, quoted in includes(path)
        if (fault := beside_include_fault(folder, target, quoted, rooms))
    ]


def sources_in(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.suffix in SUFFIXES)


def check(root: Path) -> tuple[list[str], int]:
    core = root / "core"
    rooms = rooms_of(core)
    files = sources_in(core)
    beside = [path for folder in SEES for path in sources_in(root / folder)]
    faults = folder_faults(core, rooms)
    for path in files:
        faults += file_faults(path, core, rooms)
    for path in beside:
        faults += beside_faults(path, root, rooms)
    for name in ("core", *SEES):
        if not sources_in(root / name):
            faults.append(f"{name}: no source file found")
    return faults, len(files) + len(beside)


def main() -> int:
    root = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parent.parent
    faults, count = check(root)
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"layers: {count} files, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
