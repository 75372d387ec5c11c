import { Group, type Material, MeshBasicMaterial } from 'three';
import type { PlateField } from './plate-field.ts';
import { createSlab, type Slab } from './plate-slab.ts';
import { buildTile } from './tile-geometry.ts';

/** How finely the metal is drawn. */
export interface SurfaceGrain {
  /** Cells a side that are drawn as one. */
  step: number;
  /** Tiles drawn together, a square of this many: the more, the fewer draw calls, and the more to upload when one of them changes. */
  slabTiles: number;
}

/** The metal as meshes: the plate (piece 0) and every piece that has come away, each in a group of its own. */
export interface PlateSurface {
  readonly pieces: ReadonlyMap<number, Group>;
  readonly root: Group;
  /** Rebuilds at most so many changed tiles; true when some are left for the next frame. */
  update(maxTiles: number): boolean;
  setMaterial(material: Material): void;
  setShadows(on: boolean): void;
  dispose(): void;
}

export function createPlateSurface(field: PlateField, { step, slabTiles }: SurfaceGrain): PlateSurface {
  const { grid } = field;
  const root = new Group();
  const pieces = new Map<number, Group>();
  const slabs = new Map<string, Slab>();
  let material: Material = new MeshBasicMaterial();
  let shadows = false;

  function pieceGroup(piece: number): Group {
    let group = pieces.get(piece);
    if (!group) {
      group = new Group();
      pieces.set(piece, group);
      root.add(group);
    }
    return group;
  }

  function slabOf(piece: number, tile: number): Slab {
    const tx = Math.floor((tile % grid.tilesX) / slabTiles);
    const ty = Math.floor(Math.floor(tile / grid.tilesX) / slabTiles);
    const key = `${piece}:${tx}:${ty}`;
    let slab = slabs.get(key);
    if (!slab) {
      slab = createSlab(material, piece === 0 ? field.thicknessMm : null);
      slab.mesh.castShadow = shadows;
      slab.mesh.receiveShadow = shadows;
      slabs.set(key, slab);
      pieceGroup(piece).add(slab.mesh);
    }
    return slab;
  }

  /** Pieces with metal in a tile now, and those that had some before. */
  function owners(tile: number): Set<number> {
    const found = new Set<number>([0]);
    const row0 = Math.floor(tile / grid.tilesX) * grid.tileCells;
    const column0 = (tile % grid.tilesX) * grid.tileCells;
    for (let j = 0; j < grid.tileCells; j += 1) {
      for (let i = 0; i < grid.tileCells; i += 1) found.add(field.pieceOf[(row0 + j) * field.stride + column0 + i] as number);
    }
    for (const piece of pieces.keys()) found.add(piece);
    return found;
  }

  return {
    pieces,
    root,
    update(maxTiles) {
      if (field.dirty.size === 0) return false;
      const touched = new Set<Slab>();
      let left = maxTiles;
      for (const tile of field.dirty) {
        if (left === 0) break;
        left -= 1;
        field.dirty.delete(tile);
        for (const piece of owners(tile)) {
          const built = buildTile(field, tile, piece, step);
          const slab = slabOf(piece, tile);
          if (built) slab.tiles.set(tile, built);
          else if (!slab.tiles.delete(tile)) continue;
          touched.add(slab);
        }
      }
      for (const slab of touched) slab.upload();
      return field.dirty.size > 0;
    },
    setMaterial(next) {
      material = next;
      for (const { mesh } of slabs.values()) mesh.material = next;
    },
    setShadows(on) {
      shadows = on;
      for (const { mesh } of slabs.values()) {
        mesh.castShadow = on;
        mesh.receiveShadow = on;
      }
    },
    dispose() {
      for (const { mesh } of slabs.values()) mesh.geometry.dispose();
      root.clear();
    },
  };
}

/** Asks for every tile: the first picture of a run. */
export function dirtyAll(field: PlateField): void {
  const tiles = field.grid.tilesX * field.grid.tilesY;
  for (let tile = 0; tile < tiles; tile += 1) field.dirty.add(tile);
}
