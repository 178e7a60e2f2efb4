# SPDX-License-Identifier: MIT
"""Lays instances by the simple rules of another library (rectpack, Apache-2.0), for the layout benchmark to compare with.

Standard input: {"turning": true, "trimmer": false, "instances": [{"id", "bin": [w, h], "items": [[w, h, count], ...]}]}.
Prints `ID SHEETS` a line, the best of every algorithm, order and rule for choosing a sheet; `-` where none laid all items. Of
more than a few hundred boxes the first algorithm alone takes them by area onto the first sheet that fits: all would take hours.
"""

import itertools
import json
import sys

import rectpack

FREE = ["MaxRectsBl", "MaxRectsBssf", "MaxRectsBaf", "MaxRectsBlsf"]
FREE += ["SkylineBl", "SkylineBlWm", "SkylineMwf", "SkylineMwfl", "SkylineMwfWm"]
TRIMMER = ["Guillotine" + place + cut for place in ("Bssf", "Blsf", "Baf") for cut in ("Sas", "Las", "Minas", "Maxas")]
ORDERS = [rectpack.SORT_AREA, rectpack.SORT_LSIDE]
RULES = [rectpack.PackingBin.BBF, rectpack.PackingBin.BFF]
FEW = 300


def sheets(instance, turning, names):
    """The fewest sheets of all rules, or None."""
    boxes = [(width, height) for width, height, count in instance["items"] for _ in range(count)]
    orders, rules = ORDERS, RULES
    if len(boxes) > FEW:
        names, orders, rules = names[:1], [rectpack.SORT_AREA], [rectpack.PackingBin.BFF]
    best = None
    for name, order, rule in itertools.product(names, orders, rules):
        packer = rectpack.newPacker(
            mode=rectpack.PackingMode.Offline,
            bin_algo=rule,
            pack_algo=getattr(rectpack, name),
            sort_algo=order,
            rotation=turning,
        )
        for width, height in boxes:
            packer.add_rect(width, height)
        packer.add_bin(*instance["bin"], count=float("inf"))
        packer.pack()
        if sum(len(sheet) for sheet in packer) == len(boxes):
            used = sum(1 for _ in packer)
            best = used if best is None else min(best, used)
    return best


def main():
    """Reads, lays, prints."""
    task = json.load(sys.stdin)
    names = TRIMMER if task["trimmer"] else FREE
    for instance in task["instances"]:
        found = sheets(instance, task["turning"], names)
        print(instance["id"], "-" if found is None else found, flush=True)


if __name__ == "__main__":
    main()
