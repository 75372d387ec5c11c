import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';

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
}

/** A quantity set on a plain straight scale, like a rule with a rider on it. */
export function Gauge({ label, value, low, high, step, markEvery, words, mark, onChange }: GaugeProps) {
  const count = Math.floor((high - low) / markEvery + 1e-9);
  const marks = Array.from({ length: count + 1 }, (_, n) => low + n * markEvery);
  return (
    <Slider
      className="gauge"
      value={value}
      minValue={low}
      maxValue={high}
      step={step}
      onChange={(next) => onChange(Math.round((next as number) * 100) / 100)}
    >
      <div className="gauge-head">
        <Label className="choice-label">{label}</Label>
        <SliderOutput className="gauge-value figure">{words(value)}</SliderOutput>
      </div>
      <SliderTrack className="gauge-track">
        <div className="gauge-scale" aria-hidden="true">
          {marks.map((at) => (
            <span key={at} style={{ left: `${((at - low) / (high - low)) * 100}%` }}>
              {mark(at)}
            </span>
          ))}
        </div>
        <SliderThumb className="gauge-rider" />
      </SliderTrack>
    </Slider>
  );
}
