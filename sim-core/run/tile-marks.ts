/** A set of numbers 0 to n - 1 that is cheap to fill, walk and empty however large n is: what has been marked stands in a list. */
export interface TileMarks {
  marked: Uint8Array;
  /** The marked numbers in the order in which they were marked; `size.count` of them. */
  list: Int32Array;
  size: { count: number };
}

export function createTileMarks(n: number): TileMarks {
  return { marked: new Uint8Array(n), list: new Int32Array(n), size: { count: 0 } };
}

export function mark(marks: TileMarks, number: number): void {
  if (marks.marked[number] === 1) return;
  marks.marked[number] = 1;
  marks.list[marks.size.count++] = number;
}

export function markAll(marks: TileMarks): void {
  for (let number = 0; number < marks.marked.length; number++) mark(marks, number);
}

export function unmarkAll(marks: TileMarks): void {
  for (let i = 0; i < marks.size.count; i++) marks.marked[marks.list[i]!] = 0;
  marks.size.count = 0;
}
