// A small store in this browser that outlives a reload: IndexedDB, else localStorage, else as long as the page is open.
// Each value is kept under a table and a key; tables are "outbox" (what waits to be sent) and "answers" (the last
// answers of the server, for when it cannot be reached).

export type Table = "outbox" | "answers";
export type Lasting = "database" | "local storage" | "this page only";

export interface Keep {
  lasting: Lasting;
  get(table: Table, key: string): Promise<unknown>;
  all(table: Table): Promise<unknown[]>;
  put(table: Table, key: string, value: unknown): Promise<void>;
  drop(table: Table, key: string): Promise<void>;
}

const tables: Table[] = ["outbox", "answers"];

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error("the browser's database refused"));
  });
}

function settled(transaction: IDBTransaction): Promise<void> {
  return new Promise((done, failed) => {
    transaction.oncomplete = () => done();
    transaction.onabort = () => failed(transaction.error ?? new Error("the browser's database refused"));
    transaction.onerror = () => failed(transaction.error ?? new Error("the browser's database refused"));
  });
}

async function openDatabase(name: string): Promise<IDBDatabase> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => {
    for (const table of tables) request.result.createObjectStore(table);
  };
  return answered(request);
}

function inDatabase(database: IDBDatabase): Keep {
  const change = async (table: Table, act: (store: IDBObjectStore) => void): Promise<void> => {
    const transaction = database.transaction(table, "readwrite", { durability: "strict" });
    act(transaction.objectStore(table));
    await settled(transaction);
  };
  return {
    lasting: "database",
    get: (table, key) => answered(database.transaction(table).objectStore(table).get(key)),
    all: (table) => answered(database.transaction(table).objectStore(table).getAll()),
    put: (table, key, value) => change(table, (store) => store.put(value, key)),
    drop: (table, key) => change(table, (store) => store.delete(key)),
  };
}

function inStorage(storage: Storage): Keep {
  const full = (table: Table, key: string) => `fallaway.${table}.${key}`;
  return {
    lasting: "local storage",
    async get(table, key) {
      const text = storage.getItem(full(table, key));
      return text === null ? undefined : (JSON.parse(text) as unknown);
    },
    async all(table) {
      const keys = Array.from({ length: storage.length }, (_, index) => storage.key(index) ?? "");
      const ours = keys.filter((key) => key.startsWith(full(table, ""))).sort();
      return ours.map((key) => JSON.parse(storage.getItem(key) ?? "null") as unknown);
    },
    async put(table, key, value) {
      if ((value as { blob?: unknown }).blob instanceof Blob) throw new Error("a photo does not fit here");
      storage.setItem(full(table, key), JSON.stringify(value));
    },
    async drop(table, key) {
      storage.removeItem(full(table, key));
    },
  };
}

export function inMemory(): Keep {
  const held = new Map<string, Map<string, unknown>>(tables.map((table) => [table, new Map<string, unknown>()]));
  const of = (table: Table) => held.get(table) as Map<string, unknown>;
  return {
    lasting: "this page only",
    get: async (table, key) => of(table).get(key),
    all: async (table) => [...of(table).keys()].sort().map((key) => of(table).get(key)),
    put: async (table, key, value) => void of(table).set(key, value),
    drop: async (table, key) => void of(table).delete(key),
  };
}

/** The best store this browser allows. */
export async function openKeep(name = "fallaway"): Promise<Keep> {
  try {
    return inDatabase(await openDatabase(name));
  } catch {
    // Private windows and full disks: the next best.
  }
  try {
    localStorage.setItem("fallaway.probe", "1");
    localStorage.removeItem("fallaway.probe");
    return inStorage(localStorage);
  } catch {
    return inMemory();
  }
}

let opened: Promise<Keep> | undefined;
export const keep = (): Promise<Keep> => (opened ??= openKeep());
