import { BufferAttribute, BufferGeometry, type Camera, DynamicDrawUsage, type Material, Mesh } from 'three';
import type { TileMesh } from './tile-geometry.ts';
import { SIDES, type Side } from './triangle-sink.ts';

/** Several tiles of one piece of metal as one mesh. */
export interface Slab {
  readonly mesh: Mesh;
  readonly tiles: Map<number, TileMesh>;
  /** Takes over what `tiles` holds now. */
  upload(): void;
}

/** New buffers are this much larger than what they have to hold, so that most changes fit into them. */
const ROOM = 1.5;

function dynamic(length: number, itemSize: number): BufferAttribute {
  return new BufferAttribute(new Float32Array(length * itemSize), itemSize).setUsage(DynamicDrawUsage);
}

/**
 * Triangles lie in the buffer by the side they look to: upper faces, walls, lower faces. An eye above a plate that lies level (its
 * thickness is given) is not shown the lower faces at all, one below not the upper ones: about a third of the work.
 */
export function createSlab(material: Material, levelThicknessMm: number | null): Slab {
  const tiles = new Map<number, TileMesh>();
  const mesh = new Mesh(new BufferGeometry(), material);
  // It lies where its piece lies.
  mesh.matrixAutoUpdate = false;
  const counts: Record<Side, number> = { upper: 0, wall: 0, lower: 0 };
  let vertexRoom = 0;
  let indexRoom = 0;

  function show(from: number, count: number): void {
    mesh.geometry.drawRange.start = from;
    mesh.geometry.drawRange.count = count;
  }

  function showAll(): void {
    show(0, counts.upper + counts.wall + counts.lower);
  }

  function showFor(eyeZMm: number): void {
    if (levelThicknessMm !== null && eyeZMm > 0) show(0, counts.upper + counts.wall);
    else if (levelThicknessMm !== null && eyeZMm < -levelThicknessMm) show(counts.upper, counts.wall + counts.lower);
    else showAll();
  }

  mesh.visible = false;
  mesh.onBeforeRender = (_renderer, _scene, camera: Camera) => showFor(camera.matrixWorld.elements[14]);
  mesh.onBeforeShadow = showAll;

  function makeRoom(vertices: number, indices: number): void {
    if (vertices <= vertexRoom && indices <= indexRoom) return;
    vertexRoom = Math.ceil(vertices * ROOM);
    indexRoom = Math.ceil(indices * ROOM);
    mesh.geometry.dispose();
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', dynamic(vertexRoom, 3));
    geometry.setAttribute('normal', dynamic(vertexRoom, 3));
    geometry.setAttribute('cut', dynamic(vertexRoom, 1));
    geometry.setIndex(new BufferAttribute(new Uint32Array(indexRoom), 1).setUsage(DynamicDrawUsage));
    mesh.geometry = geometry;
  }

  function renew(name: string, used: number): void {
    const attribute = mesh.geometry.getAttribute(name) as BufferAttribute;
    attribute.clearUpdateRanges();
    attribute.addUpdateRange(0, used * attribute.itemSize);
    attribute.needsUpdate = true;
  }

  return {
    mesh,
    tiles,
    upload() {
      let vertices = 0;
      for (const side of SIDES) counts[side] = 0;
      for (const tile of tiles.values()) {
        vertices += tile.vertexCount;
        for (const side of SIDES) counts[side] += tile[side].length;
      }
      const indices = counts.upper + counts.wall + counts.lower;
      mesh.visible = indices > 0;
      if (indices === 0) return;
      makeRoom(vertices, indices);
      const position = mesh.geometry.getAttribute('position').array as Float32Array;
      const normal = mesh.geometry.getAttribute('normal').array as Float32Array;
      const cut = mesh.geometry.getAttribute('cut').array as Float32Array;
      const index = mesh.geometry.index as BufferAttribute;
      const into = index.array as Uint32Array;
      const at: Record<Side, number> = { upper: 0, wall: counts.upper, lower: counts.upper + counts.wall };
      let first = 0;
      for (const tile of tiles.values()) {
        position.set(tile.positions, first * 3);
        normal.set(tile.normals, first * 3);
        cut.set(tile.cut, first);
        for (const side of SIDES) {
          const from = tile[side];
          let to = at[side];
          for (let n = 0; n < from.length; n += 1, to += 1) into[to] = (from[n] as number) + first;
          at[side] = to;
        }
        first += tile.vertexCount;
      }
      for (const name of ['position', 'normal', 'cut']) renew(name, vertices);
      index.clearUpdateRanges();
      index.addUpdateRange(0, indices);
      index.needsUpdate = true;
      showAll();
      boundTo(mesh.geometry, position, vertices);
    },
  };
}

/** A sphere about the vertices in use: the rest of the buffer is room. */
function boundTo(geometry: BufferGeometry, position: Float32Array, vertices: number): void {
  if (geometry.boundingSphere === null) geometry.computeBoundingSphere();
  const sphere = geometry.boundingSphere;
  if (sphere === null) return;
  sphere.makeEmpty();
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let n = 0; n < vertices * 3; n += 1) {
    const axis = n % 3;
    const value = position[n] as number;
    if (value < (low[axis] as number)) low[axis] = value;
    if (value > (high[axis] as number)) high[axis] = value;
  }
  const [sx, sy, sz] = low.map((value, axis) => (high[axis] as number) - value) as [number, number, number];
  sphere.center.set(...(low.map((value, axis) => (value + (high[axis] as number)) / 2) as [number, number, number]));
  sphere.radius = Math.sqrt(sx * sx + sy * sy + sz * sz) / 2;
}
