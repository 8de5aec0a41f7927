"""Broken copies of one bundle, each in one thing, so that the readers' silence means something."""
import copy


def of_kind(bundle, kind, number=0):
    return [entry["resource"] for entry in bundle["entry"]
            if entry["resource"]["resourceType"] == kind][number]


def entry_of(bundle, kind):
    return next(entry for entry in bundle["entry"] if entry["resource"]["resourceType"] == kind)


def put(kind, *path):
    """Sets the last of `path` at the place of the rest in the first resource of that kind."""
    def change(bundle):
        holder = of_kind(bundle, kind)
        for key in path[:-2]:
            holder = holder[key]
        holder[path[-2]] = path[-1]
    return change


def drop(kind, *path):
    def change(bundle):
        holder = of_kind(bundle, kind)
        for key in path[:-1]:
            holder = holder[key]
        del holder[path[-1]]
    return change


def collected(text):
    return put("Specimen", "collection", "collectedDateTime", text)


def same_url(bundle):
    bundle["entry"][1]["fullUrl"] = bundle["entry"][0]["fullUrl"]


def swap_times(bundle):
    a, b = of_kind(bundle, "Specimen", 1), of_kind(bundle, "Specimen", 2)
    a["collection"], b["collection"] = b["collection"], a["collection"]


def lose(kind):
    def change(bundle):
        bundle["entry"].remove(entry_of(bundle, kind))
    return change


def end_before_start(bundle):
    period = of_kind(bundle, "MedicationAdministration")["effectivePeriod"]
    period["start"], period["end"] = period["end"], period["start"]


def skipped_as_zero(bundle):
    for entry in bundle["entry"]:
        if entry["resource"].pop("dataAbsentReason", None):
            entry["resource"]["valueInteger"] = 0
            return
    raise ValueError("no skipped score in this bundle")


def time_for_a_missed_tube(bundle):
    for entry in bundle["entry"]:
        if entry["resource"].get("status") == "unavailable":
            entry["resource"]["collection"] = {"collectedDateTime": "2027-04-06T09:00:15+01:00"}
            return
    raise ValueError("no missed tube in this bundle")


def twice_the_link(bundle):
    items = of_kind(bundle, "QuestionnaireResponse")["item"][0]["item"]
    items[1]["linkId"] = items[0]["linkId"]


ABSENT = {"text": "Skipped"}
MUTANTS = {
    "a date as 29/03/2027": collected("29/03/2027"),
    "no offset": collected("2027-04-06T07:30:15"),
    "no seconds": collected("2027-04-06T07:30+01:00"),
    "an offset as +0100": collected("2027-04-06T07:30:15+0100"),
    "hour 25": collected("2027-04-06T25:30:15+01:00"),
    "30 February": collected("2027-02-30T07:30:15+01:00"),
    "an offset of 15 hours": collected("2027-04-06T07:30:15+15:00"),
    "a date alone": collected("2027-04-06"),
    "a space for the T": collected("2027-04-06 07:30:15+01:00"),
    "one second off": collected("2027-04-06T07:30:16+01:00"),
    "an hour off, as by another zone": collected("2027-04-06T07:30:15Z"),
    "an unknown property": put("Specimen", "tubeNumber", 1),
    "no status of an Observation": drop("Observation", "status"),
    "a status not in the list": put("Observation", "status", "done"),
    "no code of an Observation": drop("Observation", "code"),
    "no agent": drop("Provenance", "agent"),
    "an agent without who": drop("Provenance", "agent", 0, "who"),
    "no recorded": drop("Provenance", "recorded"),
    "two value[x]": put("Observation", "valueString", "3"),
    "two effective[x]": put("Observation", "effectiveInstant", "2027-04-06T07:30:15+01:00"),
    "a value and a dataAbsentReason": put("Observation", "dataAbsentReason", ABSENT),
    "neither value nor dataAbsentReason": drop("Observation", "valueInteger"),
    "a score as text": put("Observation", "valueInteger", "3"),
    "a score of 11": put("Observation", "valueInteger", 11),
    "a score as a fraction": put("Observation", "valueInteger", 2.5),
    "a skipped score as 0": skipped_as_zero,
    "another score": put("Observation", "valueInteger", 9),
    "a fullUrl twice": same_url,
    "a reference to nothing": put("Observation", "specimen", "reference",
                                  "urn:uuid:00000000-0000-5000-8000-000000000000"),
    "an empty list": put("Specimen", "note", []),
    "an empty text": put("Patient", "identifier", 0, "value", ""),
    "null": put("Device", "version", None),
    "a code nobody listed": put("Specimen", "type", "coding", 0, "code", "252233000"),
    "another display": put("Specimen", "type", "coding", 0, "display", "Breath"),
    "a specimen without its name": drop("Specimen", "identifier"),
    "a specimen without its type": drop("Specimen", "type"),
    "a container of another tube": put("Specimen", "container", 0, "identifier", 0, "value", "x/9"),
    "a missed tube with a time": time_for_a_missed_tube,
    "a tube without its time": drop("Specimen", "collection"),
    "two tubes' times exchanged": swap_times,
    "a specimen lost": lose("Specimen"),
    "the patient lost": lose("Patient"),
    "the drink lost": lose("MedicationAdministration"),
    "the drink ends before it starts": end_before_start,
    "a dosage without dose": drop("MedicationAdministration", "dosage", "dose"),
    "ppm outside UCUM": put("MedicationAdministration", "dosage", "dose", "code", "ppm"),
    "another dose": put("MedicationAdministration", "dosage", "dose", "value", 75),
    "the same linkId twice": twice_the_link,
    "an answer turned": put("QuestionnaireResponse", "item", 0, "item", 0, "answer", 0,
                            "valueString", "yes"),
    "a name where none was asked for": put("Patient", "name", [{"text": "Somebody"}]),
    "a birth date that is none": put("Patient", "birthDate", "1960-02-30"),
    "another type of bundle": lambda bundle: bundle.update(type="document"),
    "a mark taken off one resource": drop("Specimen", "meta"),
}


def made_from(bundle):
    """[(name, broken copy)]"""
    out = []
    for name, change in MUTANTS.items():
        broken = copy.deepcopy(bundle)
        change(broken)
        out.append((name, broken))
    return out
