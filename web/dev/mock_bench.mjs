// Between a bench file and the entries of a visit, for the stand-in server.

export const lists = new Set([
  "/readings",
  "/ratings",
  "/claims",
  "/tools",
  "/room",
  "/recordings",
  "/photos",
  "/work",
  "/accepted",
  "/limits",
  "/remarks",
  "/wants/complaints",
]);
const parted = new Set(["instrument", "wants", "job"]);

/** A bench file as entries: one for each line of a list, one for each thing that is set. */
export function shredBench(bench) {
  const parts = [];
  const put = (path, value) => {
    if (lists.has(path)) for (const one of [value].flat()) parts.push({ path, value: one });
    else parts.push({ path, value });
  };
  for (const [key, value] of Object.entries(bench)) {
    if (key === "fallaway") continue;
    if (parted.has(key)) for (const [inner, one] of Object.entries(value)) put(`/${key}/${inner}`, one);
    else put(`/${key}`, value);
  }
  return parts;
}

/** The bench file that entries in force make. Photos are left out: this program's format may not know them yet. */
export function foldBench(entries) {
  const bench = { fallaway: 1 };
  for (const entry of [...entries].sort((a, b) => a.place - b.place)) {
    if (entry.path === "/photos" || entry.value === null) continue;
    const parts = entry.path.split("/").slice(1);
    const last = parts.pop();
    let at = bench;
    for (const part of parts) at = at[part] ??= {};
    if (lists.has(entry.path)) (at[last] ??= []).push(entry.value);
    else at[last] = entry.value;
  }
  nameTools(bench);
  return bench;
}

function nameTools(bench) {
  const known = new Set((bench.tools ?? []).map((tool) => tool.id));
  for (const reading of bench.readings ?? []) {
    if (!reading.tool || known.has(reading.tool)) continue;
    known.add(reading.tool);
    (bench.tools ??= []).push({ id: reading.tool, kind: reading.tool });
  }
}

/** What a visit begins with. */
export function bareBench(wish, known) {
  const { kind, hand, fretted, player, hands, scope } = wish;
  const instrument = known
    ? known.instrument
    : { kind, ...(hand ? { hand } : {}), ...(fretted === undefined ? {} : { fretted }) };
  const wants = { ...(known?.wants ?? {}), ...(player ? { player } : {}) };
  delete wants.complaints;
  return { fallaway: 1, demo: true, instrument, wants, hands: hands ?? "adjust", scope: scope ?? "set-up" };
}
