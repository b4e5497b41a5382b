// The stand-in server's shop and visits, in memory, judged by the real program.
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { foldBench, lists, shredBench } from "./mock_bench.mjs";
import { catalogueOf, checkpointsOf, instrumentOf, neckOf } from "./mock_view.mjs";

const web = join(dirname(fileURLToPath(import.meta.url)), "..");
export const house = join(web, "..");
const wish = (name, usual) => (process.argv.includes(name) ? process.argv[process.argv.indexOf(name) + 1] : usual);
export const port = Number(wish("--port", "8177"));
const binary = wish(
  "--binary",
  ["release", "dev"].map((one) => join(house, "build", one, "fallaway")).find(existsSync),
);
export const dist = wish("--dist", join(web, "dist"));
export const scratch = mkdtempSync(join(tmpdir(), "fallaway-mock-"));
export const hex = (text) => createHash("sha256").update(text).digest("hex").slice(0, 16);

export const catalogue = catalogueOf(house);
export const today = "2026-11-25";
export const media = new Map();
export const visits = new Map();
export const shop = {
  schema: "fallaway/shop/1",
  version: "0.1.0",
  name: "Vell and Aster",
  demo: true,
  today,
  people: [
    { name: "Ruta Vell", technician: true },
    { name: "Joon Aster", technician: true },
    { name: "Maren Tolk", technician: false, contact: "maren@example.org" },
  ],
  tools: JSON.parse(readFileSync(join(house, "demo/heron.json"), "utf8")).tools.map((tool) => ({
    ...tool,
    ...(tool.calibrated ? { due: `2027${tool.calibrated.slice(4)}` } : {}),
  })),
  rates: [
    { work: "truss rod", amount: "25 EUR" },
    { work: "fret levelling", amount: "180 EUR", remark: "strings apart" },
  ],
  limits: [],
  opened: process.argv.includes("--opened"),
  local: true,
  device: { id: "", name: "this computer" },
};
if (shop.tools[1]) Object.assign(shop.tools[1], { calibrated: "2025-10-02", due: "2026-10-02" });
export const devices = [
  {
    id: hex("tablet"),
    name: "bench tablet",
    paired: "2026-11-02T09:12:00+01:00",
    seen: "2026-11-25T14:07:00+01:00",
    revoked: false,
    here: false,
  },
];

export function runProgram(...args) {
  return new Promise((done) =>
    execFile(binary, args, { maxBuffer: 64e6 }, (error, out, err) => done({ code: error?.code ?? 0, out, err })),
  );
}

export async function assess(bench) {
  const file = join(scratch, `${hex(JSON.stringify(bench) + Math.random())}.json`);
  writeFileSync(file, JSON.stringify(bench));
  const { out, err } = await runProgram("assess", file, "--json");
  const answer = JSON.parse(out || err);
  if (answer.error) throw answer;
  return answer;
}

export function newVisit(id, dossier, bench, opened) {
  const visit = {
    id,
    dossier,
    opened,
    closed: undefined,
    seq: 0,
    entries: new Map(),
    out: new Set(),
    listeners: new Set(),
    assessment: null,
  };
  visits.set(id, visit);
  for (const part of shredBench(bench))
    store(visit, [{ id: hex(`${id}${visit.seq}`), saw: visit.seq, ...part }], "0000000000000000", opened);
  return visit;
}

export function store(visit, entries, device, at = new Date().toISOString()) {
  const stored = [];
  for (const entry of entries) {
    if (!visit.entries.has(entry.id)) {
      for (const old of entry.replaces ?? []) visit.out.add(old);
      if (!lists.has(entry.path) && entry.path !== "")
        for (const old of inForce(visit)) if (old.path === entry.path) visit.out.add(old.id);
      visit.seq += 1;
      const first = visit.entries.get(entry.replaces?.[0]);
      visit.entries.set(entry.id, { ...entry, seq: visit.seq, device, at, place: first?.place ?? visit.seq });
      if (entry.path === "") visit.out.add(entry.id);
    }
    stored.push({ id: entry.id, seq: visit.entries.get(entry.id).seq });
  }
  return stored;
}

export const inForce = (visit, more = []) => {
  const gone = new Set([...visit.out, ...more.flatMap((entry) => entry.replaces ?? [])]);
  return [...visit.entries.values(), ...more].filter((entry) => entry.path !== "" && !gone.has(entry.id));
};

export function says(entry) {
  const value = entry.value ?? {};
  if (typeof value !== "object") return `${entry.path.split("/").at(-1)} ${value}`;
  const at = Object.entries(value.at ?? {})
    .map(([key, what]) => `, ${key} ${what}`)
    .join("");
  return `${value.what ?? value.checkpoint ?? value.text ?? entry.path} ${value.value ?? ""}${at}`.trim();
}

