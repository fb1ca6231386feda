"""Histories of a programme on a server, with everything going wrong, checked for linearisability.

    python bench/postgres/histories.py PROGRAM [--seconds 300] [--clients 10] [--draw 1] [--keep FILE]
    python bench/postgres/histories.py --self-test [FILE]

PROGRAM is the built `limpid`. Clients are processes of it, each act and each look one process; they import readings,
correct a figure of a well, take a bottle out of the evidence and back, and read the history. Meanwhile clients are
killed, connections cut (by the server, and on the wire with the answers swallowed first), the server is stopped as by a
power cut and started, and the clocks of server and clients jump by hours to years (libfaketime, where it is there).

What is asked of the record is a list to which acts are added, and which is read: the record itself gives the order of
the acts, so a history is linearisable (Herlihy and Wing 1990, ACM TOPLAS 12:463) exactly where

* each act that was acknowledged stands in it once, and under the hash that was told;
* an act that nobody heard of stands in it once at most, one that was refused not at all, one that nobody asked for never;
* an act that ended before another one began stands before it, by a clock that no jump touches;
* each look saw a beginning of it: nothing missing that was acknowledged before the look began, nothing that was begun
  after the look had ended;
* the rows of an import stand as often as its act, within it.

Then the chain is verified by the program. The check itself is tried on every recorded history: acts dropped, doubled,
swapped and so on must each be named (`--self-test` does so on an invented history, or on one kept with --keep).
Ends with 1 at a violation, or where an invented one is not found.
"""
import argparse
import asyncio
import collections
import copy
import glob
import hashlib
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import threading
import time

from cluster import Cluster

FAKETIME = next(iter(glob.glob("/usr/lib/*/faketime/libfaketime.so.1")), None)

# How long one process may take before it is killed as a client that gave up, s. More than the program's patience (20 s).
PATIENCE_S = 90

# Attempts at one import, the first included.
ATTEMPTS = 4

# What the program says where nothing was kept.
NOT_KEPT = ("nothing of this act was kept", "nothing was changed", "no server answered", "is being written by another process")

ACTS = [("import", 60), ("correct", 15), ("exclude", 15), ("look", 10)]


# --- what is wrong with a history ---------------------------------------------------------------------------------------


def digest(hashes):
    """Of a beginning of the record."""
    return hashlib.sha256("".join(hashes).encode()).hexdigest()


def violations(history):
    """Sentences, each with its kind first.

    `history` has three parts. acts: token, client, kind, begin, end (s, of a clock that runs evenly; end only where
    acknowledged), outcome (acknowledged, refused, unknown), head (the hash told, or none). looks: begin, end, events
    (how many were seen), digest. record: the events in order, each with hash, token (or none) and rows.
    """
    out = []
    record, acts = history["record"], {a["token"]: a for a in history["acts"]}
    places = collections.defaultdict(list)
    for place, event in enumerate(record):
        if event["token"] is not None:
            places[event["token"]].append(place)
    for token, act in acts.items():
        stands, told = places.get(token, []), act["outcome"]
        if told == "acknowledged" and not stands:
            out.append(("lost", f"act {token} was acknowledged and stands nowhere"))
        if len(stands) > 1:
            out.append(("doubled", f"act {token} ({told}) stands {len(stands)} times: events {[p + 1 for p in stands]}"))
        if told == "refused" and stands:
            out.append(("kept though refused", f"act {token} was refused and stands as event {stands[0] + 1}"))
        if act.get("head") and stands and all(record[p]["hash"] != act["head"] for p in stands):
            out.append(("other hash", f"act {token} was acknowledged as {act['head'][:12]} and stands under another hash"))
        if act["kind"] == "import":
            for p in stands:
                if record[p]["rows"] != 1:
                    out.append(("rows", f"act {token}, event {p + 1}: its reading stands {record[p]['rows']} times"))
    for token in places.keys() - acts.keys():
        out.append(("nobody's", f"event {places[token][0] + 1} bears {token}, which nobody asked for"))
    # Real time: along the record, no act may have ended before one that stands before it began.
    latest = None
    for place, event in enumerate(record):
        act = acts.get(event["token"])
        if act is None:
            continue
        if latest and act["outcome"] == "acknowledged" and act["end"] < latest["begin"]:
            out.append(("order", f"act {act['token']} ended before {latest['token']} began and stands after it, as event {place + 1}"))
        if latest is None or act["begin"] > latest["begin"]:
            latest = act
    out += looks_wrong(history, acts, places)
    return out


