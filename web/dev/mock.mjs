// A stand-in for the server while pages are written: the contract's answers from memory, judged by the real program.
// Not shipped and not part of any test. `node dev/mock.mjs [--port 8177] [--empty] [--opened] [--dist FOLDER]`.
import { createServer } from "node:http";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { extname, join, normalize } from "node:path";
import { WebSocketServer } from "ws";
import { bareBench, foldBench } from "./mock_bench.mjs";
import {
  house,
  port,
  dist,
  scratch,
  hex,
  catalogue,
  today,
  media,
  visits,
  shop,
  devices,
  runProgram,
  assess,
  newVisit,
  store,
  inForce,
  says,
  judge,
  view,
  visitLine,
  Refusal,
  found,
  tell,
  allSockets,
  changed,
  tried,
  upsert,
} from "./mock_state.mjs";

const routes = [
  ["GET", /^\/api\/shop$/, (_, __, device) => ({ ...shop, device: { id: device, name: "this computer" } })],
  ["PUT", /^\/api\/shop$/, (_, body) => Object.assign(shop, { name: body.name })],
  ["PUT", /^\/api\/people$/, (_, body) => upsert(shop.people, "name", { technician: false, ...body })],
  ["PUT", /^\/api\/tools$/, (_, body) => upsert(shop.tools, "id", body)],
  ["PUT", /^\/api\/rates$/, (_, body) => upsert(shop.rates, "work", body)],
  [
    "DELETE",
    /^\/api\/rates\/(.+)$/,
    ([work]) => Object.assign(shop, { rates: shop.rates.filter((one) => one.work !== work) }),
  ],
  ["PUT", /^\/api\/limits$/, (_, body) => upsert(shop.limits, "checkpoint", body)],
  [
    "DELETE",
    /^\/api\/limits\/(.+)$/,
    ([id]) => Object.assign(shop, { limits: shop.limits.filter((one) => one.checkpoint !== id) }),
  ],
  ["GET", /^\/api\/catalogue$/, () => catalogue],
  [
    "GET",
    /^\/api\/visits$/,
    async (_, __, ___, query) => {
      const lines = await Promise.all([...visits.values()].map(visitLine));
      const q = (query.get("q") ?? "").toLowerCase();
      const hits = lines.filter((line) =>
        `${line.title} ${line.serial} ${line.player} ${line.scope}`.toLowerCase().includes(q),
      );
      return { schema: "fallaway/visits/1", today, visits: hits, total: hits.length };
    },
  ],
  [
    "GET",
    /^\/api\/names$/,
    async (_, __, ___, query) => {
      const q = (query.get("q") ?? "").toLowerCase();
      const lines = (await Promise.all([...visits.values()].map(visitLine))).filter((line) => line.serial !== "");
      const hit = (...words) => words.join(" ").toLowerCase().includes(q);
      return {
        schema: "fallaway/names/1",
        dossiers: lines
          .filter((line) => hit(line.title, line.serial))
          .map((line) => ({
            id: line.dossier,
            title: line.title,
            serial: line.serial,
            kind: line.title.includes("Dray") ? "electric bass" : "electric guitar",
            owner: line.player,
            visits: 1,
            last: { visit: line.id, day: line.opened.slice(0, 10) },
          })),
        players: ["Maren Tolk", "Ilse Corvin"]
          .filter((name) => hit(name))
          .map((name) => ({ name, wants: "medium hand, 10-46, E standard" })),
      };
    },
  ],
  [
    "POST",
    /^\/api\/visits$/,
    async (_, body) => {
      if (!visits.has(body.id)) {
        const visit = newVisit(
          body.id,
          body.dossier ?? hex(body.id),
          bareBench(
            body,
            body.dossier &&
              [...visits.values()]
                .filter((one) => one.dossier === body.dossier)
                .map((one) => foldBench(inForce(one)))[0],
          ),
          new Date().toISOString(),
        );
        await judge(visit);
      }
      tell({ type: "visits" }, allSockets);
      return { schema: "fallaway/visit-opened/1", id: body.id, dossier: visits.get(body.id).dossier };
    },
  ],
  [
    "POST",
    /^\/api\/import$/,
    async (_, body, __, query) => {
      try {
        await assess(body);
      } catch (answer) {
        const list = answer.errors ?? [answer.error];
        throw new Refusal(400, list[0].code, list[0].path, list[0].message, list);
      }
      const id = query.get("id");
      if (!visits.has(id)) newVisit(id, hex(body.instrument?.serial ?? id), body, new Date().toISOString());
      return { schema: "fallaway/visit-opened/1", id, dossier: visits.get(id).dossier };
    },
  ],
  ["GET", /^\/api\/visits\/(\w+)$/, ([id]) => view(found(visits.get(id)))],
  [
    "POST",
    /^\/api\/visits\/(\w+)\/entries$/,
    async ([id], body, device) => {
      const visit = found(visits.get(id));
      const fresh = body.entries.filter((entry) => !visit.entries.has(entry.id));
      if (fresh.length > 0) await tried(visit, fresh);
      const before = visit.seq;
      const stored = store(visit, body.entries, device);
      void changed(visit, before);
      return { schema: "fallaway/entries/1", seq: visit.seq, stored };
    },
  ],
  [
    "POST",
    /^\/api\/visits\/(\w+)\/try$/,
    async ([id], body) => {
      const visit = found(visits.get(id));
      const old = new Map(
        (visit.assessment?.answers ?? []).map((answer) => [answer.checkpoint, JSON.stringify(answer)]),
      );
      const now = await tried(visit, body.entries);
      return {
        schema: "fallaway/tried/1",
        verdict: now.verdict,
        reasons: now.reasons,
        answers: now.answers.filter((answer) => old.get(answer.checkpoint) !== JSON.stringify(answer)),
      };
    },
  ],
  [
    "POST",
    /^\/api\/visits\/(\w+)\/undo$/,
    async ([id], body, device) => {
      const visit = found(visits.get(id));
      const last = inForce(visit)
        .filter((entry) => entry.device === device)
        .at(-1);
      const before = visit.seq;
      if (last && !visit.entries.has(body.id)) {
        store(visit, [{ id: body.id, path: "", replaces: [last.id], saw: visit.seq }], device);
        for (const old of last.replaces ?? []) visit.out.delete(old);
        void changed(visit, before);
      }
      return {
        schema: "fallaway/entries/1",
        seq: visit.seq,
        stored: [],
        ...(last ? { took_back: { id: last.id, says: says(last) } } : {}),
      };
    },
  ],
  [
    "POST",
    /^\/api\/visits\/(\w+)\/close$/,
    async ([id], body) => {
      const visit = found(visits.get(id));
      visit.closed = body.closed ? new Date().toISOString() : undefined;
      tell({ type: "visits" }, allSockets);
      return { schema: "fallaway/visit-line/1", ...(await visitLine(visit)) };
    },
  ],
  [
    "GET",
    /^\/api\/visits\/(\w+)\/history$/,
    ([id]) => {
      const visit = found(visits.get(id));
      return {
        schema: "fallaway/history/1",
        entries: [...visit.entries.values()].map((entry) => ({
          ...entry,
          in_force: !visit.out.has(entry.id),
          says: says(entry),
          device_name: "this computer",
        })),
      };
    },
  ],
  ["GET", /^\/api\/visits\/(\w+)\/bench$/, ([id]) => foldBench(inForce(found(visits.get(id))))],
  ["GET", /^\/api\/dossiers\/(\w+)$/, ([id]) => dossier(id)],
  ["PUT", /^\/api\/dossiers\/(\w+)$/, ([id]) => dossier(id)],
  ["GET", /^\/api\/sums$/, async () => JSON.parse((await runProgram("sums", "--list", "--json")).out)],
  [
    "POST",
    /^\/api\/sums\/([\w-]+)$/,
    async ([name], body) => {
      const args = Object.entries(body.inputs).map(([key, value]) => `${key}=${value}`);
      const { out, err } = await runProgram("sums", name, ...args, "--json");
      const answer = JSON.parse(out || err);
      if (answer.error)
        throw new Refusal(400, answer.error.code, answer.error.path, answer.error.message, answer.errors);
      return answer;
    },
  ],
  [
    "POST",
    /^\/api\/pairing$/,
    () => ({
      schema: "fallaway/pairing/1",
      code: "7KQ4-MX2P",
      url: `http://127.0.0.1:${port}/pair?code=7KQ4-MX2P`,
      qr_svg:
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M1 1h3v3h-3zM5 1h3v3h-3zM1 5h3v3h-3zM5 5h1v1h-1zM7 7h1v1h-1z"/></svg>',
      until: new Date(Date.now() + 300_000).toISOString(),
      trust_url: "http://192.0.2.10:8080/",
    }),
  ],
  [
    "POST",
    /^\/api\/pair$/,
    (_, body) => {
      if (body.code !== "7KQ4-MX2P")
        throw new Refusal(400, "unknown", "/code", `"${body.code}": no such code, or it has run out`);
      devices.push({
        id: hex(body.name),
        name: body.name,
        paired: new Date().toISOString(),
        seen: new Date().toISOString(),
        revoked: false,
        here: true,
      });
      return { schema: "fallaway/paired/1", device: devices.at(-1) };
    },
  ],
  ["GET", /^\/api\/devices$/, () => ({ schema: "fallaway/devices/1", devices })],
  [
    "DELETE",
    /^\/api\/devices\/(\w+)$/,
    ([id]) => {
      for (const one of devices) if (one.id === id) one.revoked = true;
      return { schema: "fallaway/devices/1", devices };
    },
  ],
];

