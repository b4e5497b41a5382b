"""kill -9 while several devices write: every acknowledged entry is there afterwards, in order, and nothing is broken."""
import json
import random
import shutil
import tempfile
import threading
import time

from bench_server import Server, entry, run

WRITERS = 4


class Writer(threading.Thread):
    """One device that writes until the server is gone, and remembers what was acknowledged."""

    def __init__(self, server, visit):
        super().__init__()
        self.client = server.client()
        self.visit = visit
        self.acknowledged = []

    def run(self):
        try:
            while True:
                made = [entry("/remarks", {"text": f"n {len(self.acknowledged)}"}) for _ in range(random.randint(1, 3))]
                answer = self.client.add(self.visit, *made)
                if answer.status == 200:
                    self.acknowledged += [(stored["id"], stored["seq"]) for stored in answer.json["stored"]]
        except Exception:  # whatever way the line breaks
            return


def kill_again_and_again(test, times):
    seed = random.randrange(1 << 32)
    print(f"kills: {times}, seed {seed}", flush=True)
    chance = random.Random(seed)
    folder = tempfile.mkdtemp(prefix="fallaway_kill_")
    test.addCleanup(shutil.rmtree, folder, True)
    visits = []
    acknowledged = {}  # of each visit: (id, seq)
    for _ in range(times):
        server = Server(folder).start()
        test.addCleanup(server.stop)
        desk = server.client()
        if len(visits) < 2:
            visits.append(desk.open_visit())
            acknowledged[visits[-1]] = []
        writers = [Writer(server, visits[n % len(visits)]) for n in range(WRITERS)]
        for writer in writers:
            writer.start()
        time.sleep(chance.uniform(0.005, 0.25))  # the moment of the kill is what is drawn here
        server.kill()
        for writer in writers:
            writer.join()
            acknowledged[writer.visit] += writer.acknowledged
        code, _, err = run("check", "--shop", folder)
        test.assertEqual((code, err), (0, ""), f"seed {seed}")
    with Server(folder) as server:
        desk = server.client()
        for visit, entries in acknowledged.items():
            test.assertGreater(len(entries), times, f"seed {seed}: too little was written to say anything")
            history = desk.get(f"/api/visits/{visit}/history").json["entries"]
            seq_of = {e["id"]: e["seq"] for e in history}
            test.assertEqual([e["seq"] for e in history], sorted(seq_of.values()), f"seed {seed}")
            for id, seq in entries:
                test.assertEqual(seq_of.get(id), seq, f"seed {seed}: entry {id} of visit {visit}")
            json.loads(desk.get(f"/api/visits/{visit}/bench").body)
