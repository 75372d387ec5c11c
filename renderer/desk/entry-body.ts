/** What an entry of the record says of itself; who reads it takes nothing for granted, for it may have been changed. */
export type EntryBody = Readonly<Record<string, unknown>>;

export function textIn(body: EntryBody, name: string): string | null {
  const value = body[name];
  return typeof value === 'string' ? value : null;
}

export function numberIn(body: EntryBody, name: string): number | null {
  const value = body[name];
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

/** A moment; null where it is none. */
export function momentIn(body: EntryBody, name: string): string | null {
  const value = textIn(body, name);
  return value !== null && !Number.isNaN(Date.parse(value)) ? value : null;
}

/** Items of a list; null where it is none. */
export function listIn(body: EntryBody, name: string): readonly unknown[] | null {
  const value = body[name];
  return Array.isArray(value) ? value : null;
}
