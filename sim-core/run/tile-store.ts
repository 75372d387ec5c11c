/**
 * Bytes of tiles under their numbers, in pages that snapshots share: a snapshot costs one reference a page, and a page is
 * copied when a tile of it changes for the first time afterwards.
 */
export interface TileStore {
  pages: TilePage[];
  /** 1 where no snapshot shares the page. */
  owned: Uint8Array;
}

export type TilePage = readonly (Uint8Array | undefined)[];

export const PAGE_TILES = 64;
const EMPTY_PAGE: TilePage = new Array<Uint8Array | undefined>(PAGE_TILES).fill(undefined);

export function createTileStore(tiles: number): TileStore {
  const pages = ((tiles + PAGE_TILES - 1) / PAGE_TILES) | 0;
  return { pages: new Array<TilePage>(pages).fill(EMPTY_PAGE), owned: new Uint8Array(pages) };
}

/** Pages as they are now, which later changes leave alone. */
export function sharePages(store: TileStore): readonly TilePage[] {
  store.owned.fill(0);
  return store.pages.slice();
}

export function tileBytes(pages: readonly TilePage[], tile: number): Uint8Array | undefined {
  return pages[(tile / PAGE_TILES) | 0]?.[tile % PAGE_TILES];
}

export function putTileBytes(store: TileStore, tile: number, bytes: Uint8Array | undefined): void {
  const page = (tile / PAGE_TILES) | 0;
  const changed = store.owned[page] === 1 ? (store.pages[page] as (Uint8Array | undefined)[]) : store.pages[page]!.slice();
  changed[tile % PAGE_TILES] = bytes;
  store.pages[page] = changed;
  store.owned[page] = 1;
}
