import type { KeptHandScale } from '../../electron/contract.ts';
import { isAccelerated } from '../input/hand-scale.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { numberText } from '../ui/number-text.ts';
import { MM_PER_INCH, thickness } from '../ui/units.ts';
import { useUnits } from '../ui/use-units.ts';
import { agreement, type MeasuredHand, type Stroke } from './hand-strokes.ts';
import { percent } from './percent.ts';

export interface ScaleResultProps {
  measured: MeasuredHand;
  strokes: readonly Stroke[];
  device: KeptHandScale['device'];
  raw: boolean;
  onAgain(): void;
  onKeep(): void;
}

/** What the strokes came to, and whether it is to be kept. */
export function ScaleResult({ measured, strokes, device, raw, onAgain, onKeep }: ScaleResultProps) {
  const units = useUnits();
  const lengthMm = units === 'inch' ? MM_PER_INCH : 1;
  const accelerated = isAccelerated(measured);
  return (
    <section className="hand-result" aria-labelledby="hand-result" data-px-per-mm={measured.pxPerMm.toFixed(4)}>
      <h3 id="hand-result">{say('hand.result')}</h3>
      <p>
        <strong>
          {say('hand.result.scale', { length: thickness(lengthMm, units), px: numberText(measured.pxPerMm * lengthMm, 2) })}
        </strong>
      </p>
      <ul className="hand-strokes">
        {strokes.map((stroke, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: strokes are told apart by their order alone
          <li key={index}>
            {say('hand.result.each', { number: index + 1 })}
            <span
              className="hand-bar"
              style={{ width: `${(stroke.netPx / Math.max(...strokes.map((one) => one.netPx))) * 12}rem` }}
            />
            <span className="figure">{say('hand.result.px', { px: Math.round(stroke.netPx) })}</span>
          </li>
        ))}
      </ul>
      {accelerated ? (
        <p className="notice" role="alert" data-warning="acceleration">
          {say('hand.result.accelerated', { share: percent(measured.acceleration) })}
        </p>
      ) : (
        <p>{say(`hand.result.${agreement(measured)}`, { spread: percent(measured.spread) })}</p>
      )}
      {device === 'mouse' && <p className="soft small">{say(raw ? 'hand.result.raw' : 'hand.result.plain')}</p>}
      <div className="row-actions">
        <Action kind={accelerated ? 'main' : 'plain'} onPress={onAgain}>
          {say('hand.again')}
        </Action>
        <Action kind={accelerated ? 'plain' : 'main'} onPress={onKeep}>
          {say(accelerated ? 'hand.keep-anyway' : 'hand.keep')}
        </Action>
      </div>
    </section>
  );
}