async function dossier(id) {
  const own = [...visits.values()].filter((visit) => visit.dossier === id);
  const lines = await Promise.all(own.map(visitLine));
  const bench = foldBench(inForce(found(own[0])));
  const rows = new Map();
  for (const visit of own)
    for (const entry of inForce(visit)) {
      if (entry.path !== "/readings") continue;
      const { what, at = {}, value, stage = "", when = visit.opened } = entry.value;
      const where = Object.entries(at)
        .map(([key, one]) => `${key} ${one}`)
        .join(", ");
      const row = rows.get(`${what}|${where}`) ?? { what, at: where, values: [] };
      row.values.push({ visit: visit.id, day: when.slice(0, 10), stage, text: String(value ?? "") });
      rows.set(`${what}|${where}`, row);
    }
  return {
    schema: "fallaway/dossier/1",
    id,
    kind: bench.instrument.kind,
    title: lines[0].title,
    serial: lines[0].serial,
    owner: lines[0].player,
    visits: lines,
    rows: [...rows.values()],
  };
}

const csp =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; media-src 'self' blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
const types = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".webmanifest": "application/manifest+json",
  ".txt": "text/plain; charset=utf-8",
};

function serveFile(path, answer) {
  const file = join(dist, normalize(path));
  const there = existsSync(file) && statSync(file).isFile();
  const real = there ? file : join(dist, "index.html");
  answer.writeHead(200, {
    "Content-Type": types[extname(real)] ?? "application/octet-stream",
    "Content-Security-Policy": csp,
    "Cache-Control": "no-cache",
  });
  answer.end(readFileSync(real));
}

