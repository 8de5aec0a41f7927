"""Slips of the hand while receiving, typed at the real program: what is asked, refused or told."""
import json
import os
import subprocess

import lab_day_kits as kits
import records

BY = ["--by", "R. Ashdown"]
NOW = ["--zone", "Europe/London", "--now", "2027-04-12 10:30"]
DONE, REFUSED = 0, 2
SHEET = "07:30 07:45 08:00 08:15 08:30 08:46 09:00 09:15 09:30 09:45 drink 07:32-07:34"


def check_labels(score, lab):
    """A tube's own label opens its kit; a code whose check character is wrong opens none."""
    ran = lab("slips.db", "receive", *BY, *NOW, input="FV-8001-03\nFV-8001-04\ny lactulose-10g\n")
    score.check(ran.returncode == DONE and "tube 3 (1 scanned)" in ran.stdout, ran.stderr)
    ran = lab("slips.db", "receive", *BY, *NOW, input="FV2C-7HM2-3N4X\n")
    score.check(ran.returncode == REFUSED and "check character does not fit" in ran.stderr,
                f"a bad check character: {ran.stderr}")
    ran = lab("slips.db", "--format", "json", "worklist", *NOW)
    here = [one["kit"] for one in json.loads(ran.stdout)["work"]]
    score.check(here == ["FV-8001"], f"kits after labels and bad codes: {here}")


def check_sheets(score, lab):
    """A second sheet and a drink that cannot be are asked about; nothing is lost by a yes."""
    def paper(sheet, *more):
        return lab("slips.db", "paper", "FV-8002", sheet, "--test", "lactulose-10g", *BY, *NOW,
                   *more)
    late = paper("2027-04-07 " + SHEET.replace("07:32-07:34", "12:00"))
    score.check(late.returncode == REFUSED and "drink-as-written" in late.stderr, late.stderr)
    score.check(paper("2027-04-07 " + SHEET).returncode == DONE, "the first sheet")
    second = paper("2027-04-08 " + SHEET)
    score.check(second.returncode == REFUSED and "--confirm replaces" in second.stderr and
                "2027-04-07" in second.stderr, f"a second sheet: {second.stderr}")
    score.check(paper("2027-04-08 " + SHEET, "--confirm", "replaces").returncode == DONE,
                "the second sheet was confirmed")
    ran = lab("slips.db", "receive", *BY, *NOW, "--kit", "FV-8002", "--box", "y")
    score.check("one of 2027-04-07 is kept beside it" in ran.stdout, ran.stdout)


def check_edited(score, lab):
    """A log that was edited is told by its file, with its box, and is no part of the audit."""
    log = records.read_log(records.play(os.path.join(records.SCRIPTS, "clean.json"), "edited"))
    text = kits.real_log(log, 1)
    made = json.loads(text)
    kit = kits.kit_number(1)
    changed = [event for event in made["events"] if event["kind"] == "symptoms"][2]
    changed["data"]["scores"][0]["score"] = 9 - changed["data"]["scores"][0]["score"]
    path = os.path.join(records.WORK, "edited.json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump(made, file)
    ran = lab("edited.db", "import", path)
    where = f"does not match its own record: from event {changed['seq']} on"
    score.check(path in ran.stdout and f"kit {kit}" in ran.stdout and where in ran.stdout,
                f"an edited log: {ran.stdout}")
    ran = lab("edited.db", "receive", *BY, *NOW, "--kit", kit, "--box", "y")
    score.check("box: nothing amiss" in ran.stdout and "! " + where in ran.stdout, ran.stdout)
    ran = lab("edited.db", "--format", "json", "audit", *NOW)
    score.check(json.loads(ran.stdout)["tests"] == [] and "1 test left out" in ran.stderr,
                f"the audit of an edited log: {ran.stdout} {ran.stderr}")
    table = f"kit,tube,h2_ppm,ch4_ppm,measured_at\n{kit},1,4,1,2027-04-12 10:31\n"
    ran = lab("edited.db", "readings", "-", *BY, *NOW, input=table)
    score.check(ran.returncode == REFUSED and "line 2, measured_at" in ran.stderr, ran.stderr)


def check_letters(score, lab):
    """What cannot be reported drafts three papers, which poppler reads; nobody has signed them."""
    kit, folder = kits.kit_number(1), os.path.join(records.WORK, "letters")
    ran = lab("edited.db", "conclude", kit, "--by", "Dr L. Fennimore", "--kind",
              "cannot-be-reported", "--words", "no tube was read.", "--confirm", "ay-001",
              "--letters", folder, *NOW)
    score.check(ran.returncode == DONE, f"letters: {ran.stderr}")
    pages = subprocess.run(["pdftotext", "-layout", os.path.join(folder, kit + ".letters.pdf"),
                            "-"], capture_output=True, text=True, check=False).stdout.split("\f")
    said = [" ".join(page.split()) for page in pages if page.strip()]
    score.check(len(said) == 3 and all("DRAFT for a named person" in page and "For trying" in page
                                       and "Signature" in page for page in said),
                f"letters: {len(said)} pages: {said}")
    score.check("We have no measurement of any tube." in said[0] and "no tube was read." in said[1]
                and "New kit number" in said[2], f"letters: {said}")
    score.check(kits.person(1) in said[0] and kits.person(1) not in ran.stderr, said[0][:200])


def check_unjudged(score):
    """What no criterion judges is said of a protocol before a kit of it is sent."""
    path = os.path.join(records.ROOT, "demo-data", "protocols", "fenwick-vale-long.json")
    ran = subprocess.run([os.path.join(records.BUILD, "quarterbreath"), "--assets",
                          os.path.join(records.ROOT, "assets"), "protocol", "check", path],
                         capture_output=True, text=True, check=False)
    score.check(ran.returncode == DONE and "Not judged: hydrogen, no criterion" in ran.stdout,
                f"protocol check: {ran.stdout} {ran.stderr}")


def check(score, lab):
    check_labels(score, lab)
    check_sheets(score, lab)
    check_edited(score, lab)
    check_letters(score, lab)
    check_unjudged(score)
