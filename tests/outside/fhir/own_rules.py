"""What no general validator of FHIR R4 looks at, and a reader of ours relies on.

The standard's own rules that the schema cannot say (obs-6, per-1, bdl-7, mad-1, qrs-1, one
value[x], references, real dates, nothing empty), and our bundle's profile (core/fhir/bundle.hpp).
"""
import datetime as dt
import glob
import json
import os
import re
import uuid

MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d"
                    r"(Z|[+-](0\d|1[0-3]):[0-5]\d|[+-]14:00)")
MOMENT_KEYS = {"effectiveDateTime", "collectedDateTime", "occurredDateTime", "valueDateTime",
               "start", "end", "recorded", "timestamp", "authored", "issued"}
DATE_KEYS = {"birthDate", "valueDate"}
CHOICES = ["value", "effective", "medication", "occurred", "collected"]
REQUIRED = {"Observation": ["status", "code", "subject"],
            "Provenance": ["target", "recorded", "agent"],
            "QuestionnaireResponse": ["status"], "DiagnosticReport": ["status", "code"],
            "MedicationAdministration": ["status", "subject", "medicationCodeableConcept",
                                         "effectivePeriod"]}
STATUS = {"Observation": {"preliminary", "final", "corrected"},
          "QuestionnaireResponse": {"completed", "in-progress"},
          "MedicationAdministration": {"completed", "stopped", "unknown"},
          "DiagnosticReport": {"preliminary", "final"}, "Specimen": {"unavailable", None}}
UCUM = "http://unitsofmeasure.org"


def shipped_codes(root):
    """{(system, code): display} of assets/codes."""
    out = {}
    for path in glob.glob(os.path.join(root, "assets", "codes", "*.json")):
        with open(path, encoding="utf-8") as file:
            data = json.load(file)
        for one in data["codes"]:
            out[(data["system"], one["code"])] = one["display"]
    return out