async function body(request) {
  const parts = [];
  for await (const part of request) parts.push(part);
  return Buffer.concat(parts);
}

async function handle(request, answer) {
  const url = new URL(request.url, "http://mock");
  const send = (status, json) => {
    answer.writeHead(status, { "Content-Type": "application/json" });
    answer.end(JSON.stringify(json));
  };
  try {
    if (url.pathname === "/api/media" && request.method === "PUT") {
      const bytes = await body(request);
      const hash = createHash("sha256").update(bytes).digest("hex");
      const end = { "image/png": "png", "image/webp": "webp" }[request.headers["content-type"]] ?? "jpg";
      media.set(`${hash}.${end}`, { bytes, type: request.headers["content-type"] });
      return send(200, {
        schema: "fallaway/medium/1",
        hash,
        path: `media/${hash}.${end}`,
        type: request.headers["content-type"],
        bytes: bytes.length,
      });
    }
    if (url.pathname.startsWith("/media/")) {
      const one = media.get(url.pathname.slice(7));
      answer.writeHead(one ? 200 : 404, { "Content-Type": one?.type ?? "text/plain" });
      return answer.end(one?.bytes);
    }
    const report = /^\/api\/visits\/(\w+)\/report$/.exec(url.pathname);
    if (report) {
      const file = join(scratch, "report.json");
      writeFileSync(file, JSON.stringify(foldBench(inForce(found(visits.get(report[1]))))));
      await runProgram("assess", file, "--report", join(scratch, "report.html"));
      answer.writeHead(200, { "Content-Type": types[".html"] });
      return answer.end(readFileSync(join(scratch, "report.html")));
    }
    if (!url.pathname.startsWith("/api/")) return serveFile(url.pathname, answer);
    const route = routes.find(([method, shape]) => method === request.method && shape.test(url.pathname));
    if (!route) throw new Refusal(404, "not found", "", "no such address");
    const text = (await body(request)).toString("utf8");
    let json = {};
    try {
      json = text === "" ? {} : JSON.parse(text);
    } catch {
      throw new Refusal(400, "syntax", "", "this is no JSON");
    }
    const parts = route[1].exec(url.pathname).slice(1).map(decodeURIComponent);
    send(200, await route[2](parts, json, request.headers["x-device"] ?? "", url.searchParams));
  } catch (error) {
    if (!(error instanceof Refusal)) console.error(error);
    const problem = {
      code: error.code ?? "fault",
      path: error.path ?? "",
      message: error.message ?? String(error),
    };
    send(error.status ?? 500, { error: problem, ...(error.errors?.length > 1 ? { errors: error.errors } : {}) });
  }
}

