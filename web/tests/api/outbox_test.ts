import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it } from "vitest";
import { ApiError } from "../../src/api/client";
import { inMemory, openKeep, type Keep } from "../../src/api/keep";
import { link } from "../../src/api/link";
import { Outbox, namedEntries, type Sender } from "../../src/api/outbox";
import type { EntriesStored, Entry, Problem } from "../../src/api/types";

const visit = "00000000000000aa";
const entry = (id: string, value: unknown = { what: "relief", value: "0.26 mm" }): Entry => ({
  id,
  path: "/readings",
  value,
  saw: 0,
});
const dead = () => new ApiError(0, { code: "link", path: "", message: "no answer from the server" });
const bad = (...problems: Problem[]) => new ApiError(400, problems[0] as Problem, problems);

/** A server that keeps what it is given by id; `mood` may throw instead. */
class Server implements Sender {
  readonly kept: Entry[] = [];
  readonly undone: string[] = [];
  calls = 0;
  mood: (entries: Entry[]) => void = () => undefined;

  async store(_: string, entries: Entry[]): Promise<EntriesStored> {
    this.calls += 1;
    this.mood(entries);
    for (const one of entries) if (!this.kept.some((old) => old.id === one.id)) this.kept.push(one);
    return {
      schema: "",
      seq: this.kept.length,
      stored: entries.map((one) => ({ id: one.id, seq: this.kept.findIndex((old) => old.id === one.id) + 1 })),
    };
  }
  async undo(_: string, id: string): Promise<EntriesStored> {
    this.mood([]);
    this.undone.push(id);
    return { schema: "", seq: 0, stored: [] };
  }
  async putMedium(blob: Blob) {
    this.mood([]);
    return { schema: "", hash: "ab", path: "media/ab.jpg", type: blob.type, bytes: blob.size };
  }
  ids = () => this.kept.map((one) => one.id);
}

let count = 0;
const freshKeep = () => openKeep(`test ${count++}`);
const flushed = async (box: Outbox) => {
  await box.flush();
  await box.written();
};
const send = (box: Outbox, ...entries: Entry[]) => box.add({ kind: "entries", visit, entries });

