"""The entities of OGC SensorThings API 1.1 (OGC 18-088, tables 2 to 17) as JSON Schema, written from
memory of the standard: mandatory members and their types, and that every reference is answered."""
import jsonschema

text = {"type": "string", "minLength": 1}
reference = {"type": "object", "required": ["@iot.id"]}


def entity(required, **properties):
    return {"type": "object", "required": ["@iot.id", *required], "properties": properties}


named = {"name": text, "description": text}
SCHEMAS = {
    "Things": entity(["name", "description"], **named, properties={"type": "object"}, Locations={"type": "array", "items": reference}),
    "Locations": entity(["name", "description", "encodingType", "location"], **named, encodingType={"enum": ["application/geo+json", "application/vnd.geo+json"]}),
    "Sensors": entity(["name", "description", "encodingType", "metadata"], **named, encodingType=text),
    "ObservedProperties": entity(["name", "description", "definition"], **named, definition={"type": "string", "pattern": "^[a-z]+:"}),
    "FeaturesOfInterest": entity(["name", "description", "encodingType", "feature"], **named),
    "Datastreams": entity(
        ["name", "description", "observationType", "unitOfMeasurement", "Thing", "Sensor", "ObservedProperty"],
        **named,
        observationType={"enum": ["http://www.opengis.net/def/observationType/OGC-OM/2.0/" + t for t in ("OM_Measurement", "OM_Observation")]},
        unitOfMeasurement={"type": "object", "required": ["name", "symbol", "definition"]},
        Thing=reference, Sensor=reference, ObservedProperty=reference,
    ),
    "Observations": entity(
        ["resultTime", "result", "Datastream", "FeatureOfInterest"],
        phenomenonTime={"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}"},
        Datastream=reference, FeatureOfInterest=reference,
    ),
}
SETS = {"Thing": "Things", "Sensor": "Sensors", "ObservedProperty": "ObservedProperties", "Datastream": "Datastreams", "FeatureOfInterest": "FeaturesOfInterest"}


def check(document):
    """Entities a set, and what is wrong."""
    ids = {name: {e["@iot.id"] for e in document.get(name, [])} for name in SCHEMAS}
    wrong = [f"no set {name}" for name in SCHEMAS if name not in document]
    for name, schema in SCHEMAS.items():
        validator = jsonschema.Draft202012Validator(schema)
        for e in document.get(name, []):
            wrong += [f"{name} {e.get('@iot.id')}: {f.message}" for f in validator.iter_errors(e)]
            for member, of in SETS.items():
                if member in e and e[member]["@iot.id"] not in ids[of]:
                    wrong.append(f"{name} {e['@iot.id']}: {member} {e[member]['@iot.id']} is nowhere")
    numbers = {d["@iot.id"] for d in document.get("Datastreams", []) if d["observationType"].endswith("Measurement")}
    for o in document.get("Observations", []):
        if o["Datastream"]["@iot.id"] in numbers and not isinstance(o["result"], (int, float)):
            wrong.append(f"Observation {o['@iot.id']}: {o['result']} in a datastream of measurements")
    return {name: len(document.get(name, [])) for name in SCHEMAS}, wrong
