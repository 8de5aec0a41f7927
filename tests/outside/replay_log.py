#!/usr/bin/python3
"""Replays a timing log with nothing but Python's own library, from the format's description.

Whoever doubts a log need not trust our program: this checks the chain of hashes, counts the time
since tube 1 again, and compares with the summary. Usage: replay_log.py LOG.json...

Elapsed time is added up from event to event: by the boot clock where both events carry the same
boot, else by the wall clock, never below what the later boot clock shows. After a restart it is
measured anew once the wall clock is worth more (core/clock/time_line.hpp says when). Tube 1's
closing is the anchor; closed again
before the drink it is the anchor anew. A told breath counts back from the event that tells it.
"""
import hashlib
import json
import sys
from datetime import datetime, timedelta, timezone

START = "0" * 64
EPOCH = datetime(1970, 1, 1, tzinfo=timezone.utc)


def canonical(value):
    """RFC 8785 for whole numbers and ASCII keys."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def milliseconds(text):
    """RFC 3339 in UTC, with or without milliseconds."""
    form = "%Y-%m-%dT%H:%M:%S.%fZ" if "." in text else "%Y-%m-%dT%H:%M:%SZ"
    moment = datetime.strptime(text, form).replace(tzinfo=timezone.utc)
    return (moment - EPOCH) // timedelta(milliseconds=1)


def rfc3339(ms):
    moment = EPOCH + timedelta(milliseconds=ms)
    text = moment.strftime("%Y-%m-%dT%H:%M:%S")
    return text + (f".{ms % 1000:03}" if ms % 1000 else "") + "Z"


def broken_link(log):
    """The seq of the first event whose hash does not fit, or None; 0 when the head does not."""
    before = START
    for event in log["events"]:
        body = {key: event[key] for key in event if key != "hash"}
        link = hashlib.sha256((before + "\n" + canonical(body)).encode("utf-8")).hexdigest()
        if link != event["hash"]:
            return event["seq"]
        before = event["hash"]
    return None if log["head"] == before else 0


def chained(log):
    """The same log with its hashes, head and summary made anew, as text: an honest log of whatever
    its events say now."""
    before = START
    for event in log["events"]:
        body = {key: event[key] for key in event if key != "hash"}
        before = hashlib.sha256((before + "\n" + canonical(body)).encode("utf-8")).hexdigest()
        event["hash"] = before
    log["head"] = before
    log["summary"] = Replay(log).summary()
    if log["version"] > 1:
        log.update(header(log["events"]))
    return canonical(log)


def named_rules(rules):
    text = canonical(rules).encode("utf-8")
    return {"id": rules["id"], "sha256": hashlib.sha256(text).hexdigest()}


def header(events):
    """The head that follows from the events, from version 2 on."""
    latest = {}
    answers = {"cautions": {}, "washouts": {}, "slips": [], "ready": None}
    for event in events:
        kind, data = event["kind"], event["data"]
        latest[kind] = data
        if kind in ("caution", "washout"):
            answers[kind + "s"][data["rule"]] = data
        elif kind == "slip":
            answers["slips"].append(data)
        elif kind == "ready":
            answers["ready"] = data
    person, plan = latest.get("person"), latest.get("plan")
    if person is not None:
        person = {key: person[key] for key in person if key != "laboratory"}
    return {"zone": plan["zone"] if plan else events[0]["at"]["zone"],
            "rules": {"profile": named_rules(latest["opened"]["profile"]),
                      "protocol": named_rules(plan["protocol"]) if plan else None},
            "person": person,
            "answers": dict(answers, cautions=list(answers["cautions"].values()),
                            washouts=list(answers["washouts"].values()))}


FIELDS = {"format", "version", "program", "rehearsal", "events", "head", "summary"}
HEAD = {"tzdata", "zone", "rules", "person", "answers"}  # from version 2 on
ROUNDING = 2000
DAY = 24 * 3600 * 1000


def wall_between(earlier, later):
    return milliseconds(later["wall"]) - milliseconds(earlier["wall"])


def is_restart(earlier, later):
    return "boot" in earlier and "boot" in later and earlier["boot"] != later["boot"]


def surely(earlier, later):
    """The time that is sure to have passed, whatever a wall clock says."""
    if is_restart(earlier, later):
        return later["boot_ms"]
    same = "boot" in earlier and "boot" in later
    return max(0, later["boot_ms"] - earlier["boot_ms"]) if same else 0


def between(earlier, later):
    """The length from one look at the clocks to the next, and what of it is sure."""
    sure = surely(earlier, later)
    if "boot" in earlier and earlier.get("boot") == later.get("boot"):
        return sure, sure
    return max(sure, wall_between(earlier, later)), sure


class TimeLine:
    """Elapsed time along the events' clocks."""

    def __init__(self, first, before=0):
        self.last, self.length, self.sure = first, before, 0
        self.trusted = None  # (clocks, length, sure) before a restart that is not settled
        self.doubtful = self.lying = False

    def counted(self, now):
        length, sure = between(self.last, now)
        return self.length + length, self.sure + sure

    def anew(self, now):
        if self.trusted is None:
            return None
        then, length, sure = self.trusted
        bound, gap = self.counted(now)[1] - sure, wall_between(then, now)
        in_order = gap >= bound - ROUNDING
        vouched = then["synchronised"] and now["synchronised"] and not self.lying
        if in_order and (vouched or (self.doubtful and gap <= DAY)):
            return length + max(bound, gap), sure + bound
        return None

    def restart(self, now):
        sure, gap = surely(self.last, now), wall_between(self.last, now)
        vouched = self.last["synchronised"] and now["synchronised"]
        believed = gap >= sure - ROUNDING and (vouched or gap <= DAY)
        settled = believed and (now["synchronised"] or not self.last["synchronised"])
        if settled and self.trusted is None:
            return
        if self.trusted is None:
            self.trusted = (self.last, self.length, self.sure)
            self.doubtful = self.lying = False
        self.doubtful = self.doubtful or not believed
        self.lying = self.lying or (not believed and now["synchronised"])

    def go_on(self, now):
        anew, counted = self.anew(now), self.counted(now)
        if anew and (now["synchronised"] or not self.trusted[0]["synchronised"]):
            self.trusted = None
        elif anew:
            self.doubtful = False
        elif is_restart(self.last, now):
            self.restart(now)
        (self.length, self.sure), self.last = anew or counted, now


