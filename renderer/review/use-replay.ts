import { useCallback, useEffect, useRef, useState } from 'react';
import { CORE_VERSION } from '../../sim-core/index.ts';
import type { RunSource } from '../scene/run-source.ts';
import type { ReviewedRun } from './fresh-run.ts';
import type { MeasuredRun } from './measure-run.ts';
import { openReplay, type ReplayControl, type ReplayEvents } from './replay-control.ts';
import { openStoredRun } from './stored-run.ts';

/** Display of the moment is renewed this often while the replay plays. */
const SHOW_EVERY_MS = 120;

export type Direction = -1 | 0 | 1;

export interface Replay {
  source: RunSource | null;
  /** Share of the run that has been rebuilt; 1 when any moment can be shown. */
  built: number;
  ready: boolean;
  verdict: 'same' | 'different' | null;
  /** Quality of the cut and what it used up; null until the run is rebuilt, and always for one of another core. */
  measured: MeasuredRun | null;
  /** Moment shown, in ticks; renewed a few times a second while playing. */
  tick: number;
  /** Which way it plays: 1 on, -1 back, 0 while it stands. */
  playing: Direction;
  /** How fast, whichever way. */
  rate: number;
  /** What the last seek took, in the core and as seen from the page, ms. */
  seekMs: { core: number; whole: number } | null;
  failure: string | null;
  seek(tick: number): void;
  step(ticks: number): void;
  play(direction: Direction): void;
  setRate(rate: number): void;
}

/** A replay and its slow state. */
export function useReplay(run: ReviewedRun): Replay {
  const [source, setSource] = useState<RunSource | null>(null);
  const [built, setBuilt] = useState({ share: 0, done: false, verdict: null as Replay['verdict'] });
  const [measured, setMeasured] = useState<MeasuredRun | null>(null);
  const [tick, setTick] = useState(0);
  const [playing, setPlaying] = useState<Direction>(0);
  const [rate, setRateState] = useState(1);
  const [seekMs, setSeekMs] = useState<Replay['seekMs']>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const control = useRef<ReplayControl | null>(null);
  const wanted = useRef(0);

  useEffect(() => {
    const events: ReplayEvents = {
      onSource: setSource,
      onBuilt: (share, done, verdict) => setBuilt({ share, done, verdict }),
      onMeasured: setMeasured,
      onSought: (core, whole) => setSeekMs({ core, whole }),
      onFailed: setFailure,
    };
    const otherCore = run.coreVersion !== CORE_VERSION && run.trace !== null;
    const opened = otherCore && run.trace ? openStoredRun(run, run.trace, events) : openReplay(run, events);
    control.current = opened;
    return () => opened.close();
  }, [run]);

  useEffect(() => {
    if (!source) return;
    let shownMs = 0;
    let wasPlaying = false;
    return source.onFrame(() => {
      const moving = source.rate !== 0;
      const now = performance.now();
      if (moving && now - shownMs < SHOW_EVERY_MS) return;
      shownMs = now;
      // While a seek is on its way the slider shows where it was sent, not where the last frame was.
      if (moving || wasPlaying) {
        wanted.current = source.tick;
        setTick(source.tick);
      }
      wasPlaying = moving;
      setPlaying(Math.sign(source.rate) as Direction);
    });
  }, [source]);

  const seek = useCallback(
    (to: number) => {
      const target = Math.max(0, Math.min(run.tickCount, Math.round(to)));
      wanted.current = target;
      setTick(target);
      control.current?.seek(target);
    },
    [run],
  );
  const step = useCallback(
    (ticks: number) => {
      control.current?.play(0);
      seek((source ? (source.rate !== 0 ? source.tick : wanted.current) : 0) + ticks);
    },
    [seek, source],
  );
  const play = useCallback(
    (direction: Direction) => {
      // Played to its end it starts over, and from its start backward at the end.
      if (direction === 1 && wanted.current >= run.tickCount) seek(0);
      if (direction === -1 && wanted.current <= 0) seek(run.tickCount);
      control.current?.play(direction * rate);
      setPlaying(direction);
    },
    [rate, run, seek],
  );
  const setRate = useCallback(
    (next: number) => {
      setRateState(next);
      if (playing !== 0) control.current?.play(playing * next);
    },
    [playing],
  );

  return {
    source,
    built: built.share,
    ready: built.done,
    verdict: built.verdict,
    measured,
    tick,
    playing,
    rate,
    seekMs,
    failure,
    seek,
    step,
    play,
    setRate,
  };
}
