"""A kit's report from its code alone, held against the report from its log, and both together.

A part of run_code. The minutes of a code are whole seconds, those of a log exact: they may differ
by one second. All else that both tell must be the same.
"""
import json
import os

import records

ONE_SECOND = 1 / 60 + 1e-6
AT = ["--rehearsals", "--zone", "Europe/London", "--now", "2027-04-12 11:00"]


def readings_of(kit, log, path):
    """A table with a reading of every tube that the log has as taken; answers its path."""
    with open(path, "w", encoding="utf-8") as file:
        file.write("kit,tube,h2_ppm,ch4_ppm,measured_at\n")
        for number, sample in enumerate(log["summary"]["samples"], 1):
            if sample["closed"]:
                file.write(f"{kit},{number},{4 + 5 * number},2,2027-04-12 10:00\n")
    return path


def report(lab, store, kit):
    ran = lab(store, "report", kit, "--format", "json", "--out", "-", *AT)
    return json.loads(ran.stdout) if ran.returncode == 0 else {"refused": ran.stderr}


def differing(by_code, by_log):
    """What the two reports say otherwise, of what both can know."""
    found = []
    for ours, theirs in zip(by_code["tubes"], by_log["tubes"], strict=True):
        for key in ("number", "how", "standing", "gases", "in_curve"):
            if ours[key] != theirs[key]:
                found.append(f"tube {ours['number']} {key}: {ours[key]}, not {theirs[key]}")
        if list(ours["scores"].values()) != list(theirs["scores"].values()):
            found.append(f"tube {ours['number']}: scores {ours['scores']}")
        minutes = ours["minute"], theirs["minute"]
        if (None in minutes and minutes != (None, None)) or \
                (None not in minutes and abs(minutes[0] - minutes[1]) > ONE_SECOND):
            found.append(f"tube {ours['number']}: minute {minutes}")
    answers = [{c["id"]: c["answer"] for c in one["judgement"]["criteria"]}
               for one in (by_code, by_log)]
    if answers[0] != answers[1]:
        found.append(f"answers: {answers}")
    for key in ("axes", "test", "kit", "rehearsal"):
        if by_code[key] != by_log[key]:
            found.append(f"{key}: {by_code[key]}, not {by_log[key]}")
    for ours, theirs in zip(by_code["after"], by_log["after"], strict=True):
        if (ours["when"], ours["scores"]) != (theirs["when"], theirs["scores"]) or \
                abs(ours["minute"] - theirs["minute"]) > ONE_SECOND:
            found.append(f"after the tubes: {ours}, not {theirs}")
    # What a log shows of single tubes and of the drink, a code shows too.
    def of_tubes(one):
        return {(f["rule"], f["tube"]) for f in one["findings"]
                if f["rule"] in ("sample-late", "sample-early", "sample-missed", "drink-late",
                                 "drink-slow", "drink-partial", "symptoms-missing")}
    lost = of_tubes(by_log) - of_tubes(by_code)
    if lost:
        found.append(f"not found by the code: {lost}")
    return found


def check_reports(score, lab, name, folder, texts):
    """`lab` runs the laboratory's program on a store of that name with those words."""
    log = records.read_log(folder)
    kit = log["summary"]["kit_number"]
    table = readings_of(kit, log, os.path.join(records.WORK, f"{name}.readings.csv"))
    for store, words, text in [(f"{name}.log.db", ["-"], open_text(folder)),
                               (f"{name}.code.db", ["-"], "\n".join(texts))]:
        for ran in (lab(store, "import", "--rehearsals", *words, text=text),
                    lab(store, "readings", table, "--by", "Ines Aldergate", *AT)):
            score.check(ran.returncode == 0, f"{name} {store}: {ran.stderr}")
    by_log, by_code = report(lab, f"{name}.log.db", kit), report(lab, f"{name}.code.db", kit)
    if not score.check("tubes" in by_code, f"{name}: no report from a code: {by_code}"):
        return
    wrong = differing(by_code, by_log)
    score.check(not wrong, f"{name}: code and log: {wrong[:3]}")
    score.check(by_code["times_from"] == "code" and by_code["person"] is None
                and by_code["code_seal"]["state"] == "not-checked"
                and any(f["rule"] == "code-only" for f in by_code["findings"]),
                f"{name}: said of the code: {by_code['code_seal']}")
    text = lab(f"{name}.code.db", "judge", kit, *AT).stdout
    score.check("from the code, log not here" in text and "nac-2017-h2-90" in text,
                f"{name}: judged: {text[:200]}")
    work = json.loads(lab(f"{name}.code.db", "--format", "json", "worklist", *AT).stdout)["work"]
    weighty = [f for f in by_code["findings"] if f["consequence"] != "note"]
    score.check([(one["kit"], one["to_review"]) for one in work] == [(kit, len(weighty))],
                f"{name}: on the day's list: {work}")
    pdf = os.path.join(records.WORK, f"{name}.code.pdf")
    ran = lab(f"{name}.code.db", "report", kit, "--out", pdf, *AT)
    score.check(ran.returncode == 0 and os.path.getsize(pdf) > 1000, f"{name}: {ran.stderr}")
    ran = lab(f"{name}.code.db", "report", kit, "--format", "fhir", "--out", "-", *AT)
    score.check(ran.returncode == 2 and "whose log is here" in ran.stderr, f"FHIR: {ran.stderr}")
    check_both(score, lab, name, kit, folder, texts)


def open_text(folder):
    with open(records.only(folder, ".log.json"), encoding="utf-8", newline="") as file:
        return file.read()


def check_both(score, lab, name, kit, folder, texts):
    """The log with its signature comes to the code, and the code to the log."""
    lab(f"{name}.code.db", "import", "--rehearsals", folder)
    lab(f"{name}.both.db", "import", "--rehearsals", folder)
    lab(f"{name}.both.db", "import", "--rehearsals", "-", text="\n".join(texts))
    for store in (f"{name}.code.db", f"{name}.both.db"):
        shown = json.loads(lab(store, "--format", "json", "show", kit).stdout)
        beside = shown["tests"][0]["code"]
        score.check(beside and beside["agrees"] is True and not beside["differences"]
                    and beside["seal"]["state"] == "good" and beside["seal"]["log_key"] == "same"
                    and not shown["codes"], f"{store}: the code beside its log: {beside}")
        text = " ".join(lab(store, "show", kit).stdout.split())
        score.check("it agrees with the log as it stood then" in text
                    and "proves only: unchanged since it was made by whoever held this device"
                    in text, f"{store}: shown: {text[:300]}")
        score.check(report(lab, store, kit)["code_beside"] == beside, f"{store}: in the report")
    shown = json.loads(lab(f"{name}.log.db", "--format", "json", "show", kit).stdout)
    score.check(shown["tests"][0]["code"] is None, "a code that never came")