def looks_wrong(history, acts, places):
    out = []
    hashes = [e["hash"] for e in history["record"]]
    ended = sorted((a["end"], places[t][0], t) for t, a in acts.items() if a["outcome"] == "acknowledged" and t in places)
    begun = sorted(((a["begin"], places[t][0], t) for t, a in acts.items() if t in places), reverse=True)
    for look in history["looks"]:
        seen = look["events"]
        if seen > len(hashes) or digest(hashes[:seen]) != look["digest"]:
            out.append(("other record", f"a look of client {look['client']} saw {seen} events that are no beginning of the record"))
        for end, place, token in ended:
            if end >= look["begin"]:
                break
            if place >= seen:
                out.append(("stale", f"a look of client {look['client']} missed act {token}, acknowledged before it"))
        for begin, place, token in begun:
            if begin <= look["end"]:
                break
            if place < seen:
                out.append(("too early", f"a look of client {look['client']} saw act {token}, begun after it"))
    return out


# --- the check is tried ------------------------------------------------------------------------------------------------


def invented():
    """A history without fault: ten clients, acts that overlap, some refused, some unknown, looks between them."""
    draw = random.Random(7)
    pending, record, acts, looks = [], [], [], []
    for n in range(400):
        begin = n * 0.1
        kept, end = begin + draw.uniform(0.01, 0.4), begin + draw.uniform(0.5, 1.0)
        outcome = draw.choices(["acknowledged", "refused", "unknown"], [80, 10, 10])[0]
        token = f"invented-{n}"
        acts.append({"token": token, "client": n % 10, "kind": "import", "begin": begin, "end": end, "outcome": outcome, "head": None})
        if outcome == "acknowledged" or (outcome == "unknown" and draw.random() < 0.5):
            pending.append((kept, token, acts[-1]))
    for place, (_, token, act) in enumerate(sorted(pending, key=lambda p: p[0])):
        record.append({"hash": hashlib.sha256(token.encode()).hexdigest(), "token": token, "rows": 1, "at": ""})
        act["head"] = record[place]["hash"] if act["outcome"] == "acknowledged" else None
    times = sorted(p[0] for p in pending)
    for n in range(40):
        moment = n + 0.05
        seen = sum(t <= moment for t in times)
        looks.append({"client": n % 10, "begin": moment - 0.02, "end": moment + 0.02, "events": seen, "digest": digest(e["hash"] for e in record[:seen])})
    return {"acts": acts, "looks": looks, "record": record}


