# SPDX-License-Identifier: MIT
"""One album, and every verdict on it held against a reckoning that knows nothing of the program's own.

What goes together by the program must go together by the reckoning, if only just; what the program stops or warns of
must not go with room to spare. No verdict is told by its words, only by its id.
"""

import copy
import json
import subprocess
from collections import Counter

from conftest import PROGRAM, flags
from hunt_pieces import flats, named
from hunt_reckoning import Reckoning
from hunt_sizes import by_sizes, of_case, too_big
from read import Kit

#: A stock on which everything fits.
ENDLESS = {"sheet": "2000x2000mm", "grain": None, "pattern": None}


class Hunt:
    """One album: its verdict, and the pieces of it, or of what is left of it, when what stops it is taken out."""

    def __init__(self, name, folder, album, said, machine):
        """The album with every length in mm, the same as its file says it, and the machine's settings."""
        self.name, self.folder = name, folder
        self.album, self.said, self.machine = album, said, machine
        self.verdict = self.check(self.said, self.machine)
        self.left_out = set()

    def run(self, command, album, machine, *words):
        file = self.folder / f"{self.name}.json"
        file.write_text(json.dumps(album), encoding="utf-8")
        asked = [PROGRAM, command, file, *words, *flags(machine)]
        return subprocess.run([str(word) for word in asked], capture_output=True, text=True, timeout=300)

    def check(self, album, machine, *words):
        done = self.run("check", album, machine, "--json", *words)
        if done.returncode not in (0, 1):
            raise Ended(f"check ended with {done.returncode}: {done.stdout[:300]} {done.stderr[:300]}")
        return {"code": done.returncode, **json.loads(done.stdout)}

    def said_ids(self):
        """The ids of what the program stops, or warns of, alone and with what each is about."""
        grave = [finding for finding in self.verdict["findings"] if finding["level"] in ("stop", "warn")]
        return {finding["id"] for finding in grave} | {f"{finding['id']}: {finding['about']}" for finding in grave}

    def kit(self, album, machine):
        out = self.folder / f"kit-{self.name}"
        alone = "--shared-cuts=false"  # Outlines are read from the file.
        done = self.run("kit", album, machine, "--out", out, "--replace", "--formats", "dxf", "--effort", "low", alone)
        if done.returncode != 0:
            raise Ended(f"kit ended with {done.returncode}, check with 0: {done.stdout[:300]} {done.stderr[:300]}")
        return Kit(out, album=album, **machine)

    def reckoned(self):
        """Everything that can be reckoned of it."""
        measures, said, machine = self.verdict.get("measures"), self.said, self.machine
        if self.verdict["code"] == 1:
            said, machine = self.loosened()
            measures = None
        if said is None:
            return [*by_sizes(self.album), *of_case(self.album)]
        kit = self.kit(said, machine)
        pieces = self.recut(named(flats(kit), self.album.get("bound")))
        reckoning = Reckoning(self.album, pieces, self.left_out)
        parts = too_big(self.album, pieces, self.machine, self.left_out)
        return [*reckoning.all(measures), *by_sizes(self.album), *of_case(self.album), *parts]

    def recut(self, pieces):
        """The pieces as they were cut; who plants a fault cuts them otherwise."""
        return pieces

    def loosened(self):
        """The album on endless sheets without its inserts, and without what else stops it."""
        said = copy.deepcopy(self.said)
        said.pop("inserts", None)
        self.left_out.add("inserts")
        for stock in said["stocks"].values():
            stock.update(ENDLESS)
        for stock in said["stocks"].values():
            for name in [name for name, value in stock.items() if value is None]:
                del stock[name]
        machine = {**self.machine, "margin": 0}
        for _ in range(4):
            verdict = self.check(said, machine)
            if verdict["code"] == 0:
                return said, machine
            stops = [finding for finding in verdict["findings"] if finding["level"] == "stop"]
            paths = {finding["place"]["path"].split(".")[0] for finding in stops}
            if paths & {"spine", "page"} or not paths:
                return None, None
            for path in paths:
                self.leave_out(said, path)
        return None, None

    def leave_out(self, said, path):
        """Takes out what stops it: a page becomes a plain one."""
        self.left_out.add(path)
        if path.startswith("pages["):
            said["pages"][int(path[6:-1])] = {"kind": "pocket"}
        else:
            said.pop(path, None)

    def faults(self):
        """Where program and reckoning do not agree; all reckonings are counted in `tally`."""
        ids, all_of = self.said_ids(), self.reckoned()
        self.tally = Counter(reckoned.sort for reckoned in all_of)
        self.tally += Counter(f"{reckoned.sort}: no" for reckoned in all_of if reckoned.at_best < 0)
        self.tally += Counter(f"{reckoned.sort}: yes" for reckoned in all_of if reckoned.at_worst >= 0)
        for reckoned in all_of if self.verdict["code"] == 0 else ():
            if reckoned.at_best < 0 and not ids & set(reckoned.ids):
                yield f"let through: {reckoned}"
        for said in sorted(ids):
            mine = [reckoned for reckoned in all_of if said in reckoned.first]
            if mine and all(reckoned.at_worst >= 0 for reckoned in mine):
                yield f"false alarm: {said}, but {'; '.join(map(str, mine[:2]))}"


    def answers(self):
        """What is wrong with the answers: no way out, no place, or a value that does not mend what it is there for."""
        for finding in self.verdict["findings"]:
            name = f"{finding['level']} {finding['id']} about {finding['about']}"
            if not finding.get("help") or finding["level"] != "note" and "place" not in finding:
                yield f"{name} has no help, or no place"
            mend = finding.get("mend")
            if mend and self.still(finding, mend):
                yield f"{name} is still said with {mend['path']} {mend['text']}"

    def still(self, finding, mend):
        """Whether a finding is still said of the album that has its mend in it."""
        said = copy.deepcopy(self.said)
        put(said, mend["path"], json.loads("{" + mend["text"] + "}"))
        found = self.check(said, self.machine)["findings"]
        return what(finding) in map(what, found)


def what(finding):
    """What a finding says of which thing in the file."""
    return finding["id"], finding["about"], finding.get("place", {}).get("path")


def put(album, path, field):
    """Puts a field into an album at the place where a path such as `pages[0].overflap` says that it stands."""
    *way, _ = path.replace("]", "").replace("[", ".").split(".")
    for step in way:
        album = album[int(step)] if isinstance(album, list) else album.setdefault(step, {})
    album.update(field)


class Ended(Exception):
    """A run that ended as no run may."""
