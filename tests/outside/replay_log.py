#!/usr/bin/python3
"""Replays a timing log with nothing but Python's own library, from the format's description.

Whoever doubts a log need not trust our program: this checks the chain of hashes, counts the time
since tube 1 again, and compares with the summary. Usage: replay_log.py LOG.json...

Elapsed time is added up from event to event: by the boot clock where both events carry the same
boot, else by the wall clock, never below nothing. Tube 1's closing is the anchor; closed again
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
    return canonical(log)


def between(earlier, later):
    if earlier.get("boot") is not None and earlier.get("boot") == later.get("boot"):
        return max(0, later["boot_ms"] - earlier["boot_ms"])
    return max(0, milliseconds(later["wall"]) - milliseconds(earlier["wall"]))


class Replay:
    """What the events add up to."""

    def __init__(self, log):
        self.offsets, self.tubes = [], {}
        self.protocol = self.kit = self.anchor = self.start = None
        self.drink_start = self.drink_end = self.ended = None
        self.since, self.last = 0, None
        for event in log["events"]:
            if self.anchor is not None:
                self.since += between(self.last, event["at"])
            self.last = event["at"]
            getattr(self, "on_" + event["kind"].replace("-", "_"), self.nothing)(event)

    def nothing(self, event):
        pass

    def tube(self, number):
        return self.tubes.setdefault(number, {"closings": [], "scores": []})

    def on_person(self, event):
        self.kit = event["data"]["kit_number"]

    def on_plan(self, event):
        if self.anchor is None:
            protocol = event["data"]["protocol"]
            self.protocol = protocol["id"]
            self.offsets = [m * 60000 for m in protocol["grid"]["offsets_min"]]
            self.start = event["data"]["start"]
            self.tubes = {}

    def on_plan_called_off(self, event):
        if self.anchor is None:
            self.protocol = self.start = None
            self.offsets, self.tubes = [], {}

    def on_tube_closed(self, event):
        number = event["data"]["sample"]
        if self.anchor is None or (number == 1 and self.drink_start is None):
            self.anchor, self.since = milliseconds(event["at"]["wall"]), 0
        self.tube(number)["closings"].append((event["at"]["wall"], "observed", self.since))

    def on_breath_told(self, event):
        number, closed = event["data"]["sample"], event["data"]["closed"]
        ago = milliseconds(event["at"]["wall"]) - milliseconds(closed)
        if self.anchor is None:
            if number != 1:
                return
            self.anchor, self.since = milliseconds(closed), max(0, ago)
        self.tube(number)["closings"].append((closed, event["data"]["how"], self.since - ago))

    def on_symptoms(self, event):
        self.tube(event["data"]["sample"])["scores"] = event["data"]["scores"]

    def on_drink_started(self, event):
        self.drink_start = self.drink_start or event["at"]["wall"]

    def on_drink_ended(self, event):
        self.drink_end = event["at"]["wall"]  # told again where it was pressed too soon

    def on_ended(self, event):
        self.ended = self.ended or event["at"]["wall"]

    def due(self, number):
        return None if self.anchor is None else self.anchor + self.offsets[number - 1]

    def summary(self):
        samples = []
        for number, offset in enumerate(self.offsets, 1):
            tube = self.tube(number)
            closed, how, since = (tube["closings"] or [(None, None, None)])[-1]
            samples.append({"number": number, "closed": closed, "how": how,
                            "late_ms": None if since is None else since - offset,
                            "closings": len(tube["closings"]), "scores": tube["scores"]})
        return {"kit_number": self.kit, "protocol": self.protocol, "planned_start": self.start,
                "anchor": None if self.anchor is None else rfc3339(self.anchor),
                "drink_start": self.drink_start, "drink_end": self.drink_end,
                "ended_early": self.ended, "samples": samples}


def faults(text):
    """What is wrong with a log's text, one line each; nothing when all fits."""
    log = json.loads(text)
    out = []
    if canonical(log) != text:
        out.append("the file is not in its canonical form")
    if log["format"] != "quarterbreath-log" or log["version"] != 1:
        out.append("not a log of this version")
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