describe("the outbox", () => {
  let server: Server;
  let keeping: Promise<Keep>;
  let box: Outbox;
  beforeEach(async () => {
    server = new Server();
    keeping = freshKeep();
    box = new Outbox(server, keeping);
    await box.start();
  });

  it("keeps in the browser's database where there is one", async () => {
    expect(box.lasting.value).toBe("database");
  });

  it("sends in the order typed and keeps nothing once answered", async () => {
    for (const id of ["a", "b", "c"]) send(box, entry(id));
    await until(() => box.waiting.value === 0);
    await flushed(box);
    expect(server.ids()).toEqual(["a", "b", "c"]);
    expect(await (await keeping).all("outbox")).toEqual([]);
  });

  it("survives a dead server and a reload, and sends the older first", async () => {
    server.mood = () => {
      throw dead();
    };
    send(box, entry("a"));
    send(box, entry("b"));
    await flushed(box);
    expect(box.waiting.value).toBe(2);
    expect(link.value.up).toBe(false);

    server.mood = () => undefined;
    const next = new Outbox(server, keeping);
    next.add({ kind: "entries", visit, entries: [entry("c")] });
    await next.start();
    await until(() => next.waiting.value === 0);
    expect(new Set(server.ids())).toEqual(new Set(["a", "b", "c"]));
    expect(server.ids().indexOf("a")).toBeLessThan(server.ids().indexOf("b"));
    expect(link.value.up).toBe(true);
  });

  it("sends again without harm when the answer was lost", async () => {
    let lost = 1;
    const store = server.store.bind(server);
    server.store = async (id, entries) => {
      const answer = await store(id, entries);
      if (lost-- > 0) throw dead();
      return answer;
    };
    send(box, entry("a"));
    await flushed(box);
    expect(box.waiting.value).toBe(1);
    await flushed(box);
    expect(box.waiting.value).toBe(0);
    expect(server.ids()).toEqual(["a"]);
  });

  it("sets a refused entry aside with its text, stores the rest of its row and goes on", async () => {
    server.mood = (entries) => {
      const at = entries.findIndex((one) => (one.value as { value: string }).value === "9.10");
      if (at >= 0) throw bad({ code: "unit", path: `/entries/${at}/value/value`, message: "unit missing" });
    };
    send(box, entry("a"), entry("b", { what: "relief", value: "9.10" }), entry("c"));
    send(box, entry("d"));
    await until(() => box.waiting.value === 0);
    expect(server.ids()).toEqual(["a", "c", "d"]);
    const [refused] = box.refused.value;
    expect(refused?.problem?.message).toBe("unit missing");
    expect(refused?.entries).toEqual([entry("b", { what: "relief", value: "9.10" })]);

    await box.written();
    const next = new Outbox(server, keeping);
    await next.start();
    expect(next.refused.value.map((item) => item.entries[0]?.id)).toEqual(["b"]);
  });

  it("sends a refused entry again once it is mended", async () => {
    server.mood = () => {
      throw bad({ code: "unit", path: "/entries/0/value/value", message: "unit missing" });
    };
    send(box, entry("a", "9.10"));
    await until(() => box.refused.value.length === 1);
    server.mood = () => undefined;
    box.again((box.refused.value[0] as { key: string }).key, [entry("a", "0.91 mm")]);
    await until(() => box.items.value.length === 0);
    expect(server.kept[0]?.value).toBe("0.91 mm");
  });

  it("waits, and refuses nothing, where the server cannot judge", async () => {
    for (const status of [401, 403, 429, 500, 503, 507]) {
      server.mood = () => {
        throw new ApiError(status, { code: "", path: "", message: "not now" });
      };
      send(box, entry(`s${status}`));
      await flushed(box);
    }
    expect(box.refused.value).toEqual([]);
    expect(box.waiting.value).toBe(6);
  });

  it("takes back what the server never saw, alone or out of a row", async () => {
    server.mood = () => {
      throw dead();
    };
    send(box, entry("a"), entry("b"));
    await flushed(box);
    expect(box.takeBack("b")?.id).toBe("b");
    expect(box.takeBack("b")).toBeUndefined();
    server.mood = () => undefined;
    await flushed(box);
    expect(server.ids()).toEqual(["a"]);
  });

  it("does not take back what is on its way", async () => {
    let answer = (): void => undefined;
    const store = server.store.bind(server);
    server.store = async (id, entries) => {
      await new Promise<void>((done) => {
        answer = done;
      });
      return store(id, entries);
    };
    send(box, entry("a"));
    expect(box.takeBack("a")).toBeUndefined();
    answer();
    await until(() => box.waiting.value === 0);
    expect(server.ids()).toEqual(["a"]);
  });

  it("puts the path of a stored photo into its entry", async () => {
    const blob = new Blob(["picture"], { type: "image/jpeg" });
    box.add({
      kind: "photo",
      visit,
      blob,
      entries: [{ ...entry("p"), path: "/photos", value: { path: "", what: "label" } }],
    });
    await until(() => box.waiting.value === 0);
    expect(server.kept[0]?.value).toEqual({ path: "media/ab.jpg", what: "label" });
  });

  it("keeps on for as long as the page where nothing can be stored", async () => {
    const full: Keep = {
      ...inMemory(),
      lasting: "database",
      put: async () => {
        throw new Error("quota");
      },
    };
    const small = new Outbox(server, Promise.resolve(full));
    await small.start();
    server.mood = () => {
      throw dead();
    };
    small.add({ kind: "entries", visit, entries: [entry("a")] });
    await flushed(small);
    expect(small.lasting.value).toBe("this page only");
    server.mood = () => undefined;
    await flushed(small);
    expect(server.ids()).toEqual(["a"]);
  });
});

describe("reasons", () => {
  it("name entries by their place", () => {
    const at = (path: string): Problem => ({ code: "range", path, message: "" });
    expect([...namedEntries([at("/entries/2/value"), at("/entries/0"), at("/entries/2/at")], 3).keys()]).toEqual([
      2, 0,
    ]);
    expect(namedEntries([at(""), at("/entries"), at("/entries/3/value"), at("/entries/x")], 3).size).toBe(0);
  });
});

/** Lets promises settle until something holds; fails after many turns, so that nothing waits for a clock. */
async function until(holds: () => boolean): Promise<void> {
  for (let turn = 0; turn < 500; ++turn) {
    if (holds()) return;
    await new Promise((done) => setImmediate(done));
  }
  throw new Error("it never came to hold");
}
