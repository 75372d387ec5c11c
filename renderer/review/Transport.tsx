import { Slider, SliderThumb, SliderTrack, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { TICK_HZ } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Glyph } from '../ui/Glyph.tsx';
import { clock } from '../ui/units.ts';
import { useToldValue } from '../ui/use-told-value.ts';
import type { Replay } from './use-replay.ts';

export const RATES = [0.25, 0.5, 1, 2, 4] as const;
const RATE_NAMES: Record<number, string> = { 0.25: '¼', 0.5: '½', 1: '1', 2: '2', 4: '4' };

export interface Mark {
  fromTick: number;
  toTick: number;
}

export interface TransportProps {
  replay: Replay;
  tickCount: number;
  marks: readonly Mark[];
  /** Moments that somebody wrote a note on, in ticks. */
  pins: readonly number[];
}

/** Play, step, speed and scrub. The marks under the slider are the deductions, the pins above it the notes. */
export function Transport({ replay, tickCount, marks, pins }: TransportProps) {
  const { tick, playing, ready } = replay;
  const moment = clock(tick / TICK_HZ);
  const scrub = useToldValue(moment);
  return (
    <div className="transport">
      <Slider
        className="scrub"
        aria-label={say('replay.position')}
        isDisabled={!ready}
        minValue={0}
        maxValue={tickCount}
        step={1}
        value={tick}
        onChange={(value) => replay.seek(value as number)}
      >
        <SliderTrack className="scrub-track">
          <svg className="scrub-marks" viewBox={`0 0 ${Math.max(1, tickCount)} 10`} preserveAspectRatio="none" aria-hidden="true">
            {marks.map((mark) => (
              <rect
                key={`${mark.fromTick}-${mark.toTick}`}
                x={mark.fromTick}
                y={0}
                width={Math.max(mark.toTick - mark.fromTick, tickCount / 250)}
                height={10}
              />
            ))}
          </svg>
          {pins.length > 0 && (
            <svg
              className="scrub-pins"
              viewBox={`0 0 ${Math.max(1, tickCount)} 10`}
              preserveAspectRatio="none"
              aria-hidden="true"
            >
              {pins.map((tick, n) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: two notes may stand at one moment
                <rect key={n} x={tick - tickCount / 400} width={tickCount / 200} height={10} />
              ))}
            </svg>
          )}
          <SliderThumb className="scrub-thumb" inputRef={scrub} aria-label={say('replay.position')} />
        </SliderTrack>
      </Slider>
      <div className="transport-buttons">
        <Action isDisabled={!ready} aria-label={say('replay.jump-back')} onPress={() => replay.step(-TICK_HZ / 2)}>
          <Glyph name="jump-back" />
        </Action>
        <Action
          isDisabled={!ready}
          aria-label={say(playing === -1 ? 'replay.pause' : 'replay.play-back')}
          onPress={() => replay.play(playing === -1 ? 0 : -1)}
        >
          <Glyph name={playing === -1 ? 'pause' : 'play-back'} />
        </Action>
        <Action isDisabled={!ready} aria-label={say('replay.tick-back')} onPress={() => replay.step(-1)}>
          <Glyph name="tick-back" />
        </Action>
        <Action kind="main" isDisabled={!ready} className="transport-play" onPress={() => replay.play(playing === 1 ? 0 : 1)}>
          <Glyph name={playing === 1 ? 'pause' : 'play'} />
          {say(playing === 1 ? 'replay.pause' : 'replay.play')}
        </Action>
        <Action isDisabled={!ready} aria-label={say('replay.tick-on')} onPress={() => replay.step(1)}>
          <Glyph name="tick-on" />
        </Action>
        <Action isDisabled={!ready} aria-label={say('replay.jump-on')} onPress={() => replay.step(TICK_HZ / 2)}>
          <Glyph name="jump-on" />
        </Action>
      </div>
      <p className="transport-clock figure">
        <strong>{moment}</strong> / {clock(tickCount / TICK_HZ)}
      </p>
      <ToggleButtonGroup
        className="rates"
        aria-label={say('replay.speed')}
        selectionMode="single"
        disallowEmptySelection
        selectedKeys={[String(replay.rate)]}
        onSelectionChange={(keys) => {
          const [key] = keys;
          if (key !== undefined) replay.setRate(Number(key));
        }}
      >
        {RATES.map((rate) => (
          <ToggleButton key={rate} id={String(rate)} className="action rate">
            {say('replay.speed-of', { rate: RATE_NAMES[rate] ?? rate })}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
    </div>
  );
}
