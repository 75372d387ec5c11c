import { DRILL_FORMAT, DRILL_FORMAT_VERSION, type Drill, drillSchema } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';

const ID_LENGTH = 56;

/** What a drill may be called in the records: the title in small letters, digits and hyphens; never one that is taken. */
export function freeId(title: string, taken: ReadonlySet<string>): string {
  const plain = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, ID_LENGTH)
    .replace(/^-+|-+$/g, '');
  const base = plain === '' ? 'drill' : plain;
  for (let number = 1; ; number++) {
    const id = number === 1 ? base : `${base}-${number}`;
    if (!taken.has(id)) return id;
  }
}

/** Where every new drill begins: a straight cut across a plate that the smallest rig cuts with ease. */
export function newDrill(taken: ReadonlySet<string>): Drill {
  const title = say('builder.new.title');
  return drillSchema.parse({
    format: DRILL_FORMAT,
    formatVersion: DRILL_FORMAT_VERSION,
    id: freeId(title, taken),
    title,
    technique: 'edge-start',
    card: {
      purpose: say('builder.new.purpose'),
      task: say('builder.new.task'),
      hints: [],
      cautions: ['electric-shock', 'eyes', 'fume', 'noise', 'fire', 'hot-metal'],
      onRealPlate: say('builder.new.real'),
    },
    plate: {
      material: 'mild-steel',
      thicknessMm: 6,
      lengthMm: 160,
      widthMm: 100,
      supports: [
        { xMm: 8, yMm: 8 },
        { xMm: 152, yMm: 8 },
      ],
    },
    rig: { class: '60', currentA: 45, mode: 'cut', nozzle: 'small', shield: 'contact' },
    path: { start: { xMm: 0, yMm: 50 }, segments: [{ kind: 'line', to: { xMm: 160, yMm: 50 } }] },
    start: 'edge',
    finish: 'run-off',
    guide: { kind: 'freehand' },
    cueLevel: 'full',
    attempts: null,
    tolerances: {
      sparkAngleDeg: { low: 15, high: 30 },
      standOffMm: { low: 0.8, high: 3 },
      leanDeg: 8,
      offLineMm: 1.5,
      speedVariation: 0.15,
      lateStartS: 0.6,
      overrunMm: 10,
    },
    rubric: {
      passMark: 75,
      measures: [
        { id: 'severance', weight: 1, mustReach: 90 },
        { id: 'travel-speed', weight: 2, mustReach: 40 },
        { id: 'spark-angle', weight: 1 },
        { id: 'stand-off', weight: 1.5, mustReach: 40 },
        { id: 'squareness', weight: 1.5, mustReach: 40 },
        { id: 'line-following', weight: 2.5, mustReach: 50 },
        { id: 'edge-dwell', weight: 1 },
        { id: 'steadiness', weight: 1 },
        { id: 'end-of-cut', weight: 1 },
      ],
    },
  });
}

/** A drill that comes with Kerfhand is never changed: what is built on it is a copy under a name of its own. */
export function copyOf(drill: Drill, taken: ReadonlySet<string>): Drill {
  const title = say('builder.copy.title', { title: drill.title }).slice(0, 120);
  const { $schema: _, ...rest } = drill;
  return { ...rest, id: freeId(title, taken), title };
}