if (!process.argv.includes("--empty"))
  for (const name of readdirSync(join(house, "demo")).filter((one) => one.endsWith(".json"))) {
    const visit = newVisit(
      hex(name),
      hex(`dossier ${name}`),
      JSON.parse(readFileSync(join(house, "demo", name), "utf8")),
      name === "dray.json" ? "2026-11-02T10:00:00+01:00" : "2026-11-16T10:00:00+01:00",
    );
    console.log(`${name}: /visits/${visit.id}, dossier /dossiers/${visit.dossier}`);
  }

const server = createServer(handle);
const sockets = new WebSocketServer({ server, path: "/api/live" });
sockets.on("connection", async (socket, request) => {
  const query = new URL(request.url, "http://mock").searchParams;
  const visit = visits.get(query.get("visit"));
  const listeners = visit ? visit.listeners : allSockets;
  listeners.add(socket);
  socket.on("close", () => listeners.delete(socket));
  socket.on("message", (data) => {
    if (JSON.parse(data).type === "ping") socket.send('{"type":"pong"}');
  });
  if (!visit) return;
  const since = Number(query.get("since"));
  tell(
    {
      type: "visit",
      seq: visit.seq,
      put: inForce(visit).filter((entry) => entry.seq > since),
      drop: since > 0 ? [...visit.out] : [],
    },
    [socket],
  );
  tell(
    {
      type: "here",
      devices: [...listeners].map((_, nth) => ({ id: hex(`here ${nth}`), name: "this computer" })).slice(1),
    },
    listeners,
  );
});
server.listen(port, "127.0.0.1", () => console.log(`http://127.0.0.1:${port}`));
