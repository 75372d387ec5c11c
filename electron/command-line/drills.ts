import path from 'node:path';
import process from 'node:process';
import { readDrill, shippedDrillFiles } from './drill-file.ts';
import { rows, shown } from './shown.ts';
import type { Verb } from './verb.ts';

export const drillsVerb: Verb = {
  name: 'drills',
  usage: 'drills [--json]',
  summary: 'Lists the shipped drills.',
  flags: {},
  words: [],
  run() {
    const drills = shippedDrillFiles().map((file) => {
      const { drill } = readDrill(file);
      const { material, thicknessMm } = drill.plate;
      const { id, title, technique } = drill;
      return { id, title, file: path.relative(process.cwd(), file), technique, material, thicknessMm };
    });
    const text = rows(
      drills.map(({ id, title, material, thicknessMm }) => [id, `${title} (${material}, ${shown(thicknessMm)} mm)`]),
    );
    return { json: { drills }, text };
  },
};
