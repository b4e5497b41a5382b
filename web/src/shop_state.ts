import { signal } from "@preact/signals";
import { ApiError, api } from "./api/client";
import { keep } from "./api/keep";
import type { Catalogue, Shop } from "./api/types";

// What every page needs: the shop and the catalogue, asked once, kept for when the server cannot be reached.

export const shop = signal<Shop | null>(null);
export const catalogue = signal<Catalogue | null>(null);
/** Why they are not there: 401 means that this device is not paired. */
export const shopTrouble = signal<ApiError | null>(null);

async function recalled<T>(key: string, set: (value: T) => void, has: () => boolean): Promise<void> {
  try {
    const old = (await (await keep()).get("answers", key)) as T | undefined;
    if (old !== undefined && !has()) set(old);
  } catch {
    // Nothing kept: the server will say.
  }
}

async function fresh<T>(key: string, asked: () => Promise<T>, set: (value: T) => void): Promise<void> {
  try {
    const value = await asked();
    set(value);
    shopTrouble.value = null;
    await (await keep()).put("answers", key, value).catch(() => undefined);
  } catch (error) {
    if (error instanceof ApiError) shopTrouble.value = error;
  }
}

/** A new state of the shop, as every change of it answers. */
export function setShop(value: Shop): void {
  shop.value = value;
  void keep()
    .then((store) => store.put("answers", "shop", value))
    .catch(() => undefined);
}

export function loadShop(): Promise<void[]> {
  return Promise.all([
    recalled<Shop>(
      "shop",
      (value) => (shop.value = value),
      () => shop.peek() !== null,
    ),
    recalled<Catalogue>(
      "catalogue",
      (value) => (catalogue.value = value),
      () => catalogue.peek() !== null,
    ),
    fresh("shop", api.shop, (value) => (shop.value = value)),
    fresh("catalogue", api.catalogue, (value) => (catalogue.value = value)),
  ]);
}
