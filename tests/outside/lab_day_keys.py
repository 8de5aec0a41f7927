"""The forty-kit day worked twice with the real program, and every key of a person's counted.

Once as on a store that knows nothing of its laboratory (each command is told name, zone and
profile, each box its test and postmark, each test is concluded and reported by a line of its own),
once as on one that was set up, by people who sign in: no name, zone or path is typed there. A scan
is no key: the scanner types, its Enter too. Options that only this suite needs (the store's file,
the moment) are not counted. Both days end in the same.
"""
import csv
import json
import os
import shutil

import lab_day_kits as kits
import records
import replay_log

DONE = 0
NOW = ["--now", "2027-04-12 10:30"]
READ = ["--now", "2027-04-12 18:00"]
UNSET = ["--zone", "Europe/London", "--profile", "fenwick-vale"]
PAPER = "2027-04-07 07:30 07:45 08:00 08:15 08:30 08:46 09:00 09:15 09:30 09:45 drink 07:32-07:34"
WORDS = "For the doctor to judge."
POSTED = "2027-04-08"
INBOX, TABLES, REPORTS = (os.path.join(records.WORK, "keys-" + name)
                          for name in ("inbox", "tables", "reports"))
PROGRAM = "quarterbreath-lab"


class Day:
    """One day: its store, the keys of each part, and what was scanned."""

    def __init__(self, name, lab, score):
        self.store, self.lab, self.score = name + ".db", lab, score
        self.keys, self.of_kit, self.typed = {}, {}, []

    def run(self, part, typed, hidden=(), lines="", kit=None, scans=0):
        """A command as it is typed, then lines typed at it, of which `scans` bytes are scanned."""
        short = [os.path.basename(w) if w.startswith(records.WORK) else w for w in typed]
        line = " ".join([PROGRAM, *(f'"{w}"' if " " in w else w for w in short)])
        count = len(line) + 1 + len(lines) - scans
        self.typed.append(line)
        self.keys[part] = self.keys.get(part, 0) + count
        if kit:
            self.of_kit.setdefault(part, {})
            self.of_kit[part][kit] = self.of_kit[part].get(kit, 0) + count
        ran = self.lab(self.store, *typed, *hidden, input=lines)
        self.score.check(ran.returncode == DONE, f"{self.store} {part}: {ran.stderr[:200]}")
        return ran


def make_post(folder, numbers):
    """The logs of those kit numbers, but for every eighth, which comes on paper."""
    played = records.read_log(records.play(os.path.join(records.SCRIPTS, "clean.json"), "keys"))
    os.makedirs(folder)
    for place, number in enumerate(numbers):
        if kits.is_paper(place):
            continue
        made = json.loads(kits.real_log(played, place))
        for event in made["events"]:
            if event["kind"] == "person":
                event["data"]["kit_number"] = number
        with open(os.path.join(folder, f"{place:03}.log.json"), "w", encoding="utf-8",
                  newline="") as file:
            file.write(replay_log.chained(made))


def bench_sheet(path, numbers):
    """The run's table as an analyser writes it; tubes of one kit follow each other."""
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write("Bench sheet\nRun no.;R-1\nControl gas;within\n")
        rows = csv.writer(file, delimiter=";", lineterminator="\n")
        rows.writerow(["Tube label", "Hydrogen ppm", "Methane ppb", "Carbon dioxide permille",
                       "Read on", "at", "State"])
        for place, number in enumerate(numbers):
            for tube in range(1, 11):
                rows.writerow([f"{number}-{tube:02}", f"{4 + (place + tube) % 7},5", "1000", "50",
                               "12.4.2027", f"{11 + place // 10}:{place % 10 * 5 + tube // 3:02}",
                               "fine"])


