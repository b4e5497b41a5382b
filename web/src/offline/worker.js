// Keeps the page itself, so that it opens with a dead line; the build puts version and files in. It never touches what
// the server says (/api) or photos (/media): those are the page's own business.
const version = "@version@";
const files = /*@files@*/ [];
const keptVersions = 2;
const patienceMs = 4000;

self.addEventListener("install", (event) => {
  const fetched = files.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(
    caches
      .open(version)
      .then((cache) => cache.addAll(fetched))
      .then(() => self.skipWaiting()),
  );
});

// The version before stays: a page opened under it may still ask for its parts.
self.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      const ours = (await caches.keys()).filter((name) => name.startsWith("fallaway-"));
      const old = ours.filter((name) => name !== version).slice(0, -(keptVersions - 1));
      await Promise.all(old.map((name) => caches.delete(name)));
      await self.clients.claim();
    })(),
  );
});

const afterPatience = () =>
  new Promise((_, failed) => setTimeout(() => failed(new Error("no answer")), patienceMs));

async function page(request) {
  try {
    const answer = await Promise.race([fetch(request), afterPatience()]);
    if (answer.ok) return answer;
  } catch {
    // No answer: the kept page comes, and says itself that the link is down.
  }
  const kept = await (await caches.open(version)).match("/");
  return kept ?? fetch(request);
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (url.pathname.startsWith("/api/") || url.pathname.startsWith("/media/")) return;
  if (request.mode === "navigate") event.respondWith(page(request));
  else if (url.pathname.startsWith("/assets/"))
    event.respondWith(caches.match(request).then((kept) => kept ?? fetch(request)));
});
