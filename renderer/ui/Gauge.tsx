import { type RefObject, useEffect, useRef, useState } from 'react';
import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';
import { useToldValue } from './use-told-value.ts';

export interface GaugeProps {
  label: string;
  value: number;
  low: number;
  high: number;
  step: number;
  /** Distance between the marks of the scale, in the unit of the value. */
  markEvery: number;
  /** The value in words, with its unit. */
  words(value: number): string;
  /** Figure under a mark of the scale. */
  mark(value: number): string;
  onChange(value: number): void;
  /** The value is told when the rider is let go, not at every step on its way: for one that is kept. */
  whenLetGo?: boolean;
}

const rounded = (value: number | number[]) => Math.round((value as number) * 100) / 100;

/**
 * Whether the change that is being told was made at the rider's own input, as help software makes it: nothing was taken hold of, and
 * no letting go will be told. Drags, taps and keys never pass through the input. To be asked once for each change.
 */
function useSetOutright(rider: RefObject<HTMLInputElement | null>): () => boolean {
  const outright = useRef(false);
  useEffect(() => {
    const input = rider.current;
    const begin = () => {
      outright.current = true;
    };
    const end = () => {
      outright.current = false;
    };
    // The input hears of it before the page's root, where the widget listens; 'change' comes once that is over.
    input?.addEventListener('input', begin);
    input?.addEventListener('change', end);
    return () => {
      input?.removeEventListener('input', begin);
      input?.removeEventListener('change', end);
    };
  }, [rider]);
  return () => {
    const now = outright.current;
    outright.current = false;
    return now;
  };
}

/** A quantity set on a plain straight scale, like a rule with a rider on it. */
export function Gauge({ label, value, low, high, step, markEvery, words, mark, onChange, whenLetGo = false }: GaugeProps) {
  const [moving, setMoving] = useState<number | null>(null);
  const at = moving ?? value;
  const told = words(at);
  const rider = useToldValue(told);
  const setOutright = useSetOutright(rider);
  const count = Math.floor((high - low) / markEvery + 1e-9);
  const marks = Array.from({ length: count + 1 }, (_, n) => low + n * markEvery);
  return (
    <Slider
      className="gauge"
      value={at}
      minValue={low}
      maxValue={high}
      step={step}
      onChange={(next) => (whenLetGo && !setOutright() ? setMoving(rounded(next)) : onChange(rounded(next)))}
      onChangeEnd={(next) => {
        if (!whenLetGo) return;
        setMoving(null);
        onChange(rounded(next));
      }}
    >
      <div className="gauge-head">
        <Label className="choice-label">{label}</Label>
        <SliderOutput className="gauge-value figure">{told}</SliderOutput>
      </div>
      <SliderTrack className="gauge-track">
        <div className="gauge-scale" aria-hidden="true">
          {marks.map((place) => (
            <span key={place} style={{ left: `${((place - low) / (high - low)) * 100}%` }}>
              {mark(place)}
            </span>
          ))}
        </div>
        <SliderThumb className="gauge-rider" inputRef={rider} />
      </SliderTrack>
    </Slider>
  );
}
