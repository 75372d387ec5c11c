import type { Drill } from '../../sim-core/index.ts';

/** What fits into this many characters stands on one line. */
const LINE_LENGTH = 100;

/** A drill as text for people: two blanks a level, and short things such as points on one line. */
export function drillTextOf(drill: Drill): string {
  return `${layOut(drill, 0)}\n`;
}

function layOut(value: unknown, depth: number): string {
  const flat = onOneLine(value);
  if (typeof value !== 'object' || value === null) return flat;
  if (depth > 0 && flat.length + 2 * depth <= LINE_LENGTH) return flat;
  const inner = '  '.repeat(depth + 1);
  const list = Array.isArray(value);
  const rows = list
    ? value.map((part) => inner + layOut(part, depth + 1))
    : Object.entries(value)
        .filter(([, part]) => part !== undefined)
        .map(([key, part]) => `${inner}${JSON.stringify(key)}: ${layOut(part, depth + 1)}`);
  const [open, close] = list ? '[]' : '{}';
  return rows.length === 0 ? `${open}${close}` : `${open}\n${rows.join(',\n')}\n${'  '.repeat(depth)}${close}`;
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const parts = Object.entries(value)
    .filter(([, part]) => part !== undefined)
    .map(([key, part]) => `${JSON.stringify(key)}: ${onOneLine(part)}`);
  return parts.length === 0 ? '{}' : `{ ${parts.join(', ')} }`;
}