def attempts_at(history, draw):
    """Invented violations: what was done, the history, the kind and the token that must be named."""
    acts = {a["token"]: a for a in history["acts"]}
    known = [(p, acts[e["token"]]) for p, e in enumerate(history["record"]) if e["token"] in acts and acts[e["token"]]["outcome"] == "acknowledged"]

    def altered():
        other = copy.deepcopy(history)
        # What is altered in the record itself is not to be found by looks alone.
        other["looks"] = []
        return other

    place, act = draw.choice(known)
    other = altered()
    del other["record"][place]
    yield "an acknowledged act dropped", other, "lost", act["token"]

    place, act = draw.choice(known)
    other = altered()
    other["record"].append(dict(other["record"][place]))
    yield "an acknowledged act doubled", other, "doubled", act["token"]

    pairs = [(a, b) for a, b in zip(known, known[1:]) if a[1]["end"] < b[1]["begin"]]
    pairs = pairs or [(a, b) for a in known for b in known if a[1]["end"] < b[1]["begin"]]
    (p, first), (q, second) = draw.choice(pairs)
    other = altered()
    other["record"][p], other["record"][q] = other["record"][q], other["record"][p]
    yield "two acts swapped, one ended before the other began", other, "order", first["token"]

    place, act = draw.choice(known)
    other = altered()
    next(a for a in other["acts"] if a["token"] == act["token"])["outcome"] = "refused"
    yield "an act that stands told as refused", other, "kept though refused", act["token"]

    place, act = draw.choice(known)
    other = altered()
    next(a for a in other["acts"] if a["token"] == act["token"])["outcome"] = "unknown"
    other["record"].insert(place, dict(other["record"][place]))
    yield "an act that nobody heard of doubled", other, "doubled", act["token"]

    place, act = draw.choice([k for k in known if k[1]["head"]])
    other = altered()
    other["record"][place]["hash"] = "0" * 64
    yield "an event chained anew", other, "other hash", act["token"]

    place, act = draw.choice([k for k in known if k[1]["kind"] == "import"])
    other = altered()
    other["record"][place]["rows"] = 0
    yield "the rows of an import lost", other, "rows", act["token"]

    other = altered()
    other["record"].append({"hash": "1" * 64, "token": "from-nowhere", "rows": 1, "at": ""})
    yield "an act that nobody asked for", other, "nobody's", "from-nowhere"

    looks = [(n, l) for n, l in enumerate(history["looks"]) if any(a["end"] < l["begin"] and p < l["events"] for p, a in known)]
    if looks:
        n, look = draw.choice(looks)
        before = [(p, a) for p, a in known if a["end"] < look["begin"] and p < look["events"]]
        place, act = max(before, key=lambda k: k[0])
        other = copy.deepcopy(history)
        other["looks"][n] = {**look, "events": place, "digest": digest(e["hash"] for e in history["record"][:place])}
        yield "a look at an older record", other, "stale", act["token"]

        n, look = draw.choice(looks)
        other = copy.deepcopy(history)
        other["looks"][n] = {**look, "digest": digest(["x"])}
        yield "a look at another record", other, "other record", f"client {look['client']}"

    later = [(n, l, p, a) for n, l in enumerate(history["looks"]) for p, a in known if a["begin"] > l["end"]]
    if later:
        n, look, place, act = draw.choice(later)
        other = copy.deepcopy(history)
        other["looks"][n] = {**look, "events": place + 1, "digest": digest(e["hash"] for e in history["record"][: place + 1])}
        yield "a look that saw what was not begun", other, "too early", act["token"]


def tried(history):
    """Whether the check finds each invented violation in a history that has none of its own."""
    good = True
    own = violations(history)
    if own:
        print(f"the history has violations of its own: {own[:3]}")
        good = False
    draw = random.Random(11)
    print(f"{'invented violation':<55} named")
    for what, other, kind, token in attempts_at(history, draw):
        named = [said for k, said in violations(other) if k == kind and token in said]
        print(f"{what:<55} {named[0] if named else 'NOT FOUND'}")
        good = good and bool(named)
    return good


# --- the wire ----------------------------------------------------------------------------------------------------------


