import { useMemo, useRef } from 'react';
import type { ShownTheme } from '../app/theme.ts';
import { useYard } from '../app/yard-store.ts';
import { markedLine } from '../drills/marked-line.ts';
import { FreeCamera } from '../review/FreeCamera.tsx';
import type { ReviewedRun } from '../review/fresh-run.ts';
import type { Replay } from '../review/use-replay.ts';
import { useStill } from '../review/use-still.ts';
import { CutScene } from '../scene/CutScene.tsx';
import { guideShape } from '../scene/guide-shape.ts';
import { createSceneHandle } from '../scene/scene-handle.ts';
import { inEnglish } from '../text/in-english.ts';
import { say } from '../text/say.ts';
import { percentText } from '../ui/number-text.ts';
import { Told } from '../ui/Told.tsx';

export interface ComparePaneProps {
  run: ReviewedRun;
  replay: Replay;
  /** 'First' or 'Second', and who. */
  title: string;
  /** Sample of the line that this run has in the plots. */
  which: 'first' | 'second';
  theme: ShownTheme;
}

const nothing = () => undefined;

/** One of two runs: its plate and torch at the moment that is compared. */
export function ComparePane({ run, replay, title, which, theme }: ComparePaneProps) {
  const pinnedTier = useYard((state) => state.settings.qualityTier);
  const mainFrame = useRef<HTMLDivElement>(null);
  // No view from below: two pictures are enough to compare.
  const underFrame = useRef<HTMLDivElement>(null);
  const handle = useMemo(createSceneHandle, []);
  const line = useMemo(() => markedLine(run.drill), [run]);
  const guide = useMemo(() => guideShape(run.drill, run.choices), [run]);
  const still = useStill(replay.source);
  return (
    <section className="compare-pane" aria-label={title} data-ready={replay.ready} data-tick={replay.tick}>
      {replay.source && (
        <CutScene
          source={replay.source}
          line={line}
          stopsAtEnd={run.drill.finish === 'stop'}
          guide={guide}
          shade={run.choices?.protection.shade ?? null}
          theme={theme}
          pinnedTier={pinnedTier}
          onTier={nothing}
          mainFrame={mainFrame}
          underFrame={underFrame}
          free
          still={still}
          handle={handle}
          label={say('bench.scene')}
          trace={run.trace}
        />
      )}
      <FreeCamera frame={mainFrame} handle={handle} />
      <h2 className="compare-name">
        <svg className="compare-line" viewBox="0 0 34 6" aria-hidden="true" focusable="false">
          <path className={`compare-line-${which}`} d="M0 3h34" />
        </svg>
        {title}
      </h2>
      {!replay.ready && (
        <p className="compare-wait" role="status">
          {replay.failure !== null ? (
            <Told words={inEnglish(replay.failure)} />
          ) : (
            say('review.building', { percent: percentText(Math.floor(replay.built * 100)) })
          )}
        </p>
      )}
    </section>
  );
}