def places(value, path=""):
    """Every value with its path."""
    yield path, value
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from places(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from places(inner, f"{path}[{index}]")


def real_date(text):
    try:
        return bool(re.fullmatch(r"\d{4}-\d\d-\d\d", text)) and bool(dt.date.fromisoformat(text))
    except ValueError:
        return False


def instant(text):
    """A moment as a datetime, or None where it is not one with seconds, offset and a real date."""
    if not isinstance(text, str) or not MOMENT.fullmatch(text):
        return None
    try:
        return dt.datetime.fromisoformat(text.replace("Z", "+00:00"))
    except ValueError:
        return None


def value_faults(path, key, value, codes):
    if value is None or value == "" or value == [] or value == {}:
        yield f"{path} is empty"
    if isinstance(value, str) and value != value.strip():
        yield f"{path} has spaces at an end"
    if key in MOMENT_KEYS and instant(value) is None:
        yield f"{path} is no moment with seconds, offset and a real date: {value}"
    if key in DATE_KEYS and not (isinstance(value, str) and real_date(value)):
        yield f"{path} is no real date: {value}"
    if key == "fullUrl" and not re.fullmatch(r"urn:uuid:[0-9a-f-]{36}", str(value)):
        yield f"{path} is no urn:uuid"
    if isinstance(value, dict):
        yield from object_faults(path, value, codes)


def object_faults(path, value, codes):
    for choice in CHOICES:
        chosen = [key for key in value if re.fullmatch(choice + "[A-Z][A-Za-z]*", key)]
        if len(chosen) > 1:
            yield f"{path} has {' and '.join(chosen)}"
    if "code" in value and "system" in value:
        if (value["system"], value["code"]) not in codes:
            yield f"{path} has a code that is not listed: {value['system']} {value['code']}"
        elif "display" in value and codes[(value["system"], value["code"])] != value["display"]:
            yield f"{path} has other words than its code system: {value['display']}"
    if "coding" in value and "text" not in value:
        yield f"{path} has a code and no words"
    start, end = instant(value.get("start")), instant(value.get("end"))
    if start and end and end < start:
        yield f"{path} ends before it starts"
    if "dose" not in value and "rateQuantity" not in value and path.endswith(".dosage"):
        yield f"{path} has neither dose nor rate (mad-1)"


def observation_faults(one):
    values = [key for key in one if key.startswith("value")]
    if ("dataAbsentReason" in one) == bool(values):
        yield "an Observation needs a value or a dataAbsentReason, not both (obs-6)"
    if "valueInteger" in one and type(one["valueInteger"]) is not int:
        yield "a score is no whole number"
    if isinstance(one.get("valueInteger"), int) and not 0 <= one["valueInteger"] <= 10:
        yield f"a score of {one['valueInteger']}"
    if "valueInteger" in one and "device" not in one:
        yield "a score without the device"


def specimen_faults(one):
    """Our own profile: the standard asks nothing of a Specimen."""
    name = (one.get("identifier") or [{}])[0].get("value", "")
    if not re.search(r".+/[1-9]\d?$", name):
        yield f"a Specimen named {name!r}, not by test and tube"
    if [c.get("identifier", [{}])[0].get("value") for c in one.get("container", [])] != [name]:
        yield f"{name}: its container has another name"
    kinds = [c.get("code") for c in one.get("type", {}).get("coding", [])]
    if kinds != ["119336008", "EXG"]:
        yield f"{name}: type {kinds}, not exhaled air"
    taken = "collectedDateTime" in one.get("collection", {})
    if taken == (one.get("status") == "unavailable"):
        yield f"{name}: blown and unavailable, or neither"
    known = ("Time: ", "Missed: ", "Not blown")
    if not any(note["text"].startswith(known) for note in one.get("note", [])):
        yield f"{name}: nothing says how its time is known, or that it was missed"


def links_of(items, above, out):
    """(linkId, those it stands under) of every item; what repeats under repeated answers once."""
    here = [one["linkId"] for one in items]
    for link in sorted({link for link in here if here.count(link) > 1}):
        yield f"the linkId {link} stands twice"
    for one in items:
        if "answer" in one and "item" in one:
            yield f"{one['linkId']} has answers and items (qrs-1)"
        out.setdefault(one["linkId"], set()).add(above)
        for inner in [one] + one.get("answer", []):
            yield from links_of(inner.get("item", []), above + (one["linkId"],), out)


def answers_faults(one):
    under = {}
    yield from links_of(one.get("item", []), (), under)
    for link, places_of_it in under.items():
        if len(places_of_it) > 1:
            yield f"the linkId {link} stands in several places"


def resource_faults(one):
    kind = one.get("resourceType")
    for key in REQUIRED.get(kind, []):
        if key not in one:
            yield f"{kind} without {key}"
    if kind in STATUS and one.get("status") not in STATUS[kind]:
        yield f"{kind} with the status {one.get('status')}"
    if kind == "Observation":
        yield from observation_faults(one)
    if kind == "Specimen":
        yield from specimen_faults(one)
    if kind == "QuestionnaireResponse":
        yield from answers_faults(one)
    if kind == "Provenance" and not all("who" in a for a in one.get("agent", [])):
        yield "a Provenance with an agent who is nobody"


def bundle_faults(bundle):
    entries = bundle.get("entry", [])
    urls = [entry.get("fullUrl") for entry in entries]
    made = [entry.get("resource", {}) for entry in entries]
    if bundle.get("type") != "collection" or "timestamp" not in bundle:
        yield "not a collection with its moment"
    if len(set(urls)) != len(urls):
        yield "a fullUrl stands twice (bdl-7)"
    for url, one in zip(urls, made):
        if url != "urn:uuid:" + one.get("id", "") or not is_version_5(one.get("id", "")):
            yield f"{one.get('resourceType')}: its fullUrl is not its id, a UUID of version 5"
    for path, value in places(bundle):
        if path.endswith(".reference") and value not in urls:
            yield f"{path} leads nowhere: {value}"
    if [one.get("resourceType") for one in made].count("Patient") != 1:
        yield "not one Patient"
    targets = [t.get("reference") for one in made if one.get("resourceType") == "Provenance"
               for t in one.get("target", [])]
    for url, one in zip(urls, made):
        if one.get("resourceType") != "Provenance" and url not in targets:
            yield f"{one.get('resourceType')}: no Provenance speaks of it"
    marked = [json.dumps(one.get("meta", {}).get("tag")) for one in [bundle] + made]
    if len(set(marked)) != 1:
        yield "some resources are marked and others not"


def is_version_5(text):
    try:
        return uuid.UUID(text).version == 5 and str(uuid.UUID(text)) == text
    except ValueError:
        return False


def faults(bundle, codes):
    """All that is wrong with it, one line each."""
    out = list(bundle_faults(bundle))
    for path, value in places(bundle):
        key = re.sub(r"(\[\d+\])+$", "", path).rsplit(".", 1)[-1]
        out += value_faults(path, key if not path.endswith("]") else "", value, codes)
    for entry in bundle.get("entry", []):
        out += resource_faults(entry.get("resource", {}))
    return out