def plain_sheet(path, numbers):
    """The same, as somebody had to write it before."""
    with open(path, "w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["kit", "tube", "h2_ppm", "ch4_ppm", "co2_pct", "measured_at"])
        for place, number in enumerate(numbers):
            for tube in range(1, 11):
                rows.writerow([number, tube, f"{4 + (place + tube) % 7}.5", "1", "5.0",
                               f"2027-04-12 {11 + place // 10}:{place % 10 * 5 + tube // 3:02}"])


def box_words(place, well):
    """Every tenth box has a bad lid."""
    return well + (" !4" if place % 10 == 9 else "")


def receive_all(day, numbers, typed, hidden, well, of_paper):
    """Kit by kit in one loop, as at a scanner; the keys of each are told apart."""
    lines, scans = "", 0
    day.of_kit["receive"] = {}
    for place, number in enumerate(numbers):
        box = box_words(place, well) + "\n"
        own = box
        lines += number + "\n" + box
        scans += len(number) + 1
        if kits.is_paper(place):
            own += of_paper + "\n"
            lines += number + "\n" + of_paper + "\n"
            scans += len(number) + 1
        day.of_kit["receive"][number] = len(own)
    day.run("receive", typed, hidden, lines + "q\n", scans=scans)


def short_ids(day, hidden):
    ran = day.lab(day.store, "--format", "json", "worklist", "--all", *hidden)
    return {one["kit"]: one["test"][-6:] for one in json.loads(ran.stdout)["work"]}


def day_before(lab, score, numbers, post):
    day = Day("keys-before", lab, score)
    by = ["--by", "R. Ashdown"]
    day.run("import", ["import", post])
    receive_all(day, numbers, ["receive", *by, *UNSET], NOW,
                f"y lactulose-10g posted {POSTED}", "paper lactulose-10g " + PAPER)
    sheet = os.path.join(records.WORK, "keys-plain.csv")
    plain_sheet(sheet, numbers)
    day.run("readings", ["readings", sheet, *by, *UNSET], READ)
    ids = short_ids(day, [*UNSET, *READ])
    for number in numbers:
        day.run("conclude", ["conclude", number, "--by", "Dr L. Fennimore", "--words", WORDS,
                             "--confirm", ids[number], *UNSET], READ, kit=number)
        day.run("report", ["report", number, *UNSET],
                [*READ, "--out", os.path.join(records.WORK, f"before-{number}.pdf")], kit=number)
    return day


def set_up(lab, score):
    """Once for a laboratory, and not of the day: what it is, where things come and go, and which
    kits it gave out."""
    for folder in (INBOX, TABLES, REPORTS):
        os.makedirs(folder)
    layout = os.path.join(records.ROOT, "demo-data", "readings", "bench-sheet.layout.json")
    store = "keys-after.db"
    ran = lab(store, "set-up", "--for-trying", "--profile", "fenwick-vale", "--zone",
              "Europe/London", "--layout", layout, "--inbox", INBOX, "--tables", TABLES,
              "--reports", REPORTS, "--person", "R. Ashdown / ra / bench",
              "--person", "Dr L. Fennimore / lf / reader", "--by", "lf")
    score.check(ran.returncode == DONE, f"set-up: {ran.stderr}")
    ran = lab(store, "--format", "json", "kit-code", "--protocol", "lactulose-10g", "--expires",
              "2027-12-31", "--first", "2C7H", "--count", str(kits.KITS), "--lot", "L7", "--by",
              "ra")
    score.check(ran.returncode == DONE, f"kit-code: {ran.stderr}")
    return [one["kit_number"] for one in json.loads(ran.stdout)["kits"]]


def day_after(lab, score, numbers, post):
    day = Day("keys-after", lab, score)
    for name in os.listdir(post):
        shutil.copy(os.path.join(post, name), INBOX)
    day.run("sign-in", ["sign-in", "ra"])
    day.run("import", ["import"])
    receive_all(day, numbers, ["receive", "--posted", POSTED], NOW, "y", "paper " + PAPER)
    bench_sheet(os.path.join(TABLES, "0412.csv"), numbers)
    day.run("readings", ["readings"], READ)
    again = day.run("readings", ["readings"], READ)
    score.check("0 new of 1 tables" in again.stdout, f"a table twice: {again.stdout[-80:]}")
    day.run("sign-in", ["sign-in", "lf"])
    day.of_kit["conclude"] = {n: len("=\ny\n") for n in numbers}
    day.of_kit["conclude"][numbers[0]] = len(WORDS + "\ny\n")
    day.run("conclude", ["conclude"], READ,
            WORDS + "\ny\n" + "=\ny\n" * (len(numbers) - 1))
    day.of_kit["report"] = {n: 0 for n in numbers}
    day.run("report", ["report", "--all"], READ)
    day.run("sign-out", ["sign-out"])
    ran = lab(day.store, "receive", *NOW, input="q\n")
    score.check(ran.returncode != DONE and "no name" in ran.stderr,
                f"after sign-out: {ran.stderr[:120]}")
    return day


def ended_in(lab, score, store, hidden):
    """What the warehouse gets, but for what only a set-up laboratory knows."""
    folder = os.path.join(records.WORK, store + "-out")
    ran = lab(store, "export", folder, *hidden)
    score.check(ran.returncode == DONE, f"export of {store}: {ran.stderr}")
    out = []
    for name in ("tests.csv", "tubes.csv"):
        with open(os.path.join(folder, name), encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                for key in ("mark", "lot", "expires", "run", "control", "test_id", "co2_pct"):
                    row.pop(key, None)
                out.append(row)
    return out


def table(before, after, numbers):
    """Keys a kit: of one that is well, and on average; then of the whole day."""
    print("keys a kit          well kit        mean of forty")
    for part in ("receive", "conclude", "report"):
        old, new = before.of_kit[part], after.of_kit[part]
        print(f"  {part:<10} {old[numbers[1]]:>6} -> {new[numbers[1]]:<6}"
              f" {sum(old.values()) / len(old):>8.1f} -> {sum(new.values()) / len(new):.1f}")
    for name, day in (("before", before), ("after", after)):
        parts = ", ".join(f"{part} {keys}" for part, keys in day.keys.items())
        print(f"keys of the day {name}: {sum(day.keys.values())} ({parts})")


def check(score, lab):
    numbers = set_up(lab, score)
    score.check(len(numbers) == kits.KITS, f"{len(numbers)} kits were issued")
    post = os.path.join(records.WORK, "keys-post")
    make_post(post, numbers)
    before = day_before(lab, score, numbers, post)
    after = day_after(lab, score, numbers, post)
    table(before, after, numbers)
    well = numbers[1]
    score.check(after.of_kit["receive"][well] == 2,
                "a well kit costs more than a scan and two keys")
    score.check(after.of_kit["conclude"][well] <= 4 and after.of_kit["report"][well] == 0,
                "a well kit's conclusion and report cost more than four keys")
    score.check(10 * sum(after.keys.values()) < sum(before.keys.values()) * 3,
                "the day costs more than three tenths of the keys it did")
    typed = " ".join(after.typed)
    score.check(not any(one in typed for one in ("--by", "Ashdown", "Fennimore", "--zone",
                                                 "--profile", "/", ".csv", "--out")),
                f"names, zones or paths were typed: {typed}")
    reports = os.listdir(REPORTS)
    score.check(len([n for n in reports if n.endswith(".report.pdf")]) == kits.KITS,
                f"{len(reports)} reports")
    old = ended_in(lab, score, "keys-before.db", [*UNSET, *READ])
    new = ended_in(lab, score, "keys-after.db", READ)
    score.check(len(old) == len(new) > kits.KITS and old == new, "the two days end differently: "
                + str([(a, b) for a, b in zip(old, new) if a != b][:1]))
