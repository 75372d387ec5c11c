type Vector = readonly [number, number, number];

/** Faces of the metal by the side they look to: above, along the plate, below. */
export const SIDES = ['upper', 'wall', 'lower'] as const;
export type Side = (typeof SIDES)[number];

function doubled<T extends Float32Array | Uint32Array>(old: T): T {
  const next = new (old.constructor as new (length: number) => T)(old.length * 2);
  next.set(old);
  return next;
}

/** Takes vertices and triangles between them; grows as needed and is reused from tile to tile. */
export class TriangleSink {
  positions = new Float32Array(3 * 4096);
  normals = new Float32Array(3 * 4096);
  cut = new Float32Array(4096);
  vertexCount = 0;
  readonly indices: Record<Side, Uint32Array> = {
    upper: new Uint32Array(4096),
    wall: new Uint32Array(4096),
    lower: new Uint32Array(4096),
  };
  readonly counts: Record<Side, number> = { upper: 0, wall: 0, lower: 0 };

  clear(): void {
    this.vertexCount = 0;
    for (const side of SIDES) this.counts[side] = 0;
  }

  /** The vertex's number, for `triangle`. */
  vertex(x: number, y: number, z: number, normal: Vector, cut: number): number {
    const at = this.vertexCount * 3;
    if (at + 3 > this.positions.length) {
      this.positions = doubled(this.positions);
      this.normals = doubled(this.normals);
      this.cut = doubled(this.cut);
    }
    this.positions[at] = x;
    this.positions[at + 1] = y;
    this.positions[at + 2] = z;
    this.normals[at] = normal[0];
    this.normals[at + 1] = normal[1];
    this.normals[at + 2] = normal[2];
    this.cut[this.vertexCount] = cut;
    this.vertexCount += 1;
    return this.vertexCount - 1;
  }

  triangle(side: Side, a: number, b: number, c: number): void {
    const count = this.counts[side];
    if (count + 3 > this.indices[side].length) this.indices[side] = doubled(this.indices[side]);
    const into = this.indices[side];
    into[count] = a;
    into[count + 1] = b;
    into[count + 2] = c;
    this.counts[side] = count + 3;
  }
}