class Wire:
    """Between clients and server: bytes go through as they come; a connection can be cut, its answers swallowed first."""

    def __init__(self, port):
        self.server_port, self.port = port, None
        self.open, self.swallowing = set(), set()
        self.loop = asyncio.new_event_loop()
        ready = threading.Event()
        threading.Thread(target=self._run, args=(ready,), daemon=True).start()
        ready.wait()

    def _run(self, ready):
        asyncio.set_event_loop(self.loop)
        server = self.loop.run_until_complete(asyncio.start_server(self._link, "127.0.0.1", 0))
        self.port = server.sockets[0].getsockname()[1]
        ready.set()
        self.loop.run_forever()

    async def _link(self, from_client, to_client):
        try:
            from_server, to_server = await asyncio.open_connection("127.0.0.1", self.server_port)
        except OSError:
            to_client.transport.abort()
            return
        link = (to_client, to_server)
        self.open.add(link)
        try:
            await asyncio.gather(self._pump(from_client, to_server, None), self._pump(from_server, to_client, link))
        finally:
            self.open.discard(link)
            self.swallowing.discard(link)
            to_client.transport.abort()
            to_server.transport.abort()

    async def _pump(self, reader, writer, answers_of):
        try:
            while piece := await reader.read(1 << 16):
                if answers_of not in self.swallowing:
                    writer.write(piece)
                    await writer.drain()
            writer.close()
        except OSError:
            writer.transport.abort()

    def cut(self, share, swallow_s, draw):
        """Some of the connections; their answers are swallowed for a while first. Answers how many."""

        async def now():
            chosen = [link for link in list(self.open) if draw.random() < share]
            self.swallowing.update(chosen)
            await asyncio.sleep(swallow_s)
            for to_client, to_server in chosen:
                to_client.transport.abort()
                to_server.transport.abort()
            return len(chosen)

        return asyncio.run_coroutine_threadsafe(now(), self.loop).result()


# --- clocks ------------------------------------------------------------------------------------------------------------


class Clock:
    """A clock of the day that jumps while programs run; time spans are left alone."""

    def __init__(self, path):
        self.path = path
        self.jump(0)

    def jump(self, seconds):
        # In one piece: a program may read it at any moment.
        beside = self.path.with_suffix(".new")
        beside.write_text(f"{seconds:+.3f}\n")
        beside.chmod(0o644)
        os.replace(beside, self.path)

    def environment(self):
        if FAKETIME is None:
            return {}
        return {"LD_PRELOAD": FAKETIME, "FAKETIME_TIMESTAMP_FILE": str(self.path), "FAKETIME_NO_CACHE": "1", "FAKETIME_DONT_FAKE_MONOTONIC": "1"}


# --- clients -----------------------------------------------------------------------------------------------------------


