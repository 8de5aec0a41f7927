"""Forty kits for a laboratory's day: real tests made from rehearsals, renamed and chained anew.

Every fourth kit is late and missed a tube, the fifth of ten has no log and comes on paper.
"""
import copy
import os

import records
import replay_log

KITS = 40
PAPER_EVERY = 8
NAMES = [("Odile", "Marchbank"), ("Tobin", "Farthingale"), ("Maren", "Oakhollow"),
         ("Ysolde", "Quennell"), ("Corwin", "Applegarth")]


def kit_number(number):
    return f"FV-{6000 + number}"


def person(number):
    first, last = NAMES[number % len(NAMES)]
    return f"{first} {last}-{number:02}"


def is_paper(number):
    return number % PAPER_EVERY == PAPER_EVERY - 1


def real_log(log, number):
    made = copy.deepcopy(log)
    made["rehearsal"] = made["events"][0]["data"]["rehearsal"] = False
    made["events"][0]["data"]["test_id"] = f"day-{number:03}"
    for event in made["events"]:
        if event["kind"] == "person":
            event["data"]["kit_number"] = kit_number(number)
            event["data"]["name"] = person(number)
    return replay_log.chained(made)


def make_post(folder):
    """Writes the logs; answers {kit: the tubes its log has as taken}."""
    played = {name: records.read_log(records.play(os.path.join(records.SCRIPTS, name + ".json"),
                                                  name))
              for name in ("clean", "late-and-missed")}
    os.makedirs(folder)
    taken = {}
    for number in range(KITS):
        if is_paper(number):
            taken[kit_number(number)] = set(range(1, 11))
            continue
        log = played["late-and-missed" if number % 4 == 0 else "clean"]
        with open(os.path.join(folder, f"{number:03}.log.json"), "w", encoding="utf-8",
                  newline="") as file:
            file.write(real_log(log, number))
        taken[kit_number(number)] = {e["data"]["sample"] for e in log["events"]
                                     if e["kind"] == "tube-closed"}
    return taken
