"""What a bundle must say of a log, worked out from the log's events by a reader of its own.

Times, scores and answers come from replay_log.py and the events; nothing comes from our programs.
"""
import datetime as dt
import re
import uuid
import zoneinfo

import replay_log

SPACE = "https://quarterbreath.invalid/"
OTHER_SPACES = re.compile("[\u00a0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000\ufeff\u0085]")


def clean(text):
    return OTHER_SPACES.sub(" ", text).strip(" ")


class Story(replay_log.Replay):
    """The replay, and besides how often a score was told anew and which tubes changed places."""

    def __init__(self, log):
        self.log, self.exchanged, self.drank_all, self.zone = log, set(), True, None
        self.cautions, self.washouts, self.slips, self.troubles = {}, {}, [], []
        self.person = self.gate = None
        super().__init__(log)

    def on_person(self, event):
        super().on_person(event)
        self.person = event["data"]

    def on_plan(self, event):
        if self.anchor is None:
            self.zone, self.plan, self.gate = event["data"]["zone"], event["data"], None
        super().on_plan(event)

    def on_plan_called_off(self, event):
        super().on_plan_called_off(event)
        if self.anchor is None:
            self.gate = None

    def on_caution(self, event):
        self.cautions[event["data"]["rule"]] = event["data"]

    def on_washout(self, event):
        self.washouts[event["data"]["rule"]] = event["data"]

    def on_slip(self, event):
        self.slips.append(event["data"])

    def on_ready(self, event):
        self.gate = event

    def on_drink_trouble(self, event):
        self.troubles.append(event["data"])

    def on_drink_ended(self, event):
        super().on_drink_ended(event)
        self.drank_all = event["data"]["all_of_it"]

    def right_tube(self, event, seq):
        told, really = self.closed_by(seq), event["data"]["really"]
        if told and told != really and self.tube(really)["closings"]:
            self.exchanged |= {told, really}
        super().right_tube(event, seq)

    def asked(self):
        return self.plan["protocol"]["symptoms"]["asked"] if self.protocol else []

    def local(self, text):
        """An instant as FHIR has it in the plan's zone, or in the device's where there is none."""
        at = dt.datetime.fromtimestamp(replay_log.milliseconds(text) // 1000, dt.timezone.utc)
        return at.astimezone(zoneinfo.ZoneInfo(self.zone)).isoformat() if self.zone else None

    def told_scores(self, number, symptom):
        """All that was told of one score, in order."""
        out = []
        for seq in self.tube(number)["scored_by"]:
            event = self.log["events"][seq - 1]
            if event["kind"] == "symptoms":
                out += [s["score"] for s in event["data"]["scores"] if s["id"] == symptom]
            elif event["data"]["symptom"] == symptom:
                out.append(event["data"].get("score"))
        return out


def uuid_of(log, part=""):
    """Of a part of the test, or of the test itself, by which all is named."""
    test = log["events"][0]["data"]["test_id"]
    return str(uuid.uuid5(uuid.NAMESPACE_URL, f"{SPACE}test/{test}" + (part and "/" + part)))


def by_name(bundle, kind):
    out = {}
    for entry in bundle["entry"]:
        one = entry["resource"]
        if one["resourceType"] == kind and isinstance(one.get("identifier"), list):
            out[one["identifier"][0]["value"]] = one
    return out


def differ(what, found, wanted):
    return [] if found == wanted else [f"{what}: {found!r}, not {wanted!r}"]


def tube_faults(story, bundle, test):
    specimens = by_name(bundle, "Specimen")
    names = [f"{test}/{n}" for n in range(1, len(story.offsets) + 1)]
    yield from differ("the tubes", list(specimens), names)
    for sample in story.summary()["samples"]:
        name = f"{test}/{sample['number']}"
        one = specimens.get(name, {})
        closed = story.local(sample["closed"]) if sample["closed"] else None
        yield from differ(name, one.get("collection", {}).get("collectedDateTime"), closed)
        yield from differ(name + " id", one.get("id"),
                          uuid_of(story.log, f"tube/{sample['number']}"))
        words = {"observed": "pressed on the device", "told": "read off a clock",
                 "estimated": "from memory", None: "blown"}[sample["how"]]
        notes = " ".join(note["text"] for note in one.get("note", []))
        yield from differ(name + " how it is known", words in notes, True)
        kits = [i["value"] for c in one.get("container", []) for i in c["identifier"]
                if i["system"] == SPACE + "kit"]
        yield from differ(name + " kit", kits, [clean(story.kit)] if story.kit else [])
        yield from spoil_faults(story, sample["number"], name, notes)


def spoil_faults(story, number, name, notes):
    """Each breath that was told as spoiled stands in the notes in the protocol's words, as often as
    it was told of one closing; one that was taken back does not."""
    texts = {one["id"]: one["text"] for one in story.plan["protocol"].get("breath_spoils", [])}
    told, last = [], None
    for event in story.log["events"]:
        if event["data"].get("sample") != number:
            continue
        if event["kind"] in ("tube-closed", "breath-told"):
            told.append(last)
            last = None
        if event["kind"] == "breath-spoiled":
            last = event["data"]["what"] or None
    told = [what for what in (*told, last) if what]
    yield from differ(name + " spoiled", notes.count("Told of this breath: "), len(told))
    for what in told:
        yield from differ(name + " how it was spoiled",
                          f"Told of this breath: {texts.get(what, what)}" in notes, True)


def score_faults(story, bundle, test):
    found = {name: one for name, one in by_name(bundle, "Observation").items()
             if one["identifier"][0]["system"] == SPACE + "score"}
    wanted = 0
    for sample in story.summary()["samples"]:
        number = sample["number"]
        scored_by = story.tube(number)["scored_by"]
        if sample["closed"] is None and not scored_by:
            continue
        latest = {one["id"]: one["score"] for one in sample["scores"]}
        for asked in story.asked():
            wanted += 1
            name = f"{test}/{number}/{asked['id']}"
            one = found.get(name, {})
            yield from differ(name, one.get("valueInteger"), latest.get(asked["id"]))
            when = (story.log["events"][scored_by[0] - 1]["at"]["wall"] if scored_by
                    else sample["closed"])
            yield from differ(name + " when", one.get("effectiveDateTime"), story.local(when))
            told = story.told_scores(number, asked["id"])
            changed = len(set(told)) > 1 or number in story.exchanged
            yield from differ(name + " status", one.get("status"),
                              "corrected" if changed else "final")
            yield from differ(name + " tube", one.get("specimen", {}).get("reference"),
                              "urn:uuid:" + uuid_of(story.log, f"tube/{number}")
                              if sample["closed"] else None)
    for one in story.summary().get("scores_after", []):
        wanted += len(story.asked())
        yield from after_faults(story, one, found, test)
    yield from differ("how many scores", len(found), wanted)


def after_faults(story, given, found, test):
    """Scores of no tube: they have no specimen, and are of when they were first given."""
    latest = {one["id"]: one["score"] for one in given["scores"]}
    for asked in story.asked():
        name = f"{test}/{given['when']}/{asked['id']}"
        one = found.get(name, {})
        yield from differ(name, one.get("valueInteger"), latest.get(asked["id"]))
        yield from differ(name + " when", one.get("effectiveDateTime"),
                          story.local(given["given"]))
        yield from differ(name + " tube", one.get("specimen"), None)
        notes = " ".join(note["text"] for note in one.get("note", []))
        yield from differ(name + " note", "belongs to no tube" in notes, True)


def drink_faults(story, bundle):
    drinks = [entry["resource"] for entry in bundle["entry"]
              if entry["resource"]["resourceType"] == "MedicationAdministration"]
    yield from differ("how many drinks", len(drinks), 1 if story.drink_start else 0)
    if len(drinks) != 1 or not story.drink_start:
        return
    one, times = drinks[0], {"start": story.local(story.drink_start)}
    if story.drink_end and (replay_log.milliseconds(story.drink_end)
                            >= replay_log.milliseconds(story.drink_start)):
        times["end"] = story.local(story.drink_end)
    yield from differ("the drink", one.get("effectivePeriod"), times)
    whole = story.drank_all and not any(
        t["what"] in ("unfinished", "spilled") and t["kept"] != "all" for t in story.troubles)
    dose = story.plan["protocol"]["sugar"]["dose_g"] if whole else None
    yield from differ("the dose", one.get("dosage", {}).get("dose", {}).get("value"), dose)
    notes = " ".join(note["text"] for note in one.get("note", []))
    for trouble in story.troubles:
        yield from differ("a trouble's moment", story.local(trouble["when"]) in notes, True)


def items_of(value, out):
    if isinstance(value, dict):
        if "linkId" in value:
            out[value["linkId"]] = [
                next((inner for key, inner in one.items() if key.startswith("value")), None)
                for one in value.get("answer", [])]
        for inner in value.values():
            items_of(inner, out)
    elif isinstance(value, list):
        for inner in value:
            items_of(inner, out)
    return out


def answer_faults(story, bundle):
    told = [entry["resource"] for entry in bundle["entry"]
            if entry["resource"]["resourceType"] == "QuestionnaireResponse"]
    if len(told) != 1:
        yield f"{len(told)} QuestionnaireResponses"
        return
    items = items_of(told[0], {})
    for rule, one in story.cautions.items():
        yield from differ(rule, items.get(rule), [one["answer"]])
        if one["words"]:
            yield from differ(rule + " words", items.get(rule + ".words"), [clean(one["words"])])
    for rule, one in story.washouts.items():
        yield from differ(rule, items.get(rule), [one["answer"]])
        if one["on"]:
            yield from differ(rule + " day", items.get(rule + ".on"), [one["on"]])
    for rule in {slip["rule"] for slip in story.slips}:
        there = [slip for slip in story.slips if slip["rule"] == rule]
        yield from differ(rule + " slips", len(items.get(rule + ".slip", [])), len(there))
        yield from differ(rule + " last slip", items.get(rule + ".slip.when"),
                          [story.local(there[-1]["when"])])
    passed = [story.local(story.gate["at"]["wall"])] if story.gate else None
    yield from differ("the gate", items.get("gate.passed"), passed)


def person_faults(story, bundle, text, with_name):
    one = by_name(bundle, "Patient")
    test = uuid_of(story.log)
    yield from differ("the patient", list(one), [test])
    if story.person is None:
        return
    patient = one.get(test, {})
    name, born = story.person["name"], story.person["birth_date"]
    yield from differ("the name", [n["text"] for n in patient.get("name", [])],
                      [clean(name)] if with_name else [])
    yield from differ("the birth date", patient.get("birthDate"), born if with_name else None)
    if not with_name:
        yield from differ("a name in the text", name in text or born in text, False)
    if story.person["doctor"]:
        yield from differ("the doctor in the text", story.person["doctor"] in text, False)


def faults(log, bundle, text, with_name=False):
    """Where the bundle says otherwise than the log, one line each."""
    story = Story(log)
    test = uuid_of(log)
    out = list(person_faults(story, bundle, text, with_name))
    out += tube_faults(story, bundle, test)
    out += score_faults(story, bundle, test)
    out += drink_faults(story, bundle)
    out += answer_faults(story, bundle)
    heads = [one["what"]["identifier"]["value"] for entry in bundle["entry"]
             for one in entry["resource"].get("entity", [])]
    out += differ("the log's head", heads, [log["head"]])
    corrections = sum(event["kind"] == "corrected" for event in log["events"])
    acts = [entry["resource"].get("activity", {}).get("text", "") for entry in bundle["entry"]]
    provenances = sum(act.startswith("Correction") for act in acts)
    out += differ("how many corrections", provenances, corrections)
    tags = [one["code"] for one in bundle.get("meta", {}).get("tag", [])]
    # The shipped laboratory is invented, and says so in the record; practice says so already.
    invented = log["events"][0]["data"]["profile"].get("for_trying", False)
    marks = ["rehearsal"] if log["rehearsal"] else ["for-trying"] if invented else []
    out += differ("the marks", tags, marks)
    return out
