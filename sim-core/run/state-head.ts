import { PLACE_FIELDS, PLACES } from '../physics/severed-path.ts';
import type { SimulationState } from './simulation-state.ts';
import { mark, unmarkAll } from './tile-marks.ts';

/**
 * The small parts of the state as bytes: every number as eight, in a fixed order. Of lists that could hold the whole plate
 * only what is in use is written.
 */
let numbers = new Float64Array(1 << 12);

function records(state: SimulationState): Record<string, number>[] {
  return [
    state.totals,
    state.ahead,
    state.torch.wear,
    state.torch.usage,
    state.torch.luck,
    state.arc,
    state.motion,
    state.front,
    state.severed.marks,
    state.window.cursor,
    state.ledger,
    state.rolling,
    state.look,
  ] as unknown as Record<string, number>[];
}

/** The head's bytes, in memory that the next call uses again. */
export function encodeHead(state: SimulationState): Uint8Array {
  const { trail, severed, window, sinceSecond, sinceLook, fallen } = state;
  makeRoom(state);
  let at = 0;
  for (const record of records(state)) for (const key in record) numbers[at++] = record[key]!;
  for (let i = 0; i < trail.x.length; i++) {
    numbers[at++] = trail.x[i]!;
    numbers[at++] = trail.y[i]!;
  }
  for (let i = 0; i < severed.marks.count; i++) {
    const place = ((severed.marks.first + i) % PLACES) * PLACE_FIELDS;
    for (let f = 0; f < PLACE_FIELDS; f++) numbers[at++] = severed.places[place + f]!;
  }
  for (let i = 0; i < window.cursor.count; i++) {
    const tile = window.list[i]!;
    numbers[at++] = tile;
    numbers[at++] = window.steppedTo[tile]!;
  }
  for (const marks of [sinceSecond, sinceLook]) {
    numbers[at++] = marks.size.count;
    for (let i = 0; i < marks.size.count; i++) numbers[at++] = marks.list[i]!;
  }
  numbers[at++] = fallen.length;
  for (const piece of fallen) {
    numbers[at++] = piece.id;
    numbers[at++] = piece.tick;
    numbers[at++] = piece.centreXMm;
    numbers[at++] = piece.centreYMm;
    numbers[at++] = piece.areaMm2;
  }
  return new Uint8Array(numbers.buffer, 0, at * 8);
}

function makeRoom(state: SimulationState): void {
  const { severed, window, sinceSecond, sinceLook, fallen } = state;
  const marks = sinceSecond.size.count + sinceLook.size.count;
  const most = 256 + severed.marks.count * PLACE_FIELDS + 2 * window.cursor.count + marks + 5 * fallen.length;
  if (numbers.length < most) numbers = new Float64Array(2 * most);
}

/** Puts the small parts back. Throws RangeError where the bytes are not a head of such a state. */
export function decodeHead(state: SimulationState, bytes: Uint8Array): void {
  if (bytes.length % 8 !== 0) throw new RangeError('The saved state is not whole.');
  const read = new Float64Array(bytes.slice().buffer);
  const { trail, severed, window, sinceSecond, sinceLook, fallen } = state;
  const { cursor, list } = window;
  let at = 0;
  const next = (): number => {
    const value = read[at++];
    if (value === undefined) throw new RangeError('The saved state breaks off.');
    return value;
  };
  const whole = (most: number, what: string): number => {
    const value = next();
    if (!isWhole(value, most)) throw new RangeError(`The saved state holds an impossible ${what}.`);
    return value;
  };
  // What is read by place must be there before anything is touched.
  let fixed = 2 * trail.x.length;
  for (const record of records(state)) fixed += Object.keys(record).length;
  if (read.length < fixed) throw new RangeError('The saved state breaks off.');
  for (let i = 0; i < cursor.count; i++) {
    window.warm[list[i]!] = 0;
    window.steppedTo[list[i]!] = 0;
  }
  cursor.count = 0;
  for (const record of records(state)) for (const key in record) record[key] = next();
  const { marks } = severed;
  const warmTiles = cursor.count;
  cursor.count = 0;
  if (!isWhole(warmTiles, list.length)) throw new RangeError('The saved state holds an impossible number of warm tiles.');
  if (!isWhole(marks.count, PLACES) || !isWhole(marks.first, PLACES - 1))
    throw new RangeError('The saved state holds an impossible number of waiting places.');
  for (let i = 0; i < trail.x.length; i++) {
    trail.x[i] = next();
    trail.y[i] = next();
  }
  for (let i = 0; i < marks.count; i++) {
    const place = ((marks.first + i) % PLACES) * PLACE_FIELDS;
    for (let f = 0; f < PLACE_FIELDS; f++) severed.places[place + f] = next();
  }
  for (; cursor.count < warmTiles; cursor.count++) {
    const tile = whole(list.length - 1, 'warm tile');
    list[cursor.count] = tile;
    window.warm[tile] = 1;
    window.steppedTo[tile] = next();
  }
  for (const since of [sinceSecond, sinceLook]) {
    unmarkAll(since);
    const changed = whole(since.list.length, 'number of changed tiles');
    for (let i = 0; i < changed; i++) mark(since, whole(since.list.length - 1, 'changed tile'));
  }
  const pieces = whole(255, 'number of fallen pieces');
  fallen.length = 0;
  for (let n = 0; n < pieces; n++) {
    fallen.push({ id: next(), tick: next(), centreXMm: next(), centreYMm: next(), areaMm2: next() });
  }
  if (at !== read.length) throw new RangeError('The saved state goes on after its end.');
}

function isWhole(value: number, most: number): boolean {
  return value >= 0 && value <= most && value % 1 === 0;
}