class Run:
    """One run: server, wire, clients, and what goes wrong."""

    def __init__(self, program, folder, arguments):
        self.program, self.folder, self.arguments = program, pathlib.Path(folder), arguments
        self.clocks = [Clock(self.folder / f"clock-{n}") for n in range(arguments.clients)]
        self.server_clock = Clock(self.folder / "clock-server")
        inner = self.folder / "cluster"
        inner.mkdir()
        self.cluster = Cluster(inner, self.server_clock.environment(), connections=200)
        self.wire = Wire(self.cluster.port)
        self.direct = f"postgres://limpid@127.0.0.1:{self.cluster.port}/postgres?schema=p"
        self.address = f"postgres://limpid@127.0.0.1:{self.wire.port}/postgres?schema=p"
        self.guard = threading.Lock()
        self.running, self.acts, self.looks, self.log = {}, [], [], collections.Counter()
        self.odd = []
        self.numbers = iter(range(1, 10**9))

    def limpid(self, *words):
        return subprocess.run([self.program, *words], capture_output=True, text=True, cwd=self.folder)

    def prepare(self):
        files = {
            "people": "name,role\n" + "".join(f"Person {n},lead\n" for n in range(self.arguments.clients)),
            "wells": "name,medium\n" + "".join(f"SL-{n},groundwater\n" for n in range(1, self.arguments.clients + 1)),
            "trips": "name,starts\n2026-07,2026-07-14\n",
            "bottles": "label,kind,trip,well\n" + "".join(f"SL{n}-26-07-A,sample,2026-07,SL-{n}\n" for n in range(1, self.arguments.clients + 1)),
        }
        commands = [["new", self.direct]]
        for name, text in files.items():
            (self.folder / f"{name}.csv").write_text(text)
            commands.append(["import", self.direct, f"{name}.csv", "--mapping", name])
        for command in commands:
            done = self.limpid(*command)
            if done.returncode != 0:
                sys.exit(f"{command}: {done.stdout}{done.stderr}")

    def process(self, client, words):
        """One process of a client; what it said, and whether it was killed."""
        command = [self.program, *words]
        env = {**os.environ, **self.clocks[client].environment()}
        with self.guard:
            process = subprocess.Popen(command, cwd=self.folder, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
            self.running[client] = process
        try:
            out, err = process.communicate(timeout=PATIENCE_S)
        except subprocess.TimeoutExpired:
            process.kill()
            out, err = process.communicate()
            self.log["clients that gave up waiting"] += 1
        with self.guard:
            del self.running[client]
        return process.returncode, out, err

    def client(self, n, until):
        draw = random.Random(self.arguments.draw * 1000 + n)
        while time.monotonic() < until:
            kind = draw.choices([k for k, _ in ACTS], [w for _, w in ACTS])[0]
            if kind == "look":
                self.look(n)
                continue
            with self.guard:
                number = next(self.numbers)
            token = f"{kind}-{n}-{number}"
            act = {"token": token, "client": n, "kind": kind, "number": number, "begin": time.monotonic(), "end": None, "outcome": "unknown", "head": None}
            with self.guard:
                self.acts.append(act)
            if kind == "import":
                moment = time.strftime("%Y-%m-%dT%H:%M:%S", time.gmtime(1_735_689_600 + number))
                (self.folder / f"{token}.csv").write_text(f"well,at,quantity,value,unit\nSL-{n + 1},{moment},conductivity,{100 + number / 10},uS/cm\n")
                words = ["import", self.address, f"{token}.csv", "--mapping", "field-readings", "--json"]
            elif kind == "correct":
                words = ["correct", self.address, "well", f"SL-{draw.randrange(self.arguments.clients) + 1}", "elevation_m", f"{number / 100}"]
            else:
                words = ["exclude", self.address, f"SL{n + 1}-26-07-A"] + draw.choice([[], ["--back"]])
            words += ["--as", f"Person {n}"] + (["--why", token] if kind != "import" else [])
            ever_unknown = False
            for attempt in range(ATTEMPTS):
                outcome, head = self.outcome(kind, *self.process(n, words))
                act["head"] = act["head"] or head
                if outcome == "acknowledged":
                    act["outcome"], act["end"] = outcome, time.monotonic()
                    break
                ever_unknown = ever_unknown or outcome == "unknown"
                # Only a file may be brought twice: what stands already is told and not taken again.
                if kind != "import" or draw.random() < 0.3:
                    break
                self.log["imports tried again"] += 1
            if act["outcome"] != "acknowledged":
                act["outcome"] = "unknown" if ever_unknown else "refused"

    def outcome(self, kind, status, out, err):
        """What a client knows of its act: acknowledged (with the hash that it was told), refused, unknown."""
        if kind == "import":
            try:
                told = json.loads(out)
            except ValueError:
                told = None
            if told is not None and told.get("files") is not None:
                return "acknowledged", told["head"]
        elif any(w in out for w in ("from now on:", "out of the evidence:", "back in the evidence:")):
            return "acknowledged", None
        if status == -9:
            return "unknown", None
        told = err.strip()
        if status == 5 and told.startswith("kept"):
            self.log["told by the program: kept, not yet derived"] += 1
            return "acknowledged", None
        if status == 4 and "verify --head" in told:
            self.log["told by the program: unknown, look before doing it again"] += 1
            return "unknown", None
        if status == 1 or (status == 4 and any(w in told for w in NOT_KEPT)):
            self.log["refused: " + " ".join(w for w in told.split() if not any(c.isdigit() for c in w))[:120]] += 1
            return "refused", None
        with self.guard:
            self.odd.append((kind, status, out[-300:], told[-300:]))
        return "unknown", None

    def look(self, n):
        begin = time.monotonic()
        status, out, err = self.process(n, ["history", self.address, "--all", "--json"])
        end = time.monotonic()
        if status != 0:
            self.log["looks that failed"] += 1
            return
        hashes = [a["hash"] for a in json.loads(out)["acts"]]
        with self.guard:
            self.looks.append({"client": n, "begin": begin, "end": end, "events": len(hashes), "digest": digest(hashes)})

    # --- what goes wrong

    def nemesis(self, until):
        draw = random.Random(self.arguments.draw)
        next_stop = time.monotonic() + 8
        while time.monotonic() < until:
            time.sleep(draw.uniform(0.2, 0.8))
            if time.monotonic() > next_stop:
                self.stop_server(draw)
                next_stop = time.monotonic() + draw.uniform(8, 16)
                continue
            draw.choice([self.kill_clients, self.terminate, self.cut, self.clients_jump, self.clients_jump, self.server_jumps])(draw)

    def kill_clients(self, draw):
        with self.guard:
            chosen = [p for p in self.running.values() if draw.random() < 0.25]
            for process in chosen:
                process.kill()
        self.log["clients killed"] += len(chosen)

    def terminate(self, draw):
        others = "FROM pg_stat_activity WHERE pid <> pg_backend_pid() AND backend_type = 'client backend' AND random() < 0.4"
        try:
            self.log["connections cut by the server"] += int(self.cluster.ask(f"SELECT count(pg_terminate_backend(pid)) {others}"))
        except subprocess.CalledProcessError as e:
            # A clock that jumps while one logs in lets the server's time for that run out.
            self.log["questions of the test itself that the server cut off"] += 1
            print(f"the test itself was cut off: {e.stderr.strip()}", flush=True)

    def cut(self, draw):
        self.log["connections cut on the wire"] += self.wire.cut(0.4, draw.choice([0, 0.02, 0.1, 0.5]), draw)

    def stop_server(self, draw):
        self.cluster.stop("immediate")
        time.sleep(draw.uniform(0, 1))
        self.cluster.start()
        self.log["stops of the server"] += 1

    def clients_jump(self, draw):
        for clock in draw.sample(self.clocks, max(1, len(self.clocks) // 2)):
            clock.jump(draw.choice([0, draw.uniform(-60, 60), draw.uniform(-86_400, 86_400), draw.uniform(-200, 2000) * 86_400]))
            self.log["jumps of a client's clock"] += 1

    def server_jumps(self, draw):
        self.server_clock.jump(draw.choice([0, draw.uniform(-30, 30), draw.uniform(-7200, 7200)]))
        self.log["jumps of the server's clock"] += 1

    # --- what stands afterwards

    def record(self):
        numbers = {a["number"]: a["token"] for a in self.acts if a["kind"] == "import"}
        tokens = {a["token"] for a in self.acts}
        rows = collections.Counter()
        for line in self.cluster.ask("SELECT event, round((value - 100) * 10) FROM p.field_reading").split():
            event, number = line.split("|")
            rows[int(event), numbers.get(int(number))] += 1
        record = []
        for line in self.cluster.ask("SELECT json_build_object('id', id, 'hash', encode(hash, 'hex'), 'body', body) FROM p.event ORDER BY id").splitlines():
            event = json.loads(line)
            body = json.loads(event["body"])
            said = body.get("body") or {}
            names = [f["file"].removesuffix(".csv") for f in said.get("files") or []] + [said.get("why")]
            token = next((n for n in names if n in tokens or (n or "").startswith(("import-", "correct-", "exclude-"))), None)
            record.append({"id": event["id"], "hash": event["hash"], "token": token, "rows": rows.pop((event["id"], token), 0), "at": body["at"], "act": body["act"]})
        if rows:
            print(f"readings that belong to no act of theirs: {dict(rows)}")
        return record, not rows and [e["id"] for e in record] == list(range(1, len(record) + 1))

    def go(self):
        self.prepare()
        begin = time.monotonic()
        until = begin + self.arguments.seconds
        clients = [threading.Thread(target=self.client, args=(n, until)) for n in range(self.arguments.clients)]
        for c in clients:
            c.start()
        self.nemesis(until)
        for c in clients:
            c.join()
        for clock in [*self.clocks, self.server_clock]:
            clock.jump(0)
        took = time.monotonic() - begin
        record, whole = self.record()
        history = {"acts": self.acts, "looks": self.looks, "record": record}
        if self.arguments.keep:
            pathlib.Path(self.arguments.keep).write_text(json.dumps(history))
        found = violations(history)
        before = self.limpid("verify", self.direct)
        self.limpid("recompute", self.direct)
        after = self.limpid("verify", self.direct)
        sound = whole and before.returncode in (0, 5) and after.returncode == 0
        self.say(history, took, found, (before, after), whole)
        print()
        return tried(history) and sound and not found

    def say(self, history, took, found, verified, whole):
        stands = {e["token"] for e in history["record"]}
        print(f"\n{self.arguments.clients} clients, {took:.0f} s, {len(history['record'])} events, {len(history['looks'])} looks, draw {self.arguments.draw}")
        print(f"\n{'acts':<10}{'begun':>8}{'acknowledged':>14}{'refused':>9}{'unknown':>9}{'of these standing':>19}")
        for kind, _ in ACTS[:-1]:
            mine = [a for a in self.acts if a["kind"] == kind]
            count = collections.Counter(a["outcome"] for a in mine)
            standing = sum(a["outcome"] == "unknown" and a["token"] in stands for a in mine)
            print(f"{kind:<10}{len(mine):>8}{count['acknowledged']:>14}{count['refused']:>9}{count['unknown']:>9}{standing:>19}")
        print("\nwhat went wrong on purpose, and what was told")
        for what, n in sorted(self.log.items()):
            print(f"{n:>8}  {what}")
        times = [e["at"] for e in history["record"]]
        print(f"{sum(b < a for a, b in zip(times, times[1:])):>8}  events whose clock stood before that of the event before")
        if FAKETIME is None:
            print("no clock jumped: libfaketime (Debian package libfaketime) is not there")
        for kind, status, out, err in self.odd[:5]:
            print(f"not understood: {kind} ended with {status}: {out} {err}")
        print(f"\nnumbers without gaps, each reading within its act: {'yes' if whole else 'NO'}")
        for when, done in zip(("as it stood", "derived anew"), verified):
            first = (done.stdout.strip().splitlines() or [done.stderr.strip()])[0]
            print(f"limpid verify, {when}: {done.returncode} ({first})")
        print(f"violations: {len(found)}")
        for kind, said in found[:20]:
            print(f"  {kind}: {said}")


def main():
    words = argparse.ArgumentParser(description="Histories of a programme on a server, checked for linearisability.")
    words.add_argument("program", nargs="?", help="the built limpid")
    words.add_argument("--seconds", type=float, default=300)
    words.add_argument("--clients", type=int, default=10)
    words.add_argument("--draw", type=int, default=1, help="another number, another order of what goes wrong")
    words.add_argument("--keep", help="file to write the recorded history to")
    words.add_argument("--self-test", nargs="?", const="", metavar="FILE", help="try the check alone: on a kept history, or an invented one")
    arguments = words.parse_args()
    if arguments.self_test is not None:
        history = json.loads(pathlib.Path(arguments.self_test).read_text()) if arguments.self_test else invented()
        sys.exit(0 if tried(history) else 1)
    if arguments.program is None:
        words.error("which program? Give the path of the built limpid")
    shared = set(glob.glob("/dev/shm/*faketime_*"))
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        run = Run(pathlib.Path(arguments.program).resolve(), folder, arguments)
        try:
            good = run.go()
        finally:
            run.cluster.stop("immediate")
            # Those who were killed leave what libfaketime shared with them.
            for left in set(glob.glob("/dev/shm/*faketime_*")) - shared:
                pathlib.Path(left).unlink(missing_ok=True)
    sys.exit(0 if good else 1)


main()
