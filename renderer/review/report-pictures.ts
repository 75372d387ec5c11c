import { TICK_HZ } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import type { SceneHandle } from '../scene/scene-handle.ts';
import { say } from '../text/say.ts';
import { clock, type UnitSystem } from '../ui/units.ts';
import type { ReviewedRun } from './fresh-run.ts';
import { qualityFigures } from './quality-figures.ts';
import { qualitySheet } from './quality-sheet.ts';
import type { Replay } from './use-replay.ts';

export interface ReportPicture {
  caption: string;
  /** A data URL. */
  png: string;
}

/** Longest that the scene is waited for before it is taken as it stands. */
const PATIENCE_MS = 8000;

/** Once a run shows a moment and its metal has been built for it. */
function shown(source: RunSource, tick: number): Promise<void> {
  const until = performance.now() + PATIENCE_MS;
  return new Promise((resolve) => {
    const look = () => {
      if ((source.tick === tick && source.field.dirty.size === 0) || performance.now() > until) resolve();
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
}

/** Pictures of a run for its report: the part as it was left, as the camera stands, and the quality map. The replay goes back. */
export async function reportPictures(
  run: ReviewedRun,
  replay: Replay,
  scene: SceneHandle,
  units: UnitSystem,
): Promise<ReportPicture[]> {
  const { source, measured, tick } = replay;
  const pictures: ReportPicture[] = [];
  if (source && replay.ready) {
    replay.play(0);
    replay.seek(run.tickCount);
    await shown(source, run.tickCount);
  }
  const png = scene.picture();
  const atEnd = source !== null && source.tick === run.tickCount;
  const caption = atEnd ? say('report.picture.end') : say('report.picture.now', { time: clock((source?.tick ?? 0) / TICK_HZ) });
  if (png !== null) pictures.push({ caption, png });
  if (source && replay.ready) replay.seek(tick);
  const figure = qualityFigures(run.drill)[0];
  if (measured && figure) {
    pictures.push({
      caption: say('report.picture.map', { figure: say(`quality.figure.${figure.id}`) }),
      png: qualitySheet(run.drill, measured.quality, figure, units).toDataURL('image/png'),
    });
  }
  return pictures;
}