class Replay:
    """What the events add up to."""

    def __init__(self, log):
        self.offsets, self.tubes, self.after = [], {}, {}
        self.protocol = self.kit = self.anchor = self.start = None
        self.drink_start = self.drink_end = self.ended = None
        self.drink_start_seq = self.drink_end_seq = 0
        self.line = self.times = None
        for event in log["events"]:
            if self.line is not None:
                self.line.go_on(event["at"])
            getattr(self, "on_" + event["kind"].replace("-", "_"), self.nothing)(event)

    def nothing(self, event):
        pass

    def tube(self, number):
        return self.tubes.setdefault(number, {"closings": [], "scores": [], "scored_by": []})

    def on_person(self, event):
        self.kit = event["data"]["kit_number"]

    def on_plan(self, event):
        if self.anchor is None:
            protocol = event["data"]["protocol"]
            self.protocol = protocol["id"]
            self.offsets = [m * 60000 for m in protocol["grid"]["offsets_min"]]
            self.times = protocol.get("symptom_times")
            self.start = event["data"]["start"]
            self.tubes, self.after = {}, {}

    def on_plan_called_off(self, event):
        if self.anchor is None:
            self.protocol = self.start = None
            self.offsets, self.tubes, self.after = [], {}, {}

    def on_tube_closed(self, event):
        number = event["data"]["sample"]
        if self.anchor is None or (number == 1 and self.drink_start is None):
            self.anchor, self.line = milliseconds(event["at"]["wall"]), TimeLine(event["at"])
        self.tube(number)["closings"].append(
            (event["at"]["wall"], "observed", self.line.length, event["seq"]))

    def on_breath_told(self, event):
        number, closed = event["data"]["sample"], event["data"]["closed"]
        ago = milliseconds(event["at"]["wall"]) - milliseconds(closed)
        if self.anchor is None:
            if number != 1:
                return
            self.anchor, self.line = milliseconds(closed), TimeLine(event["at"], max(0, ago))
        since = self.line.length - ago
        self.tube(number)["closings"].append((closed, event["data"]["how"], since, event["seq"]))

    def on_symptoms(self, event):
        tube = self.tube(event["data"]["sample"])
        tube["scores"] = [dict(score) for score in event["data"]["scores"]]
        tube["scored_by"].append(event["seq"])

    def on_symptoms_after(self, event):
        """Scores of no tube; none at all puts them off, and leaves those that were given."""
        data = event["data"]
        if not data["scores"]:
            return
        given = self.after.setdefault(data["when"], {"given": event["at"]["wall"], "told": []})
        given["scores"] = [dict(score) for score in data["scores"]]
        given["told"].append(event["seq"])

    def on_drink_started(self, event):
        if self.drink_start is None:
            self.drink_start, self.drink_start_seq = event["at"]["wall"], event["seq"]

    def on_drink_told(self, event):
        """A drink before tube 1 is the anchor: there is no baseline."""
        started = event["data"]["started"]
        if self.drink_start is not None or (self.anchor is None and not self.offsets):
            return
        if self.anchor is None:
            ago = milliseconds(event["at"]["wall"]) - milliseconds(started)
            self.anchor, self.line = milliseconds(started), TimeLine(event["at"], max(0, ago))
        self.drink_start, self.drink_start_seq = started, event["seq"]

    def on_drink_ended(self, event):
        # Told again where it was pressed too soon.
        self.drink_end, self.drink_end_seq = event["at"]["wall"], event["seq"]

    def on_corrected(self, event):
        """The event named is put right; the grid stays."""
        getattr(self, "right_" + event["data"]["field"])(event, event["data"]["corrects"])

    def closed_by(self, seq):
        for number, tube in self.tubes.items():
            if tube["closings"] and tube["closings"][-1][3] == seq:
                return number
        return None

    def right_time(self, event, seq):
        time, number = event["data"]["time"], self.closed_by(seq)
        if number is not None:
            ago = milliseconds(event["at"]["wall"]) - milliseconds(time)
            since = self.line.length - ago
            self.tubes[number]["closings"][-1] = (time, event["data"]["how"], since, seq)
        elif self.drink_start is not None and seq == self.drink_start_seq:
            self.drink_start = time
        elif self.drink_end is not None and seq == self.drink_end_seq:
            self.drink_end = time

    def right_tube(self, event, seq):
        told, really = self.closed_by(seq), event["data"]["really"]
        if told is None or told == really or really > len(self.offsets):
            return
        a, b = self.tube(told), self.tube(really)
        if b["closings"]:
            self.tubes[told], self.tubes[really] = b, a
        else:
            b["closings"], a["closings"] = a["closings"][-1:], a["closings"][:-1]

    def right_score(self, event, seq):
        one = {"id": event["data"]["symptom"], "score": event["data"].get("score")}
        for tube in list(self.tubes.values()) + list(self.after.values()):
            told = tube["scored_by" if "scored_by" in tube else "told"]
            if seq not in told:
                continue
            told.append(event["seq"])
            for score in tube["scores"]:
                if score["id"] == one["id"]:
                    score["score"] = one["score"]
                    return
            tube["scores"].append(one)
            return

    def on_ended(self, event):
        self.ended = self.ended or event["at"]["wall"]

    def due(self, number):
        return None if self.anchor is None else self.anchor + self.offsets[number - 1]

    def summary(self):
        samples = []
        for number, offset in enumerate(self.offsets, 1):
            tube = self.tube(number)
            closed, how, since, _ = (tube["closings"] or [(None, None, None, 0)])[-1]
            samples.append({"number": number, "closed": closed, "how": how,
                            "late_ms": None if since is None else since - offset,
                            "closings": len(tube["closings"]), "scores": tube["scores"]})
        after = [{"when": when, "given": self.after[when]["given"],
                  "scores": self.after[when]["scores"]}
                 for when in ("after-last", "later") if when in self.after]
        given = {"scores_after": after} if after else {}
        return {**given, "kit_number": self.kit, "protocol": self.protocol,
                "planned_start": self.start,
                "anchor": None if self.anchor is None else rfc3339(self.anchor),
                "drink_start": self.drink_start, "drink_end": self.drink_end,
                "ended_early": self.ended, "samples": samples}


