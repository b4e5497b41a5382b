import { deviceId } from "./device";
import { linkIsDown, linkIsUp } from "./link";
import type { Id, LiveMessage } from "./types";

export interface LiveWish {
  /** The visit to hear of; without one, only that the list changed. */
  visit?: Id;
  /** Latest seq known: what came after it is sent on every (re)connection. */
  since?: () => number;
  heard: (message: LiveMessage) => void;
}

const waitsMs = [500, 1000, 2000, 4000, 8000, 15_000];
const pingEveryMs = 25_000;
const pongWithinMs = 10_000;

/** Wait before the nth attempt in a row, with a spread so that ten devices do not come back in the same moment. */
export function waitBefore(attempt: number, spread: number = Math.random()): number {
  const wait = waitsMs[Math.min(attempt, waitsMs.length - 1)] ?? 15_000;
  return wait * (0.75 + 0.5 * spread);
}

function address(wish: LiveWish): string {
  const query = new URLSearchParams({ device: deviceId() });
  if (wish.visit !== undefined) {
    query.set("visit", wish.visit);
    query.set("since", String(wish.since?.() ?? 0));
  }
  return `${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/api/live?${query}`;
}

/** Holds one line to the server open until the answer is called. Comes back by itself, at once when the device does. */
export function listen(wish: LiveWish): () => void {
  let socket: WebSocket | undefined;
  let attempt = 0;
  let again: ReturnType<typeof setTimeout> | undefined;
  let ping: ReturnType<typeof setInterval> | undefined;
  let silence: ReturnType<typeof setTimeout> | undefined;
  let ended = false;

  const quiet = () => {
    clearInterval(ping);
    clearTimeout(silence);
  };
  const connect = () => {
    clearTimeout(again);
    if (ended || (socket && socket.readyState <= WebSocket.OPEN)) return;
    const mine = new WebSocket(address(wish));
    socket = mine;
    mine.onopen = () => {
      attempt = 0;
      linkIsUp();
      ping = setInterval(() => {
        mine.send(JSON.stringify({ type: "ping" }));
        clearTimeout(silence);
        silence = setTimeout(() => mine.close(), pongWithinMs);
      }, pingEveryMs);
    };
    mine.onmessage = (event) => {
      clearTimeout(silence);
      if (socket !== mine || typeof event.data !== "string") return;
      const message = JSON.parse(event.data) as LiveMessage;
      if (message.type !== "pong") wish.heard(message);
    };
    mine.onclose = () => {
      quiet();
      if (ended || socket !== mine) return;
      // The first loss may be a server that starts anew: only a failed return is a dead line.
      if (attempt > 0) linkIsDown();
      again = setTimeout(connect, waitBefore(attempt++));
    };
  };
  const atOnce = () => {
    if (document.visibilityState === "hidden") return;
    attempt = 0;
    connect();
  };
  addEventListener("online", atOnce);
  document.addEventListener("visibilitychange", atOnce);
  connect();
  return () => {
    ended = true;
    clearTimeout(again);
    quiet();
    removeEventListener("online", atOnce);
    document.removeEventListener("visibilitychange", atOnce);
    socket?.close();
  };
}
