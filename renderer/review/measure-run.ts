import {
  type Drill,
  type KerfQuality,
  kerfQuality,
  metalOf,
  pathGeometry,
  plateMassKg,
  type Replay,
  type RunUse,
  TICK_HZ,
  type Wear,
} from '../../sim-core/index.ts';

/** What is read off a run once it has been cut again to its end: the quality of the cut, and what it used up. */
export interface MeasuredRun {
  quality: KerfQuality;
  use: RunUse;
}

/** Reads a rebuilt run; the replay must stand at its end. */
export function measureRun(drill: Drill, replay: Replay, wearBefore: Readonly<Wear>): MeasuredRun {
  const { simulation, samples } = replay;
  const { setup } = simulation;
  const quality = kerfQuality(metalOf(simulation), pathGeometry(drill.path), samples, {
    material: setup.material,
    thicknessMm: setup.thicknessMm,
    bevelDeg: drill.intended.bevelDeg,
  });
  return {
    quality,
    use: {
      wearBefore: { ...wearBefore },
      wearAfter: { ...simulation.wear },
      usage: { gasL: simulation.usage.gasL },
      plateKg: plateMassKg(setup),
      material: setup.material,
      minutes: replay.tickCount / TICK_HZ / 60,
    },
  };
}
