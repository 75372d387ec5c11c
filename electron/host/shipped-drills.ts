import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { type DrillText, readDrillText } from './drill-text.ts';

export interface ShippedDrills {
  byId: ReadonlyMap<string, DrillText>;
  /** One sentence for each file that could not be used. */
  skipped: string[];
}

/** Drills that come with Kerfhand: every `*.json` of the folder and its folders but the published schemas (`*.schema.json`). */
export function readShippedDrills(folder: string): ShippedDrills {
  const byId = new Map<string, DrillText>();
  const skipped: string[] = [];
  for (const name of drillFiles(folder)) {
    try {
      const read = readDrillText(readFileSync(path.join(folder, name), 'utf8'));
      if (byId.has(read.drill.id)) throw new Error(`its id ${read.drill.id} belongs to another drill.`);
      byId.set(read.drill.id, read);
    } catch (error) {
      skipped.push(`The shipped drill ${name} was left out: ${error instanceof Error ? error.message : error}`);
    }
  }
  return { byId, skipped };
}

function drillFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
    .sort();
}