export async function judge(visit) {
  const seq = visit.seq;
  const assessment = await assess(foldBench(inForce(visit)));
  if (seq >= (visit.judged ?? 0)) Object.assign(visit, { assessment, judged: seq });
}

export async function view(visit) {
  if (visit.judged !== visit.seq) await judge(visit);
  const bench = foldBench(inForce(visit));
  const checkpoints = checkpointsOf(catalogue, bench, visit.assessment);
  const scope = checkpoints.filter((one) => one.in_scope);
  const sum = (list) => list.reduce((all, one) => all + one.minutes, 0);
  const mine = inForce(visit)
    .filter((entry) => entry.device !== "0000000000000000")
    .at(-1);
  const instrument = instrumentOf(bench);
  const slots = new Map();
  for (const entry of inForce(visit)) {
    if (entry.path !== "/readings") continue;
    const slot = `${entry.path}|${entry.value.what}|${JSON.stringify(entry.value.at ?? {})}|${entry.value.stage ?? ""}`;
    slots.set(slot, [...(slots.get(slot) ?? []), entry]);
  }
  const conflicts = [...slots]
    .filter(([, list]) => list.length > 1 && list.at(-1).device !== "0000000000000000")
    .map(([slot, list]) => ({ slot, earlier: list.at(-2).id, later: list.at(-1).id }));
  return {
    schema: "fallaway/visit/1",
    id: visit.id,
    dossier: visit.dossier,
    title: visit.assessment.instrument,
    opened: visit.opened,
    ...(visit.closed ? { closed: visit.closed } : {}),
    seq: visit.seq,
    entries: inForce(visit),
    conflicts,
    instrument,
    neck: neckOf(bench, instrument),
    minutes: { total: sum(scope), left: sum(scope.filter((one) => !one.done)) },
    next: visit.assessment.next[0] ?? null,
    checkpoints,
    assessment: visit.assessment,
    ...(mine ? { undo: { id: mine.id, says: says(mine) } } : {}),
  };
}

export async function visitLine(visit) {
  const now = await view(visit);
  const bench = foldBench(inForce(visit));
  return {
    id: visit.id,
    dossier: visit.dossier,
    title: [bench.instrument.maker, bench.instrument.model].filter(Boolean).join(" ") || bench.instrument.kind,
    serial: bench.instrument.serial ?? "",
    player: bench.wants?.player ?? bench.job?.owner ?? "",
    scope: now.assessment.scope,
    ...(bench.wants?.promised ? { promised: bench.wants.promised } : {}),
    verdict: now.assessment.verdict,
    next: now.next?.what ?? "",
    minutes_total: now.minutes.total,
    minutes_left: now.minutes.left,
    readings: bench.readings?.length ?? 0,
    opened: visit.opened,
    ...(visit.closed ? { closed: visit.closed } : {}),
    demo: true,
  };
}

export class Refusal extends Error {
  constructor(status, code, path, message, errors) {
    super(message);
    Object.assign(this, { status, code, path, errors });
  }
}
export const found = (visit) =>
  visit ??
  (() => {
    throw new Refusal(404, "not found", "", "no such visit");
  })();
export const tell = (message, listeners) => {
  for (const socket of listeners) socket.send(JSON.stringify(message));
};
export const allSockets = new Set();

export async function changed(visit, before) {
  const put = inForce(visit).filter((entry) => entry.seq > before);
  tell({ type: "visit", seq: visit.seq, put, drop: [...visit.out] }, visit.listeners);
  const { entries: _, schema: __, id: ___, dossier: ____, opened: _____, ...rest } = await view(visit);
  tell({ type: "judged", whole: true, answers_gone: [], ...rest }, visit.listeners);
  tell({ type: "visits" }, allSockets);
}

export async function tried(visit, entries) {
  try {
    return await assess(
      foldBench(
        inForce(
          visit,
          entries.map((entry, nth) => ({ ...entry, seq: 1e9 + nth, place: 1e9 + nth })),
        ),
      ),
    );
  } catch (answer) {
    const list = (answer.errors ?? [answer.error]).map((one) => ({
      ...one,
      path: `/entries/0/value${one.path.replace(/^\/\w+\/\d+/, "")}`,
    }));
    throw new Refusal(400, list[0].code, list[0].path, list[0].message, list);
  }
}

export function upsert(list, key, value) {
  const at = list.findIndex((one) => one[key] === value[key]);
  if (at < 0) list.push(value);
  else list[at] = { ...list[at], ...value };
  return shop;
}
