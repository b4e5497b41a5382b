#!/usr/bin/env python3
"""How fast `fallaway serve` is, held against a bare SQLite commit and a file as it is, measured in the same run.

usage: serve_bench.py FALLAWAY [--visits N]
"""
import argparse
import gzip
import multiprocessing
import os
import random
import re
import sqlite3
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests" / "serve"))

COMMITS = 400
ENTRIES_ALONE = 300
DEVICES = 20
ENTRIES_EACH = 30
PACE_S = 0.25  # between two entries of a device, in the mean: faster than anyone types
BUDGET_MS = 25  # for an entry to be acknowledged, 99 of 100
LIVE = 100
SEARCHES = 50
FILES = 300


def milliseconds(work):
    began = time.perf_counter()
    work()
    return (time.perf_counter() - began) * 1000


def show(what, times_ms, baseline_ms=None, budget_ms=None):
    times = sorted(times_ms)
    median, late = statistics.median(times), times[min(len(times) - 1, int(len(times) * 0.99))]
    ratio = f"   {median / baseline_ms:6.1f} times the baseline" if baseline_ms else ""
    budget = f" (budget {budget_ms} ms)" if budget_ms else ""
    print(f"{what:62} p50 {median:8.2f} ms   p99 {late:8.2f} ms{budget}{ratio}", flush=True)
    return median


def bare_commits(folder):
    """One row, durable, as the store does it: WAL, synchronous FULL."""
    database = sqlite3.connect(Path(folder) / "bare.sqlite", isolation_level=None)
    database.execute("PRAGMA journal_mode = WAL")
    database.execute("PRAGMA synchronous = FULL")
    database.execute("CREATE TABLE entry (id INTEGER PRIMARY KEY, body TEXT)")
    body = "x" * 200
    return [milliseconds(lambda: database.execute("INSERT INTO entry (body) VALUES (?)", (body,)))
            for _ in range(COMMITS)]


def write(client, visit, count):
    from bench_server import entry
    return [milliseconds(lambda: client.write(visit, entry("/remarks", {"text": "a remark of usual length " * 3})))
            for _ in range(count)]


def write_paced(client, visit, count, chance):
    """As people do, who do not wait for one another: pauses of any length, PACE_S in the mean. What comes late because
    the one before was late counts from when it was due."""
    from bench_server import entry
    taken, due = [], time.perf_counter()
    for _ in range(count):
        due += chance.expovariate(1 / PACE_S)
        time.sleep(max(0.0, due - time.perf_counter()))
        client.write(visit, entry("/remarks", {"text": "a remark of usual length " * 3}))
        taken.append((time.perf_counter() - due) * 1000)
    return taken


def write_apart(port, visit, start, times, paced):
    """One of many devices, in a process of its own; `paced` is the seed of its pauses, None for no pauses."""
    from bench_server import Client
    client = Client("127.0.0.1", port)
    client.get("/api/shop")
    start.wait()
    if paced is None:
        times.put(write(client, visit, ENTRIES_EACH))
    else:
        times.put(write_paced(client, visit, ENTRIES_EACH, random.Random(paced)))


def many_devices(server, visits, paced):
    """What each entry took, and the seconds for all."""
    start, times = multiprocessing.Event(), multiprocessing.Queue()
    devices = [multiprocessing.Process(target=write_apart, args=(server.port, visits[n % len(visits)], start, times,
                                                                 n if paced else None))
               for n in range(DEVICES)]
    for device in devices:
        device.start()
    began = time.perf_counter()
    start.set()
    taken = [time for _ in devices for time in times.get()]
    seconds = time.perf_counter() - began
    for device in devices:
        device.join()
    return taken, seconds


