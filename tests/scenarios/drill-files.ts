import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { type Drill, parseDrill } from '../../sim-core/index.ts';

/** Folder of the shipped drills. */
export const SCENARIOS = path.join(import.meta.dirname, '..', '..', 'scenarios');

/** Names of the shipped drill files. */
export const DRILL_FILES = readdirSync(SCENARIOS).filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'));

export function drillText(name: string): string {
  return readFileSync(path.join(SCENARIOS, name), 'utf8');
}

/** A shipped drill by its id. */
export function shippedDrill(id: string): Drill {
  const result = parseDrill(drillText(`${id}.json`));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** A shipped drill's file as plain JSON, to be spoilt. */
export function drillJson(id: string): Record<string, unknown> {
  return JSON.parse(drillText(`${id}.json`)) as Record<string, unknown>;
}
