"""RO-Crate 1.2 by roc-validator. The validator asks the network for the words of RO-Crate (the JSON-LD
context); with a file that holds them they are taken from there instead."""
import email.message
import io
import json
import urllib.request
from importlib.metadata import version
from urllib.response import addinfourl

import rdflib
import rdflib._networking
import requests.adapters
import urllib3

VERSION = version("roc-validator")
ADDRESS = "w3id.org/ro/crate"


def from_file(path):
    """Answers every question for the context with the bytes of a file."""
    words = open(path, "rb").read()
    opened, sent = urllib.request.urlopen, requests.adapters.HTTPAdapter.send

    def urlopen(request, *args, **named):
        address = request if isinstance(request, str) else request.full_url
        if ADDRESS not in address:
            return opened(request, *args, **named)
        headers = email.message.Message()
        headers["Content-Type"] = "application/ld+json"
        return addinfourl(io.BytesIO(words), headers, address, 200)

    def send(self, request, **named):
        if ADDRESS not in request.url:
            return sent(self, request, **named)
        answer = urllib3.HTTPResponse(
            body=io.BytesIO(words), status=200, preload_content=False, request_url=request.url,
            headers={"Content-Type": "application/ld+json"})
        return self.build_response(request, answer)

    urllib.request.urlopen = rdflib._networking.urlopen = urlopen
    requests.adapters.HTTPAdapter.send = send


def statements(package, context):
    """What the crate says, by the words that it encloses alone and by the published ones with them."""
    crate = json.loads((package / "ro-crate-metadata.json").read_text())
    published, enclosed = json.load(open(context)), crate["@context"][1]
    out = []
    for words in (enclosed, [published["@context"], enclosed]):
        graph = rdflib.Graph()
        graph.parse(data=json.dumps({**crate, "@context": words}), format="json-ld", base="http://package/")
        out.append(set(graph))
    return out


def check(package, context=None):
    """Requirements that are not met; what could not be asked."""
    if context:
        from_file(context)
    from rocrate_validator import models, services

    settings = services.ValidationSettings(
        rocrate_uri=str(package), profile_identifier="ro-crate-1.2", requirement_severity=models.Severity.REQUIRED,
        cache_path=None)
    issues = services.validate(settings).get_issues()
    return [f"{i.check.identifier}: {i.message}" for i in issues], f", words of RO-Crate from {'a file' if context else 'the network'}"
