import { BufferAttribute, BufferGeometry, DynamicDrawUsage, InterleavedBuffer, InterleavedBufferAttribute } from 'three';
import { SPARK_FLOATS } from './spark-pool.ts';

const CORNERS = 4;
const BLOCK = CORNERS * SPARK_FLOATS;

export interface SparkGeometry {
  readonly geometry: BufferGeometry;
  /** Takes over so many sparks of a pool's ring from this one on. */
  take(data: Float32Array, from: number, count: number): void;
}

/**
 * A square for each spark, whose corners all carry the spark's own figures. As instances of one square they would take a quarter of
 * the memory, but without a graphics card each instance costs as much as a draw call.
 */
export function createSparkGeometry(capacity: number): SparkGeometry {
  const geometry = new BufferGeometry();
  const square = [-0.5, 0.5, 0, 0.5, 0.5, 0, -0.5, -0.5, 0, 0.5, -0.5, 0];
  geometry.setAttribute(
    'position',
    new BufferAttribute(
      Float32Array.from({ length: capacity * 12 }, (_, n) => square[n % 12] as number),
      3,
    ),
  );
  geometry.setIndex(Array.from({ length: capacity }, (_, n) => [0, 2, 1, 2, 3, 1].map((corner) => n * CORNERS + corner)).flat());
  const values = new Float32Array(capacity * BLOCK);
  const buffer = new InterleavedBuffer(values, SPARK_FLOATS).setUsage(DynamicDrawUsage);
  geometry.setAttribute('start', new InterleavedBufferAttribute(buffer, 3, 0));
  geometry.setAttribute('speed', new InterleavedBufferAttribute(buffer, 3, 3));
  geometry.setAttribute('kind', new InterleavedBufferAttribute(buffer, 4, 6));

  const copy = (data: Float32Array, from: number, to: number) => {
    if (to <= from) return;
    for (let spark = from; spark < to; spark += 1) {
      for (let n = 0; n < SPARK_FLOATS; n += 1) {
        const value = data[spark * SPARK_FLOATS + n] as number;
        for (let corner = 0; corner < CORNERS; corner += 1) values[spark * BLOCK + corner * SPARK_FLOATS + n] = value;
      }
    }
    buffer.addUpdateRange(from * BLOCK, (to - from) * BLOCK);
    buffer.needsUpdate = true;
  };
  return {
    geometry,
    take(data, from, count) {
      copy(data, from, Math.min(capacity, from + count));
      copy(data, 0, from + count - capacity);
    },
  };
}
