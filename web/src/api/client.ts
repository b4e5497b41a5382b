import { deviceId } from "./device";
import type {
  Catalogue,
  Devices,
  Dossier,
  EntriesStored,
  Entry,
  History,
  Id,
  LimitOverride,
  Medium,
  Names,
  NewVisit,
  Paired,
  Pairing,
  Person,
  Problem,
  Rate,
  Shop,
  ShopTool,
  Tried,
  VisitLine,
  VisitOpened,
  VisitView,
  Visits,
} from "./types";

/** What the server refused (status 400 and up) or could not be asked (status 0: no answer, the link is down). */
export class ApiError extends Error {
  readonly status: number;
  readonly code: string;
  readonly path: string;
  readonly errors: Problem[];
  readonly retryAfterSeconds: number | undefined;

  constructor(status: number, problem: Problem, errors: Problem[] = [problem], retryAfterSeconds?: number) {
    super(problem.message);
    this.name = "ApiError";
    this.status = status;
    this.code = problem.code;
    this.path = problem.path;
    this.errors = errors;
    this.retryAfterSeconds = retryAfterSeconds;
  }

  /** True when the same request may succeed later as it is: nobody has judged what was sent. */
  get mayPass(): boolean {
    return [0, 401, 403, 408, 429].includes(this.status) || this.status >= 500;
  }
}

interface Asked {
  method?: "GET" | "POST" | "PUT" | "DELETE";
  json?: unknown;
  raw?: Blob;
  signal?: AbortSignal;
  timeoutMs?: number;
}

const timeoutMs = 15_000;

function isProblem(value: unknown): value is Problem {
  return typeof value === "object" && value !== null && typeof (value as Problem).message === "string";
}

async function refusal(answer: Response): Promise<ApiError> {
  const wait = Number(answer.headers.get("Retry-After") ?? NaN);
  const seconds = Number.isFinite(wait) ? wait : undefined;
  try {
    const body = (await answer.json()) as { error?: unknown; errors?: unknown };
    if (isProblem(body.error)) {
      const all = Array.isArray(body.errors) ? body.errors.filter(isProblem) : [body.error];
      return new ApiError(answer.status, body.error, all, seconds);
    }
  } catch {
    // No JSON: something between us and the server answered.
  }
  const problem = { code: "fault", path: "", message: `the server answered ${answer.status} without a reason` };
  return new ApiError(answer.status, problem, [problem], seconds);
}

/** One request. Answers the parsed JSON; throws ApiError, and nothing else but an AbortError of the caller's own. */
export async function ask<T>(url: string, asked: Asked = {}): Promise<T> {
  const headers: Record<string, string> = { "X-Device": deviceId(), Accept: "application/json" };
  const init: RequestInit = { method: asked.method ?? "GET", headers, credentials: "same-origin" };
  if (asked.raw) {
    headers["Content-Type"] = asked.raw.type;
    init.body = asked.raw;
  } else if (asked.json !== undefined) {
    headers["Content-Type"] = "application/json";
    init.body = JSON.stringify(asked.json);
  }
  const limit = new AbortController();
  const timer = setTimeout(() => limit.abort(), asked.timeoutMs ?? timeoutMs);
  const stop = () => limit.abort();
  asked.signal?.addEventListener("abort", stop);
  if (asked.signal?.aborted) limit.abort();
  init.signal = limit.signal;
  try {
    const answer = await fetch(url, init);
    if (!answer.ok) throw await refusal(answer);
    return (await answer.json()) as T;
  } catch (error) {
    if (error instanceof ApiError) throw error;
    if (asked.signal?.aborted) throw error;
    throw new ApiError(0, { code: "link", path: "", message: "no answer from the server" });
  } finally {
    clearTimeout(timer);
    asked.signal?.removeEventListener("abort", stop);
  }
}

const part = encodeURIComponent;

export const api = {
  shop: () => ask<Shop>("/api/shop"),
  nameShop: (name: string) => ask<Shop>("/api/shop", { method: "PUT", json: { name } }),
  putPerson: (person: Partial<Person> & { name: string }) =>
    ask<Shop>("/api/people", { method: "PUT", json: person }),
  putTool: (tool: ShopTool) => ask<Shop>("/api/tools", { method: "PUT", json: tool }),
  putRate: (rate: Rate) => ask<Shop>("/api/rates", { method: "PUT", json: rate }),
  dropRate: (work: string) => ask<Shop>(`/api/rates/${part(work)}`, { method: "DELETE" }),
  putLimit: (limit: LimitOverride) => ask<Shop>("/api/limits", { method: "PUT", json: limit }),
  dropLimit: (checkpoint: string) => ask<Shop>(`/api/limits/${part(checkpoint)}`, { method: "DELETE" }),
  catalogue: () => ask<Catalogue>("/api/catalogue"),

  visits: (q = "", limit = 200, offset = 0, signal?: AbortSignal) =>
    ask<Visits>(`/api/visits?q=${part(q)}&limit=${limit}&offset=${offset}`, signal ? { signal } : {}),
  names: (q: string, signal?: AbortSignal) => ask<Names>(`/api/names?q=${part(q)}`, signal ? { signal } : {}),
  openVisit: (visit: NewVisit) => ask<VisitOpened>("/api/visits", { method: "POST", json: visit }),
  importBench: (id: Id, bench: Blob) =>
    ask<VisitOpened>(`/api/import?id=${part(id)}`, {
      method: "POST",
      raw: new Blob([bench], { type: "application/json" }),
    }),
  visit: (id: Id) => ask<VisitView>(`/api/visits/${part(id)}`),
  store: (visit: Id, entries: Entry[]) =>
    ask<EntriesStored>(`/api/visits/${part(visit)}/entries`, { method: "POST", json: { entries } }),
  tryOut: (visit: Id, entries: Entry[], signal?: AbortSignal) =>
    ask<Tried>(`/api/visits/${part(visit)}/try`, {
      method: "POST",
      json: { entries },
      ...(signal ? { signal } : {}),
    }),
  undo: (visit: Id, id: Id) =>
    ask<EntriesStored>(`/api/visits/${part(visit)}/undo`, { method: "POST", json: { id } }),
  close: (visit: Id, closed: boolean) =>
    ask<VisitLine & { schema: string }>(`/api/visits/${part(visit)}/close`, { method: "POST", json: { closed } }),
  history: (visit: Id) => ask<History>(`/api/visits/${part(visit)}/history`),
  benchUrl: (visit: Id) => `/api/visits/${part(visit)}/bench`,
  reportUrl: (visit: Id) => `/api/visits/${part(visit)}/report`,

  dossier: (id: Id) => ask<Dossier>(`/api/dossiers/${part(id)}`),
  putDossier: (id: Id, facts: { owner?: string }) =>
    ask<Dossier>(`/api/dossiers/${part(id)}`, { method: "PUT", json: facts }),
  /** A photo or sound as it is; its type must be set on the blob. */
  putMedium: (blob: Blob) => ask<Medium>("/api/media", { method: "PUT", raw: blob, timeoutMs: 120_000 }),

  pairing: () => ask<Pairing>("/api/pairing", { method: "POST", json: {} }),
  pair: (code: string, name: string) => ask<Paired>("/api/pair", { method: "POST", json: { code, name } }),
  devices: () => ask<Devices>("/api/devices"),
  dropDevice: (id: Id) => ask<Devices>(`/api/devices/${part(id)}`, { method: "DELETE" }),
};
