import { useEffect, useMemo, useRef, useState } from 'react';
import { Slider, SliderThumb, SliderTrack } from 'react-aria-components';
import type { StoredTrace } from '../../sim-core/index.ts';
import { useShownTheme } from '../app/theme.ts';
import { personText } from '../register/person-text.ts';
import type { ReviewedRun } from '../review/fresh-run.ts';
import { traceSpecs } from '../review/trace-specs.ts';
import { useReplay } from '../review/use-replay.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Choice } from '../ui/Choice.tsx';
import { Glyph } from '../ui/Glyph.tsx';
import { numberText } from '../ui/number-text.ts';
import { axisScale, quantity } from '../ui/units.ts';
import { useToldValue } from '../ui/use-told-value.ts';
import { useUnits } from '../ui/use-units.ts';
import { type Alignment, alongPlace, alongTime, commonAxis, onAxis, rowAt, tickOfRow, tracedRun } from './align-runs.ts';
import { CompareMarks } from './CompareMarks.tsx';
import { ComparePane } from './ComparePane.tsx';
import { ComparePlot } from './ComparePlot.tsx';

/** Distance of the points of the common axis: mm, and seconds. */
const STEP: Record<Alignment, number> = { place: 0.5, time: 0.05 };
const PLAY_EVERY_MS = 100;

export interface CompareWorkProps {
  first: ReviewedRun;
  second: ReviewedRun;
  firstTrace: StoredTrace;
  secondTrace: StoredTrace;
}

function title(which: 'first' | 'second', run: ReviewedRun): string {
  return `${say(`compare.${which}`)}: ${run.personName === null ? say('queue.nobody') : personText(run.personName)}`;
}

