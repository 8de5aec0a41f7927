"""The logs that FHIR bundles are made of, and the bundles, for the suites that read them.

Every rehearsal of demo-data, and some logs made by another hand, go into a store of their own.
"""
import copy
import json
import os
import subprocess

import records
import replay_log

FOLDER = os.path.join(records.WORK, "fhir")
STORE = os.path.join(FOLDER, "store.db")
ASSETS = os.path.join(records.ROOT, "assets")


def lab(*words):
    return subprocess.run([os.path.join(records.BUILD, "quarterbreath-lab"), "--assets", ASSETS,
                           "--store", STORE, *words], capture_output=True, text=True, check=False)


def write(name, text):
    path = os.path.join(FOLDER, name)
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text)
    return path


# Logs made by another hand: a rehearsal's events changed, numbered and chained anew.

def real(log, name):
    made = copy.deepcopy(log)
    made["rehearsal"] = made["events"][0]["data"]["rehearsal"] = False
    made["events"][0]["data"]["test_id"] = f"made-{name}"
    return made


def seq_of(log, kind, sample):
    return next(event["seq"] for event in log["events"]
                if event["kind"] == kind and event["data"].get("sample") == sample)


def tell(log, kind, data):
    """One more event, a minute after the last."""
    at = copy.deepcopy(log["events"][-1]["at"])
    at["wall"] = replay_log.rfc3339(replay_log.milliseconds(at["wall"]) + 60000)
    at["boot_ms"] += 60000
    log["events"].append({"seq": len(log["events"]) + 1, "kind": kind, "at": at, "data": data})


def correct(log, seq, field, **more):
    tell(log, "corrected", {"corrects": seq, "field": field, "reason": "seen afterwards", **more})


def corrected_log(log):
    made = real(log, "corrected")
    correct(made, seq_of(made, "tube-closed", 4), "time", time="2027-04-06T07:14:10Z", how="told")
    correct(made, seq_of(made, "tube-closed", 6), "tube", really=7)
    correct(made, seq_of(made, "symptoms", 3), "score", symptom="pain", score=7)
    correct(made, next(e["seq"] for e in made["events"] if e["kind"] == "drink-started"), "time",
            time="2027-04-06T06:30:40Z", how="estimated")
    correct(made, seq_of(made, "symptoms", 6), "score", symptom="nausea", score=9)
    return made


def mishap_log(log):
    made = real(log, "mishaps")
    for event in made["events"]:
        if event["kind"] == "drink-ended":
            event["data"]["all_of_it"] = False
    trouble = {"how": "estimated", "when": "2027-04-06T06:55:00Z"}
    tell(made, "drink-trouble", {"what": "unfinished", "kept": "more-than-half", "words": "",
                                 **trouble})
    tell(made, "drink-trouble", {"what": "vomited", "kept": "less-than-half",
                                 "words": "\u00a0all at\u202fonce ", **trouble})
    tell(made, "scorer", {"self": False, "who": "my daughter Rosalind"})
    tell(made, "symptoms", {"sample": 10, "comment": "better now",
                            "scores": [{"id": "pain", "score": None}]})
    tell(made, "red-flags", {"sample": 10, "present": ["pain", "vomiting"]})
    tell(made, "caution", {"rule": "ask-diabetes", "answer": "unsure", "outcome": "go-on",
                           "who": "my nurse", "words": "half of it"})
    tell(made, "washout", {"rule": "antibiotics", "answer": "last-on", "on": "2027-03-01",
                           "agreed": True, "who": "the laboratory"})
    for hour in (19, 21):
        tell(made, "slip", {"rule": "fast", "subject": "meal", "how": "told", "words": "toast",
                            "when": f"2027-04-05T{hour}:10:00Z"})
    tell(made, "comment", {"words": "the neighbour rang"})
    tell(made, "ended", {"reason": "stopped"})
    return made


def drink_first_log(log):
    """No tube 1: the drink was begun without it, and told afterwards."""
    made = real(log, "drink-first")
    kept = []
    for event in made["events"]:
        first = event["data"].get("sample") == 1
        if first and event["kind"] in ("breath-begun", "tube-closed", "label-written", "symptoms"):
            continue
        if event["kind"] == "drink-started":
            event["kind"] = "drink-told"
            event["data"] = {"started": "2027-04-06T06:29:00Z", "how": "told"}
        kept.append({**event, "seq": len(kept) + 1})
    made["events"] = kept
    return made


def all_logs():
    """{name: (path, log)}"""
    out = {}
    for name, folder in records.all_records().items():
        out[name] = (records.only(folder, ".log.json"), records.read_log(folder))
    clean = out["clean"][1]
    for name, make in (("corrected", corrected_log), ("mishaps", mishap_log),
                       ("drink-first", drink_first_log)):
        text = replay_log.chained(make(clean))
        out[name] = (write(name + ".log.json", text), json.loads(text))
    return out


def bundles_of(score, logs):
    """{name: text} by the laboratory's program, from a store that took in all the logs."""
    paths = [path for path, _ in logs.values()]
    ran = lab("import", "--rehearsals", *paths)
    score.check(ran.returncode == 0, f"import: {ran.stderr}")
    out = {}
    for name, (_, log) in logs.items():
        test = log["events"][0]["data"]["test_id"]
        practice = ["--rehearsals"] if log["rehearsal"] else []
        ran = lab("fhir", test, *practice)
        if score.check(ran.returncode == 0, f"{name}: {ran.stderr}"):
            out[name] = ran.stdout
    return out
