/** Lets the page open without a line. Where a browser or an untrusted certificate forbids it, everything else works. */
export function startOffline(): void {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  addEventListener("load", () => void navigator.serviceWorker.register("/sw.js").catch(() => undefined));
}
