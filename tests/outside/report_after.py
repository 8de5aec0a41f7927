"""What comes after a report: the day's list beside it, and conclusions that more came after.

A part of run_report, which has made and concluded the kits.
"""
import copy
import json
import os
import uuid
import re
import subprocess

import records
import replay_log

OWN = os.path.join(records.ROOT, "demo-data/laboratories/own-consequences.json")
BY = ["--by", "Dr Orla Penhallow"]


def conclude(lab, kit, words, more, amended=False):
    """As a reader does: the box is here and compared, the test is shown, and named again."""
    lab("receive", "--kit", kit, "--box", "y", *more)
    later = ["--kind", "amended", "--reason", "more came"] if amended else []
    typed = ["conclude", kit, "--words", words, "--lack", "as it came", *later, *more]
    asked = re.search(r"--confirm (\S+)", lab(*typed).stderr)
    return lab(*typed, "--confirm", asked.group(1) if asked else "not-asked")


# What all of a test is named by (app and core/fhir/uuid.hpp).
SPACE = "https://quarterbreath.invalid/test/"

class After:
    """`lab` runs the laboratory's program with its words; `at` are those of zone and moment."""

    def __init__(self, score, lab, folder, at):
        self.score, self.lab, self.folder, self.at = score, lab, folder, at

    def said(self, kit, *more):
        return json.loads(self.lab("report", kit, "--format", "json", "--out", "-", *self.at,
                                   *more).stdout)

    def listed(self, kit, *more):
        work = json.loads(self.lab("--format", "json", "worklist", "--all", *self.at,
                                   *more).stdout)
        return next(one for one in work["work"] if one["kit"] == kit)

    def reviews(self, kits):
        """The day's list counts what the report has as more than a note and not set aside: by the
        shipped profile, and by one with consequences of its own."""
        late = {}
        for profile in ([], ["--profile", OWN]):
            for kit in kits:
                shown = [f for f in self.said(kit, *profile)["findings"]
                         if f["consequence"] != "note" and not f["set_aside"]]
                count = self.listed(kit, *profile)["to_review"]
                self.score.check(count == len(shown),
                                 f"{kit} {profile}: {count} on the list, {len(shown)} reported")
                late.setdefault(bool(profile), []).append(
                    sum(f["rule"] == "sample-late" for f in shown))
        self.score.check(sum(late[False]) > 0 and sum(late[True]) == 0,
                         f"late tubes weigh the same by a profile that says otherwise: {late}")

    def warehouse(self, kits):
        """The lines for a data warehouse have each criterion's answer as the report has it."""
        folder = os.path.join(self.folder, "warehouse")
        ran = self.lab("export", folder, *self.at)
        self.score.check(ran.returncode == 0, f"export: {ran.stderr}")
        with open(os.path.join(folder, "fhir.ndjson"), encoding="utf-8") as file:
            lines = [json.loads(line) for line in file]
        there = {(one["identifier"][0]["value"], one["valueString"].split(":")[0])
                 for one in lines if "valueString" in one}
        for kit in kits:
            said = self.said(kit)
            test = uuid.uuid5(uuid.NAMESPACE_URL, SPACE + said["test_id"])
            wanted = {(f"{test}/{one['id']}", one["answer"])
                      for one in said["judgement"]["criteria"]}
            self.score.check(wanted and wanted <= there, f"{kit}: not exported: {wanted - there}")
        reports = [one for one in lines if one["resourceType"] == "DiagnosticReport"]
        self.score.check(len(reports) >= len(kits), f"{len(reports)} reports exported")

    def conclude(self, kit):
        ran = conclude(self.lab, kit, "Read as it stood then.", [*BY, *self.at],
                       amended=self.said(kit)["conclusion"] is not None)
        said, listed = self.said(kit), self.listed(kit)
        self.score.check(ran.returncode == 0 and not said["draft"]
                         and said["conclusion"]["since"] == []
                         and listed["waits_for"] == "nothing",
                         f"not concluded: {ran.stderr} {listed}")

    def grown(self, kit):
        """The kit's log with its last event once more."""
        with open(os.path.join(self.folder, kit + ".log.json"), encoding="utf-8") as file:
            log = json.load(file)
        last = log["events"][-1]
        log["events"].append(dict(copy.deepcopy(last), seq=last["seq"] + 1))
        path = os.path.join(self.folder, kit + ".grown.json")
        with open(path, "w", encoding="utf-8", newline="") as file:
            file.write(replay_log.chained(log))
        return path

    def stale(self, kit):
        """A conclusion stands until something comes after it; report and day's list say what."""
        again = os.path.join(self.folder, "again.csv")
        with open(again, "w", encoding="utf-8") as file:
            file.write(f"kit,tube,h2_ppm,ch4_ppm,measured_at\n{kit},4,99,3,2027-04-12 08:20\n")
        number = "0"
        for words, wanted in [
                (["readings", again, *BY, *self.at], "1 reading of tube 4 (2027-04-12 10:00 UTC)"),
                (["choose", kit, "4", "NUMBER", "--reason", "the first leaked", *BY, *self.at],
                 "Dr Orla Penhallow chose between the readings of tube 4"),
                (["override", kit, "sample-late", "--reason", "no matter", *BY, *self.at],
                 "Dr Orla Penhallow set aside sample-late"),
                (["receive", "--kit", kit, "--box", "y !7", *BY, *self.at],
                 "the box was told again"),
                (["import", self.grown(kit)], "another version of the log came")]:
            self.conclude(kit)
            ran = self.lab(*[number if one == "NUMBER" else one for one in words])
            found = re.search(r"reading (\d+): H2 99", ran.stdout)
            number = found.group(1) if found else number
            said, listed = self.said(kit), self.listed(kit)
            since = said["conclusion"]["since"]
            self.score.check(ran.returncode == 0 and said["draft"]
                             and any(one.startswith(wanted) for one in since),
                             f"{words[0]}: {ran.stderr} {since}")
            self.score.check(listed["waits_for"] == "review" and listed["again"],
                             f"{words[0]}: the day's list has {listed}")
        self.read_again(kit, 4)
        self.page(kit)
        self.conclude(kit)

    def read_again(self, kit, tube):
        """The reading that is not used stands beside the one that is, and firmness tries it."""
        said = self.said(kit)
        others = {one["number"]: one["other_readings"] for one in said["tubes"]}
        self.score.check(len(others[tube]) == 1 and not any(
            others[n] for n in others if n != tube), f"other readings: {others}")
        for one in said["judgement"]["criteria"]:
            firm = one["firmness"]
            self.score.check(
                "other-reading" in firm["tried"] and all(
                    turn["tube"] == tube for turn in firm["turned_by"]
                    if turn["by"] == "other-reading"), f"{one['id']} tried {firm}")

    def page(self, kit):
        path = os.path.join(self.folder, kit + ".stale.pdf")
        ran = self.lab("report", kit, "--out", path, *self.at)
        text = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, text=True,
                              check=True).stdout
        text = " ".join(text.split())
        self.score.check(
            "a draft again" in ran.stdout and "DRAFT AGAIN. Dr Orla Penhallow concluded on "
            "2027-04-12 before this came: another version of the log came" in text
            and "read again, not used: H2 " in text
            and "Before: Read as it stood then. Readings that are missing: as it came. Dr Orla "
            "Penhallow, 2027-04-12." in text,
            f"the page: {text[:400]}")