def live_decisions(desk, visit):
    from bench_server import height
    line = desk.live(visit)
    line.heard("judged")
    told, judged = [], []
    for n in range(LIVE):
        began = time.perf_counter()
        seq = desk.write(visit, height(n % 6 + 1, f"1.{n % 90 + 10} mm"))
        line.heard("visit", seq=seq)
        told.append((time.perf_counter() - began) * 1000)
        line.heard("judged", seq=seq)
        judged.append((time.perf_counter() - began) * 1000)
    line.close()
    return told, judged


def many_visits(desk, count):
    makers, players = ("Ostrel Heron", "Vannick Dray"), ("Joon Aster", "Maren Tolk", "Ilse Corvin", "Pell Audry")
    for n in range(count):
        desk.open_visit(player=f"{players[n % 4]} {n // 4}", scope="quick look")
    queries = ("", "joon", "tolk 99", "ready", "no such thing") + makers
    return [milliseconds(lambda: desk.get("/api/visits?limit=200&q=" + queries[n % len(queries)].replace(" ", "+")))
            for n in range(SEARCHES)]


def first_load(desk):
    """Bytes over the line of the index and of what it names, packed as a browser asks for them."""
    packed = {"Accept-Encoding": "gzip"}
    index = desk.get("/", headers=packed)
    text = gzip.decompress(index.body).decode() if index.headers["Content-Encoding"] else index.body.decode()
    sizes = {"/": len(index.body)}
    for path in re.findall(r'(?:src|href)="(/assets/[^"]+)"', text):
        sizes[path] = len(desk.get(path, headers=packed).body)
    return sizes


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("fallaway")
    parser.add_argument("--visits", type=int, default=10_000)
    asked = parser.parse_args()
    os.environ["FALLAWAY"] = asked.fallaway
    from bench_server import Server

    with tempfile.TemporaryDirectory(prefix="fallaway_bench_") as folder, Server(f"{folder}/shop", "--demo") as server:
        desk = server.client()
        heron = next(v["id"] for v in desk.get("/api/visits").json["visits"] if v["title"] == "Ostrel Heron")
        commit = show("a bare SQLite commit (baseline)", bare_commits(folder))
        visits = [desk.open_visit() for _ in range(4)]
        show("an entry acknowledged, one device, small visit", write(desk, visits[0], ENTRIES_ALONE), commit, BUDGET_MS)
        show("an entry acknowledged, one device, the demo's 313 readings and ratings", write(desk, heron, 100), commit, BUDGET_MS)
        fresh = [desk.open_visit() for _ in range(4)]
        taken, _ = many_devices(server, fresh, paced=True)
        show(f"an entry acknowledged, {DEVICES} devices, each one every {PACE_S * 1000:.0f} ms", taken, commit, BUDGET_MS)
        taken, seconds = many_devices(server, visits, paced=False)
        show(f"an entry acknowledged, {DEVICES} devices without pause", taken, commit, BUDGET_MS)
        print(f"  that is {len(taken) / seconds:.0f} entries a second", flush=True)
        told, judged = live_decisions(desk, heron)
        show("an entry seen by others, the demo's 313 readings and ratings", told, commit)
        show("decisions seen by others, the demo's 313 readings and ratings", judged, commit)
        asset = show("a file of the page (baseline)", [milliseconds(lambda: desk.get("/")) for _ in range(FILES)])
        show("the shop", [milliseconds(lambda: desk.get("/api/shop")) for _ in range(FILES)], asset)
        show("the view of a visit, the demo's 313 readings and ratings",
             [milliseconds(lambda: desk.get(f"/api/visits/{heron}")) for _ in range(50)], asset)
        sizes = first_load(desk)
        print(f"first load, {len(sizes)} files packed: {sum(sizes.values()) / 1000:.1f} kB", flush=True)
        began = time.perf_counter()
        searched = many_visits(desk, asked.visits)
        print(f"{asked.visits} visits opened, then searched: {time.perf_counter() - began:.0f} s")
        show(f"200 lines out of {asked.visits} visits, searched", searched, asset)


if __name__ == "__main__":
    main()