def faults(text):
    """What is wrong with a log's text, one line each; nothing when all fits."""
    log = json.loads(text)
    out = []
    if canonical(log) != text:
        out.append("the file is not in its canonical form")
    if log["format"] != "quarterbreath-log" or log["version"] not in (1, 2, 3):
        out.append("not a log of this version")
    if set(log) != FIELDS | (HEAD if log["version"] > 1 else set()):
        out.append("other fields than a log of its version has")
    derived = header(log["events"]) if log["version"] > 1 else {}
    if any(log.get(name) != derived.get(name) for name in ("zone", "rules", "person", "answers")):
        out.append("the head says otherwise than the events")
    link = broken_link(log)
    if link is not None:
        out.append("the head does not fit" if link == 0 else f"event {link}: its hash does not fit")
    numbers = [event["seq"] for event in log["events"]]
    if numbers != list(range(1, len(numbers) + 1)):
        out.append("the events are not numbered from 1 without gaps")
    if Replay(log).summary() != log["summary"]:
        out.append("the summary says otherwise than the events")
    if log["rehearsal"] != log["events"][0]["data"]["rehearsal"]:
        out.append("head and first event differ on whether this is practice")
    return out


def main(paths):
    bad = False
    for path in paths:
        with open(path, encoding="utf-8", newline="") as file:
            found = faults(file.read())
        bad = bad or bool(found)
        for line in found or ["matches its own record"]:
            print(f"{path}: {line}")
    return 2 if bad or not paths else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