/** Both replays, their traces over each other, and one slider that moves them together. */
export function CompareWork({ first, second, firstTrace, secondTrace }: CompareWorkProps) {
  const units = useUnits();
  const theme = useShownTheme();
  const [by, setBy] = useState<Alignment>('place');
  const [playing, setPlaying] = useState(false);
  const replays = [useReplay(first), useReplay(second)] as const;
  const traced = useMemo(() => [tracedRun(firstTrace), tracedRun(secondTrace)] as const, [firstTrace, secondTrace]);
  const along = useMemo(() => {
    if (by === 'time') return [alongTime(traced[0]), alongTime(traced[1])] as const;
    return [alongPlace(traced[0], first.drill), alongPlace(traced[1], first.drill)] as const;
  }, [by, traced, first]);
  const axis = useMemo(() => commonAxis(along, STEP[by]), [along, by]);
  const from = axis[0] ?? 0;
  const to = axis[axis.length - 1] ?? 0;
  const [points, setPoints] = useState<Record<Alignment, number>>({ place: 0, time: 0 });
  const point = Math.max(from, Math.min(to, points[by]));
  const specs = useMemo(() => traceSpecs(first.drill, first.score), [first]);
  const axisUnit = by === 'place' ? 'mm' : 's';
  const axisFactor = axisScale(axisUnit, units).factor;
  const lines = useMemo(
    () =>
      specs.map((spec) => {
        const { factor } = axisScale(spec.unit, units);
        const [a, b] = traced.map((run, n) => {
          const values = run.columns[spec.field];
          return values ? onAxis(axis, along[n as 0 | 1], values, factor) : [...axis].map(() => null);
        });
        return { spec, factor, first: a ?? [], second: b ?? [] };
      }),
    [specs, units, traced, axis, along],
  );
  const rows = along.map((run) => rowAt(run, point));

  const [firstReplay, secondReplay] = replays;
  const { ready: firstReady, seek: seekFirst } = firstReplay;
  const { ready: secondReady, seek: seekSecond } = secondReplay;
  const [firstRow, secondRow] = rows;
  useEffect(() => {
    if (firstReady && firstRow != null) seekFirst(tickOfRow(firstRow, firstTrace.hz));
  }, [firstReady, seekFirst, firstRow, firstTrace]);
  useEffect(() => {
    if (secondReady && secondRow != null) seekSecond(tickOfRow(secondRow, secondTrace.hz));
  }, [secondReady, seekSecond, secondRow, secondTrace]);

  const clock = useRef({ point, along, to });
  clock.current = { point, along, to };
  useEffect(() => {
    if (!playing) return;
    let last = performance.now();
    const timer = setInterval(() => {
      const { point: now, along: runs, to: end } = clock.current;
      const seconds = (performance.now() - last) / 1000;
      last = performance.now();
      // By place the first run sets the pace: it goes on by as many rows as time has passed.
      const { at } = runs[0];
      const here = at.findIndex((place) => place >= now);
      const next =
        by === 'time' ? now + seconds : here === -1 ? end : (at[here + Math.max(1, Math.round(seconds * firstTrace.hz))] ?? end);
      setPoints((was) => ({ ...was, [by]: Math.min(end, next) }));
      if (next >= end) setPlaying(false);
    }, PLAY_EVERY_MS);
    return () => clearInterval(timer);
  }, [playing, by, firstTrace]);

  function goToPoint(next: number): void {
    setPlaying(false);
    setPoints((was) => ({ ...was, [by]: Math.max(from, Math.min(to, next)) }));
  }

  function play(): void {
    if (!playing && point >= to) setPoints((was) => ({ ...was, [by]: from }));
    setPlaying(!playing);
  }

  const where =
    by === 'place'
      ? say('compare.at.place', { place: quantity(point, 'mm', units) })
      : say('compare.at.time', { time: numberText(point, 1) });
  const thumb = useToldValue(where);
  return (
    <main className="compare-work" data-by={by} data-point={point.toFixed(2)} data-ready={firstReady && secondReady}>
      <ComparePane run={first} replay={firstReplay} title={title('first', first)} which="first" theme={theme} />
      <ComparePane run={second} replay={secondReplay} title={title('second', second)} which="second" theme={theme} />
      <div className="compare-move">
        <Action kind="main" onPress={play} isDisabled={!(firstReady && secondReady)}>
          <Glyph name={playing ? 'pause' : 'play'} />
          {say(playing ? 'compare.pause' : 'compare.play')}
        </Action>
        <Slider
          className="scrub"
          aria-label={say(`compare.position.${by}`)}
          minValue={from}
          maxValue={Math.max(from + STEP[by], to)}
          step={STEP[by]}
          value={point}
          onChange={(value) => goToPoint(value as number)}
        >
          <SliderTrack className="scrub-track">
            <SliderThumb className="scrub-thumb" inputRef={thumb} aria-label={say(`compare.position.${by}`)} />
          </SliderTrack>
        </Slider>
        <p className="figure compare-where">{where}</p>
        <Choice<Alignment>
          label={say('compare.align')}
          value={by}
          options={[
            { value: 'place', label: say('compare.align.place') },
            { value: 'time', label: say('compare.align.time') },
          ]}
          onChange={setBy}
        />
      </div>
      <section className="traces compare-traces" aria-label={say('review.traces')}>
        {lines.map(({ spec, factor, first: a, second: b }) => (
          <ComparePlot
            key={spec.name}
            spec={spec}
            axis={axis}
            first={a}
            second={b}
            axisFactor={axisFactor}
            valueFactor={factor}
            point={point}
            now={[figureAt(traced[0].columns[spec.field], rows[0]), figureAt(traced[1].columns[spec.field], rows[1])]}
            units={units}
            theme={theme}
            onPick={goToPoint}
          />
        ))}
      </section>
      <CompareMarks
        first={first}
        second={second}
        specs={specs}
        units={units}
        figures={(spec) => [figureAt(traced[0].columns[spec.field], rows[0]), figureAt(traced[1].columns[spec.field], rows[1])]}
      />
    </main>
  );
}

function figureAt(values: Float32Array | undefined, row: number | null | undefined): number {
  return values && row != null ? (values[row] as number) : Number.NaN;
}
