import path from 'node:path';
import {
  appendHandTick,
  CORE_VERSION,
  createHandLog,
  type Diagnosis,
  encodeHandLog,
  type HandScale,
  type HandTick,
  type RigChoices,
} from '../../sim-core/index.ts';

/** The drills that come with Kerfhand. */
export const SCENARIOS = path.join(import.meta.dirname, '..', '..', 'scenarios');
export const CHUNK_TICKS = 60;

/** The hand at a tick, 0 = the first: a straight cut with a little tremor, never the same at two ticks for seven minutes. */
export function sampleTick(tick: number): HandTick {
  return {
    // Ten metres on it begins again: no hand is recorded farther off.
    x: (tick * 10) % 1_000_000,
    y: 5000 + ((tick * 7919) % 13),
    height: 150,
    leanX: (tick * 31) % 5,
    leanY: 0,
    trigger: tick > 30 ? 1 : 0,
  };
}

/** Ticks `firstTick` to before `firstTick + tickCount` as base64 of an encoded hand log. */
export function sampleInputs(firstTick: number, tickCount: number): string {
  const log = createHandLog(tickCount);
  for (let tick = firstTick; tick < firstTick + tickCount; tick++) appendHandTick(log, sampleTick(tick));
  return Buffer.from(encodeHandLog(log)).toString('base64');
}

export function sampleChunk(runId: string, sequence: number) {
  const firstTick = sequence * CHUNK_TICKS;
  return { runId, sequence, firstTick, tickCount: CHUNK_TICKS, inputs: sampleInputs(firstTick, CHUNK_TICKS) };
}

export const SAMPLE_HAND = { kind: 'mouse', name: 'mouse' } as const;
export const SAMPLE_HAND_SCALE: HandScale = {
  device: 'mouse',
  measuredAt: '2030-01-31T09:45:00.000Z',
  pxPerMm: 15.7,
  spread: 0.02,
  acceleration: 0.01,
  raw: true,
  applied: true,
};
export const SAMPLE_DRILL = 'hanger-tab-straight-6';

/** A rig check in which most of it was done and some of it was not. */
export const SAMPLE_CHOICES: RigChoices = {
  stack: ['electrode', 'swirl-ring', 'nozzle', 'cap', 'shield'],
  nozzle: 'small',
  shield: 'contact',
  mode: 'cut',
  currentA: 45,
  supplyBar: 5.7,
  waterTrapDrained: true,
  clampSpot: 'bench',
  guideOffsetMm: null,
  protection: { shade: 9, gloves: true, jacket: true, hearing: true, respirator: false },
  ventilation: 'doors',
  combustibles: 'cleared',
  fireWatchMin: 60,
  triggerGuardClosed: true,
  coatingRemoved: false,
  containerMadeSafe: false,
};
export const SAMPLE_DIAGNOSIS: Diagnosis = { cause: 'wet-gas', remedy: 'drain-water' };

export function sampleBegin(personId: string | null = null) {
  return { drillId: SAMPLE_DRILL, seed: 4_294_967_295, personId, hand: SAMPLE_HAND, coreVersion: CORE_VERSION };
}

/** The result of a finished run of `tickCount` ticks, with a trace of three samples in two columns. */
export function sampleFinish(runId: string, tickCount: number) {
  const columns = new Uint8Array(new Float32Array([1, 2, 3, 4.5, 5.5, 6.5]).buffer);
  return {
    runId,
    tickCount,
    digests: ['0123456789abcdef', 'fedcba9876543210'],
    finalDigest: '00ff00ff00ff00ff',
    score: {
      score: 81.5,
      passed: true,
      measures: [{ id: 'severance', mark: 100, weight: 3, band: null, evidence: [] }],
      reasons: [],
    },
    trace: { hz: 30, fields: ['xMm', 'yMm'], columns: Buffer.from(columns).toString('base64') },
  };
}
